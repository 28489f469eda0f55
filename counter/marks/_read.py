"""The road of one text: fold, barcode, codes and words, then the worn search where something is left over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks import _say as say
from counter.marks._answer import answer
from counter.marks._barcode import barcode
from counter.marks._house import shipped_house
from counter.marks._known import known_for
from counter.marks._lex import fold
from counter.marks._models import MarkEvidence
from counter.marks._segments import apart, cut, together, whole_colour
from counter.marks._tables import tables
from counter.marks._weigh import Clean, background, evidence, floor_of, is_worn, strain, weights, worn_floor

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue
    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._models import Reading


def read(catalogue: Catalogue, text: str, house: Sequence[HouseMaker] = (), limit: int = 8) -> MarkEvidence:
    """Read the marks of a lamp, whole or worn, best reading first. No text raises."""
    known = known_for(catalogue)
    most = tables()["limits"]["characters"]
    plain = fold(text[:most])
    problems = [] if len(text) <= most else [say.too_long(len(text), most)]
    if not plain.strip():
        return MarkEvidence(text=text, problems=tuple(problems))
    found = _barcode(plain, text, known) or _codes(plain, text, known, (*house, *shipped_house()), limit)
    return found.model_copy(update={"problems": (*problems, *found.problems)})


def _barcode(plain: str, text: str, known: Known) -> MarkEvidence | None:
    scan = barcode(plain)
    if scan is None:
        return None
    if scan.parsed is None:
        return MarkEvidence(text=text, problems=(scan.problem or "",))
    reading, _, _ = answer((scan.parsed,), text, known, 1.0)
    return MarkEvidence(text=text, readings=(reading,))


def _codes(plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], limit: int) -> MarkEvidence:
    clean = _clean(plain, text, known, house)
    if clean.is_enough and not is_worn(plain):
        return evidence(text, clean.readings, clean.problems, floor_of(clean.readings), known, limit)
    return _worn(clean, plain, text, known, house, limit)


def _clean(plain: str, text: str, known: Known, house: Sequence[HouseMaker]) -> Clean:
    colour = whole_colour(plain)
    segments = cut(plain, known, house)
    found, unknown = (colour,) if colour else segments.found, () if colour else segments.unknown
    if not found:
        return Clean((), (), unknown, 0)
    sets = apart(found)
    answers = [answer(one, text, known, 1 / len(sets)) for one in sets]
    clashes = together(found).clashes
    problems = [say.clash(*clash) for clash in clashes]
    for reading, meaning, joined in answers:
        problems += say.of_reading(reading, meaning, joined)
    return Clean(tuple(reading for reading, _, _ in answers), tuple(problems), unknown, len(clashes))


def _worn(
    clean: Clean, plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], limit: int
) -> MarkEvidence:
    """Weigh what was read as it stands against what can be meant, and against none of these."""
    from counter.marks._worn import read_worn  # the search, its trie and vocabulary: only where they are needed

    table = tables()["noise"]
    worn = read_worn(plain, text, known, house)
    standing = [(reading, strain(clean, reading)) for reading in clean.readings]
    rows = _once([*worn.readings, *standing])
    chances = weights([cost for _, cost in rows], background(plain)) if rows else []
    weighed = [
        reading.model_copy(update={"probability": chance})
        for (reading, _), chance in zip(rows, chances, strict=True)
        if chance >= table["least_probability"]
    ]
    problems = say.of_worn(clean, worn, weighed, text)
    nowhere = sum(reading.probability for reading in weighed if not reading.lamps)
    floor = worn_floor(weighed, 1 - sum(chances) + nowhere, known)
    return evidence(text, tuple(weighed), problems, floor, known, limit)


def _once(rows: Sequence[tuple[Reading, float]]) -> list[tuple[Reading, float]]:
    """Return readings cheapest first, those that say the same only once."""
    kept: dict[tuple[object, ...], tuple[Reading, float]] = {}
    for reading, cost in sorted(rows, key=lambda row: row[1]):
        kept.setdefault((reading.system, reading.lamps, reading.lamp), (reading, cost))
    return list(kept.values())
