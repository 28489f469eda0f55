"""What stands in a text without any guess at a character: as typed, and without blanks inside codes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks import _say as say
from counter.marks._answer import answer
from counter.marks._gaps import as_typed, everywhere, ways
from counter.marks._lex import STRETCH
from counter.marks._segments import Segments, apart, cut, together, whole_colour
from counter.marks._weigh import Clean

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.marks._gaps import Closed
    from counter.marks._house import HouseMaker
    from counter.marks._known import Known


def clean_read(plain: str, text: str, known: Known, house: Sequence[HouseMaker]) -> Clean:
    """Read a text as it stands, and without blanks inside its codes where that leaves less over."""
    typed = as_typed(plain)
    best = _read(_segments(typed, known, house), text, known)
    if best.least_strain == 0 or STRETCH in plain:
        return best
    whole = everywhere(typed)
    if whole and (found := _read(_segments(whole, known, house), text, known)).least_strain == 0:
        return found
    return _closed_by_rules(best, typed, text, known, house)


def _closed_by_rules(best: Clean, closed: Closed, text: str, known: Known, house: Sequence[HouseMaker]) -> Clean:
    for close in ways():
        shorter = close(closed)
        found = _read(_segments(shorter, known, house), text, known) if shorter else best
        if shorter and found.least_strain < best.least_strain:
            closed, best = shorter, found
    return best


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
    return Clean(tuple(reading for reading, _, _ in answers), tuple(problems), unknown, len(clashes))
