"""What the law says of selling a lamp, by place and day: resources/law.json, read once, on first use."""

from __future__ import annotations

import json
from datetime import date  # pydantic needs the class itself
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Literal, cast

from pydantic import Field

from counter import paths
from counter.catalogue import Confidence, Model
from counter.fit._facts import Finding
from counter.fit._texts import answered, caution
from counter.language import day, kept_by_language, tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from counter.catalogue import Lamp
    from counter.fit._models import Caution

LampClass = Literal[
    "pin-base",  # compact, single-capped, ballast outside
    "integrated",  # ballast inside, on a pin base
    "square",
    "circular-thin",
    "circular-thick",
    "u-bent",
    "linear-t2",
    "linear-t5",
    "linear-t8",
    "linear-t12",
    "uv-c",
    "uv-a",
    "uv-b",
]
# The diameters at which the RoHS entries 2(a)(1) to 2(a)(4) divide linear lamps; above the last one is T12.
LINEAR_UP_TO_MM: tuple[tuple[float, LampClass], ...] = ((9, "linear-t2"), (17, "linear-t5"), (28, "linear-t8"))
THIN_MM = 17.0  # the line that RoHS Annex III draws between tube diameters
NEAR_MM = 30.0  # a law's feet and a tube's millimetres: nearer than two nominal lengths ever are
EVERYWHERE = "any"
NOTHING_TOLD: Mapping[str, bool] = MappingProxyType({})


class Place(Model):
    """A place that a shop can choose in its settings."""

    id: str
    name: str


class LawRow(Model):
    """One row of the table; `ends` is the first day without, or the last day with it where `last_day` says so."""

    place: str
    classes: tuple[LampClass, ...]
    ends: date | None
    what: str
    law: str
    source: str
    confidence: Confidence
    note: str | None = None
    last_day: bool = False
    read: date | None = Field(
        None, description="the day its text, or the report named, was last read; absent: not noted"
    )
    lengths_mm: tuple[float, ...] = Field((), description="only tubes of about these lengths; empty: of any")


class LawNote(Model):
    """One law on one lamp: what ends and when, and whether it already has on the day asked about."""

    place: str
    lamp_class: LampClass
    what: str
    ends: date | None
    has_ended: bool | None = Field(None, description="None: no date, or no day was asked about")
    says: str
    law: str
    note: str | None
    source: str
    confidence: Confidence
    read: date | None = Field(None, description="the day the text, or the report named, was last read")
    check: str
    row: LawRow = Field(exclude=True, description="in the program's own words, which keys of answers are made of")


@cache
def _file() -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads((paths.resources() / "law.json").read_text(encoding="utf-8")))


@kept_by_language(2)
def places() -> tuple[Place, ...]:
    """Return the places that the table knows, by their ids and names."""
    known = (Place.model_validate(row) for row in _file()["places"])
    return tuple(Place(id=place.id, name=tr(place.name)) for place in known)


@cache
def _rows() -> tuple[LawRow, ...]:
    return tuple(LawRow.model_validate(row) for row in _file()["rows"])


def law(place: str | None, on: date | None, lamp: Lamp | None) -> tuple[LawNote, ...]:
    """Return what the table holds for a place, with the convention that counts everywhere last.

    Without a lamp all classes are listed. A place that the table does not know has no notes, and neither does a
    lamp whose class it does not know: that is no permission.
    """
    if place not in {known.id for known in places()}:
        return ()
    wanted = None if lamp is None else lamp_class(lamp)
    if lamp is not None and wanted is None:
        return ()
    rows = (row for row in _for_place(place) if lamp is None or _is_of_length(row, lamp))
    return tuple(_note(row, one, on) for row in rows for one in row.classes if wanted in (None, one))


def _is_of_length(row: LawRow, lamp: Lamp) -> bool:
    """Whether a row on tubes of some lengths speaks of this lamp; one whose length is not known may be meant."""
    own = lamp.lengths_mm
    if not row.lengths_mm or own is None:
        return True
    return any(own[0] - NEAR_MM <= length <= own[1] + NEAR_MM for length in row.lengths_mm)


def _for_place(place: str) -> Iterator[LawRow]:
    yield from (row for row in _rows() if row.place == place)
    yield from (row for row in _rows() if row.place == EVERYWHERE)


def _note(row: LawRow, lamp_class: LampClass, on: date | None) -> LawNote:
    has_ended = None
    if row.ends and on:
        has_ended = on > row.ends if row.last_day else on >= row.ends
    return LawNote(
        place=row.place,
        lamp_class=lamp_class,
        what=tr(row.what),
        ends=row.ends,
        has_ended=has_ended,
        says=_says(row, has_ended),
        law=tr(row.law),
        note=tr(row.note) if row.note else row.note,
        source=row.source,
        confidence=row.confidence,
        read=row.read,
        check=law_check(),
        row=row,
    )


def _says(row: LawRow, has_ended: bool | None) -> str:
    what = tr(row.what)
    what = what[:1].upper() + what[1:]
    if row.ends is None:
        return f"{what}."
    if has_ended:
        told = tr("{what}: ended after {day}.") if row.last_day else tr("{what}: ended on {day}.")
    else:
        told = tr("{what}: allowed until {day}.") if row.last_day else tr("{what}: ends on {day}.")
    return told.format(what=what, day=day(row.ends))


def law_check() -> str:
    """Return the sentence that must stand beside every note."""
    check = _file()["check"]
    return tr(check)


def law_caution(
    notes: Iterable[LawNote], lamp: Lamp | None = None, told: Mapping[str, bool] = NOTHING_TOLD
) -> Caution | None:
    """Return the caution that a place has ended the sale of a lamp, with the source and confidence of that law.

    What counts everywhere ends making and importing, not selling: it has no caution. `told` holds answers given to
    cautions about `lamp`: somebody may have read in the current text that the sale is still allowed.
    """
    ended = next((note for note in notes if note.has_ended and note.ends and note.place != EVERYWHERE), None)
    if ended is None or ended.ends is None:
        return None
    place = next(known["name"] for known in _file()["places"] if known["id"] == ended.place)
    own_day = f"{ended.ends.day} {ended.ends:%B %Y}"
    values = {"place": place, "what": ended.row.what, "day": own_day, "law": ended.row.law}
    in_words = {"place": tr(place), "what": ended.what, "day": day(ended.ends), "law": ended.law}
    of_lamp = lamp.id if lamp is not None else ""
    finding = answered(Finding("law-ended", values, confidence=ended.confidence), of_lamp, told)
    return caution(finding, of_lamp, in_words).model_copy(update={"source": ended.source})


def lamp_class(lamp: Lamp) -> LampClass | None:
    """Return the class that the laws put a lamp in, or None where they name none that is sure."""
    if lamp.is_ultraviolet:
        return lamp.band or ("uv-c" if lamp.kind == "uv-c" else "uv-a")
    if lamp.kind != "fluorescent":
        return None
    if lamp.ballasts == ("none",):
        return "integrated"
    tube = lamp.tube_mm.value if lamp.tube_mm else None
    if lamp.shape == "linear":
        return _linear(tube)
    if lamp.shape == "circular":
        return None if tube is None else "circular-thin" if tube <= THIN_MM else "circular-thick"
    if lamp.shape == "square":
        return "square"
    return "u-bent" if lamp.shape == "u-bent" else "pin-base"


def _linear(tube_mm: float | None) -> LampClass | None:
    if tube_mm is None:
        return None
    return next((name for most, name in LINEAR_UP_TO_MM if tube_mm <= most), "linear-t12")
