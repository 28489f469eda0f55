"""Words that a shop has read once and for all, as a file of before held them: `harmless-words.json`.

The store takes them over when it is opened; what is read here is that file alone.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from counter import files
from counter.language import tr

if TYPE_CHECKING:
    from pathlib import Path

FILE_NAME = "harmless-words.json"
LONGEST = 200
LARGEST = 2_000_000  # bytes


def rows(data: Path) -> list[dict[str, Any]]:
    """Return the rows of the file, none where there is no file.

    Raises:
        ValueError: the file is none of these.
        OSError: it cannot be read.
    """
    try:
        content = json.loads(files.read_bytes(data / FILE_NAME, LARGEST))
    except FileNotFoundError:
        return []
    except RecursionError:
        told = tr("{file} is nested without end; mend it or take it away")
        raise ValueError(told.format(file=FILE_NAME)) from None
    found = content.get("words") if isinstance(content, dict) else None
    if not isinstance(found, list) or not all(map(_is_row, found)):
        raise ValueError(tr("{file} holds no list of words; mend it or take it away").format(file=FILE_NAME))
    return found


def as_entry(row: dict[str, Any]) -> dict[str, Any]:
    """Return a row as an entry of the shop's layer."""
    entry: dict[str, Any] = {"word": row["word"][:LONGEST]}
    if isinstance(row.get("on"), str) and isinstance(row.get("who"), str):
        entry["added"] = {"who": row["who"][:80], "on": row["on"]}
    return entry


def _is_row(row: object) -> bool:
    return isinstance(row, dict) and isinstance(row.get("word"), str) and bool(row["word"].strip())
