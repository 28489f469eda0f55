"""A round that neither ended with its time nor was stopped: what is left of it, and the way back into it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from datetime import datetime

    from counter.training.record._events import RoundMark
    from counter.training.record._record import Progress

WITHIN = timedelta(hours=2)


class Unfinished(NamedTuple):
    """A round to go on with. Times are None when it was to last until the trainee stops."""

    started: datetime
    minutes: float | None
    left: timedelta | None
    asked: int
    right: int


def unfinished(known: Progress, now: datetime) -> Unfinished | None:
    """Return the last round if it was cut off on this day (of `now`'s time zone) and within two hours, else None.

    A round without an answer is no loss, and one whose time was used up is over.
    """
    mark = known.marks[-1] if known.marks else None
    if mark is None or mark.state == "over":
        return None
    own = [answer for answer in known.answers if answer.round == mark.round.isoformat()]
    if not own:
        return None
    last = max(mark.at, own[-1].at)
    if not (timedelta() <= now - last <= WITHIN) or last.astimezone(now.tzinfo).date() != now.date():
        return None
    left = _left(mark, own[-1].at)
    if left is not None and not left:
        return None
    return Unfinished(mark.round, mark.minutes, left, len(own), sum(answer.is_right for answer in own))


def _left(mark: RoundMark, answered: datetime) -> timedelta | None:
    """Return what was left at the last sign of life: the clock ran from the mark on, but not while it stood still."""
    if mark.left_s is None:
        return None
    ran = max(answered - mark.at, timedelta()) if mark.state == "runs" else timedelta()
    return max(timedelta(seconds=mark.left_s) - ran, timedelta())
