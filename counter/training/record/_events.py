"""What the lines of a trainee's record say."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from counter.catalogue import Model
from counter.training._models import Axis, CardKind
from counter.training._settings import Rating


def _as_utc(at: datetime) -> datetime:
    """Return the moment in UTC, which the scheduler insists on."""
    if at.tzinfo is None:
        raise ValueError("a moment needs its time zone")
    return at.astimezone(UTC)


Moment = Annotated[datetime, AfterValidator(_as_utc)]


class Trainee(Model):
    """Who trains; the first line of the record. The name is stored here and nowhere else."""

    what: Literal["trainee"] = "trainee"
    format: Literal["lamp-counter/trainee"] = "lamp-counter/trainee"
    version: Literal[1] = 1
    id: str = Field(pattern="^[0-9a-f]{16}$")
    name: str = Field(min_length=1, max_length=200)
    at: Moment


class Answer(Model):
    """One answer. `worth` is 1 when right; `is_first` when the point was not asked before in that round."""

    what: Literal["answer"] = "answer"
    at: Moment
    round: str
    card: str
    point: str
    kind: CardKind
    family: str
    axis: Axis
    asked: str
    said: str
    worth: float = Field(ge=0, le=1)
    seconds: float = Field(ge=0)
    rating: Rating
    is_first: bool
    is_critical: bool

    @property
    def is_right(self) -> bool:
        """Whether the answer was right, not just near."""
        return self.worth >= 1


class Assigned(Model):
    """A family given to the trainee to learn first, or taken off again."""

    what: Literal["assigned"] = "assigned"
    at: Moment
    family: str
    is_on: bool = True


class FromCase(Model):
    """Points that were new to the trainee in a case at the counter; nothing of the case itself is kept."""

    what: Literal["case"] = "case"
    at: Moment
    points: tuple[str, ...]


class RoundMark(Model):
    """That a round began or went on, stood still (nobody looked at it), or ended; `round` is as in its answers.

    A round that was killed has no mark that it is over, which is how the next opening knows.
    """

    what: Literal["round"] = "round"
    at: Moment
    round: Moment
    minutes: float | None = Field(gt=0, description="the whole length; None until the trainee stops")
    left_s: float | None = Field(ge=0, description="what was left of it at that moment; None as above")
    state: Literal["runs", "waits", "over"]


Event = Answer | Assigned | FromCase | RoundMark
