"""Weighing: what reading a text as it stands costs, how well each lamp type explains it, and marks with looks."""

from __future__ import annotations

from math import exp, inf
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._colour import whites
from counter.marks._format import format_code
from counter.marks._lex import STRETCH, UNREADABLE
from counter.marks._models import MarkEvidence, Reading
from counter.marks._sentences import MAY_BE_UVA, MAY_BE_UVB, MAY_BE_UVC
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from counter.catalogue import Lamp
    from counter.marks._known import Known


_UNNAMED = 1e-6  # weight of a reading none of whose lamp types the looks leave any probability
_MAY_BE = {"uv-c": MAY_BE_UVC, "uv-a": MAY_BE_UVA, "other": MAY_BE_UVB}
_NUMBERED = ("ansi-linear", "ilcos")  # codes that figures tell apart: a tube that does not exist is a misread figure


class Clean(NamedTuple):
    """What the grammars made of a text as it stands, without any guess; `smudged` of the unknown are worn."""

    readings: tuple[Reading, ...]
    problems: tuple[str, ...]
    unknown: tuple[tuple[int, int], ...]
    clashes: int
    smudged: int = 0

    @property
    def is_enough(self) -> bool:
        """Whether nothing is left over, odd or impossible."""
        return bool(self.readings) and not any(strain(self, reading) for reading in self.readings)

    @property
    def is_unlisted(self) -> bool:
        """Whether all of it says which lamp it is, watts and all, and the catalogue has no such lamp.

        A base that lamps are made on nowhere, as G29q, is a worn print of one that is.
        """
        if self.unknown or self.clashes or len(self.readings) != 1:
            return False
        one = self.readings[0].lamp
        is_lamp = one.watts is not None and one.kind != "led" and not self.readings[0].lamps
        return is_lamp and (not one.base or bool(one.bases) or one.base in tables()["caps"]["others"])

    @property
    def least_strain(self) -> float:
        """The strain of the reading that leaves the least over; without any reading, no reading can be worse."""
        return min((strain(self, reading) for reading in self.readings), default=inf)


def strain(clean: Clean, reading: Reading) -> float:
    """Return the cost of reading a text as it stands, where something in it is left over, odd or impossible."""
    table = tables()["noise"]
    aside = table["aside"] + (table["aside_for_watts"] if reading.lamp.watts is None else 0.0)  # 120V: a worn 120W
    odd = {"other": aside, "number": table["bare_number"]}
    cost = sum(odd.get(span.part, 0.0) for span in reading.spans) if reading.system != "base" else 0.0
    unread = sum(end - start for start, end in clean.unknown)
    if clean.unknown:
        more = len(clean.unknown) - 1  # who types one word more than the code often types several
        cost += table["unread_word"] + table["unread_more"] * more + table["background_character"] * unread
        cost += table["unread_smudged"] * clean.smudged
    cost += table["clash"] * clean.clashes + (table["lacks_letter"] if _lacks_letter(reading) else 0.0)
    if reading.lamp.cct_k not in (None, *whites()):  # 846: sooner a worn 840
        cost += tables()["slots"]["costs"]["unheard_colour"]
    if reading.lamps or reading.system == "colour" or reading.lamp.kind == "led":
        return float(cost)
    is_one_code = reading.system not in ("partial", "house", "base") and (not reading.lamp.base or reading.lamp.bases)
    is_made = is_one_code or reading.lamp.base in tables()["caps"]["others"]
    kind = "impossible_base" if reading.system == "base" else "impossible_code" if is_made else "impossible"
    if is_one_code and reading.system in _NUMBERED:
        kind = "impossible_number"
    return float(cost + table[kind])


def _lacks_letter(reading: Reading) -> bool:
    """Whether a base is printed short of its letter: G24, which may as well be a worn GU24, for mains."""
    printed = reading.lamp.base
    short = printed and all(base.partition("-")[0] != printed for base in reading.lamp.bases)
    return bool(short and reading.lamp.bases and reading.system in ("partial", "base") and reading.lamp.pins is None)


def evidence(
    text: str, readings: tuple[Reading, ...], problems: Sequence[str], floor: float, known: Known, limit: int
) -> MarkEvidence:
    """Put the answer together; a doubt about ultraviolet is kept whatever the limit."""
    doubts = (uv_doubt(readings), *(_said_twin(one, known) for one in readings[:1]))
    return MarkEvidence(
        text=text,
        readings=shortened(readings, limit),
        problems=tuple(dict.fromkeys((*problems, *filter(None, doubts)))),
        likelihood=likelihood(readings, known),
        floor=floor,
    )


def likelihood(readings: Sequence[Reading], known: Known, *, scaled: bool = True) -> dict[str, float]:
    """Return how well each lamp type explains the text: the sum over the readings that can mean it, best is 1."""
    sums: dict[str, float] = {}
    for reading in readings:
        for lamp in reading.lamps:
            sums[lamp] = sums.get(lamp, 0.0) + reading.probability
        for twin in _ultraviolet_twins(reading, known):
            sums[twin.id] = sums.get(twin.id, 0.0) + reading.probability * tables()["limits"]["ultraviolet_twin"]
    best = max(sums.values(), default=1.0) if scaled else 1.0
    return {lamp: value / best for lamp, value in sums.items()}


def _ultraviolet_twins(reading: Reading, known: Known) -> list[Lamp]:
    """Return the ultraviolet lamps that are what a code without a colour says, but for the letter that tells them.

    A worn GFT9W/G23 is FT9W/G23 or CFT9W/G23, a worn FS20T12 is F20T12, and F15T8/BL has lost its BL. A colour says
    white; none of these prints one, and no saver's code is near theirs.
    """
    if reading.lamp.kind != "fluorescent" or reading.lamp.cct_k is not None:
        return []
    own = [lamp for one in reading.lamps if not (lamp := known.catalogue.lamp_by_id[one]).is_saver]
    on_base = (lamp for base in dict.fromkeys(lamp.base for lamp in own) for lamp in known.catalogue.lamps_on[base])
    near = (one for one in on_base if one.is_ultraviolet and any(_are_twins(one, lamp) for lamp in own))
    return [one for one in near if one.kind == "uv-c" or reading.system == "ansi-linear"]


def _are_twins(one: Lamp, other: Lamp) -> bool:
    thick = {lamp.tube_mm.value for lamp in (one, other) if lamp.tube_mm}
    return (one.base, one.watts.value, one.shape) == (other.base, other.watts.value, other.shape) and len(thick) < 2


def _said_twin(reading: Reading, known: Known) -> str | None:
    """Say that a code may be that of a germicidal lamp, or else of a sun lamp."""
    share = f"{tables()['limits']['ultraviolet_twin']:.0%}"
    twins = _ultraviolet_twins(reading, known)
    for kind, system in (("uv-c", "ansi-germicidal"), ("other", "ansi-linear")):
        for lamp in (one for one in twins if one.kind == kind):
            if code := format_code(known.catalogue, lamp.id, system):
                return _MAY_BE[kind].format(code=code, share=share)
    return None


def floor_of(readings: Sequence[Reading]) -> float:
    """Return what a lamp type gets that no reading of a whole code names: the marks may be another lamp's."""
    floors = tables()["floors"]
    named = [float(floors.get(_sort(reading), floors["partial"])) for reading in readings if reading.lamps]
    return max(named, default=1.0)


def _sort(reading: Reading) -> str:
    """Return the system of a reading; words and figures that name one lamp type in full are as good as a code."""
    lamp = reading.lamp
    is_full = lamp.watts is not None and (lamp.cct_k or lamp.base or lamp.tube_mm) is not None
    return "shorthand" if reading.system == "partial" and is_full and len(reading.lamps) == 1 else reading.system


def worn_floor(readings: Sequence[Reading], none_of_these: float, known: Known) -> float:
    """Return what a lamp type that no reading names gets: what the texts that mean none of these leave to it."""
    best = max(likelihood(readings, known, scaled=False).values(), default=0.0)
    return min(1.0, max(none_of_these, tables()["floors"]["partial"]) / best) if best else 1.0


def is_worn(plain: str) -> bool:
    """Whether a text marks unreadable characters."""
    return UNREADABLE in plain or STRETCH in plain


def background(plain: str) -> float:
    """Return the cost of a text that is none of the codes: each readable character by chance."""
    table = tables()["noise"]
    readable = sum(character.isalnum() for character in plain)
    smudged = table["smudge"] * plain.count(UNREADABLE)
    return float(table["background"] + table["background_character"] * readable + smudged)


def weights(costs: Sequence[float], none_of_these: float) -> list[float]:
    """Return probabilities from costs, one more possibility being none of these."""
    least = min((*costs, none_of_these))
    raw = [exp(least - cost) for cost in costs]
    total = sum(raw) + exp(least - none_of_these)
    return [value / total for value in raw]


def sharpen(evidence: MarkEvidence, posterior: Mapping[str, float]) -> tuple[Reading, ...]:
    """Return the readings weighed again by the looks' posterior over lamp types, best first.

    P(reading | text, looks) is proportional to P(reading | text) times the mean posterior of its lamp types over
    an even prior; a reading that names no lamp type keeps its weight. The sum over all readings stays as it was.
    A reading of a UV lamp is never dropped.
    """
    if not evidence.readings or not posterior:
        return evidence.readings
    even = 1 / len(posterior)
    weights = [reading.probability * _support(reading, posterior, even) for reading in evidence.readings]
    total, before = sum(weights), sum(reading.probability for reading in evidence.readings)
    if total <= 0:
        return evidence.readings
    weighed = [
        reading.model_copy(update={"probability": min(1.0, weight * before / total)})
        for reading, weight in zip(evidence.readings, weights, strict=True)
    ]
    return tuple(sorted(weighed, key=lambda reading: -reading.probability))


def _support(reading: Reading, posterior: Mapping[str, float], even: float) -> float:
    if not reading.lamps:
        return 1.0
    mean = sum(posterior.get(lamp, 0.0) for lamp in reading.lamps) / len(reading.lamps)
    return max(mean / even, _UNNAMED)


def says(reading: Reading) -> Mapping[str, str | float]:
    """Return which looks a reading claims, by look key, as the catalogue's values."""
    return reading.looks


def shortened(readings: Sequence[Reading], limit: int) -> tuple[Reading, ...]:
    """Return the best readings, and of those beyond the limit the probable ones of UV lamps."""
    least = tables()["limits"]["uv_probability"]
    return tuple(
        reading
        for place, reading in enumerate(readings)
        if place < limit or (reading.lamp.kind in _MAY_BE and reading.probability >= least)
    )


def uv_doubt(readings: Sequence[Reading]) -> str | None:
    """Return the sentence that keeps a doubt open: the best reading is a lighting lamp, another is a UV lamp."""
    if not readings or readings[0].lamp.kind in _MAY_BE:
        return None
    least = tables()["limits"]["uv_probability"]
    for kind, says in _MAY_BE.items():
        for reading in readings[1:]:
            if reading.lamp.kind == kind and reading.probability >= least:
                return says.format(code=reading.canonical, share=f"{reading.probability:.0%}")
    return None


def saving_suffix(reading: Reading) -> str:
    """Return the letters of a tube's code that say "fewer watts than the number" ("ES"); "" where there are none."""
    letters = {row["letters"] for row in tables()["linear"]["suffixes"] if row.get("saving")}
    found = (
        span.text for span in reading.spans if span.part == "suffix" and span.text.upper().strip("/ ") in letters
    )
    return next(found, "")
