"""Fills the pages on progress from the records: reads, asks the core, shows; keeps nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training import Progress, Row
    from counter.window.training.board_page import BoardPage
    from counter.window.training.standing_page import StandingPage

CURVE_DAYS, DAYS_AHEAD = 30, 14


def progress_of(data: Path, who: str) -> Progress | None:
    """Return somebody's record, or None where there is none (any more) or the store cannot be read.

    The list of people says what is wrong with the store; every page then shows nobody.
    """
    from counter.training import UnknownTraineeError, progress

    try:
        return progress(data, who) if who else None
    except (UnknownTraineeError, OSError):
        return None


def row_of(catalogue: Catalogue, data: Path, who: str, now: datetime) -> Row | None:
    """Return where somebody stands, or None where there is no record."""
    from counter.training import row

    known = progress_of(data, who)
    return row(catalogue, known, now) if known is not None else None


def fill_standing(page: StandingPage, catalogue: Catalogue, data: Path, who: str, now: datetime) -> None:
    """Show where one trainee stands and what is ahead."""
    from counter.training import Schedule, settings, standings

    known = progress_of(data, who)
    name = known.trainee.name if known is not None else ""
    rows = standings(catalogue, known) if known is not None else ()
    page.show_standing(name, rows, settings().bars, _label_words(catalogue))
    schedule = Schedule(known.answers if known is not None else ())
    days = schedule.forecast(now, DAYS_AHEAD)
    page.show_memory(schedule.curve(now, CURVE_DAYS), days, settings().retention)
    fill_matrix(page, data, who)


def fill_matrix(page: StandingPage, data: Path, who: str) -> None:
    """Show the matrix of one trainee, or of everybody."""
    ids = _everybody(data) if page.is_for_all else [who]
    found = (progress_of(data, one) for one in ids)
    page.show_answers(tuple(answer for known in found if known is not None for answer in known.answers))


def _everybody(data: Path) -> list[str]:
    from counter.training import trainees

    try:
        return [one.id for one in trainees(data)]
    except OSError:
        return []


def fill_board(page: BoardPage, catalogue: Catalogue, data: Path, who: str, now: datetime) -> None:
    """Show everybody, and the sheet of one."""
    from counter.training import board

    try:
        rows = board(catalogue, data, now)
    except OSError:
        rows = ()
    page.show_board(rows, who)
    fill_sheet(page, catalogue, data, who, now)


def fill_sheet(page: BoardPage, catalogue: Catalogue, data: Path, who: str, now: datetime) -> None:
    """Show one trainee's results."""
    from counter.training import results_sheet

    known = progress_of(data, who)
    if known is None:
        page.results.show_sheet("", "")
    else:
        page.results.show_sheet(known.trainee.name, results_sheet(catalogue, known, now))


def _label_words(catalogue: Catalogue) -> dict[str, str]:
    """Return words for the values that matrices are over; bases are their own names."""
    from counter.training import settings

    return {**settings().words, **{look.key: look.label for look in catalogue.looks}}
