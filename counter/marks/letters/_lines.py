"""A list as it comes: a table with a column of codes and one of words, other columns left alone."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from counter.language import tr
from counter.marks.letters._learn import Line

if TYPE_CHECKING:
    from collections.abc import Sequence

CODE, DESCRIPTION = "code", "description"
_SIGNS = ",;\t|"


def as_text(content: bytes) -> str:
    """Return a file's text: UTF-8, or where it is none the code page of western Windows."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def lines_of(text: str) -> tuple[Line, ...]:
    """Return the lines of a table in text form, its columns parted by comma, semicolon, tab or bar.

    Raises:
        ValueError: there is no column of codes, or none of descriptions.
    """
    plain = text.removeprefix("\ufeff")
    head = plain.splitlines()[0] if plain.strip() else ""
    sign = max(_SIGNS, key=head.count)
    rows = csv.reader(io.StringIO(plain, newline=""), delimiter=sign)
    try:
        names = [name.strip().lower() for name in next(rows, [])]
        code, words = _column(names, CODE), _column(names, DESCRIPTION)
        return tuple(Line(row[code].strip(), row[words].strip()) for row in rows if len(row) > max(code, words))
    except csv.Error as problem:
        raise ValueError(tr("it is no table: {problem}").format(problem=problem)) from None


def _column(names: Sequence[str], wanted: str) -> int:
    if wanted not in names:
        found = ", ".join(filter(None, names)) or tr("none")
        told = tr("the first line names no column “{wanted}” (it names {found})")
        raise ValueError(told.format(wanted=wanted, found=found[:80]))
    return names.index(wanted)
