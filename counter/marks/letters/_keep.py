"""Where letters are kept: one file in the data folder. What keeps them elsewhere replaces these two functions."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from pydantic import ValidationError

from counter.files import is_there, read_bytes, write_atomic
from counter.marks.letters._table import LetterTable

if TYPE_CHECKING:
    from pathlib import Path

LETTERS_FILE = "letters.json"


class LettersUnreadableError(ValueError):
    """The file of letters is no such file; it is left as it is."""


def load_letters(data: Path) -> LetterTable:
    """Return the shop's letters; an empty table where there is no file.

    Raises:
        OSError: the file cannot be read.
        LettersUnreadableError: it holds something else.
    """
    path = data / LETTERS_FILE
    if not is_there(path):
        return LetterTable()
    try:
        return LetterTable.model_validate_json(read_bytes(path))
    except ValidationError as problem:
        first = problem.errors()[0]
        place = ".".join(map(str, first["loc"])) or "file"
        raise LettersUnreadableError(f"{LETTERS_FILE}, {place}: {first['msg']}; mend it or take it away") from None


def save_letters(data: Path, table: LetterTable) -> None:
    """Keep the shop's letters.

    Raises:
        OSError: they could not be written; what was there is untouched.
    """
    content = table.model_dump(mode="json", exclude_defaults=True) | {
        "format": table.format,
        "version": table.version,
    }
    write_atomic(data / LETTERS_FILE, (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode())
