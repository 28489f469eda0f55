"""A maker's own letters and what they mean in this shop: taught by hand, or learned from the shop's own list.

`teach`, `forget` and `withdraw` return a new table; `learn` works meanings out from lines of codes beside words;
`as_house` hands a table to reading, `load_letters` and `save_letters` keep it in the data folder.

May import counter.marks, counter.catalogue and counter.files.
"""

from __future__ import annotations

from counter.marks._letters import KnownLetters, LettersMean, letters_say
from counter.marks.letters._choices import ORDINARY, Choice, choices
from counter.marks.letters._keep import LETTERS_FILE, LettersUnreadableError, load_letters, save_letters
from counter.marks.letters._learn import Learned, Line, learn
from counter.marks.letters._lines import as_text, lines_of
from counter.marks.letters._table import (
    LetterTable,
    accept,
    as_house,
    contradicted,
    forget,
    knows,
    letters_report,
    ordinary,
    teach,
    withdraw,
)

__all__ = [
    "LETTERS_FILE",
    "ORDINARY",
    "Choice",
    "KnownLetters",
    "Learned",
    "LetterTable",
    "LettersMean",
    "LettersUnreadableError",
    "Line",
    "accept",
    "as_house",
    "as_text",
    "choices",
    "contradicted",
    "forget",
    "knows",
    "learn",
    "letters_report",
    "letters_say",
    "lines_of",
    "load_letters",
    "ordinary",
    "save_letters",
    "teach",
    "withdraw",
]
