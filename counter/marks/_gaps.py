"""Blanks that stand inside a code, as in C F Q 26W or 8 35: left out where more can be read without them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.marks._lex import Parsed, Part

# Where blanks are left out, rule by rule: between the letters of a head, in a base, in a colour, at last everywhere.
_RULES = tuple(
    re.compile(pattern, re.ASCII)
    for pattern in (
        r"(?<![A-Z0-9])[A-Z]{1,3}(?:[ ._\-]+[A-Z]{1,2})+(?![A-Z])",
        r"(?<![A-Z0-9])(?:2 ?)?G ?[XYRU]{0,2} ?\d\d?(?: ?[DQ](?![A-Z]))?(?: ?[\-=] ?\d(?!\d))?",
        r"(?<!\d)[5-9] ?\d ?\d(?!\d)",
        r".+",
    )
)
EVERYWHERE = len(_RULES) - 1
_LETTERS = 0  # between letters, points and hyphens count as blanks


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


def closings() -> range:
    """Return the numbers of the rules, the most careful first."""
    return range(len(_RULES))


def close(text: Closed, rule: int) -> Closed | None:
    """Return the text without the blanks that a rule finds; None where it finds none."""
    found = _RULES[rule].finditer(text.plain)
    gone = {at for match in found for at in range(*match.span()) if _is_gap(text.plain[at], rule)}
    return _without(text, gone) if gone else None


def _is_gap(sign: str, rule: int) -> bool:
    return sign == " " or (rule == _LETTERS and sign in "._-")


def _without(text: Closed, gone: set[int]) -> Closed:
    kept = [at for at in range(len(text.plain)) if at not in gone]
    return Closed("".join(text.plain[at] for at in kept), tuple(text.places[at] for at in kept))
