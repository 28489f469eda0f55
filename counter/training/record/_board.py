"""The trainer's view: who stands where, and a sheet of results to print."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from counter.catalogue import Model
from counter.training._schedule import Schedule
from counter.training._settings import settings
from counter.training.record._confusion import mixes
from counter.training.record._ready import Standing, standings
from counter.training.record._record import progress, trainees

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training.record._confusion import Mix
    from counter.training.record._ready import Tally
    from counter.training.record._record import Progress

SHOWN_MIXES = 5
FORECAST_DAYS = 7


class Row(Model):
    """One trainee on the board."""

    trainee: str
    name: str
    assigned: tuple[str, ...]
    standings: tuple[Standing, ...]
    answers: int
    due_now: int
    forecast: tuple[int, ...]
    last_at: datetime | None
    torn: int

    @property
    def ready(self) -> tuple[str, ...]:
        """Return the families that count as known."""
        return tuple(one.family for one in self.standings if one.is_ready)


def board(catalogue: Catalogue, data: Path, now: datetime) -> tuple[Row, ...]:
    """Return a row for each trainee, by name."""
    return tuple(row(catalogue, progress(data, one.id), now) for one in trainees(data))


def row(catalogue: Catalogue, known: Progress, now: datetime) -> Row:
    """Return where one trainee stands."""
    schedule = Schedule(known.answers)
    return Row(
        trainee=known.trainee.id,
        name=known.trainee.name,
        assigned=known.assigned,
        standings=standings(catalogue, known),
        answers=len(known.answers),
        due_now=len(schedule.due(now)),
        forecast=schedule.forecast(now, FORECAST_DAYS),
        last_at=known.answers[-1].at if known.answers else None,
        torn=known.torn,
    )


def results_sheet(catalogue: Catalogue, known: Progress, now: datetime) -> str:
    """Return one trainee's results as plain text of at most 80 columns, for the printer."""
    stands = row(catalogue, known, now)
    practised = [one for one in stands.standings if one.plain.asked or one.critical.asked]
    bars = settings().bars
    lines = [
        f"Training results: {stands.name}",
        f"{now:%Y-%m-%d}   {stands.answers} answers   ready for: {', '.join(stands.ready) or 'none yet'}",
        f"Assigned: {', '.join(stands.assigned) or 'nothing'}",
        "",
        f"{'family':<12}{'first-try':>12}{'at least':>10}{'critical':>12}{'at least':>10}{'unseen':>8}  ready",
        *map(_line, practised),
        "",
        f"'At least' is the lower {bars.confidence:.0%} bound ({bars.interval}) of the last {bars.last} first-try",
        f"answers. Ready: over {bars.plain:.0%}, critical ones over {bars.critical:.0%}, every point seen once.",
        "",
        *_mix_lines(mixes(known.answers)),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _line(one: Standing) -> str:
    ready = "yes" if one.is_ready else "no"
    return f"{one.family:<12}{_tally(one.plain)}{_tally(one.critical)}{one.unseen:>8}  {ready}"


def _tally(tally: Tally) -> str:
    if not tally.asked:
        return f"{'-':>12}{'-':>10}"
    return f"{f'{tally.right} of {tally.asked}':>12}{tally.low:>10.0%}"


def _mix_lines(found: tuple[Mix, ...]) -> list[str]:
    if not found:
        return ["Nothing was confused."]
    said = [f"  {mix.asked} taken for {mix.said}: {mix.times} times" for mix in found[:SHOWN_MIXES]]
    return ["Most often confused:", *said]
