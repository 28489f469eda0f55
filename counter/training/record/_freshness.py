"""What is still in somebody's head: fresh, fading or gone, family by family, told in days."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Literal

from counter.catalogue import Model
from counter.language import tr, trn
from counter.training._schedule import Schedule
from counter.training._settings import settings
from counter.training.cards._facts import lore
from counter.training.cards._points import points

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from counter.catalogue import Catalogue
    from counter.training.record._record import Progress

State = Literal["new", "fresh", "fading", "gone"]
DAY = timedelta(days=1)
FARTHEST = 365  # days; beyond that nobody plans


class Freshness(Model):
    """How one family is kept in mind.

    `days` is how long it stays so if nothing is practised: until it fades, or is gone; of what is gone, how long ago
    it was last practised. `filled` is the share of all its points that would be known now, 0 to 1.
    """

    family: str
    state: State
    days: int
    filled: float
    met: int
    points: int

    @property
    def said(self) -> str:
        """Return the state in words, with its days."""
        if self.state == "new":
            return tr("not met yet")
        if not self.days:
            return {"fresh": tr("fresh today"), "fading": tr("fading, gone tomorrow"), "gone": tr("gone")}[self.state]
        days = str(self.days) if self.days < FARTHEST else f"{FARTHEST}+"
        many = {
            "fresh": trn("fresh for {days} day", "fresh for {days} days", self.days),
            "fading": trn("fading, {days} day left", "fading, {days} days left", self.days),
            "gone": trn("gone, asked {days} day ago", "gone, asked {days} days ago", self.days),
        }
        return many[self.state].format(days=days)


def freshness(catalogue: Catalogue, known: Progress, now: datetime) -> tuple[Freshness, ...]:
    """Return how every family is kept in mind, in catalogue order."""
    schedule = Schedule(known.answers)
    last: dict[str, datetime] = {answer.family: answer.at for answer in known.answers}
    by_family: dict[str, list[str]] = {family: [] for family in lore(catalogue).lamps_of}
    for point in points(catalogue):
        by_family[point.family].append(point.id)
    return tuple(_of(schedule, family, found, last.get(family), now) for family, found in by_family.items())


def _of(schedule: Schedule, family: str, found: Sequence[str], last: datetime | None, now: datetime) -> Freshness:
    met = [point for point in found if point in schedule]
    recall = schedule.known(met, now)
    state = _state(recall) if met else "new"
    days = 0
    if state in ("fresh", "fading"):
        days = _days_until(schedule, met, settings().retention if state == "fresh" else settings().gone_below, now)
    elif state == "gone" and last is not None:
        days = max((now - last) // DAY, 0)
    filled = recall * len(met) / max(len(found), 1)
    return Freshness(family=family, state=state, days=days, filled=filled, met=len(met), points=len(found))


def _state(recall: float) -> State:
    if recall >= settings().retention:
        return "fresh"
    return "fading" if recall >= settings().gone_below else "gone"


def _days_until(schedule: Schedule, met: Sequence[str], below: float, now: datetime) -> int:
    """Return in how many whole days what is known falls below a share: it only ever falls, so halving finds it."""
    low, high = 0, FARTHEST
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if schedule.known(met, now + middle * DAY) >= below else (low, middle - 1)
    return low
