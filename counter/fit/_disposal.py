"""Broken lamps and used ones: resources/disposal.json, read once, on first use."""

from __future__ import annotations

import json
from datetime import date  # pydantic needs the class itself
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, cast

from pydantic import Field

from counter import paths
from counter.catalogue import Confidence, Model
from counter.fit._facts import Finding
from counter.fit._texts import caution
from counter.language import kept_by_language, tr

if TYPE_CHECKING:
    from counter.fit._models import Caution


class BrokenStep(Model):
    """One step after a lamp broke, in the order they are taken."""

    when: Literal["before", "during", "after"]
    step: str
    carpet: bool
    source: str
    confidence: Confidence


class DisposalNote(Model):
    """One thing to know of used lamps in a place."""

    places: tuple[str, ...]
    title: str
    text: str
    source: str
    confidence: Confidence
    read: date | None = Field(None, description="the day the text it rests on was last read; absent: from memory")


@cache
def _file() -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads((paths.resources() / "disposal.json").read_text(encoding="utf-8")))


@kept_by_language(2)
def broken_steps(carpet: bool = True) -> tuple[BrokenStep, ...]:
    """Return what to do when a lamp broke; `carpet` False leaves out the steps for carpets."""
    steps = (BrokenStep.model_validate(_told(row, "step")) for row in _file()["broken"])
    return tuple(step for step in steps if carpet or not step.carpet)


def broken_caution() -> Caution:
    """Return the caution that stands while a lamp lies broken."""
    return caution(Finding("broken"))


@kept_by_language(64)
def disposal(place: str | None) -> tuple[DisposalNote, ...]:
    """Return what counts everywhere, then what counts in a place ("us-ca" is in "us")."""
    areas = {"any"} if place is None else {"any", place, place.partition("-")[0]}
    notes = (DisposalNote.model_validate(_told(row, "title", "text")) for row in _file()["notes"])
    return tuple(
        sorted((note for note in notes if areas & set(note.places)), key=lambda note: "any" not in note.places)
    )


def disposal_check() -> str:
    """Return the sentence that must stand beside every note."""
    check = _file()["check"]
    return tr(check)


def _told(row: dict[str, Any], *names: str) -> dict[str, Any]:
    """Return a row of the table with these of its texts in the language now spoken."""
    return {**row, **{name: tr(row[name]) for name in names}}
