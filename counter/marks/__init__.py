"""Printed codes to readings: grammars, worn characters, house codes, barcodes.

`read` is the way in; `sharpen` and `says` join it with the looks; `format_code` is the way back. The tables are in
resources/marks.json, read on first use.

May import counter.catalogue and python-stdnum (check digits).
"""

from counter.marks._format import format_code, format_house
from counter.marks._house import HouseChoice, HouseFacts, HouseMaker, HousePart, shipped_house
from counter.marks._index import CodeIndex, Hit, Hits
from counter.marks._models import MarkEvidence, Reading, ReadLamp, Span, System
from counter.marks._read import read
from counter.marks._sharpen import says, sharpen, uv_doubt
from counter.marks._tables import tables

__all__ = [
    "CodeIndex",
    "Hit",
    "Hits",
    "HouseChoice",
    "HouseFacts",
    "HouseMaker",
    "HousePart",
    "MarkEvidence",
    "ReadLamp",
    "Reading",
    "Span",
    "System",
    "format_code",
    "format_house",
    "read",
    "says",
    "sharpen",
    "shipped_house",
    "tables",
    "uv_doubt",
]
