"""What a maker's own letters mean in this shop: taught by hand, or learned from the shop's own list."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from pydantic import Field

from counter.catalogue import Kind, LampShape, Model
from counter.marks._caps import take_cap
from counter.marks._lex import fold
from counter.marks._sentences import ABOUT, BASE_ALONE, LEGS, PINS
from counter.marks._tables import tables

if TYPE_CHECKING:
    from counter.marks._known import Known
    from counter.marks._lex import Facts

LettersFrom = Literal["taught", "list"]


class LettersMean(Model):
    """What letters say of a lamp; all absent: nothing that decides."""

    shape: LampShape | None = None
    legs: int | None = None
    base: str | None = None
    pins: int | None = None
    kind: Kind | None = None
    cct_k: int | None = None
    cri_min: int | None = None

    def stated(self) -> dict[str, Any]:
        """Return what is stated, field by field."""
        return self.model_dump(exclude_none=True)


class KnownLetters(Model):
    """Letters with their meaning, how often the shop's own lines bear it out, and how often they do not."""

    letters: str
    means: LettersMean = Field(default_factory=lambda: LettersMean())
    support: int = 1
    against: int = 0
    source: LettersFrom = "taught"
    who: str = ""
    at: str = Field("", description="day and time, ISO 8601")
    list_name: str = Field("", description="the list they were learned from; it takes them along when withdrawn")
    examples: tuple[str, ...] = Field((), description="lines that speak against the meaning")


def letters_facts(means: LettersMean, known: Known) -> Facts:
    """Return what letters state of a lamp, as a code would.

    That a lamp gives light to see by is no fact here: letters that the shop gave a meaning to never take away a doubt
    about ultraviolet; the glass does, or the lamp's own words.
    """
    facts: Facts = {}
    if means.shape is not None:
        facts["shapes"] = (means.shape,)
    elif means.legs is not None:
        facts["legs"] = means.legs
    if means.pins is not None:
        facts["pins"] = means.pins
    if means.kind not in (None, "fluorescent"):
        facts["kind"] = means.kind
    if means.cct_k is not None:
        facts["cct_k"] = means.cct_k
    if means.cri_min is not None:
        facts["cri_min"] = means.cri_min
    found = take_cap(fold(means.base), 0, known) if means.base else None
    if found is not None:
        facts["base"] = found.cap
    return facts


def letters_say(means: LettersMean) -> str:
    """Say in words what letters mean."""
    shapes = tables()["shapes"]
    said = [
        shapes[means.shape]["means"] if means.shape else "",
        LEGS.format(n=means.legs) if means.legs and not means.shape else "",
        BASE_ALONE.format(code=means.base) if means.base else "",
        PINS.format(n=means.pins) if means.pins else "",
        tables()["slots"]["kinds"][means.kind] if means.kind else "",
        ABOUT.format(n=means.cct_k) if means.cct_k else "",
    ]
    return "; ".join(word for word in said if word)
