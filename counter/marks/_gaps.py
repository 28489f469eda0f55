"""Blanks that stand inside a code, as in C F Q 26W or 8 35: left out where more can be read without them."""

from __future__ import annotations

import re
from functools import cache, partial
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from counter.marks._lex import Parsed, Part

_LETTERS = r"(?<![A-Z0-9])[A-Z]{1,3}(?:[ ._\-]+[A-Z]{1,2})+(?![A-Z])"  # points and hyphens count as blanks there
_BASE = r"(?<![A-Z0-9])(?:2 ?)?G ?[XYRU]{0,2} ?\d\d?(?: ?[DQ](?![A-Z]))?(?: ?[\-=] ?\d(?!\d))?"
_EVERYWHERE = r".+"


@cache
def _rules() -> tuple[re.Pattern[str], ...]:
    """Return where blanks are left out, most careful first: in a head, a base, a common colour, everywhere."""
    colours = "|".join(" ?".join(digits) for digits in tables()["colour"]["common"])
    rules = (_LETTERS, _BASE, rf"(?<!\d)(?:{colours})(?!\d)", _EVERYWHERE)
    return tuple(re.compile(rule, re.ASCII) for rule in rules)


class Closed(NamedTuple):
    """A text without some of its blanks, and where each of its characters stood before."""

    plain: str
    places: tuple[int, ...]

    def home(self, parsed: Parsed) -> Parsed:
        """Move what was read back to where it stands in the text with its blanks."""
        parts = tuple(self._moved(part) for part in parsed.parts)
        start, end = self.home_of(parsed.start, parsed.end)
        return parsed._replace(start=start, end=end, parts=parts)

    def home_of(self, start: int, end: int) -> tuple[int, int]:
        """Return where a stretch stands in the text with its blanks."""
        return self.places[start], self.places[end - 1] + 1

    def typed_words(self, start: int, end: int) -> Iterator[tuple[int, int]]:
        """Yield where the words of a stretch stand: two that blanks part stay two."""
        first = start
        for at in range(start + 1, end + 1):
            if at == end or self.places[at] > self.places[at - 1] + 1:
                yield self.home_of(first, at)
                first = at

    def _moved(self, part: Part) -> Part:
        start, end = self.home_of(part.start, part.end)
        return part._replace(start=start, end=end)


def as_typed(plain: str) -> Closed:
    """Return a text with all its blanks."""
    return Closed(plain, tuple(range(len(plain))))


def ways() -> Iterator[Callable[[Closed], Closed | None]]:
    """Yield each way to leave blanks out, the most careful first; each returns None where it finds none."""
    for rule in _rules():
        yield partial(_close, rule)


def everywhere(text: Closed) -> Closed | None:
    """Return the text without any blank; None where it has none."""
    return _close(_rules()[-1], text)


def _close(rule: re.Pattern[str], text: Closed) -> Closed | None:
    gaps = " ._-" if rule.pattern == _LETTERS else " "
    found = rule.finditer(text.plain)
    gone = {at for match in found for at in range(*match.span()) if text.plain[at] in gaps}
    return _without(text, gone) if gone else None


def _without(text: Closed, gone: set[int]) -> Closed:
    kept = [at for at in range(len(text.plain)) if at not in gone]
    return Closed("".join(text.plain[at] for at in kept), tuple(text.places[at] for at in kept))
