"""The door between the counter and the training room: opens the room, and offers cases to whoever learns."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from counter.language import figure, tr
from counter.window.training.at_counter import AtCounterLine
from counter.window.training.first_case import FirstCase
from counter.window.training.session import system_clock
from counter.window.training.warm import Warmer

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.training import Progress
    from counter.window.main_window import MainWindow
    from counter.window.parts.asking import Failed, Job, Then
    from counter.window.parts.theme import Theme
    from counter.window.shelf.store_worker import StoreWorker
    from counter.window.training.room import TrainingRoom
    from counter.window.training.session import Clock

AWAKE_MS, QUIET_MS = 150, 15  # after the counter is awake, and between two slices: keys come first
BUSY_MS = 700  # after each look and key: a code is typed to its end before anything is made ahead
# One at a time before the room is made: together their import would hold up a key for 80 ms.
PARTS = ("board_page", "card_page", "people_pane", "standing_page", "start_pane", "summary_page", "frame", "room")


class TrainingDoor(QObject):
    """Made when the counter is awake; the room itself when it is first asked for."""

    def __init__(self, window: MainWindow, clock: Clock = system_clock) -> None:
        super().__init__(window)
        self.window, self.clock = window, clock
        self.room: TrainingRoom | None = None
        self.is_closed = False
        self.line, self.first = AtCounterLine(), FirstCase(window)
        whole = window.centralWidget()
        if whole is not None and (box := whole.layout()) is not None:
            box.addWidget(self.line)
        self.line.kept.connect(self._keep_case)
        window.detail.teach.connect(self.teach_lamp)
        window.cautions.teach.connect(self.teach)
        self.warmer = Warmer(QUIET_MS)
        QTimer.singleShot(AWAKE_MS, self, self._warm)
        if window.settings.value("at_counter", ""):
            QTimer.singleShot(0, self, self._greet)

    def _warm(self) -> None:
        if not self.is_closed:  # a window closed within the first moments is not to be asked for its room
            self.warmer.start(self._slices())

    def _room(self) -> TrainingRoom:
        if self.room is None:
            from counter.window.training.room import TrainingRoom

            window = self.window
            self.room = TrainingRoom(window.data, window.settings, window.theme, self.clock, window)
            self.room.asking.ask = self._ask
            self.room.resize(self.window.size())
            self.room.left.connect(self.window.activateWindow)
            self.room.roster.at_counter_chosen.connect(self._greet)
        return self.room

    def _tell_makers(self) -> None:
        """Let cards ask about what this shop knows of makers' codes."""
        from counter.training import know_makers

        know_makers(self.window.counter.letters.house)

    def enter(self) -> None:
        """Go into the room, or back to what is open in it."""
        if self.window.catalogue is not None:
            self._tell_makers()
            self._room().enter(self.window.catalogue)

    def teach_lamp(self, lamp: str) -> None:
        """Ask cards about the base family of a lamp type."""
        catalogue = self.window.catalogue
        if catalogue is not None and lamp in catalogue.lamp_by_id:
            self.teach(catalogue.base_of(catalogue.lamp_by_id[lamp]).family)

    def teach(self, about: str) -> None:
        """Ask cards about a base family or a rule of caution; on a rule without cards, about the base at hand."""
        catalogue, found = self.window.catalogue, self.window.assessment
        if catalogue is not None:
            self._tell_makers()
            lamp = catalogue.lamp_by_id.get((found.lamp or found.nearest or "") if found is not None else "")
            self._room().teach(catalogue, about, catalogue.base_of(lamp).family if lamp is not None else "")

    def _slices(self) -> Iterator[object]:
        """Make points and the room while the counter is quiet, so that the first card is there when asked for."""
        if self.window.catalogue is None:
            return
        from counter.training import make_ahead

        self._tell_makers()
        yield None
        for part in PARTS:
            yield import_module(f"counter.window.training.{part}")
        yield self._room()
        self._room().take(self.window.catalogue)
        yield None
        yield from make_ahead(self.window.catalogue)

    def close(self) -> None:
        """Close the room with the counter, or the program would stay, and leave the rest unmade."""
        self.is_closed = True
        self.warmer.stop()
        if self.room is not None:
            self.room.close()

    def put_away(self) -> None:
        """Make way for another door; an open round ends and its answers are kept."""
        if self.room is not None:
            self.room.session.stop()
        self.close()
        if self.room is not None:
            self.room.deleteLater()
        for part in (self.first, self):
            part.deleteLater()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        if self.room is not None:
            self.room.set_theme(theme)

    def _greet(self) -> None:
        """Name whoever learns at the counter now; a record that is gone leaves nobody."""
        from counter.window.training.filling import progress_of

        data, who = self.window.data, str(self.window.settings.value("at_counter", ""))
        if not who:
            self._greeted(None)
            return
        self._worker().ask(
            lambda: progress_of(data, who), self._greeted, lambda _: self._greeted(None), "greet", self
        )

    def _greeted(self, known: Progress | None) -> None:
        self.line.show_person(known.trainee.name if known is not None else "")
        self.show_case()

    def _ask(self, job: Job, then: Then, failed: Failed, *, keeps: bool = False) -> None:
        self._worker().ask(job, then, failed, owner=self.room, keeps=keeps)

    def _worker(self) -> StoreWorker:
        """Return what asks the store beside the window."""
        return self.window.counter.shop.worker

    def show_case(self) -> None:
        """Offer the counter's case once its lamp is settled; make nothing ahead while the case changes."""
        self.warmer.hold(BUSY_MS)
        self.first.follow(self.window.case)
        found, catalogue = self.window.assessment, self.window.catalogue
        if not self.line.name or found is None or catalogue is None or self.window.case is None:
            return
        if not found.is_settled or found.lamp is None:
            self.line.show_case("", "")
            return
        lamp = catalogue.lamp_by_id[found.lamp]
        self.line.show_case(lamp.id, f"{lamp.base} · {figure(lamp.watts.value)}\N{THIN SPACE}W")

    def _keep_case(self) -> None:
        """Keep the case for whoever learns here, beside the window; the line says what became of it."""
        from counter.training import UnknownTraineeError, add_case

        data, case, catalogue, now = self.window.data, self.window.case, self.window.catalogue, self.clock()
        if case is None or catalogue is None:
            return
        who = str(self.window.settings.value("at_counter", ""))

        def job() -> int | None:
            try:
                return len(add_case(data, who, catalogue, case, now))
            except UnknownTraineeError:
                return None

        def failed(problem: Exception) -> None:
            self.line.show_problem(tr("Not kept: {problem}").format(problem=problem))

        self.line.show_problem(tr("asking the store …"))
        self._worker().ask(job, self._kept, failed, owner=self, keeps=True)

    def _kept(self, count: int | None) -> None:
        if count is None:
            self.line.show_person("")
        else:
            self.line.show_kept(count)
