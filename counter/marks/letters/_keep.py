"""The file in which older programs kept letters; the shop's store takes it over once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pydantic import ValidationError

from counter.catalogue import findings_from, json_path
from counter.files import read_bytes
from counter.language import tr
from counter.marks.letters._table import LetterTable

if TYPE_CHECKING:
    from pathlib import Path

LETTERS_FILE = "letters.json"


class LettersUnreadableError(ValueError):
    """The file of letters is no such file; it is left as it is."""


def read_letters(path: Path) -> LetterTable:
    """Return the letters in a file.

    Raises:
        OSError: the file cannot be read.
        LettersUnreadableError: it holds something else.
    """
    try:
        return LetterTable.model_validate_json(read_bytes(path))
    except ValidationError as problem:
        first = findings_from(problem)[0]
        place = json_path(first.loc) or tr("file")
        told = tr("{file}, {place}: {problem}; mend it or take it away")
        told = told.format(file=LETTERS_FILE, place=place, problem=first.what)
        raise LettersUnreadableError(told) from None
