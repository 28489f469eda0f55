"""What is known of one lamp type and its base as rows to show, and what differs between two: plain data, no Qt."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counter.outline import length_words
from counter.window.outlines.cards import KIND_WORDS, SHAPE_WORDS

if TYPE_CHECKING:
    from counter.catalogue import Base, Catalogue, Figure, Lamp, Notches, Sourced, Word

CONFIDENCE_WORDS = {
    "confirmed": "seen here",
    "published": "published",
    "reproduced": "reproduced",
    "practice": "practice",
    "memory-high": "memory",
    "memory-medium": "memory",
    "memory-low": "unsure",
}
NOTCH_WORDS = {
    "none": "no notch",
    "one-large": "one large",
    "two-large": "two large",
    "small-centre": "one small, middle",
    "small-left": "one small, left",
    "small-right": "one small, right",
    "two-small": "two small",
}
NOT_KNOWN = "not known"
MET_WORDS = {"daily": "daily", "weekly": "weekly", "seldom": "seldom", "never": "hardly ever"}


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
    pins = f"{base.pins.value:g}" + (" at each end" if base.mount == "two-ends" else "")
    rows = [
        _row(catalogue, "Pins", pins, base.pins, "pins"),
        _length_row(catalogue, "Pin spacing", base.pin_spacing_mm, units, "pin_spacing"),
        _key_row(catalogue, base),
        _word_row(catalogue, "Starter", base.starter),
        _row(catalogue, "Glass", _glass(lamp), lamp.glass, "legs"),
        _length_row(catalogue, "Length", lamp.length_mm, units, "length", lamp.length_also_mm),
        _length_row(catalogue, "Tube", lamp.tube_mm, units, "tube"),
        _current_row(catalogue, lamp),
        _row(catalogue, "Ballast", _ballast_words(lamp), lamp.ballasts_from),
        _row(catalogue, "Starts by", " or ".join(lamp.starts), lamp.starts_from) if lamp.starts else None,
        _row(catalogue, "In place of", _stands_in_words(catalogue, lamp), lamp.stands_in_from)
        if lamp.is_saver
        else None,
        _row(catalogue, "Made for", " or ".join(lamp.purposes), lamp.purposes_from) if lamp.purposes else None,
        _row(catalogue, "Met", MET_WORDS[lamp.met.value], lamp.met) if lamp.met is not None else None,
    ]
    return tuple(_addressed(lamp, row) for row in rows if row is not None)


def _addressed(lamp: Lamp, fact: Fact) -> Fact:
    """Say under which address the shop can confirm the fact, where one look or one measurement can."""
    on_hf = lamp.hf is not None and lamp.hf.current_a is not None
    places = {
        "Pin spacing": ("base", lamp.base, "pin_spacing_mm"),
        "Key": ("base", lamp.base, "face.notches"),
        "Length": ("lamp", lamp.id, "length_mm"),
        "Tube": ("lamp", lamp.id, "tube_mm"),
        "Current": ("lamp", lamp.id, "hf.current_a" if on_hf else "mains.current_a"),
    }
    return replace(fact, address=places.get(fact.what))


def _glass(lamp: Lamp) -> str:
    shape = SHAPE_WORDS[lamp.shape]
    return f"{shape}, {lamp.glass.value}" if lamp.glass is not None else shape


def _row(catalogue: Catalogue, what: str, value: str, sourced: Sourced | None, part: str = "") -> Fact:
    if sourced is None:
        return Fact(what, value, "", "", part)
    title = catalogue.source_by_key[sourced.source].title
    note = f"{sourced.note.rstrip('.')}. " if sourced.note else ""
    return Fact(what, value, CONFIDENCE_WORDS[sourced.confidence], f"{note}{title}", part)


def _length_row(
    catalogue: Catalogue, what: str, figure: Figure | None, units: str, part: str, also: Figure | None = None
) -> Fact | None:
    if figure is None:
        return Fact(what, NOT_KNOWN, "", "", part) if what == "Length" else None
    about = "≈ " if figure.is_unsure else ""
    words = length_words(figure.value, units)
    if also is not None:  # two markets, two lengths
        words += f" or {length_words(also.value, units)}"
    return _row(catalogue, what, about + words, figure, part)


def _word_row(catalogue: Catalogue, what: str, word: Word | None) -> Fact | None:
    return None if word is None else _row(catalogue, what, word.value, word)


def _key_row(catalogue: Catalogue, base: Base) -> Fact | None:
    if base.face.notches is None:
        return Fact("Key", "place not known", "", "", "notch") if base.family_notches else None
    return _row(catalogue, "Key", NOTCH_WORDS[look_of(base.face.notches)], base.face.notches, "notch")


def look_of(notches: Notches) -> str:
    """Return the notch look of a face."""
    from counter.catalogue import notch_look  # pydantic comes with it; the first paint must not wait for that

    return notch_look(notches.at)


def _current_row(catalogue: Catalogue, lamp: Lamp) -> Fact | None:
    for circuit, words in ((lamp.hf, "electronic"), (lamp.mains, "magnetic")):
        if circuit is not None and circuit.current_a is not None:
            value = f"{circuit.current_a.value:.3g}\N{THIN SPACE}A, {words}"
            return _row(catalogue, "Current", value, circuit.current_a)
    return None


def _stands_in_words(catalogue: Catalogue, lamp: Lamp) -> str:
    full = (catalogue.lamp_by_id[name].watts.value for name in lamp.stands_in_for)
    return " or ".join(f"{watts:g}\N{THIN SPACE}W" for watts in full)


def _ballast_words(lamp: Lamp) -> str:
    if lamp.ballasts == ("none",):
        return "none: mains on the pins"
    return " or ".join(lamp.ballasts)


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
        found.append(Difference("Light", _kind(here), _kind(there), ""))
    if here.watts.value != there.watts.value:
        found.append(Difference("Watts", _watts(here), _watts(there), ""))
    others = {fact.what: fact for fact in facts_of(catalogue, there, units)}
    for fact in facts_of(catalogue, here, units):
        other = others.pop(fact.what, None)
        value = other.value if other is not None else NOT_KNOWN
        if value != fact.value:
            found.append(Difference(fact.what, fact.value, value, fact.part))
    found += [Difference(fact.what, NOT_KNOWN, fact.value, fact.part) for fact in others.values()]
    return tuple(found)


def _kind(lamp: Lamp) -> str:
    return KIND_WORDS.get(lamp.kind, "lighting")


def _watts(lamp: Lamp) -> str:
    return f"{lamp.watts.value:g}\N{THIN SPACE}W"


def lamp_title(lamp: Lamp) -> str:
    """Return a lamp type as a heading: `26 W · 4 legs`; the kind before the shape, lest it be what is cut."""
    kind = f" · {KIND_WORDS[lamp.kind]}" if lamp.kind in KIND_WORDS else ""
    return f"{_watts(lamp)}{kind} · {SHAPE_WORDS[lamp.shape]}"
