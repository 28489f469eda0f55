"""What stands beside a code on many lamps and is no part of it: dates, lots, colour rendering, words of the trade.

A whole word that the vocabulary knows is neither cut up nor taken for a worn code: it is said what it speaks of.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from counter import words
from counter.language import tr
from counter.marks._lex import fold
from counter.marks._models import Span
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

ASIDE = "aside"
SPOKEN = (*words.UV_TOPICS, *words.PRINTED, "print")  # topics whose words have a question of their own, or none
_SIGN = re.compile(r"\d|\b[A-Z]\b", re.ASCII)  # a figure, or a letter on its own: a worn code may hold it
_LEAST = 3  # letters; shorter words are codes as well


class Aside(NamedTuple):
    """One such stretch, and what it is."""

    start: int
    end: int
    means: str
    is_uv: bool = False


@cache
def _rows() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(row["pattern"], re.ASCII), row["means"]) for row in tables()["asides"])


def asides(text: str, letters: Collection[str] = ()) -> tuple[Aside, ...]:
    """Return what is no part of a code; nothing where the text holds nothing else. `letters` are a maker's own."""
    plain = fold(text)
    found = tuple(_found(plain))
    found += tuple(_spoken(without(plain, found), letters))
    left = without(plain, found)
    return found if any(map(str.isalnum, left)) else ()


@cache
def _read_elsewhere() -> re.Pattern[str]:
    """Return what the tables of codes read by themselves: words for a colour or a shape, units behind a figure."""
    listed = [word for row in tables()["words"] for word in row["words"]] + tables()["units"]
    listed += [row["letters"].lower() for row in tables()["lbs"]["rows"]]
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, sorted(listed, key=len, reverse=True)))})\b")


def _spoken(plain: str, letters: Collection[str]) -> Iterator[Aside]:
    lower = plain.lower()
    read = [one.span() for one in _read_elsewhere().finditer(lower)]
    for start, end, topic in words.matches(lower, of_lamp=True):
        is_read = any(first < end and start < last for first, last in read)
        if topic in SPOKEN and not is_read and _stands_alone(plain, start, end) and plain[start:end] not in letters:
            yield Aside(start, end, words.table()["topics"][topic]["means"], topic in words.UV_TOPICS)


def _stands_alone(plain: str, start: int, end: int) -> bool:
    is_apart = not plain[start - 1 : start].isalnum() and not plain[end : end + 1].isalnum()
    return is_apart and end - start >= _LEAST and not _SIGN.search(plain, start, end)


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
