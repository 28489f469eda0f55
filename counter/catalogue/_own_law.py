"""Places, law and disposal that a shop adds: for a place that is not shipped, or beside what is shipped for one.

A shop's row takes none of the shipped ones away. Each rests on a text, read on a day by somebody; where only a
summary was read it says so wherever it is shown.
"""

from __future__ import annotations

from datetime import date  # pydantic needs the class itself
from typing import TYPE_CHECKING, Any, Literal

from pydantic import Field

from counter.catalogue._law import DisposalNote, LampClass, LawRow, LawTable, Place, shipped_law
from counter.catalogue._models import Added, Confidence, Model
from counter.catalogue._own import M, last
from counter.catalogue._problems import Finding, shown
from counter.catalogue._validate import sound
from counter.language import figure, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

Text = Literal["text", "summary"]
READ_AS: dict[Text, Confidence] = {"text": "published", "summary": "reproduced"}
ONLY_A_SUMMARY = marked("Only a summary was read, not the text itself.")
SOURCE_KEY = "shop"
LONGEST_MM = 3000


class OwnPlace(Model):
    """A place that the shop added."""

    code: str = Field(
        max_length=20,
        pattern=r"^[a-z]{2,8}(-[a-z0-9]{1,8})*$",
        description=marked(
            "short name in small letters; us-tx lies in us, whose rules for used lamps count here too"
        ),
    )
    name: str = Field(min_length=1, max_length=60)
    added: Added | None = None


class OwnLaw(Model):
    """A law of selling lamps that somebody in the shop read."""

    place: str = Field(description=marked("short name of the place, as us or us-tx"))
    classes: tuple[LampClass, ...] = Field(min_length=1)
    what: str = Field(min_length=1, max_length=200, description=marked("what ends, as: sale of new lamps"))
    ends: date | None = Field(None, description=marked("the first day on which it is forbidden; left out: not known"))
    last_day: bool = Field(False, description=marked("yes: that day is the last on which it is allowed"))
    lengths_mm: tuple[float, ...] = Field(
        (), description=marked("only tubes of about these lengths; none: of any length")
    )
    law: str = Field(min_length=3, max_length=300, description=marked("the text it rests on: act, section, number"))
    read: date = Field(description=marked("the day on which it was read"))
    read_as: Text = Field(description=marked("the text itself, or a summary of it"))
    note: str | None = Field(None, max_length=300)
    added: Added | None = None

    def row(self) -> LawRow:
        """Return it as a row of the table."""
        note = [self.note] if self.note else []
        return LawRow(
            **{name: getattr(self, name) for name in ("place", "classes", "what", "ends", "last_day", "lengths_mm")},
            law=self.law,
            read=self.read,
            source=SOURCE_KEY,
            confidence=READ_AS[self.read_as],
            note=" ".join([*note, *([ONLY_A_SUMMARY] if self.read_as == "summary" else [])]) or None,
            who=self.added.who if self.added else None,
        )


class OwnDisposal(Model):
    """One thing to know of used lamps in a place, read by somebody in the shop."""

    place: str = Field(description=marked("short name of the place, as us or us-tx"))
    title: str = Field(min_length=1, max_length=60)
    text: str = Field(min_length=1, max_length=400)
    law: str = Field(
        min_length=3, max_length=300, description=marked("the text it rests on: act, section, page of an office")
    )
    read: date = Field(description=marked("the day on which it was read"))
    read_as: Text = Field(description=marked("the text itself, or a summary of it"))
    added: Added | None = None

    def row(self) -> DisposalNote:
        """Return it as a note of the table."""
        hedge = f" {ONLY_A_SUMMARY}" if self.read_as == "summary" else ""
        return DisposalNote(
            places=(self.place,),
            title=self.title,
            text=f"{self.text} ({self.law}){hedge}",
            source=SOURCE_KEY,
            confidence=READ_AS[self.read_as],
            read=self.read,
            who=self.added.who if self.added else None,
        )


def own_law(data: dict[str, Any], findings: list[Finding]) -> tuple[LawTable, list[Finding]]:
    """Return what of a layer's places, law and disposal can be used, and what is wrong with the rest."""
    places = sound(OwnPlace, data, "places", findings)
    law, disposal = sound(OwnLaw, data, "law", findings), sound(OwnDisposal, data, "disposal", findings)
    shipped = {one.id for one in shipped_law().places}
    known = shipped | {one.code for _, one in places}
    found = [*_shipped_already(places, shipped), *_nowhere("law", law, known), *_nowhere("disposal", disposal, known)]
    bad = {finding.loc[:2] for finding in found}
    made = (Place(id=one.code, name=one.name) for one in _good("places", places, bad))
    rows, notes = _good("law", law, bad), _good("disposal", disposal, bad)
    return LawTable(tuple(made), tuple(one.row() for one in rows), tuple(one.row() for one in notes)), found


def _good(section: str, entries: list[tuple[int, M]], bad: set[Any]) -> list[M]:
    return [one for at, one in last(section, entries) if (section, at) not in bad]


def _shipped_already(places: list[tuple[int, OwnPlace]], shipped: set[str]) -> Iterator[Finding]:
    for at, one in places:
        if one.code in shipped:
            way_out = tr("Add its law to the place that is there.")
            yield Finding(
                ("places", at, "code"), tr("{name} is shipped already").format(name=shown(one.code)), way_out
            )


def _nowhere(section: str, rows: list[tuple[int, Any]], known: set[str]) -> Iterator[Finding]:
    for at, one in rows:
        if one.place not in known:
            way_out = tr("Add the place first, or use one of those that are there.")
            yield Finding(
                (section, at, "place"), tr("there is no place {place}").format(place=shown(one.place)), way_out
            )
        for length_mm in getattr(one, "lengths_mm", ()):
            if not 0 < length_mm <= LONGEST_MM:
                yield Finding(
                    (section, at, "lengths_mm"),
                    tr("no tube is {length_mm} mm long").format(length_mm=figure(length_mm)),
                    tr("Write millimetres."),
                )
