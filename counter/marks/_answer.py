"""From parsed segments to a Reading: the lamp in the contract's words, spans in the typed text, looks claimed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from counter.marks._caps import base_means
from counter.marks._lex import Part
from counter.marks._models import Reading, ReadLamp, Span
from counter.marks._resolve import Meaning, is_older, resolve
from counter.marks._segments import together
from counter.marks._sentences import INCHES, WATTS
from counter.marks._tables import tables
from counter.marks._variants import is_by_inches

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from counter.catalogue import Kind, Lamp, LampShape
    from counter.marks._known import Known
    from counter.marks._lex import Facts, Parsed
    from counter.marks._segments import Together

T = TypeVar("T")
_BASE_LOOKS = ("arrangement", "block")
_COLOUR = ("cct_k", "cri_min")
_MOST_KEPT = 2000  # sets of facts whose meaning is kept


class Meant(NamedTuple):
    """What facts mean: the lamp in the contract's words, the lamp types' ids, and the looks they claim."""

    meaning: Meaning
    lamp: ReadLamp
    lamps: tuple[str, ...]
    looks: dict[str, str | float]


def answer(found: Sequence[Parsed], text: str, known: Known, probability: float) -> tuple[Reading, Meaning, Together]:
    """Return one reading of these segments, what it can mean, and what they state together."""
    joined = together(found)
    meant = meant_by(joined.facts, known)
    meaning = meant.meaning
    notes = tuple(note for parsed in found for note in parsed.notes)
    reading = Reading(
        probability=probability,
        system=joined.system,
        grammar=joined.grammar,
        canonical=joined.canonical,
        lamp=meant.lamp,
        lamps=meant.lamps,
        spans=tuple(_spans(found, text, meaning, joined.facts)),
        assumptions=(*notes, *meaning.notes),
        looks=dict(meant.looks),
    )
    return reading, meaning, joined


def meant_by(facts: Facts, known: Known) -> Meant:
    """Return what facts mean; kept, since from one keystroke to the next mostly the same ones are stated."""
    return _kept(known.meant, facts.items(), lambda: _meant(facts, known))


def _meant(facts: Facts, known: Known) -> Meant:
    meaning, lamp = meaning_of(facts, known), _lamp(facts, meaning_of(facts, known))
    lamps = tuple(one.id for one in meaning.lamps) if says_lamp(facts) else ()
    return Meant(meaning, lamp, lamps, _looks(facts, meaning, lamp, known))


def meaning_of(facts: Facts, known: Known) -> Meaning:
    """Return the lamp types and bases that facts mean; a colour says nothing of them."""
    rest = ((key, value) for key, value in facts.items() if key not in _COLOUR)
    return _kept(known.meanings, rest, lambda: resolve(facts, known) if facts else Meaning((), ()))


def _kept(made: dict[frozenset[tuple[str, object]], T], by: Iterable[tuple[str, object]], make: Callable[[], T]) -> T:
    key = frozenset(by)
    found = made.get(key)
    if found is None:
        if len(made) >= _MOST_KEPT:
            made.clear()
        found = made[key] = make()
    return found


def says_lamp(facts: Facts) -> bool:
    """Whether facts tell lamp types apart; that a lamp is for lighting, or its colour, does not."""
    return bool(facts.keys() - {"kind", "cct_k", "cri_min", "output"}) or facts.get("kind") in ("uv-c", "uv-a")


def _spans(found: Sequence[Parsed], text: str, meaning: Meaning, facts: Facts) -> Iterator[Span]:
    for parsed in found:
        parts = parsed.parts
        if parsed.system == "base" and len(found) > 1:
            parts = (_one_part(parsed),)
        for part in parts:
            means = _part_means(part, meaning, facts)
            typed = text[part.start : part.end]
            yield Span(start=part.start, end=part.end, text=typed, means=means, part=part.part, assumed=part.assumed)


def _part_means(part: Part, meaning: Meaning, facts: Facts) -> str:
    """Say what a part means, now that the lamp types are known: one letter or number can mean two things."""
    if part.part == "watts or inches":
        return _number_means(part, meaning)
    if part.part == "shape" and is_older(facts, meaning.lamps):
        return str(tables()["nema"]["older_means"].format(letters=facts.get("letters", "")))
    return part.means


def _one_part(parsed: Parsed) -> Part:
    """A base among other words is one part; alone, each of its letters is."""
    return Part(parsed.start, parsed.end, "base", base_means(parsed.facts["base"], parsed.parts))


def _number_means(part: Part, meaning: Meaning) -> str:
    """Say of a tube's number what it counts, now that the lamp types are known."""
    by_inches = only(is_by_inches(lamp) for lamp in meaning.lamps)
    if by_inches is None or ":" not in part.means:
        return part.means
    number = part.means.partition(":")[0]
    return (INCHES if by_inches else WATTS).format(n=number)


def only(values: Iterable[T]) -> T | None:
    """Return the value that all share, or None."""
    seen = set(values)
    return seen.pop() if len(seen) == 1 else None


def _lamp(facts: Facts, meaning: Meaning) -> ReadLamp:
    cap, lamps = facts.get("base"), meaning.lamps if says_lamp(facts) else ()
    shape = only(lamp.shape for lamp in lamps) or only(facts.get("shapes", ()))
    is_only_base = facts.keys() <= {"base"}  # G24q-3 does not say 26 W, though no other lamp is known on it
    watts = facts.get("watts", None if is_only_base else only(lamp.watts.value for lamp in lamps))
    return ReadLamp(
        kind=_kind(facts, lamps),
        legs=facts.get("legs") or legs_of(shape),
        shape=shape,
        watts=watts if watts is not None or _inches_mm(facts, lamps) else facts.get("number"),
        base=cap.text if cap else None,
        bases=tuple(base.designation for base in meaning.bases) if says_lamp(facts) else (),
        cct_k=facts.get("cct_k"),
        cri_min=facts.get("cri_min"),
        tube_mm=facts.get("tube_mm"),
        length_mm=facts.get("length_mm") or _inches_mm(facts, lamps),
        pins=_pins(facts, meaning),
    )


def _kind(facts: Facts, lamps: Sequence[Lamp]) -> Kind | None:
    """Return the kind that the code states; the lamps' own where a plain F is printed on a tanning tube."""
    if facts.get("led"):
        return "led"
    stated, meant = facts.get("kind"), only(lamp.kind for lamp in lamps)
    if stated is None:
        return meant if "watts" in facts else None
    return meant if meant is not None and stated == "fluorescent" else stated


def _inches_mm(facts: Facts, lamps: Sequence[Lamp]) -> float | None:
    by_inches = "number" in facts and only(is_by_inches(lamp) for lamp in lamps)
    return round(facts["number"] * 25.4) if by_inches else None


def legs_of(shape: LampShape | None) -> int | None:
    """Return the number of straight legs of a shape, where legs are counted."""
    row = tables()["shapes"].get(shape) if shape else None
    return row["legs"] if row else None


def _pins(facts: Facts, meaning: Meaning) -> int | None:
    if "pins" in facts:
        return facts["pins"]
    cap = facts.get("base")
    if cap and meaning.bases:
        shared = only(base.pins.value for base in meaning.bases)
        return int(shared) if shared else None
    if cap:
        return cap.contacts
    shared = only(base.pins.value for base in meaning.bases) if meaning.lamps else None
    return int(shared) if shared else None


def _looks(facts: Facts, meaning: Meaning, read: ReadLamp, known: Known) -> dict[str, str | float]:
    """Return the looks that the code claims: what it states, and what all its lamp types share."""
    if not says_lamp(facts):
        return {}
    looks: dict[str, Any] = {
        "pins": read.pins and str(read.pins),
        "legs": _legs_look(read.shape, read.legs, known),
        "watts": _watts_look(facts, meaning, read),
        "glass": {"uv-c": "clear", "fluorescent": "white"}.get(read.kind or "") if "kind" in facts else None,
        "tube_mm": read.tube_mm,
        "length_mm": only(_length(lamp) for lamp in meaning.lamps) if read.length_mm else None,
    }
    for key in _BASE_LOOKS:
        looks[key] = only(word.value if (word := getattr(base, key)) else None for base in meaning.bases)
    return {key: value for key, value in looks.items() if value and _is_answer(key, value, known)}


def _watts_look(facts: Facts, meaning: Meaning, read: ReadLamp) -> str | None:
    """Return the watts that a code claims: a saver's code prints those of the lamp whose place it takes."""
    if facts.get("saving") and meaning.lamps:
        own = only(lamp.watts.value for lamp in meaning.lamps)
        return None if own is None else f"{own:g}"
    return f"{read.watts:g}" if read.watts else None


def _length(lamp: Lamp) -> float | None:
    return lamp.length_mm.value if lamp.length_mm else None


def _legs_look(shape: LampShape | None, legs: int | None, known: Known) -> str | None:
    return known.catalogue.legs_by_shape.get(shape or "") or (str(legs) if legs else None)


def _is_answer(key: str, value: str | float, known: Known) -> bool:
    look = known.catalogue.look_by_key.get(key)
    return look is not None and (look.is_measured or any(row.value == value for row in look.values))
