"""The road of one text: fold, barcode, codes and words, then the worn search where something is left over."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.marks._answer import answer
from counter.marks._barcode import barcode
from counter.marks._house import shipped_house
from counter.marks._known import known_for
from counter.marks._lex import fold
from counter.marks._models import MarkEvidence, Reading
from counter.marks._segments import apart, cut, together, whole_colour
from counter.marks._sharpen import shortened, uv_doubt
from counter.marks._tables import tables
from counter.marks._worn import background, is_worn, read_worn, weights

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue
    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._resolve import Meaning
    from counter.marks._segments import Together
    from counter.marks._worn import Worn

_LOOK_INSTEAD = "Count the pins, look at the key in the middle and read the watts; the outlines show the rest."
_TOO_LITTLE = "Too little can be read to tell these codes apart: give one or two more characters."


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


class _Clean(NamedTuple):
    """What the grammars made of a text as it stands, without any guess."""

    readings: tuple[Reading, ...]
    problems: tuple[str, ...]
    unknown: tuple[tuple[int, int], ...]
    clashes: int

    @property
    def is_enough(self) -> bool:
        """Whether nothing is left over, odd or impossible."""
        return bool(self.readings) and not any(_strain(self, reading) for reading in self.readings)


def _codes(plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], limit: int) -> MarkEvidence:
    clean = _clean(plain, text, known, house)
    if clean.is_enough and not is_worn(plain):
        return _evidence(text, clean.readings, clean.problems, _floor(clean.readings), limit)
    return _worn(clean, plain, text, known, house, limit)


def _clean(plain: str, text: str, known: Known, house: Sequence[HouseMaker]) -> _Clean:
    colour = whole_colour(plain)
    segments = cut(plain, known, house)
    found, unknown = (colour,) if colour else segments.found, () if colour else segments.unknown
    if not found:
        return _Clean((), (), unknown, 0)
    sets = apart(found)
    answers = [answer(one, text, known, 1 / len(sets)) for one in sets]
    clashes = together(found).clashes
    problems = [_clash(*clash) for clash in clashes]
    for reading, meaning, joined in answers:
        problems += _problems(reading, meaning, joined)
    return _Clean(tuple(reading for reading, _, _ in answers), tuple(problems), unknown, len(clashes))


def _worn(
    clean: _Clean, plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], limit: int
) -> MarkEvidence:
    """Weigh what was read as it stands against what can be meant, and against none of these."""
    table = tables()["noise"]
    worn = read_worn(plain, text, known, house)
    costs = [cost for _, cost in worn.readings]
    readings = [reading for reading, _ in worn.readings]
    costs += [_strain(clean, reading) for reading in clean.readings]
    readings += clean.readings
    chances = weights(costs, background(plain)) if costs else []
    weighed = [
        reading.model_copy(update={"probability": chance})
        for reading, chance in sorted(zip(readings, chances, strict=True), key=lambda pair: -pair[1])
        if chance >= table["least_probability"]
    ]
    problems = _worn_problems(clean, worn, weighed, text)
    nowhere = sum(reading.probability for reading in weighed if not reading.lamps)
    floor = _worn_floor(weighed, 1 - sum(chances) + nowhere)
    return _evidence(text, tuple(weighed), problems, floor, limit)


def _strain(clean: _Clean, reading: Reading) -> float:
    """Return the cost of reading a text as it stands, where something in it is left over, odd or impossible."""
    table = tables()["noise"]
    odd = {"other": table["aside"], "number": table["bare_number"]}
    cost = sum(odd.get(span.part, 0.0) for span in reading.spans) if reading.system != "base" else 0.0
    unread = sum(end - start for start, end in clean.unknown)
    cost += table["unread_word"] * len(clean.unknown) + table["background_character"] * unread
    cost += table["clash"] * clean.clashes
    if reading.lamps or reading.system == "colour":
        return float(cost)
    is_one_code = reading.system not in ("partial", "house", "base") and (not reading.lamp.base or reading.lamp.bases)
    kind = "impossible_base" if reading.system == "base" else "impossible_code" if is_one_code else "impossible"
    return float(cost + table[kind])


def _worn_floor(readings: Sequence[Reading], none_of_these: float) -> float:
    """Return what a lamp type that no reading names gets: what the texts that mean none of these leave to it."""
    best = max(likelihood(readings, scaled=False).values(), default=0.0)
    return min(1.0, max(none_of_these, tables()["floors"]["partial"]) / best) if best else 1.0


def _worn_problems(clean: _Clean, worn: Worn, readings: Sequence[Reading], text: str) -> tuple[str, ...]:
    if not readings:
        return (_nothing(clean.unknown, text), *(() if worn.is_complete else (_TOO_LITTLE,)))
    best = readings[0]
    problems = _left_over(clean, best, text)
    if best.probability < tables()["limits"]["clear_probability"] and best.assumptions:
        problems.append(_TOO_LITTLE)
    elif best.assumptions:
        problems.append(f"Taken as {best.canonical}: {' '.join(best.assumptions)}")
    elif not worn.is_complete:
        problems.append(_TOO_LITTLE)
    return tuple(problems)


def _left_over(clean: _Clean, best: Reading, text: str) -> list[str]:
    """Return what the grammars had to say, where the best reading is theirs or the text was typed without a gap."""
    is_clean = any(best.canonical == reading.canonical for reading in clean.readings)
    if not is_clean and (clean.unknown or is_worn(text)):
        return []
    problems = list(clean.problems)
    if clean.unknown:
        words = ", ".join(repr(text[start:end][:30]) for start, end in clean.unknown[:4])
        problems.append(f"Not understood: {words}. The rest was read.")
    return problems


def _evidence(
    text: str, readings: tuple[Reading, ...], problems: Sequence[str], floor: float, limit: int
) -> MarkEvidence:
    doubt = uv_doubt(readings)
    return MarkEvidence(
        text=text,
        readings=shortened(readings, limit),
        problems=tuple(dict.fromkeys((*problems, *((doubt,) if doubt else ())))),
        likelihood=likelihood(readings),
        floor=floor,
    )


def likelihood(readings: Sequence[Reading], *, scaled: bool = True) -> dict[str, float]:
    """Return how well each lamp type explains the text: the sum over the readings that can mean it, best is 1."""
    sums: dict[str, float] = {}
    for reading in readings:
        for lamp in reading.lamps:
            sums[lamp] = sums.get(lamp, 0.0) + reading.probability
    best = max(sums.values(), default=1.0) if scaled else 1.0
    return {lamp: value / best for lamp, value in sums.items()}


def _floor(readings: Sequence[Reading]) -> float:
    floors = tables()["floors"]
    named = [float(floors.get(reading.system, floors["partial"])) for reading in readings if reading.lamps]
    return max(named, default=1.0)


def _nothing(unknown: Sequence[tuple[int, int]], text: str) -> str:
    what = ", ".join(repr(text[start:end][:30]) for start, end in unknown[:3]) or repr(text.strip()[:30])
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
