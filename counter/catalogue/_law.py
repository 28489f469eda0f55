"""Law and disposal by place: the models, and the shipped tables, read once on first use.

A shop adds places and rows of its own in its layer; they count beside the shipped ones and take none of them away.
"""

from __future__ import annotations

import json
from datetime import date  # pydantic needs the class itself
from functools import cache
from typing import Any, Literal, NamedTuple, cast

from pydantic import Field

from counter import paths
from counter.catalogue._models import Confidence, Model

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
EVERYWHERE = "any"


class Place(Model):
    """A place that a shop can choose in its settings; what counts in "us" counts in "us-ca" for used lamps too."""

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
    read: date | None = Field(None, description="the day its text, or the report named, was last read")
    who: str | None = Field(None, description="who in the shop read it; None: it is shipped")
    lengths_mm: tuple[float, ...] = Field((), description="only tubes of about these lengths; empty: of any")


class DisposalNote(Model):
    """One thing to know of used lamps in a place."""

    places: tuple[str, ...]
    title: str
    text: str
    source: str
    confidence: Confidence
    read: date | None = Field(None, description="the day the text it rests on was last read; absent: from memory")
    who: str | None = Field(None, description="who in the shop read it; None: it is shipped")


class LawTable(NamedTuple):
    """Places, their law and what to do with used lamps there."""

    places: tuple[Place, ...] = ()
    law: tuple[LawRow, ...] = ()
    disposal: tuple[DisposalNote, ...] = ()


@cache
def law_file() -> dict[str, Any]:
    """Return resources/law.json."""
    return cast("dict[str, Any]", json.loads((paths.resources() / "law.json").read_text(encoding="utf-8")))


@cache
def disposal_file() -> dict[str, Any]:
    """Return resources/disposal.json."""
    return cast("dict[str, Any]", json.loads((paths.resources() / "disposal.json").read_text(encoding="utf-8")))


@cache
def shipped_law() -> LawTable:
    """Return what is shipped."""
    return LawTable(
        tuple(Place.model_validate(row) for row in law_file()["places"]),
        tuple(LawRow.model_validate(row) for row in law_file()["rows"]),
        tuple(DisposalNote.model_validate(row) for row in disposal_file()["notes"]),
    )
