"""Broken lamps and used ones: resources/disposal.json, and what the shop added to it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from counter.catalogue import EVERYWHERE, Confidence, DisposalNote, Model, disposal_file, shipped_law
from counter.fit._facts import Finding
from counter.fit._texts import caution
from counter.language import kept_by_language, tr

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.fit._models import Caution


class BrokenStep(Model):
    """One step after a lamp broke, in the order they are taken."""

    when: Literal["before", "during", "after"]
    step: str
    carpet: bool
    source: str
    confidence: Confidence


@kept_by_language(2)
def broken_steps(carpet: bool = True) -> tuple[BrokenStep, ...]:
    """Return what to do when a lamp broke; `carpet` False leaves out the steps for carpets."""
    steps = [BrokenStep.model_validate(row) for row in disposal_file()["broken"]]
    return tuple(one.model_copy(update={"step": tr(one.step)}) for one in steps if carpet or not one.carpet)


def broken_caution() -> Caution:
    """Return the caution that stands while a lamp lies broken."""
    return caution(Finding("broken"))


def disposal(catalogue: Catalogue, place: str | None) -> tuple[DisposalNote, ...]:
    """Return what counts everywhere, then what counts in a place ("us-ca" is in "us"), the shop's own last."""
    areas = {EVERYWHERE} if place is None else {EVERYWHERE, place, place.partition("-")[0]}
    own = catalogue.own_law
    notes = (*_shipped(), *(own.disposal if own else ()))
    return tuple(
        sorted((note for note in notes if areas & set(note.places)), key=lambda note: EVERYWHERE not in note.places)
    )


@kept_by_language(1)
def _shipped() -> tuple[DisposalNote, ...]:
    """Return the shipped notes in the language now spoken."""
    return tuple(
        note.model_copy(update={"title": tr(note.title), "text": tr(note.text)}) for note in shipped_law().disposal
    )


def disposal_check() -> str:
    """Return the sentence that must stand beside every note."""
    check = disposal_file()["check"]
    return tr(check)
