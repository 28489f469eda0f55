"""Fills the pages on progress from the records: reads, asks the core, shows; keeps nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.outline import Drawing
    from counter.training import Mix, Progress, Row
    from counter.window.training.board_page import BoardPage
    from counter.window.training.pairs_view import Pair
    from counter.window.training.standing_page import StandingPage

PAIRS_SHOWN = 8


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


def faces(catalogue: Catalogue) -> dict[str, Drawing]:
    """Return the outline that stands for each family: that of its first base."""
    from counter.outline import face_view

    first = {base.family: base for base in reversed(catalogue.bases)}
    return {family: face_view(base) for family, base in first.items()}


def fill_standing(page: StandingPage, catalogue: Catalogue, data: Path, who: str, now: datetime) -> None:
    """Show where one trainee stands, and the mix-ups."""
    from counter.training import bars_words

    page.show_standing(row_of(catalogue, data, who, now), faces(catalogue), bars_words())
    fill_pairs(page, catalogue, data, who)


def fill_pairs(page: StandingPage, catalogue: Catalogue, data: Path, who: str) -> None:
    """Show what one trainee, or everybody, mixes up most."""
    from counter.training import mixes

    ids = _everybody(data) if page.is_for_all else [who]
    found = (progress_of(data, one) for one in ids)
    answers = [answer for known in found if known is not None for answer in known.answers]
    drawings = faces(catalogue)
    page.show_pairs(tuple(_pair(catalogue, drawings, mix) for mix in mixes(answers)[:PAIRS_SHOWN]))


def _pair(catalogue: Catalogue, drawings: dict[str, Drawing], mix: Mix) -> Pair:
    from counter.language import tr, trn
    from counter.training import mix_words
    from counter.window.training.pairs_view import Pair

    times = trn("{count} time", "{count} times", mix.times).format(count=mix.times)
    words = mix_words(catalogue, mix)
    if mix.axis == "caution":
        return Pair(words, times, "", mix.asked)
    if mix.axis != "family" or mix.asked not in drawings or mix.said not in drawings:
        return Pair(words, times, "", "")
    tell = next(tr(base.tell) for base in catalogue.bases if base.family == mix.asked)
    return Pair(words, times, tell, mix.asked, (drawings[mix.asked], drawings[mix.said]))


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
