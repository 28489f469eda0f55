"""The training room: its pages, the session, and the list of all connections between them."""

from __future__ import annotations

from datetime import timedelta
from itertools import islice
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QHideEvent, QKeySequence, QShortcut, QShowEvent

from counter.language import tr
from counter.window.training.filling import fill_board, fill_pairs, fill_sheet, fill_standing
from counter.window.training.frame import BOARD, CARD, PRACTICE, STANDING, SUMMARY, TABS, RoomFrame
from counter.window.training.kept_round import KeptRound
from counter.window.training.roster import Roster
from counter.window.training.session import Session, system_clock
from counter.window.training.warm import Warmer

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from counter.catalogue import Catalogue
    from counter.training import Card, Lesson, Unfinished
    from counter.window.parts.theme import Theme
    from counter.window.training.session import Clock, Given, Source

ENDLESS_MIN = 24 * 60.0
TICK_MS = 1000
LENGTHS = 5  # number keys that start a round, the last of them to go on with one


class TrainingRoom(RoomFrame):
    """A window beside the counter. F4 or Esc goes back; what was open here waits, its clocks stopped."""

    left = Signal()

    def __init__(
        self,
        data: Path,
        settings: QSettings,
        theme: Theme,
        clock: Clock = system_clock,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(theme, parent)
        self.data, self.clock = data, clock
        self.catalogue: Catalogue | None = None
        self._title = ""
        self._is_kept = True
        self._first: tuple[str, Card] | None = None  # made ahead for that trainee
        self.session, self.warmer = Session(clock), Warmer()
        self.roster = Roster(self.people, self.start, data, settings, clock)
        self.kept = KeptRound(data, self.session)
        self._tick = QTimer(self, interval=TICK_MS)
        self._connect()

    def _connect(self) -> None:
        # who, and how long
        self.roster.picked.connect(self._warm)
        self.start.started.connect(self._start_place)
        # the session
        self.session.asked.connect(self._show_card)
        self.session.answered.connect(self._show_outcome)
        self.session.failed.connect(self.say)
        self.session.ended.connect(self._show_summary)
        self.cards.chosen.connect(lambda at: self.session.choose(at if at >= 0 else None))
        self.cards.next_wanted.connect(self.session.next)
        self.bar.stop_pressed.connect(self.session.stop)
        self.summary.closed.connect(lambda: self._open(PRACTICE))
        self._tick.timeout.connect(self._show_bar)
        # trainer's view, mix-ups, lessons
        self.board.picked.connect(self._show_sheet)
        self.board.assigned.connect(self._assign)
        self.standing.pairs_wanted.connect(self._show_pairs)
        for page in (self.standing, self.start):
            page.lesson_wanted.connect(self._practise)
        # the whole
        self.tabs.currentChanged.connect(self._open)
        self.back.clicked.connect(self.close)
        QShortcut(QKeySequence("F4"), self, self.close)
        QShortcut(QKeySequence("Escape"), self, self._escape)
        for at in range(len(TABS)):
            QShortcut(QKeySequence(f"Ctrl+{at + 1}"), self, lambda i=at: self._turn_to(i))
        for at in range(LENGTHS):
            key = QShortcut(QKeySequence(str(at + 1)), self.start, lambda i=at: self._start_place(i))
            key.setContext(Qt.ShortcutContext.WindowShortcut)

    # -- coming and going

    def take(self, catalogue: Catalogue) -> None:
        """Take the catalogue to ask from, unless a round on another one is open."""
        from counter.training import settings

        if catalogue is not self.catalogue and self.session.source is None:
            self.catalogue = self.roster.catalogue = catalogue
            self.cards.build(catalogue)
            self._first = None
            self.start.show_lengths(settings().rounds_min)

    def enter(self, catalogue: Catalogue) -> None:
        """Open the room, or come back to what was open in it."""
        self.take(catalogue)
        self._come_forward()
        if self.session.source is None:
            self._open(self.pages.currentIndex())

    def _come_forward(self) -> None:
        self.show()
        self.raise_()
        self.activateWindow()

    def teach(self, catalogue: Catalogue, about: str, otherwise: str = "") -> None:
        """Ask cards about a base, a family or a rule; where no card asks about it, say so at once and ask otherwise.

        A round that is open ends; its answers are kept.
        """
        if self.session.source is not None:
            self.session.stop()
        self.take(catalogue)
        self.warmer.stop()
        for one in filter(None, (about, otherwise)):
            self._begin(self._lesson(one, otherwise), None, tr("About {what}").format(what=self._spelled(one)))
            if self.session.card is not None:
                break
        if self.session.card is None or one != about:
            words = tr("No lamp and fixture known here brings it about, so no card asks about it: {what}.")
            self.say(words.format(what=self._spelled(about)))
        self._come_forward()  # with its card already: the page of people would be laid out for nothing

    def _lesson(self, about: str, near: str) -> Lesson:
        from counter.training import Lesson, UnknownTraineeError

        assert self.catalogue is not None
        try:
            return Lesson(self.catalogue, self.data, self.who or None, about, self.clock(), near)
        except (UnknownTraineeError, OSError):
            self.roster.show()  # which finds out that the record is gone, or the store
            return Lesson(self.catalogue, self.data, None, about, self.clock(), near)

    def closeEvent(self, event: QCloseEvent) -> None:
        super().closeEvent(event)
        self.left.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        self.session.pause()
        self.kept.note("waits")
        self.warmer.stop()
        super().hideEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        self.session.resume()
        self.kept.note("runs")
        super().showEvent(event)

    def _escape(self) -> None:
        page = self.pages.currentIndex()
        if page == CARD:
            self.session.stop()
        elif page == SUMMARY:
            self._open(PRACTICE)
        else:
            self.close()

    def _turn_to(self, tab: int) -> None:
        if self.pages.currentIndex() < CARD:
            self.tabs.setCurrentIndex(tab)

    def _open(self, page: int) -> None:
        self.show_page(page)
        if page < CARD:
            self._tick.stop()
        if page == PRACTICE:
            self.roster.show()
            self.show_page(page)  # the focus goes to the list or, with nobody in it, to the name
        elif page == STANDING:
            self._show_standing()
        elif page == BOARD:
            self._show_board()

    @property
    def who(self) -> str:
        """Return the id of who is chosen, "" for nobody."""
        return self.roster.who

    # -- a round

    def _warm(self) -> None:
        if self.isVisible() and self.session.source is None:
            self.warmer.start(self._slices())

    def _slices(self) -> Iterator[object]:
        """List all points, then make the first card of whoever is chosen."""
        from counter.training import KINDS, Round, make_ahead

        if self.catalogue is None:
            return
        yield from islice(make_ahead(self.catalogue), len(KINDS))
        if self.who and (self._first is None or self._first[0] != self.who):
            ahead = Round(self.catalogue, self.data, self.who, 1, self.clock())
            yield ahead
            if (card := ahead.next_card(self.clock())) is not None:
                self._first = (self.who, card)

    def _start_place(self, at: int) -> None:
        from counter.training import settings

        minutes = (*settings().rounds_min, None)
        if self.pages.currentIndex() == PRACTICE and self.roster.row is not None and at < len(minutes):
            self.start_round(minutes[at])
        elif self.pages.currentIndex() == PRACTICE and (found := self.roster.find_unfinished()) is not None:
            self.start_round(found.minutes, found)

    def start_round(self, minutes: float | None, so_far: Unfinished | None = None) -> None:
        """Start a round of whoever is chosen, or go on with one; None is until they stop."""
        from counter.training import Round, UnknownTraineeError

        assert self.catalogue is not None
        self.warmer.stop()
        now = self.clock()
        started = so_far.started if so_far is not None else now
        left = so_far.left if so_far is not None else None
        ends = now + (left or timedelta(minutes=minutes or ENDLESS_MIN))
        try:
            source = Round(self.catalogue, self.data, self.who, minutes or ENDLESS_MIN, started, ends)
        except (UnknownTraineeError, OSError):
            self.roster.show()
            return
        length = tr("{minutes:g} minutes").format(minutes=minutes) if minutes else tr("until I stop")
        is_made = so_far is None and self._first is not None and self._first[0] == self.who
        first = self._first[1] if is_made and self._first is not None else None
        self.kept.begin(self.who, started, minutes)
        self._begin(source, minutes, f"{self.roster.name} · {length}", first, so_far)
        self.kept.note("runs")

    def _begin(
        self,
        source: Source,
        minutes: float | None,
        title: str,
        first: Card | None = None,
        so_far: Unfinished | None = None,
    ) -> None:
        self._title, self._is_kept, self._first = title, bool(self.who), None
        self.say("")
        self._tick.start()
        self.session.begin(source, minutes, first, so_far)

    def _show_card(self, card: Card) -> None:
        from counter.training import settings

        if self.pages.currentIndex() != CARD:
            self._open(CARD)
        self.cards.show_card(card, tr(settings().kinds[card.kind].title))
        self._show_bar()

    def _show_outcome(self, given: Given) -> None:
        from counter.training import signal_of

        assert self.catalogue is not None
        self.say("")
        self.cards.show_outcome(given, signal_of(self.catalogue, given.card))
        self._show_bar()

    def _show_bar(self) -> None:
        self.bar.show_round(self._title, self.session.passed(), self.session.right, self.session.asked_count)

    def _show_summary(self) -> None:
        self._tick.stop()
        self.kept.note("over")
        if not self.session.given:
            self._open(PRACTICE)
            return
        self._show_bar()
        self.summary.show_summary(self.session.given, self._is_kept, self.session.right, self.session.asked_count)
        self._open(SUMMARY)
        self.summary.setFocus()

    # -- where everybody stands

    def _show_standing(self) -> None:
        if self.catalogue is not None:
            fill_standing(self.standing, self.catalogue, self.data, self.who, self.clock())

    def _show_pairs(self) -> None:
        if self.catalogue is not None:
            fill_pairs(self.standing, self.catalogue, self.data, self.who)

    def _practise(self, about: str) -> None:
        if self.catalogue is not None:
            self.teach(self.catalogue, about)

    def _show_board(self) -> None:
        if self.catalogue is not None:
            fill_board(self.board, self.catalogue, self.data, self.who, self.clock())

    def _show_sheet(self, who: str) -> None:
        if self.catalogue is not None:
            self.roster.who = who
            fill_sheet(self.board, self.catalogue, self.data, who, self.clock())

    def _assign(self, family: str, is_on: bool) -> None:
        from counter.training import UnknownTraineeError, assign

        try:
            assign(self.data, self.who, family, self.clock(), is_on=is_on)
        except (OSError, UnknownTraineeError) as problem:
            self.say(tr("Not assigned: {problem}").format(problem=problem))
        self._first = None
        self._show_board()

    def _spelled(self, about: str) -> str:
        """Return a base or a family as it is, and a rule of caution by its name."""
        from counter.training import rule_name

        assert self.catalogue is not None
        is_base = about in self.catalogue.base_by_name or about in self.catalogue.lamps_of_family
        return about if is_base else rule_name(about)
