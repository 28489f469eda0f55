"""What the law says of selling a lamp, by place and day: resources/law.json, and what the shop added to it."""

from __future__ import annotations

from datetime import date  # pydantic needs the class itself
from types import MappingProxyType
from typing import TYPE_CHECKING

from pydantic import Field

from counter.catalogue import EVERYWHERE, Confidence, LampClass, LawRow, Model, Place, law_file, shipped_law
from counter.fit._facts import Finding
from counter.fit._texts import answered, caution
from counter.language import day, tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from counter.catalogue import Catalogue, Lamp
    from counter.fit._models import Caution

# The diameters at which the RoHS entries 2(a)(1) to 2(a)(4) divide linear lamps; above the last one is T12.
LINEAR_UP_TO_MM: tuple[tuple[float, LampClass], ...] = ((9, "linear-t2"), (17, "linear-t5"), (28, "linear-t8"))
THIN_MM = 17.0  # the line that RoHS Annex III draws between tube diameters
NEAR_MM = 30.0  # a law's feet and a tube's millimetres: nearer than two nominal lengths ever are
NOTHING_TOLD: Mapping[str, bool] = MappingProxyType({})


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
    who: str | None = Field(None, description="who in the shop read it; None: it is shipped")
    place_name: str = Field("", description="empty for what counts everywhere")
    check: str
    row: LawRow = Field(exclude=True, description="in the program's own words, which keys of answers are made of")


def places(catalogue: Catalogue) -> tuple[Place, ...]:
    """Return the places that are known, shipped ones first, by their ids and names."""
    return tuple(Place(id=one.id, name=tr(one.name)) for one in _places(catalogue))


def _places(catalogue: Catalogue) -> tuple[Place, ...]:
    """Return the same in the program's own words."""
    own = catalogue.own_law
    return (*shipped_law().places, *(own.places if own else ()))


def _rows(catalogue: Catalogue) -> tuple[LawRow, ...]:
    own = catalogue.own_law
    return (*shipped_law().law, *(own.law if own else ()))


def law(catalogue: Catalogue, place: str | None, on: date | None, lamp: Lamp | None) -> tuple[LawNote, ...]:
    """Return what the table holds for a place and what the shop added, the convention that counts everywhere last.

    Without a lamp all classes are listed. A place that the table does not know has no notes, and neither does a
    lamp whose class it does not know: that is no permission.
    """
    names = {known.id: known.name for known in _places(catalogue)}
    if place is None or place not in names:
        return ()
    wanted = None if lamp is None else lamp_class(lamp)
    if lamp is not None and wanted is None:
        return ()
    rows = (row for row in _for_place(catalogue, place) if lamp is None or _is_of_length(row, lamp))
    return tuple(_note(row, one, on, names) for row in rows for one in row.classes if wanted in (None, one))


def _is_of_length(row: LawRow, lamp: Lamp) -> bool:
    """Whether a row on tubes of some lengths speaks of this lamp; one whose length is not known may be meant."""
    own = lamp.lengths_mm
    if not row.lengths_mm or own is None:
        return True
    return any(own[0] - NEAR_MM <= length <= own[1] + NEAR_MM for length in row.lengths_mm)


def _for_place(catalogue: Catalogue, place: str) -> Iterator[LawRow]:
    yield from (row for row in _rows(catalogue) if row.place == place)
    yield from (row for row in _rows(catalogue) if row.place == EVERYWHERE)


def _note(row: LawRow, lamp_class: LampClass, on: date | None, names: Mapping[str, str]) -> LawNote:
    has_ended = None
    if row.ends and on:
        has_ended = on > row.ends if row.last_day else on >= row.ends
    return LawNote(
        place=row.place,
        lamp_class=lamp_class,
        what=tr(row.what),
        ends=row.ends,
        has_ended=has_ended,
        says=_says(row, has_ended, names.get(row.place, "")),
        law=tr(row.law),
        note=tr(row.note) if row.note else row.note,
        source=row.source,
        confidence=row.confidence,
        read=row.read,
        who=row.who,
        place_name=names.get(row.place, ""),
        check=law_check(),
        row=row,
    )


def _says(row: LawRow, has_ended: bool | None, place: str) -> str:
    what = tr(row.what)
    where = tr(place) if place else tr("everywhere")
    what = tr("{what} ({place})").format(what=what[:1].upper() + what[1:], place=where)
    if row.ends is None:
        return f"{what}."
    if has_ended:
        told = tr("{what}: ended after {day}.") if row.last_day else tr("{what}: ended on {day}.")
    else:
        told = tr("{what}: allowed until {day}.") if row.last_day else tr("{what}: ends on {day}.")
    return told.format(what=what, day=day(row.ends))


def law_check() -> str:
    """Return the sentence that must stand beside every note."""
    check = law_file()["check"]
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
    own_day = f"{ended.ends.day} {ended.ends:%B %Y}"
    values = {"place": ended.place_name, "what": ended.row.what, "day": own_day, "law": ended.row.law}
    in_words = {"place": tr(ended.place_name), "what": ended.what, "day": day(ended.ends), "law": ended.law}
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
