"""The trainer's view: who stands where, and a sheet of results to print."""

from __future__ import annotations

from datetime import datetime
from textwrap import wrap
from typing import TYPE_CHECKING

from pydantic import Field

from counter.catalogue import Model
from counter.language import tr, trn
from counter.training._schedule import Schedule
from counter.training._settings import settings
from counter.training.record._confusion import mixes
from counter.training.record._freshness import Freshness, State, freshness
from counter.training.record._names import mix_words
from counter.training.record._ready import Standing, standings

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.training.record._confusion import Mix
    from counter.training.record._ready import Tally
    from counter.training.record._record import Progress

SHOWN_MIXES = 5
WIDE = 80  # columns of the sheet


class Row(Model):
    """One trainee on the board."""

    trainee: str
    name: str
    assigned: tuple[str, ...]
    standings: tuple[Standing, ...]
    freshness: tuple[Freshness, ...]
    answers: int
    faded: int = Field(description="points that come back in the next round")
    last_at: datetime | None
    torn: int

    @property
    def ready(self) -> tuple[str, ...]:
        """Return the families that count as known."""
        return tuple(one.family for one in self.standings if one.is_ready)

    def families(self, state: State) -> tuple[str, ...]:
        """Return the families that are fresh, fading, gone or new."""
        return tuple(one.family for one in self.freshness if one.state == state)


def row(catalogue: Catalogue, known: Progress, now: datetime) -> Row:
    """Return where one trainee stands."""
    return Row(
        trainee=known.trainee.id,
        name=known.trainee.name,
        assigned=known.assigned,
        standings=standings(catalogue, known),
        freshness=freshness(catalogue, known, now),
        answers=len(known.answers),
        faded=len(Schedule(known.answers).faded(now)),
        last_at=known.answers[-1].at if known.answers else None,
        torn=known.torn,
    )


def results_sheet(catalogue: Catalogue, known: Progress, now: datetime) -> str:
    """Return one trainee's results in words, as plain text of at most 80 columns, for the printer."""
    stands = row(catalogue, known, now)
    none, no_choice = tr("none yet"), tr("no choice made")
    lines = [
        tr("Training results: {name}").format(name=stands.name),
        f"{now:%Y-%m-%d}   " + trn("{count} answer", "{count} answers", stands.answers).format(count=stands.answers),
        "",
        *_filled(tr("Ready for the counter: {families}").format(families=", ".join(stands.ready) or none)),
        *_filled(tr("To learn first: {families}").format(families=", ".join(stands.assigned) or no_choice)),
        "",
        *(line for one in stands.standings if one.plain.asked or one.critical.asked for line in _lines(stands, one)),
        *_filled(bars_words()),
        "",
        *_mix_lines(catalogue, mixes(known.answers)),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def bars_words() -> str:
    """Say when a family is ready, and what "sure of" means."""
    bars = settings().bars
    words = tr(
        "“Sure of” is how many of 100 would be right without lucky guesses, worked out from the "
        "last {last} first tries. A family is ready for the counter when that is over "
        "{plain:.0f}, for ultraviolet and what does not go together over {critical:.0f}, and "
        "nothing in it is left unasked. ({interval}, {confidence:.0f} %)"
    )
    return words.format(
        last=bars.last,
        interval=bars.interval,
        confidence=bars.confidence * 100,
        plain=bars.plain * 100,
        critical=bars.critical * 100,
    )


def tally_words(tally: Tally) -> str:
    """Say how many first tries were right, and how much that promises."""
    if not tally.asked:
        return tr("not asked yet")
    words = tr("{right} of {asked} right at the first try, sure of {low:.0f}")
    return words.format(right=tally.right, asked=tally.asked, low=tally.low * 100)


def _lines(stands: Row, one: Standing) -> list[str]:
    fresh = next(found for found in stands.freshness if found.family == one.family)
    ready = tr("ready for the counter") if one.is_ready else tr("not ready yet")
    unseen = trn("{count} thing left unasked", "{count} things left unasked", one.unseen).format(count=one.unseen)
    return [
        f"{one.family}: {ready}; {fresh.said}" + (f"; {unseen}" if one.unseen else ""),
        *_filled(tr("Bases, codes, looks: {tally}").format(tally=tally_words(one.plain)), 4),
        *_filled(tr("Ultraviolet, what goes together: {tally}").format(tally=tally_words(one.critical)), 4),
        "",
    ]


def _filled(text: str, indent: int = 0) -> list[str]:
    return wrap(text, WIDE, initial_indent=" " * indent, subsequent_indent=" " * indent)


def _mix_lines(catalogue: Catalogue, found: tuple[Mix, ...]) -> list[str]:
    if not found:
        return [tr("Nothing was mixed up.")]
    lines = [tr("Most often mixed up:")]
    for mix in found[:SHOWN_MIXES]:
        times = trn("{count} time", "{count} times", mix.times).format(count=mix.times)
        lines += wrap(f"{mix_words(catalogue, mix)}: {times}", WIDE, initial_indent="  ", subsequent_indent="    ")
    return lines
