"""Printed codes to readings: grammars, worn characters, house codes, barcodes.

`read` is the way in; `sharpen` and `says` join it with the looks; `format_code` is the way back. The tables are in
resources/marks.json, read on first use.

May import counter.catalogue, counter.words and python-stdnum (check digits).
"""

from __future__ import annotations

from counter.marks._format import format_code, format_house
from counter.marks._house import (
    HOUSE_FILE,
    HouseChoice,
    HouseFacts,
    HouseMaker,
    HousePart,
    HouseTable,
    read_house,
    shipped_house,
)
from counter.marks._in_words import in_words, spoken
from counter.marks._letters import KnownLetters, LettersMean
from counter.marks._lex import PRINTED
from counter.marks._models import MarkEvidence, Reading, ReadLamp, Span, System
from counter.marks._read import read
from counter.marks._tables import tables
from counter.marks._weigh import saving_suffix, says, sharpen, uv_doubt

__all__ = [
    "HOUSE_FILE",
    "PRINTED",
    "HouseChoice",
    "HouseFacts",
    "HouseMaker",
    "HousePart",
    "HouseTable",
    "KnownLetters",
    "LettersMean",
    "MarkEvidence",
    "ReadLamp",
    "Reading",
    "Span",
    "System",
    "format_code",
    "format_house",
    "in_words",
    "read",
    "read_house",
    "saving_suffix",
    "says",
    "sharpen",
    "shipped_house",
    "spoken",
    "tables",
    "uv_doubt",
]
