"""Where everybody stands: asks the store for records, hands them to the pages, and assigns families."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from counter.language import tr
from counter.window.training.filling import progress_of, show_board, show_pairs, show_sheet, show_standing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.training import Progress
    from counter.window.parts.asking import Asking
    from counter.window.training.board_page import BoardPage
    from counter.window.training.roster import Roster
    from counter.window.training.standing_page import StandingPage


class ProgressPages(QObject):
    """The pages of where you stand and of the trainer; a store that cannot be read shows nobody and is said."""

    said = Signal(str)
    assigned = Signal()

    def __init__(self, standing: StandingPage, board: BoardPage, roster: Roster, asking: Asking) -> None:
        super().__init__()
        self.standing, self.board, self.roster, self.asking = standing, board, roster, asking
        board.picked.connect(self.show_sheet)
        board.assigned.connect(self.assign)
        standing.pairs_wanted.connect(self.show_pairs)

    def show_standing(self) -> None:
        """Ask where whoever is chosen stands, and what is mixed up."""
        job = partial(progress_of, self.roster.data, self.roster.who)
        self.asking.newest("standing", job, self._take_standing, self._no_standing)
        self.show_pairs()

    def _take_standing(self, known: Progress | None) -> None:
        if self.roster.catalogue is not None:
            show_standing(self.standing, self.roster.catalogue, known, self.roster.clock())

    def _no_standing(self, problem: Exception) -> None:
        self._take_standing(None)
        self.said.emit(str(problem))

    def show_pairs(self) -> None:
        """Ask what one trainee, or everybody, mixes up most."""
        from counter.training import everybody

        data, who = self.roster.data, self.roster.who
        one = lambda: (progress_of(data, who),)  # noqa: E731
        job = partial(everybody, data) if self.standing.is_for_all else one
        self.asking.newest("pairs", job, self._take_pairs, lambda _: self._take_pairs(()))

    def _take_pairs(self, records: Sequence[Progress | None]) -> None:
        if self.roster.catalogue is not None:
            show_pairs(self.standing, self.roster.catalogue, records)

    def show_board(self) -> None:
        """Ask where everybody stands."""
        from counter.training import everybody

        self.asking.newest("board", partial(everybody, self.roster.data), self._take_board, self._no_board)

    def _take_board(self, records: Sequence[Progress]) -> None:
        if self.roster.catalogue is not None:
            show_board(self.board, self.roster.catalogue, records, self.roster.who, self.roster.clock())

    def _no_board(self, problem: Exception) -> None:
        self._take_board(())
        self.said.emit(str(problem))

    def show_sheet(self, who: str) -> None:
        """Choose somebody and ask for their results."""
        self.roster.who = who
        job = partial(progress_of, self.roster.data, who)
        self.asking.newest("sheet", job, self._take_sheet, lambda problem: self.said.emit(str(problem)))

    def _take_sheet(self, known: Progress | None) -> None:
        if self.roster.catalogue is not None:
            show_sheet(self.board, self.roster.catalogue, known, self.roster.clock())

    def assign(self, family: str, is_on: bool) -> None:
        """Give whoever is chosen a family to learn first, or take it off."""
        from counter.training import UnknownTraineeError, assign

        data, who, now = self.roster.data, self.roster.who, self.roster.clock()

        def job() -> bool:
            try:
                assign(data, who, family, now, is_on=is_on)
            except UnknownTraineeError:
                return False
            return True

        self.asking.once("assign", job, self._take_assigned, self._not_assigned, keeps=True)

    def _take_assigned(self, is_kept: bool) -> None:
        self.said.emit("" if is_kept else tr("Not assigned: the record was removed meanwhile."))
        self.assigned.emit()
        self.show_board()

    def _not_assigned(self, problem: Exception) -> None:
        self.said.emit(tr("Not assigned: {problem}").format(problem=problem))
