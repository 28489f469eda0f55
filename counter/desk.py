"""The one door: a Case goes in, an Assessment comes out, and every pane, command and slip shows from it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from counter import fit, identify, marks
from counter.catalogue import Model
from counter.fit import Ask, Caution, Fixture, Replacement, Use, Verdict
from counter.identify import Candidate, NextLook
from counter.marks import MarkEvidence, Reading

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp

CANNOT_TELL = "cannot-tell"


class Case(Model):
    """All that the clerk knows so far about one customer's question."""

    version: Literal[1] = 1
    looks: dict[str, str | float] = Field(
        default_factory=dict, description='answers by look key; "cannot-tell" is an answer'
    )
    marks: str = Field("", max_length=20_000)
    fixture: Fixture = Fixture()
    use: Use = "unknown"
    chosen: str | None = Field(None, description="id of the lamp type the clerk settled on")
    beside: str | None = Field(None, description="id of the lamp type held beside it")
    broken: bool = False
    place: str | None = None
    on: date | None = Field(None, description="the day the law is asked about; assess has no clock")


class Conflict(Model):
    """Marks and looks that contradict each other, with both ways out."""

    look: str
    says_marks: str
    says_look: str
    text: str


class Assessment(Model):
    """Everything that any pane shows of one case."""

    candidates: tuple[Candidate, ...]
    next: tuple[NextLook, ...]
    readings: tuple[Reading, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    problems: tuple[str, ...] = ()
    lamp: str | None = Field(None, description="the chosen lamp type, or the leading one when it is clear enough")
    is_settled: bool = False
    verdict: Verdict | None = None
    cautions: tuple[Caution, ...] = ()
    asks: tuple[Ask, ...] = ()
    replacements: tuple[Replacement, ...] = ()
