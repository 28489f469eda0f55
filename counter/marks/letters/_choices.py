"""What letters can be told to mean at the counter, in the order of a menu."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import kept_by_language, marked, tr
from counter.marks._in_words import spoken
from counter.marks._letters import LettersMean, letters_say
from counter.marks._sentences import PINS
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue

ORDINARY = marked("Nothing special: an ordinary lamp of this maker")


class Choice(NamedTuple):
    """One thing letters can mean, in words; `group` parts forms, pins, kinds and colours."""

    words: str
    means: LettersMean
    group: str


def choices(catalogue: Catalogue, lamp_id: str | None) -> tuple[Choice, ...]:
    """Return what letters can be told to mean; with a lamp named, first of all what that lamp is."""
    return (*_named(catalogue, lamp_id), *_plain())


def _named(catalogue: Catalogue, lamp_id: str | None) -> Iterator[Choice]:
    if lamp_id is None:
        return
    lamp = catalogue.lamp_by_id[lamp_id]
    base = catalogue.base_by_name[lamp.base]
    kind = lamp.kind if lamp.kind != "fluorescent" else None
    means = LettersMean(shape=lamp.shape, base=base.family, pins=int(base.pins.value), kind=kind)
    yield Choice(tr("As the lamp named: {means}").format(means=spoken(letters_say(means))), means, "named")


@kept_by_language(2)
def _plain() -> tuple[Choice, ...]:
    return tuple(_made())


def _made() -> Iterator[Choice]:
    yield Choice(tr(ORDINARY), LettersMean(), "nothing")
    for shape, row in tables()["shapes"].items():
        yield Choice(spoken(str(row["means"])), LettersMean.model_validate({"shape": shape}), "form")
    for pins in (2, 4):
        yield Choice(spoken(PINS.format(n=pins)), LettersMean(pins=pins), "pins")
    for kind in ("uv-c", "uv-a", "led"):
        means = LettersMean.model_validate({"kind": kind})
        yield Choice(spoken(letters_say(means)), means, "kind")
    for cct_k in tables()["slots"]["kelvins"]:
        means = LettersMean(cct_k=cct_k)
        yield Choice(spoken(letters_say(means)), means, "colour")
