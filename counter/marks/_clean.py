"""What stands in a text without any guess at a character: as typed, and without blanks inside codes.

Blanks inside a code, as in C F Q 26W or 8 35, are left out where less is left over without them.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from counter.marks import _say as say
from counter.marks._answer import answer
from counter.marks._lex import STRETCH, UNREADABLE
from counter.marks._segments import Segments, apart, cut, together, whole_colour
from counter.marks._tables import tables
from counter.marks._weigh import Clean

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._lex import Parsed, Part

_LETTERS = r"(?<![A-Z0-9])[A-Z]{1,3}(?:[ ._\-]+[A-Z]{1,2})+(?![A-Z])"  # points and hyphens count as blanks there
_BASE = r"(?<![A-Z0-9])(?:2 ?)?G ?[XYRU]{0,2} ?\d\d?(?: ?[DQ](?![A-Z]))?(?: ?[\-=] ?\d(?!\d))?"


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


def clean_read(plain: str, text: str, known: Known, house: Sequence[HouseMaker]) -> Clean:
    """Read a text as it stands, and without blanks inside its codes where that leaves less over."""
    closed = Closed(plain, tuple(range(len(plain))))
    best = _read(_segments(closed, known, house), text, known)
    if best.least_strain == 0 or STRETCH in plain:
        return best
    for is_trial, rule, gaps in _rules():
        gone = {
            at for match in rule.finditer(closed.plain) for at in range(*match.span()) if closed.plain[at] in gaps
        }
        shorter = _without(closed, gone)
        found = _read(_segments(shorter, known, house), text, known) if gone else best
        if found.least_strain == 0:
            return found
        if found.least_strain < best.least_strain and not is_trial:
            closed, best = shorter, found
    return best


@cache
def _rules() -> tuple[tuple[bool, re.Pattern[str], str], ...]:
    """Return where blanks are left out and what counts as one there: the most careful first.

    Before all, for trial: without any blank, which is taken where it leaves nothing over.
    """
    colours = "|".join(" ?".join(digits) for digits in tables()["colour"]["common"])
    rules = ((".+", " "), (_LETTERS, " ._-"), (_BASE, " "), (rf"(?<!\d)(?:{colours})(?!\d)", " "), (".+", " "))
    return tuple((at == 0, re.compile(rule, re.ASCII), gaps) for at, (rule, gaps) in enumerate(rules))


def _without(text: Closed, gone: set[int]) -> Closed:
    kept = [at for at in range(len(text.plain)) if at not in gone]
    return Closed("".join(text.plain[at] for at in kept), tuple(text.places[at] for at in kept))


def _segments(closed: Closed, known: Known, house: Sequence[HouseMaker]) -> Segments:
    """Cut a text, every place as in the text with its blanks."""
    colour = whole_colour(closed.plain)
    found, unknown = ((colour,), ()) if colour else cut(closed.plain, known, house)
    typed = tuple(word for place in unknown for word in closed.typed_words(*place))
    return Segments(tuple(map(closed.home, found)), typed)


def _read(segments: Segments, text: str, known: Known) -> Clean:
    found, unknown = segments
    if not found:
        return Clean((), (), unknown, 0)
    sets = apart(found)
    answers = [answer(one, text, known, 1 / len(sets)) for one in sets]
    clashes = together(found).clashes
    problems = [say.clash(*clash) for clash in clashes]
    for reading, meaning, joined in answers:
        problems += say.of_reading(reading, meaning, joined)
    smudged = sum(UNREADABLE in text[start:end] for start, end in unknown)
    return Clean(tuple(reading for reading, _, _ in answers), tuple(problems), unknown, len(clashes), smudged)
