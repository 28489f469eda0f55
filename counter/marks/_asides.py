"""What stands beside a code on many lamps and says nothing of which lamp it is: dates, lots, colour rendering."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from counter.language import tr
from counter.marks._lex import fold
from counter.marks._models import Span
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterator

ASIDE = "aside"


class Aside(NamedTuple):
    """One such stretch, and what it is."""

    start: int
    end: int
    means: str


@cache
def _rows() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(row["pattern"], re.ASCII), row["means"]) for row in tables()["asides"])


def asides(text: str) -> tuple[Aside, ...]:
    """Return what says nothing of the lamp; nothing where the text holds nothing else."""
    plain = fold(text)
    found = tuple(_found(plain))
    left = without(plain, found)
    return found if any(map(str.isalnum, left)) else ()


def _found(plain: str) -> Iterator[Aside]:
    for pattern, means in _rows():
        for one in pattern.finditer(plain):
            yield Aside(one.start(), one.end(), means)


def without(text: str, found: tuple[Aside, ...]) -> str:
    """Return the text with blanks in their place, so that every other place stays the same."""
    for one in found:
        text = text[: one.start] + " " * (one.end - one.start) + text[one.end :]
    return text


def spans(text: str, found: tuple[Aside, ...]) -> tuple[Span, ...]:
    """Return what they are, as parts of a reading."""
    return tuple(
        Span(start=one.start, end=one.end, text=text[one.start : one.end], means=tr(one.means), part=ASIDE)
        for one in found
    )
