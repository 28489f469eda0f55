"""The road of one text: fold, barcode, codes and words, then the worn search where something is left over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks._answer import answer
from counter.marks._barcode import barcode
from counter.marks._house import shipped_house
from counter.marks._known import known_for
from counter.marks._lex import fold
from counter.marks._models import MarkEvidence, Reading
from counter.marks._segments import apart, cut, together, whole_colour
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue
    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._resolve import Meaning
    from counter.marks._segments import Segments, Together

_LOOK_INSTEAD = "Count the pins, look at the key in the middle and read the watts; the outlines show the rest."


def read(catalogue: Catalogue, text: str, house: Sequence[HouseMaker] = (), limit: int = 8) -> MarkEvidence:
    """Read the marks of a lamp, whole or worn, best reading first. No text raises."""
    known = known_for(catalogue)
    most = tables()["limits"]["characters"]
    plain = fold(text[:most])
    problems = [] if len(text) <= most else [_too_long(len(text), most)]
    if not plain.strip():
        return MarkEvidence(text=text, problems=tuple(problems))
    evidence = _barcode(plain, text, known) or _codes(plain, text, known, (*house, *shipped_house()), limit)
    return evidence.model_copy(update={"problems": (*problems, *evidence.problems)})


def _too_long(length: int, most: int) -> str:
    return f"{length} characters: only the first {most} were read. Type the one line that stands on the lamp."


def _barcode(plain: str, text: str, known: Known) -> MarkEvidence | None:
    scan = barcode(plain)
    if scan is None:
        return None
    if scan.parsed is None:
        return MarkEvidence(text=text, problems=(scan.problem or "",))
    reading, _, _ = answer((scan.parsed,), text, known, 1.0)
    return MarkEvidence(text=text, readings=(reading,))


def _codes(plain: str, text: str, known: Known, house: Sequence[HouseMaker], limit: int) -> MarkEvidence:
    colour = whole_colour(plain)
    segments = cut(plain, known, house)
    found, unknown = (colour,) if colour else segments.found, segments.unknown
    if not found:
        return MarkEvidence(text=text, problems=(_nothing(segments, text),))
    sets = apart(found)
    answers = [answer(one, text, known, 1 / len(sets)) for one in sets][:limit]
    readings = tuple(reading for reading, _, _ in answers)
    problems = [_clash(*clash) for clash in together(found).clashes]
    for reading, meaning, joined in answers:
        problems += _problems(reading, meaning, joined)
    if unknown and not colour:
        words = ", ".join(repr(text[start:end][:30]) for start, end in unknown[:4])
        problems.append(f"Not understood: {words}. The rest was read.")
    return MarkEvidence(
        text=text,
        readings=readings,
        problems=tuple(dict.fromkeys(problems)),
        likelihood=likelihood(readings),
        floor=_floor(readings),
    )


def likelihood(readings: Sequence[Reading]) -> dict[str, float]:
    """Return how well each lamp type explains the text: the sum over the readings that can mean it, best is 1."""
    sums: dict[str, float] = {}
    for reading in readings:
        for lamp in reading.lamps:
            sums[lamp] = sums.get(lamp, 0.0) + reading.probability
    best = max(sums.values(), default=1.0)
    return {lamp: value / best for lamp, value in sums.items()}


def _floor(readings: Sequence[Reading]) -> float:
    floors = tables()["floors"]
    named = [float(floors.get(reading.system, floors["partial"])) for reading in readings if reading.lamps]
    return max(named, default=1.0)


def _nothing(segments: Segments, text: str) -> str:
    what = ", ".join(repr(text[start:end][:30]) for start, end in segments.unknown[:3])
    what = what or repr(text.strip()[:30])
    return f"{what} is no code known here. {_LOOK_INSTEAD}"


def _problems(reading: Reading, meaning: Meaning, joined: Together) -> list[str]:
    problems = list(reading.assumptions)
    if joined.facts.keys() & {"base", "watts", "number", "pins", "shapes"}:
        problems += meaning.problems
    kinds = {lamp.kind for lamp in meaning.lamps}
    if reading.lamps and "uv-c" in kinds and len(kinds) > 1:
        problems.append("This does not say whether it is a lighting or a germicidal lamp (UV-C): look at the glass.")
    return problems


_CLASH_SAYS = {
    "base": "Two bases in one text: {} and {}. Which of them stands on the lamp?",
    "number": "Two numbers in one text: {} and {}. Which of them stands on the lamp?",
    "tube_mm": "Two tube diameters in one text: {} mm and {} mm. Measure the tube.",
    "watts": "Two wattages in one text: {} W and {} W. Which of them stands on the lamp?",
    "pins": "Two numbers of pins in one text: {} and {}. Count them.",
    "kind": "Two kinds of lamp in one text: {} and {}. Ask before anything is sold.",
    "cct_k": "Two colours in one text: {} K and {} K. The first was taken.",
}


def _clash(key: str, first: object, second: object) -> str:
    def name(value: object) -> str:
        return str(getattr(value, "text", f"{value:g}" if isinstance(value, float) else value))

    return _CLASH_SAYS[key].format(name(first), name(second))
