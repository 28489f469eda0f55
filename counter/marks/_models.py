"""What reading a printed code answers with."""

from __future__ import annotations

from fnmatch import fnmatchcase
from typing import Literal

from pydantic import Field

from counter.catalogue import Kind, LampShape, Model

System = Literal[
    "nema",
    "ilcos",
    "ansi-linear",
    "ansi-germicidal",
    "base",
    "colour",
    "barcode",
    "house",
    "partial",
]


class ReadLamp(Model):
    """What a code says of a lamp; what it does not say is None.

    `base` is what the code prints ("G24q"), `bases` the full designations it can mean ("G24q-3"). Pins, legs,
    shape, watts and kind are filled in too where all lamp types that the code can mean agree on them.
    """

    kind: Kind | None = None
    legs: int | None = None
    shape: LampShape | None = None
    watts: float | None = None
    base: str | None = None
    bases: tuple[str, ...] = ()
    cct_k: int | None = None
    cri_min: int | None = None
    tube_mm: float | None = None
    length_mm: float | None = None
    pins: int | None = None


class Span(Model):
    """One part of the typed text, `text == input[start:end]`, and what it means in plain words."""

    start: int
    end: int
    text: str
    means: str
    part: str
    assumed: str | None = Field(None, description="what this part was taken to be, where it is not as typed")
    choices: tuple[str, ...] = Field((), description="what this part can be, most probable first")


class Reading(Model):
    """One way to read the marks; probabilities of one text's readings sum to 1 or less."""

    probability: float
    system: System
    canonical: str
    lamp: ReadLamp
    lamps: tuple[str, ...] = Field((), description="ids of the lamp types it can mean; empty: none is known")
    spans: tuple[Span, ...] = ()
    assumptions: tuple[str, ...] = ()
    grammar: str | None = Field(None, description='finer than the system: "lbs" or "shorthand" where partial')
    looks: dict[str, str | float] = Field(
        default_factory=dict, description="the looks this reading claims, by look key, as the catalogue's values"
    )

    @property
    def read_cct_k(self) -> int | None:
        """The colour in kelvins that can be read; None where worn signs leave more than one."""
        worn = (span for span in self.spans if span.part == "colour" and span.assumed is not None)
        return None if any(_fits_several(span) for span in worn) else self.lamp.cct_k


def _fits_several(span: Span) -> bool:
    """Whether more than one of its choices stands to what can be read of a part: 40 and 41 to "4?"."""
    return sum(fnmatchcase(choice, span.text.upper()) for choice in span.choices) > 1


class MarkEvidence(Model):
    """All readings of one text, best first, and how well each lamp type explains the text.

    `likelihood` maps lamp ids to P(text | lamp), scaled so that the best is 1; a lamp that is not named has
    `floor`. An empty mapping says that the text tells nothing of the lamp.
    """

    text: str
    readings: tuple[Reading, ...] = ()
    problems: tuple[str, ...] = ()
    unread: tuple[str, ...] = Field(
        (), description="words that the best reading leaves over, or states against itself"
    )
    makers: tuple[str, ...] = Field(
        (), description="those of `unread` that can be letters of a maker's own, which the shop may give a meaning"
    )
    is_split: bool = Field(False, description="the best reading states one thing twice, with two values")
    unlisted: str = Field("", description="the text, where all of it can be read as it stands and no lamp is like it")
    likelihood: dict[str, float] = Field(default_factory=dict)
    floor: float = 1.0
