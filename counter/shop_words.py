"""Words that a shop has read once and for all: they say nothing of a lamp. Kept in `harmless-words.json`.

Words known to speak of UV, LED or another kind of lamp hold a sale all the same: `counter.desk` sees to that.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from counter import files, words

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

FILE_NAME = "harmless-words.json"
MOST = 2000
LONGEST = 200
LARGEST = 2_000_000  # bytes


def shop_words(data: Path) -> tuple[str, ...]:
    """Return the shop's harmless words.

    Raises:
        ValueError: the file is none of these.
        OSError: it cannot be read.
    """
    return tuple(row["word"] for row in _rows(data))


def add_shop_word(data: Path, word: str, on: date, who: str = "") -> None:
    """Keep a word as harmless from now on; one that is there already stays as it is.

    Raises:
        ValueError: the file is none of these, and nothing was written over it.
        OSError: it cannot be read or written.
    """
    rows = _rows(data)
    if words.fold(word).plain in {words.fold(row["word"]).plain for row in rows} or len(rows) >= MOST:
        return
    rows.append({"word": word[:LONGEST], "on": on.isoformat(), "who": who})
    content = {"format": "lamp-counter/harmless-words", "version": 1, "words": rows}
    files.write_atomic(data / FILE_NAME, json.dumps(content, ensure_ascii=False, indent=1).encode())


def _rows(data: Path) -> list[dict[str, Any]]:
    try:
        content = json.loads(files.read_bytes(data / FILE_NAME, LARGEST))
    except FileNotFoundError:
        return []
    except RecursionError:
        raise ValueError(f"{FILE_NAME} is nested without end; mend it or take it away") from None
    rows = content.get("words") if isinstance(content, dict) else None
    if not isinstance(rows, list) or not all(map(_is_row, rows)):
        raise ValueError(f"{FILE_NAME} holds no list of words; mend it or take it away")
    return rows


def _is_row(row: object) -> bool:
    return isinstance(row, dict) and isinstance(row.get("word"), str)
