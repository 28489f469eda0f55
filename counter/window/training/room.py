"""The training room: its pages, the session, and the list of all connections between them."""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QHideEvent, QKeySequence, QShortcut, QShowEvent

from counter.language import tr
from counter.window.parts.asking import Asking
from counter.window.training.filling import progress_of, round_of
from counter.window.training.frame import BOARD, CARD, PRACTICE, STANDING, SUMMARY, TABS, RoomFrame
from counter.window.training.kept_round import KeptRound
from counter.window.training.progress_pages import ProgressPages
from counter.window.training.roster import Roster
from counter.window.training.session import Session, system_clock
from counter.window.training.warm import Warmer

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from counter.catalogue import Catalogue
    from counter.training import Card, Round, Unfinished
    from counter.window.parts.theme import Theme
    from counter.window.training.session import Clock, Given, Source

ENDLESS_MIN = 24 * 60.0
TICK_MS = 1000
LENGTHS = 5  # number keys that start a round, the last of them to go on with one
ROUND = "round"  # topic: the record for a round to start


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
        self.asking, self.warmer = Asking(), Warmer()
        self.session = Session(clock, self.asking)
        self.roster = Roster(self.people, self.start, data, settings, clock, self.asking)
        self.progress = ProgressPages(self.standing, self.board, self.roster, self.asking)
        self.kept = KeptRound(data, self.session, self.asking)
        self._tick = QTimer(self, interval=TICK_MS)
        self._connect()

    def _connect(self) -> None:
        self.asking.pending.connect(self.show_pending)
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
        self.progress.said.connect(self.say)
        self.progress.assigned.connect(self._forget_first)
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
        from counter.training import Lesson

        if self.session.source is not None:
            self.session.stop()
        self.take(catalogue)
        self.warmer.stop()
        for one in filter(None, (about, otherwise)):
            lesson = Lesson(catalogue, self.data, self.who or None, one, self.clock(), otherwise)
            self._begin(lesson, None, tr("About {what}").format(what=self._spelled(one)))
            if self.session.card is not None:
                break
        if self.session.card is None or one != about:
            words = tr("No lamp and fixture known here bring it up, so there is no question about it: {what}.")
            self.say(words.format(what=self._spelled(about)))
        self._come_forward()  # with its card already: the page of people would be laid out for nothing

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
            self.progress.show_standing()
        elif page == BOARD:
            self.progress.show_board()

    @property
    def who(self) -> str:
        """Return the id of who is chosen, "" for nobody."""
        return self.roster.who

    # -- a round

    def _warm(self) -> None:
        """Make points ahead, and once the store has told the record also the first card of whoever is chosen."""
        if not self.isVisible() or self.session.source is not None or self.catalogue is None:
            return
        self.warmer.start(self._points())
        who = self.who
        if who and (self._first is None or self._first[0] != who):
            job = partial(round_of, self.catalogue, self.data, who, 1, self.clock())
            self.asking.ask(job, lambda ahead: self._warm_card(who, ahead), lambda _: None)

    def _warm_card(self, who: str, ahead: Round | None) -> None:
        if ahead is not None and who == self.who and self.isVisible() and self.session.source is None:
            self.warmer.start(self._first_card(who, ahead))

    def _points(self) -> Iterator[object]:
        from counter.training import KINDS, make_ahead

        assert self.catalogue is not None
        yield from islice(make_ahead(self.catalogue), len(KINDS))

    def _first_card(self, who: str, ahead: Round) -> Iterator[object]:
        yield from self._points()
        if (card := ahead.next_card(self.clock())) is not None:
            self._first = (who, card)

    def _start_place(self, at: int) -> None:
        from counter.training import settings

        minutes = (*settings().rounds_min, None)
        if self.pages.currentIndex() != PRACTICE or not self.roster.is_known or self.roster.row is None:
            return
        if at < len(minutes):
            self.start_round(minutes[at])
        else:
            self._go_on()

    def _go_on(self) -> None:
        """Go on with a round that was cut off, unless meanwhile it is too long ago."""
        from counter.training import unfinished

        who, now = self.who, self.clock().astimezone()

        def job() -> Unfinished | None:
            known = progress_of(self.data, who)
            return unfinished(known, now) if known is not None else None

        def found(cut_off: Unfinished | None) -> None:
            if cut_off is not None:
                self.start_round(cut_off.minutes, cut_off)

        self.asking.once(ROUND, job, found, lambda _: self.roster.show())

    def start_round(self, minutes: float | None, so_far: Unfinished | None = None) -> None:
        """Start a round of whoever is chosen, or go on with one; None is until they stop."""
        assert self.catalogue is not None
        self.warmer.stop()
        now, is_seen = self.clock(), self.isVisible()
        started = so_far.started if so_far is not None else now
        left = so_far.left if so_far is not None else None
        ends = now + (left or timedelta(minutes=minutes or ENDLESS_MIN))
        job = partial(round_of, self.catalogue, self.data, self.who, minutes or ENDLESS_MIN, started, ends)

        def told(source: Round | None) -> None:
            if source is None:
                self.roster.show()  # which finds out that the record is gone
            elif self.session.source is None:  # else a lesson was begun meanwhile
                source.ends += self.clock() - now  # the store's time is not the trainee's
                self._play(source, minutes, started, so_far)
                if is_seen and not self.isVisible():
                    self.session.pause()
                    self.kept.note("waits")

        self.asking.once(ROUND, job, told, lambda _: self.roster.show())

    def _play(self, source: Round, minutes: float | None, started: datetime, so_far: Unfinished | None) -> None:
        length = tr("{minutes:g} minutes").format(minutes=minutes) if minutes else tr("until I stop")
        is_made = so_far is None and self._first is not None and self._first[0] == source.trainee
        first = self._first[1] if is_made and self._first is not None else None
        self.kept.begin(source.trainee, started, minutes)
        self._begin(source, minutes, f"{source.name} · {length}", first, so_far)
        self.kept.note("runs")

    def _forget_first(self) -> None:
        """What was made ahead may be another card now."""
        self._first = None

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
        self.say(given.feedback.unkept)
        if given.feedback.unkept:
            self._is_kept = False
            self.roster.show()  # which finds out that the record is gone, or the store
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

    def _practise(self, about: str) -> None:
        if self.catalogue is not None:
            self.teach(self.catalogue, about)

    def _spelled(self, about: str) -> str:
        """Return a base or a family as it is, and a rule of caution by its name."""
        from counter.training import rule_name

        assert self.catalogue is not None
        is_base = about in self.catalogue.base_by_name or about in self.catalogue.lamps_of_family
        return about if is_base else rule_name(about)
