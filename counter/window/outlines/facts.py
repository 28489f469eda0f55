"""What is known of one lamp type and its base as rows to show, and what differs between two: plain data, no Qt."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counter.language import figure, marked, tr
from counter.outline import length_words
from counter.window.outlines.cards import kind_words, shape_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.catalogue import Base, Catalogue, Figure, Lamp, Notches, Sourced, Word

CONFIDENCE_WORDS = {
    "confirmed": marked("seen here"),
    "published": marked("published"),
    "reproduced": marked("reprinted"),
    "practice": marked("practice"),
    "memory-high": marked("memory"),
    "memory-medium": marked("memory"),
    "memory-low": marked("not sure"),
}
NOTCH_WORDS = {
    "none": marked("no notch"),
    "one-large": marked("one large"),
    "two-large": marked("two large"),
    "small-centre": marked("one small, middle"),
    "small-left": marked("one small, left"),
    "small-right": marked("one small, right"),
    "two-small": marked("two small"),
}
NOT_KNOWN = marked("not known")
MET_WORDS = {
    "daily": marked("daily"),
    "weekly": marked("weekly"),
    "seldom": marked("seldom"),
    "never": marked("hardly ever"),
}
# What stands in the catalogue as one word for programs.
VALUE_WORDS = {
    "external": marked("not in the lamp"),
    "internal": marked("built into the base"),
    "integral": marked("ballast built in too"),
    "none": marked("none needed"),
}


def confidence_words(confidence: str) -> str:
    """Return how sure a value is in a word; what is no degree of ours stays as it is."""
    return tr(CONFIDENCE_WORDS.get(confidence, confidence))


FACE_PARTS = frozenset({"pins", "pin_spacing", "notch"})
SIDE_PARTS = frozenset({"legs", "length", "tube"})


@dataclass(frozen=True, slots=True)
class Fact:
    """One row: what, value, how sure, where from; `part` names the part of the drawing it speaks of."""

    what: str
    value: str
    confidence: str
    source: str
    part: str = ""
    address: tuple[str, str, str] | None = None  # kind, of, part of the value, where the shop may confirm it


def facts_of(catalogue: Catalogue, lamp: Lamp, units: str = "mm") -> tuple[Fact, ...]:
    """Return the rows of the detail pane for one lamp type."""
    base = catalogue.base_of(lamp)
    pins = f"{base.pins.value:g}"
    if base.mount == "two-ends":
        pins = tr("{pins} at each end").format(pins=pins)
    rows = [
        _row(catalogue, tr("Pins"), pins, base.pins, "pins"),
        _length_row(catalogue, tr("Pin spacing"), base.pin_spacing_mm, units, "pin_spacing"),
        _key_row(catalogue, base),
        _word_row(catalogue, tr("Starter"), base.starter),
        _row(catalogue, tr("Glass"), _glass(lamp), lamp.glass, "legs"),
        _length_row(catalogue, tr("Length"), lamp.length_mm, units, "length", lamp.length_also_mm),
        _length_row(catalogue, tr("Tube"), lamp.tube_mm, units, "tube"),
        _current_row(catalogue, lamp),
        _row(catalogue, tr("Ballast"), _ballast_words(lamp), lamp.ballasts_from),
        _row(catalogue, tr("Starts by"), _or(lamp.starts), lamp.starts_from) if lamp.starts else None,
        _row(catalogue, tr("In place of"), _stands_in_words(catalogue, lamp), lamp.stands_in_from)
        if lamp.is_saver
        else None,
        _row(catalogue, tr("Made for"), _or(lamp.purposes), lamp.purposes_from) if lamp.purposes else None,
        _row(catalogue, tr("How often"), tr(MET_WORDS[lamp.met.value]), lamp.met) if lamp.met is not None else None,
    ]
    return tuple(_addressed(lamp, row) for row in rows if row is not None)


def shown_in(facts: Iterable[Fact], parts: frozenset[str]) -> str:
    """Return in words what a drawing of these parts shows."""
    return "; ".join(f"{fact.what}: {fact.value}" for fact in facts if fact.part in parts)


def _addressed(lamp: Lamp, fact: Fact) -> Fact:
    """Say under which address the shop can confirm the fact, where one look or one measurement can."""
    on_hf = lamp.hf is not None and lamp.hf.current_a is not None
    places = {
        "pin_spacing": ("base", lamp.base, "pin_spacing_mm"),
        "notch": ("base", lamp.base, "face.notches"),
        "length": ("lamp", lamp.id, "length_mm"),
        "tube": ("lamp", lamp.id, "tube_mm"),
        "current": ("lamp", lamp.id, "hf.current_a" if on_hf else "mains.current_a"),
    }
    return replace(fact, address=places.get(fact.part))


def _glass(lamp: Lamp) -> str:
    shape = shape_words(lamp.shape)
    if lamp.glass is None:
        return shape
    return tr("{shape}, {glass}").format(shape=shape, glass=tr(lamp.glass.value))


def _row(catalogue: Catalogue, what: str, value: str, sourced: Sourced | None, part: str = "") -> Fact:
    if sourced is None:
        return Fact(what, value, "", "", part)
    title = tr(catalogue.source_by_key[sourced.source].title)
    note = f"{tr(sourced.note).rstrip('.')}. " if sourced.note else ""
    return Fact(what, value, confidence_words(sourced.confidence), f"{note}{title}", part)


def _length_row(
    catalogue: Catalogue, what: str, figure: Figure | None, units: str, part: str, also: Figure | None = None
) -> Fact | None:
    if figure is None:
        return Fact(what, tr(NOT_KNOWN), "", "", part) if part == "length" else None
    about = "≈ " if figure.is_unsure else ""
    words = length_words(figure.value, units)
    if also is not None:  # two markets, two lengths
        words = _or((words, length_words(also.value, units)))
    return _row(catalogue, what, about + words, figure, part)


def _word_row(catalogue: Catalogue, what: str, word: Word | None) -> Fact | None:
    return None if word is None else _row(catalogue, what, tr(VALUE_WORDS.get(word.value, word.value)), word)


def _key_row(catalogue: Catalogue, base: Base) -> Fact | None:
    if base.face.notches is None:
        return Fact(tr("Key"), tr("place not known"), "", "", "notch") if base.family_notches else None
    return _row(catalogue, tr("Key"), tr(NOTCH_WORDS[look_of(base.face.notches)]), base.face.notches, "notch")


def look_of(notches: Notches) -> str:
    """Return the notch look of a face."""
    from counter.catalogue import notch_look  # pydantic comes with it; the first paint must not wait for that

    return notch_look(notches.at)


def _current_row(catalogue: Catalogue, lamp: Lamp) -> Fact | None:
    for circuit, words in ((lamp.hf, "electronic"), (lamp.mains, "magnetic")):
        if circuit is not None and circuit.current_a is not None:
            current = f"{figure(circuit.current_a.value, '.3g')}\N{THIN SPACE}A"
            value = tr("{current}, {ballast}").format(current=current, ballast=tr(words))
            return _row(catalogue, tr("Current"), value, circuit.current_a, "current")
    return None


def _stands_in_words(catalogue: Catalogue, lamp: Lamp) -> str:
    full = (catalogue.lamp_by_id[name].watts.value for name in lamp.stands_in_for)
    return _or(f"{figure(watts)}\N{THIN SPACE}W" for watts in full)


def _ballast_words(lamp: Lamp) -> str:
    if lamp.ballasts == ("none",):
        return tr("none: mains on the pins")
    return _or(lamp.ballasts)


def _or(words: Iterable[str]) -> str:
    """Return words of which any may be meant; those of the catalogue are translated among the cautions."""
    return tr(" or ").join(map(tr, words))


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing in which two lamp types differ."""

    what: str
    here: str
    there: str
    part: str


def differences(catalogue: Catalogue, here: Lamp, there: Lamp, units: str = "mm") -> tuple[Difference, ...]:
    """Return what differs between two lamp types, kind and watts first."""
    found = []
    if here.kind != there.kind:
        found.append(Difference(tr("Light"), _kind(here), _kind(there), ""))
    if here.watts.value != there.watts.value:
        found.append(Difference(tr("Watts"), _watts(here), _watts(there), ""))
    others = {fact.what: fact for fact in facts_of(catalogue, there, units)}
    for fact in facts_of(catalogue, here, units):
        other = others.pop(fact.what, None)
        value = other.value if other is not None else tr(NOT_KNOWN)
        if value != fact.value:
            found.append(Difference(fact.what, fact.value, value, fact.part))
    found += [Difference(fact.what, tr(NOT_KNOWN), fact.value, fact.part) for fact in others.values()]
    return tuple(found)


def _kind(lamp: Lamp) -> str:
    return kind_words(lamp.kind) or tr("lighting")


def _watts(lamp: Lamp) -> str:
    return f"{figure(lamp.watts.value)}\N{THIN SPACE}W"


def lamp_title(lamp: Lamp) -> str:
    """Return a lamp type as a heading: `26 W · 4 legs`; the kind before the shape, lest it be what is cut."""
    return " · ".join(filter(None, (_watts(lamp), kind_words(lamp.kind), shape_words(lamp.shape))))
