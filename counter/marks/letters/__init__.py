"""A maker's own letters and what they mean in this shop: taught by hand, or learned from the shop's own list.

`teach`, `forget` and `withdraw` return a new table; `learn` works meanings out from lines of codes beside words;
`as_house` hands a table to reading; the shop's store keeps it, and takes over the file of `read_letters`.

May import counter.marks, counter.catalogue and counter.files.
"""

from __future__ import annotations

from counter.marks._letters import KnownLetters, LettersMean, letters_say
from counter.marks.letters._choices import ORDINARY, Choice, choices
from counter.marks.letters._learn import Learned, Line, learn
from counter.marks.letters._table import (
    LETTERS_FILE,
    LettersUnreadableError,
    LetterTable,
    accept,
    against,
    as_house,
    forget,
    knows,
    letters_report,
    ordinary,
    read_letters,
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
    "against",
    "as_house",
    "choices",
    "forget",
    "knows",
    "learn",
    "letters_report",
    "letters_say",
    "ordinary",
    "read_letters",
    "teach",
    "withdraw",
]
