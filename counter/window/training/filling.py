"""Fills the pages on progress: what reads records runs beside the window, what shows them asks the core."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.outline import Drawing
    from counter.training import Mix, Progress, Round, Row
    from counter.window.training.board_page import BoardPage
    from counter.window.training.pairs_view import Pair
    from counter.window.training.standing_page import StandingPage

PAIRS_SHOWN = 8


def progress_of(data: Path, who: str) -> Progress | None:
    """Read somebody's record; None where there is none (any more).

    Raises:
        StoreProblem: the store cannot be read.
    """
    from counter.training import UnknownTraineeError, progress

    try:
        return progress(data, who) if who else None
    except UnknownTraineeError:
        return None


def round_of(catalogue: Catalogue, data: Path, who: str, *of: Any) -> Round | None:
    """Read the record that a round rests on; None where there is none (any more). `of` is what `Round` takes.

    Raises:
        StoreProblem: the store cannot be read.
    """
    from counter.training import Round, UnknownTraineeError

    try:
        return Round(catalogue, data, who, *of)
    except UnknownTraineeError:
        return None


def row_of(catalogue: Catalogue, known: Progress | None, now: datetime) -> Row | None:
    """Return where somebody stands; None for nobody."""
    from counter.training import row

    return row(catalogue, known, now) if known is not None else None


def faces(catalogue: Catalogue) -> dict[str, Drawing]:
    """Return the outline that stands for each family: that of its first base."""
    from counter.outline import face_view

    first = {base.family: base for base in reversed(catalogue.bases)}
    return {family: face_view(base) for family, base in first.items()}


def show_standing(page: StandingPage, catalogue: Catalogue, known: Progress | None, now: datetime) -> None:
    """Show where one trainee stands."""
    from counter.training import bars_words

    page.show_standing(row_of(catalogue, known, now), faces(catalogue), bars_words())


def show_pairs(page: StandingPage, catalogue: Catalogue, records: Iterable[Progress | None]) -> None:
    """Show what is mixed up most in these records, taken together."""
    from counter.training import mixes

    answers = [answer for known in records if known is not None for answer in known.answers]
    drawings = faces(catalogue)
    page.show_pairs(tuple(_pair(catalogue, drawings, mix) for mix in mixes(answers)[:PAIRS_SHOWN]))


def _pair(catalogue: Catalogue, drawings: dict[str, Drawing], mix: Mix) -> Pair:
    from counter.language import trn
    from counter.training import mix_words
    from counter.window.training.pairs_view import Pair

    times = trn("{count} time", "{count} times", mix.times).format(count=mix.times)
    words = mix_words(catalogue, mix)
    if mix.axis == "caution":
        return Pair(words, times, "", mix.asked)
    if mix.axis != "family" or mix.asked not in drawings or mix.said not in drawings:
        return Pair(words, times, "", "")
    tell = next(base.tells for base in catalogue.bases if base.family == mix.asked)
    return Pair(words, times, tell, mix.asked, (drawings[mix.asked], drawings[mix.said]))


def show_board(page: BoardPage, catalogue: Catalogue, records: Sequence[Progress], who: str, now: datetime) -> None:
    """Show everybody, and the sheet of one."""
    from counter.training import row

    page.show_board(tuple(row(catalogue, known, now) for known in records), who)
    show_sheet(page, catalogue, next((known for known in records if known.trainee.id == who), None), now)


def show_sheet(page: BoardPage, catalogue: Catalogue, known: Progress | None, now: datetime) -> None:
    """Show one trainee's results."""
    from counter.training import results_sheet

    if known is None:
        page.results.show_sheet("", "")
    else:
        page.results.show_sheet(known.trainee.name, results_sheet(catalogue, known, now))
