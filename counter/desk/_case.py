"""What the clerk knows of one customer's question; no rule, no answer."""

from __future__ import annotations

from datetime import date  # pydantic needs the class itself
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from counter import identify
from counter.catalogue import Model
from counter.fit import Fixture, Use
from counter.identify import Typed  # pydantic needs the class itself
from counter.text import readable

CANNOT_TELL = identify.CANNOT_TELL
LONGEST_MARKS = 20_000  # characters; a paste, not a lamp

Text = Annotated[str, BeforeValidator(readable)]  # a character nobody can read is read as such, never refused


class Case(Model):
    """All that the clerk knows so far about one customer's question."""

    version: Literal[1] = 1
    looks: dict[Text, Text | float] = Field(
        default_factory=dict, description='answers by look key; "cannot-tell" is an answer'
    )
    typed: dict[Text, Typed] = Field(
        default_factory=dict,
        description="sizes as they were typed, by look key; one that is in no look waits for its unit to be said",
    )
    marks: Text = Field("", max_length=LONGEST_MARKS)
    fixture: Fixture = Fixture()
    use: Use = "unknown"
    chosen: Text | None = Field(None, description="id of the lamp type the clerk settled on")
    shown: Text | None = Field(None, description="id of the lamp type whose outline is open; says nothing of it")
    beside: Text | None = Field(None, description="id of the lamp type held beside it")
    broken: bool = False
    explained: tuple[Annotated[Text, Field(max_length=200)], ...] = Field(
        (), max_length=200, description="words of the marks that somebody read: they say nothing of the lamp"
    )
    place: Text | None = None
    on: date | None = Field(None, description="the day the law is asked about; assess has no clock")


class CaseProblem(ValueError):  # noqa: N818 - expected, shown to the clerk, and never a fault of the program
    """Something typed into a case that cannot be taken, said as what, where, way out."""
