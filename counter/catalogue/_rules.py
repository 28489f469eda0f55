"""What must hold across a catalogue beyond the type of each field: names, sources, looks."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any, get_args

from counter.catalogue._models import LampShape
from counter.catalogue._problems import Finding, shown
from counter.catalogue._rules_base import WORDS, base_rules
from counter.catalogue._rules_lamp import AIR_C, DIMS, LEGS, LENGTH_MM, TUBE_MM, lamp_rules
from counter.language import figure, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue._models import Catalogue, Look
    from counter.catalogue._parts import Parts
    from counter.catalogue._problems import Loc

NO_WORK = frozenset({"memory", "practice", "inferred", "shop"})  # kinds of source that are nothing to read
KINDS_FOR = {
    "practice": frozenset({"practice"}),
    "confirmed": frozenset({"shop"}),
    "memory-high": frozenset({"memory", "inferred"}),
    "memory-medium": frozenset({"memory", "inferred"}),
    "memory-low": frozenset({"memory", "inferred"}),
}


def findings_in(parts: Parts) -> Iterator[Finding]:
    """Yield everything that breaks a rule of ours in the sound entries of a file."""
    yield from _unique(parts)
    yield from _sourced(parts, parts.data, ())
    for index, base in parts.bases:
        yield from base_rules(base, ("bases", index), parts)
    for index, lamp in parts.lamps:
        yield from lamp_rules(lamp, ("lamps", index), parts)
    for index, look in parts.looks:
        if index >= 0:
            yield from _look(look, ("looks", index))
            yield from _moot(look, ("looks", index), parts)
    yield from _legs_by_shape(parts)


def _unique(parts: Parts) -> Iterator[Finding]:
    for section, key in (("sources", "key"), ("bases", "designation"), ("lamps", "id"), ("looks", "key")):
        entries = parts.data.get(section)
        names = [e.get(key) if isinstance(e, dict) else None for e in entries] if isinstance(entries, list) else []
        seen: set[str] = set()
        for index, name in enumerate(names):
            if isinstance(name, str) and name in seen:
                yield Finding(
                    (section, index, key),
                    tr("{name} is there already").format(name=shown(name)),
                    tr("Give each its own name."),
                )
            elif isinstance(name, str):
                seen.add(name)


def _sourced(parts: Parts, value: Any, loc: Loc) -> Iterator[Finding]:
    """Yield every source that does not exist or does not go with its confidence, wherever it stands."""
    if isinstance(value, dict):
        source, confidence = value.get("source"), value.get("confidence")
        if isinstance(source, str) and isinstance(confidence, str):
            yield from _source(parts, source, confidence, loc)
        for key, inner in value.items():
            yield from _sourced(parts, inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _sourced(parts, inner, (*loc, index))


def _source(parts: Parts, source: str, confidence: str, loc: Loc) -> Iterator[Finding]:
    kind = parts.source_kinds.get(source)
    if confidence == "confirmed" and not parts.is_shop:
        way_out = tr("Say how it is known; confirmations belong in shop.json.")
        yield Finding((*loc, "confidence"), tr("only the shop's own layer can confirm"), way_out)
    elif kind is None:
        way_out = tr("Add it to sources, or name one that is there.")
        yield Finding((*loc, "source"), tr("there is no source {source}").format(source=shown(source)), way_out)
    elif kind != "?" and kind not in KINDS_FOR.get(confidence, {kind} - NO_WORK):
        what = tr("{confidence} does not go with the source {source}").format(
            confidence=shown(confidence), source=shown(source)
        )
        yield Finding((*loc, "confidence"), what, tr("Name the work it was read in, or lower the confidence."))


def _look(look: Look, loc: Loc) -> Iterator[Finding]:
    if look.is_measured == bool(look.values):
        what = tr("a look is either measured (tool_sd) or has values")
        yield Finding(loc, what, tr("Keep the one that is meant."))
    if look.low is not None and look.high is not None and look.low >= look.high:
        yield Finding(
            (*loc, "low"),
            tr("{low} is not below high, {high}").format(low=figure(look.low), high=figure(look.high)),
            tr("Correct one of the two."),
        )
    for name, count in Counter(value.value for value in look.values).items():
        if count > 1:
            yield Finding(
                (*loc, "values"),
                tr("the answer {name} is there {count} times").format(name=shown(name), count=count),
                tr("Keep one."),
            )
    yield from _answers(look, loc)


def _moot(look: Look, loc: Loc, parts: Parts) -> Iterator[Finding]:
    for key, given in look.moot.items():
        answers = parts.answers(key)
        if answers is None:
            yield Finding(
                (*loc, "moot", key),
                tr("there is no look {key} with answers").format(key=shown(key)),
                tr("Correct or remove it."),
            )
        for place, answer in enumerate(given if answers is not None else ()):
            if answer not in (answers or ()):
                what = tr("{answer} is no answer to the look {key}").format(answer=shown(answer), key=key)
                yield Finding(
                    (*loc, "moot", key, place),
                    what,
                    tr("Write one of {words}.").format(words=", ".join(sorted(answers or ()))),
                )


def _answers(look: Look, loc: Loc) -> Iterator[Finding]:
    names = {value.value for value in look.values}
    for index, value in enumerate(look.values):
        here = (*loc, "values", index)
        for other, weight in value.instead.items():
            if other not in names - {value.value}:
                what = tr("{other} is no other answer to this look").format(other=shown(other))
                yield Finding(
                    (*here, "instead", other),
                    what,
                    tr("Write one of {words}.").format(words=", ".join(sorted(names))),
                )
            if weight <= 0:
                yield Finding(
                    (*here, "instead", other),
                    tr("a weight of {weight}").format(weight=figure(weight)),
                    tr("Write one above 0, or drop it."),
                )
        for place, other in enumerate(value.also):
            if other not in names - {value.value}:
                what = tr("{other} is no other answer to this look").format(other=shown(other))
                yield Finding(
                    (*here, "also", place), what, tr("Write one of {words}.").format(words=", ".join(sorted(names)))
                )


def _legs_by_shape(parts: Parts) -> Iterator[Finding]:
    answers = parts.answers("legs")
    for shape, legs in parts.legs_by_shape.items() if not parts.is_shop else ():
        if shape not in (*get_args(LampShape), "none"):
            yield Finding(
                ("legs_by_shape", shape),
                tr("there is no shape {shape}").format(shape=shown(shape)),
                tr("Correct or remove it."),
            )
        if answers is not None and legs not in answers:
            what = tr("{answer} is no answer to the look {key}").format(answer=shown(legs), key="legs")
            yield Finding(
                ("legs_by_shape", shape), what, tr("Write one of {words}.").format(words=", ".join(sorted(answers)))
            )


def allowed_words(catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    """Return the words that some fields of bases and lamp types may hold, by the field's name."""
    looks = catalogue.look_by_key
    answers = {
        name: tuple(value.value for value in looks[name].values) for name in ("glass", "notch") if name in looks
    }
    return {
        **WORDS,
        "dims": DIMS,
        "seldom": ("yes", "no"),
        "glass": answers.get("glass", ()),
        "family_notches": answers.get("notch", ()),
    }


def ranges() -> dict[str, tuple[float, float]]:
    """Return the least and the most of some fields, in the unit of their names."""
    return {"length_mm": LENGTH_MM, "length_also_mm": LENGTH_MM, "tube_mm": TUBE_MM, **AIR_C}


def legs_of(shape: object) -> int | None:
    """Return how many straight legs a lamp of this shape has, None where they are not counted."""
    return LEGS.get(shape) if isinstance(shape, str) else None
