"""From what a code states to the lamp types it can mean, with what had to be assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.marks._lex import is_one_tube
from counter.marks._sentences import (
    ANOTHER_SHAPE,
    APART,
    APART_ELSEWHERE,
    LOOK_INSTEAD,
    NO_LETTER,
    NO_SUCH_LAMP,
    ONLY_AS,
    UNKNOWN_BASE,
    UNKNOWN_KEY,
    WITHOUT_X,
)
from counter.marks._tables import tables
from counter.marks._variants import is_by_inches, kind_agrees, numbers, told_apart

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from counter.catalogue import Base, Lamp, LampShape
    from counter.marks._known import Known
    from counter.marks._lex import Cap, Facts

_TUBES = {"linear", "u-bent", "circular"}
THINNEST_T8_MM = 20.0  # between 16 and 25.4
NOMINAL_OVER_MM = 60.0  # single-pin and high-output tubes are named by the room from socket to socket


class Meaning(NamedTuple):
    """Lamp types that a code can mean, the bases they or the code name, and what was assumed."""

    lamps: tuple[Lamp, ...]
    bases: tuple[Base, ...]
    notes: tuple[str, ...] = ()
    problems: tuple[str, ...] = ()


def resolve(facts: Facts, known: Known) -> Meaning:
    """Return what the facts of a code can mean, by the fewest assumptions.

    A lamp type whose shape is not known comes after those that an older letter names.
    """
    first_bases: tuple[Base, ...] = ()
    unsure: Meaning | None = None
    for bases, base_note in _base_readings(facts, known):
        for shapes, shape_note in _shape_readings(facts):
            lamps = tuple(lamp for lamp in _on(bases, known, facts) if _agrees(lamp, known, facts, shapes))
            lamps = told_apart(_surest(lamps, facts, shapes), known, facts)
            if not lamps:
                continue
            notes = tuple(note for note in (base_note, shape_note) if note)
            meaning = Meaning(lamps, _in_order(known.bases[lamp.base] for lamp in lamps), notes)
            if lamps[0].shape or not facts.get("older"):
                return meaning
            unsure = unsure or meaning
        first_bases = first_bases or bases or ()
    return unsure or Meaning((), first_bases, (), _nothing_fits(facts, known, first_bases))


def _surest(lamps: tuple[Lamp, ...], facts: Facts, shapes: tuple[LampShape, ...]) -> tuple[Lamp, ...]:
    """Return the lamps that are known to have what is stated, before those of which it is not known."""
    sure = tuple(lamp for lamp in lamps if (not shapes or lamp.shape) and _has_sizes(lamp, facts))
    return sure or lamps


def _has_sizes(lamp: Lamp, facts: Facts) -> bool:
    has_length = lamp.length_mm is not None or "length_tolerance_mm" not in facts
    return has_length and (lamp.tube_mm is not None or not facts.get("tube_mm"))


def _on(bases: tuple[Base, ...] | None, known: Known, facts: Facts | None = None) -> Iterator[Lamp]:
    """Yield the lamps on some bases; where no base is stated those of the watts or the number stated, or all."""
    if bases is None:
        yield from known.lamps_named(facts or {})
        return
    for base in bases:
        yield from known.catalogue.lamps_on[base.designation]


def _base_readings(facts: Facts, known: Known) -> Iterator[tuple[tuple[Base, ...] | None, str | None]]:
    cap = facts.get("base")
    if cap is None:
        yield None, None
        return
    yield known.bases_by("designation", cap.text), None
    if cap.key is None:
        yield known.bases_by("family", cap.text), None
        if cap.contacts is None or cap.text == cap.stem:
            yield known.bases_by("stem", cap.stem), NO_LETTER.format(code=cap.text)
    other = tables()["dropped_x"]["pairs"].get(cap.family)
    if facts.get("may_drop_x") and other:
        note = WITHOUT_X.format(code=cap.text, other=other)
        yield known.bases_by("family", other), note


def _shape_readings(facts: Facts) -> Iterator[tuple[tuple[LampShape, ...], str | None]]:
    shapes = facts.get("shapes", ())
    yield shapes, None
    if older := facts.get("older"):
        says = tables()["nema"]["older_says"].format(letters=facts.get("letters", ""), shapes=" or ".join(shapes))
        yield older, says


def is_older(facts: Facts, lamps: Sequence[Lamp]) -> bool:
    """Whether the shape letter of a generic code was read as older literature writes it: T or M for a triple."""
    older = facts.get("older", ())
    return bool(lamps) and all(lamp.shape in older for lamp in lamps)


def _agrees(lamp: Lamp, known: Known, facts: Facts, shapes: tuple[LampShape, ...]) -> bool:
    if "ids" in facts:
        return lamp.id in facts["ids"]
    return (
        facts.get("watts") in (None, lamp.watts.value)
        and kind_agrees(lamp, facts)
        and (lamp.kind == "led" or not facts.get("led"))
        and _shape_agrees(lamp, shapes)
        and _size_agrees(lamp, facts)
        and _base_agrees(known.bases[lamp.base], facts)
        and (not facts.get("electronic") or lamp.ballasts == ("electronic",))
        and _number_agrees(lamp, known, facts)
        and facts.get("legs") in (None, lamp.legs)
    )


def _shape_agrees(lamp: Lamp, shapes: tuple[LampShape, ...]) -> bool:
    """A lamp whose shape is not known may be of any shape but a plain tube's: its base would show that."""
    if lamp.shape is None:
        return not shapes or not set(shapes) <= _TUBES
    return not shapes or lamp.shape in shapes


def _base_agrees(base: Base, facts: Facts) -> bool:
    starter = base.starter.value if base.starter else None
    return (
        facts.get("pins") in (None, base.pins.value)
        and facts.get("key") in (None, base.designation.partition("-")[2])
        and facts.get("starter") in (None, starter)
        and (not facts.get("mains") or base.supply == "mains")
    )


def _size_agrees(lamp: Lamp, facts: Facts) -> bool:
    tube, length = facts.get("tube_mm"), facts.get("length_mm")
    if tube and lamp.tube_mm and not is_one_tube(lamp.tube_mm.value, tube):
        return False
    tolerance, own = facts.get("length_tolerance_mm"), lamp.lengths_mm
    if not (length and tolerance and own):
        return True
    nominal = NOMINAL_OVER_MM if is_by_inches(lamp) else 0.0
    return own[0] - tolerance <= length <= own[1] + max(tolerance, nominal)


def _number_agrees(lamp: Lamp, known: Known, facts: Facts) -> bool:
    """Whether the number of a tube's code and its output suit a lamp: inches on single-pin and high-output ends."""
    if "inches" in facts and lamp.inches != facts["inches"]:
        return False
    number = facts.get("number")
    by_inches = is_by_inches(lamp)
    if number is not None and number not in numbers(lamp, known, facts):
        return False
    output = facts.get("output")
    if output and not by_inches:
        return output == thin_output(lamp)
    if by_inches and not lamp.output and facts.get("start") == "rapid":
        return False  # slimline starts at once
    is_any = output is None or (not output and "base" in facts)  # the base says it where the suffix does not
    return is_any or not by_inches or output == lamp.output


def thin_output(lamp: Lamp) -> str:
    """Return the class of a tube of 16 mm, or of a germicidal T8, by its watts, "he" or "ho"; "" of every other."""
    table = tables()["linear"]["thin_outputs"]
    if lamp.kind == "uv-c":
        return "ho" if lamp.shape == "linear" and lamp.watts.value in table["germicidal_t8_ho"] else ""
    if lamp.tube_mm is None or lamp.tube_mm.value >= THINNEST_T8_MM or lamp.shape not in ("linear", "circular"):
        return ""
    is_high = lamp.shape == "circular" or lamp.watts.value in table["ho"]
    return "ho" if is_high else "he" if lamp.watts.value in table["he"] else ""


def _in_order(bases: Iterable[Base]) -> tuple[Base, ...]:
    return tuple({base.designation: base for base in bases}.values())


def _nothing_fits(facts: Facts, known: Known, bases: tuple[Base, ...]) -> tuple[str, ...]:
    cap = facts.get("base")
    if cap and not bases:
        return (_unknown_base(cap, known),)
    watts = facts.get("watts")
    if cap and watts is not None:
        return (_apart(facts, cap, watts, bases, known),)
    return (NO_SUCH_LAMP.format(what=LOOK_INSTEAD),)


def _apart(facts: Facts, cap: Cap, watts: float, bases: tuple[Base, ...], known: Known) -> str:
    """Say that watts and base, or the letters before them, do not belong together, and what there is."""
    here = tuple(_on(bases, known))
    if same := {_in_words(lamp) for lamp in here if lamp.watts.value == watts}:
        there = " or ".join(sorted(same))
        return ONLY_AS.format(n=f"{watts:g}", code=cap.text, lamps=there)
    listed = ", ".join(f"{value:g}" for value in sorted({lamp.watts.value for lamp in here}))
    shapes = facts.get("shapes", ())
    known_on = [lamp.base for lamp in known.catalogue.lamps if lamp.watts.value == watts and lamp.shape in shapes]
    elsewhere = [base for base in dict.fromkeys(known_on) if known.bases[base].family == cap.family]
    said = APART_ELSEWHERE if elsewhere else APART
    return said.format(n=f"{watts:g}", code=cap.text, watts=listed, bases=" or ".join(elsewhere))


def _in_words(lamp: Lamp) -> str:
    kind = "" if lamp.kind == "fluorescent" else f" ({lamp.kind})"
    return f"{lamp.shape or ANOTHER_SHAPE}{kind}"


def _unknown_base(cap: Cap, known: Known) -> str:
    others = [base.designation for base in known.bases_by("family", cap.family)]
    if others and cap.key:
        return UNKNOWN_KEY.format(code=cap.text, bases=", ".join(others))
    return UNKNOWN_BASE.format(code=cap.text)
