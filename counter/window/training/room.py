"""The training room: its pages, the session, and the list of all connections between them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QHideEvent, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QPushButton,
    QStackedWidget,
    QTabBar,
    QVBoxLayout,
    QWidget,
)

from counter.window.training.board_page import BoardPage
from counter.window.training.card_page import CardPage
from counter.window.training.filling import fill_board, fill_matrix, fill_sheet, fill_standing, row_of
from counter.window.training.people_pane import PeoplePane
from counter.window.training.round_bar import RoundBar
from counter.window.training.session import Session, system_clock
from counter.window.training.standing_page import StandingPage
from counter.window.training.start_pane import StartPane
from counter.window.training.summary_page import SummaryPage
from counter.window.training.warm import Warmer, deck_slices

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training import Card, Row
    from counter.window.theme import Theme
    from counter.window.training.session import Clock, Given, Source

PRACTICE, STANDING, BOARD, CARD, SUMMARY = range(5)
TABS = ("Practice", "Where you stand", "Trainer")
ENDLESS_MIN = 24 * 60.0
TICK_MS = 1000
HEAD_PX, TABS_PX = 44, 340


class TrainingRoom(QMainWindow):
    """A window beside the counter. F4 or Esc goes back; what was open here waits, its clocks stopped."""

    left = Signal()
    at_counter_chosen = Signal(str)  # a trainee's id, "" for nobody

    def __init__(self, data: Path, settings: QSettings, theme: Theme, clock: Clock = system_clock) -> None:
        super().__init__()
        self.setWindowTitle("Lamp counter: training")
        self.data, self.settings, self.clock = data, settings, clock
        self.catalogue: Catalogue | None = None
        self.who = str(settings.value("trainee", ""))
        self._row: Row | None = None
        self._title = ""
        self._is_kept = True
        self._first: tuple[str, Card] | None = None  # made ahead for that trainee
        self.session, self.warmer = Session(clock), Warmer()
        self.people, self.start = PeoplePane(), StartPane(theme)
        self.standing, self.board = StandingPage(theme), BoardPage()
        self.cards, self.summary, self.bar = CardPage(theme), SummaryPage(), RoundBar(theme)
        self.said = QLabel(wordWrap=True)
        self._tick = QTimer(self, interval=TICK_MS)
        self._lay_out()
        self._connect()

    # -- how it looks

    def _lay_out(self) -> None:
        self.tabs = QTabBar()
        for at, name in enumerate(TABS, 1):
            self.tabs.addTab(name)
            self.tabs.setTabToolTip(at - 1, f"Ctrl+{at}")
        self.tabs.setDrawBase(False)
        self.tabs.setUsesScrollButtons(False)
        self.tabs.setElideMode(Qt.TextElideMode.ElideNone)
        self.tabs.setMinimumWidth(TABS_PX)
        self.back = QPushButton("Back to the counter  F4")
        self.back.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        head = QWidget()
        head.setFixedHeight(HEAD_PX)
        row = QHBoxLayout(head)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(16)
        row.addWidget(self.tabs)
        row.addWidget(self.bar, 1)
        row.addStretch(0)
        row.addWidget(self.back, 0, Qt.AlignmentFlag.AlignRight)
        practice = QWidget()
        pair = QHBoxLayout(practice)
        pair.setContentsMargins(0, 0, 0, 0)
        pair.setSpacing(8)
        pair.addWidget(self.people, 3)
        pair.addWidget(self.start, 5)
        self.pages = QStackedWidget()
        for page in (practice, self.standing, self.board, self.cards, self.summary):
            self.pages.addWidget(page)
        whole = QWidget()
        box = QVBoxLayout(whole)
        box.setContentsMargins(8, 4, 8, 8)
        box.setSpacing(4)
        for part in (head, self.said):
            box.addWidget(part)
        box.addWidget(self.pages, 1)
        self.setCentralWidget(whole)
        self._say("")
        self._open(PRACTICE)
        self.resize(1280, 800)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for part in (self.start, self.standing, self.cards, self.bar):
            part.set_theme(theme)

    def _connect(self) -> None:
        # who, and how long
        self.people.picked.connect(self._pick)
        self.people.added.connect(self._add)
        self.people.removed.connect(self._remove)
        self.start.started.connect(self._start_place)
        self.start.at_counter_toggled.connect(self._toggle_at_counter)
        # the session
        self.session.asked.connect(self._show_card)
        self.session.answered.connect(self._show_outcome)
        self.session.failed.connect(self._say)
        self.session.ended.connect(self._show_summary)
        self.cards.chosen.connect(lambda at: self.session.choose(at if at >= 0 else None))
        self.cards.next_wanted.connect(self.session.next)
        self.bar.stop_pressed.connect(self.session.stop)
        self.summary.closed.connect(lambda: self._open(PRACTICE))
        self._tick.timeout.connect(self._show_bar)
        # trainer's view, matrices
        self.board.picked.connect(self._show_sheet)
        self.board.assigned.connect(self._assign)
        self.standing.matrix_wanted.connect(self._show_matrix)
        # the whole
        self.tabs.currentChanged.connect(self._open)
        self.back.clicked.connect(self.close)
        QShortcut(QKeySequence("F4"), self, self.close)
        QShortcut(QKeySequence("Escape"), self, self._escape)
        for at in range(len(TABS)):
            QShortcut(QKeySequence(f"Ctrl+{at + 1}"), self, lambda i=at: self._turn_to(i))
        for at in range(4):
            key = QShortcut(QKeySequence(str(at + 1)), self.start, lambda i=at: self._start_place(i))
            key.setContext(Qt.ShortcutContext.WindowShortcut)

    # -- coming and going

    def enter(self, catalogue: Catalogue) -> None:
        """Open the room, or come back to what was open in it."""
        from counter.training import settings

        if catalogue is not self.catalogue and self.session.source is None:
            self.catalogue = catalogue
            self.cards.build(catalogue)
            self._first = None
        self.start.show_lengths(settings().rounds_min)
        if self.session.source is None:
            self._show_people()
        self.show()
        self.raise_()
        self.activateWindow()
        if self.session.source is None:
            self._focus()
            self.warmer.start(self._slices())

    def teach(self, catalogue: Catalogue, about: str) -> None:
        """Ask cards about a base, a family or a rule; a round that is open waits no longer, its answers are kept."""
        from counter.training import Lesson

        if self.session.source is not None:
            self.session.stop()
        self.enter(catalogue)
        self.warmer.stop()
        self._begin(Lesson(catalogue, self.data, self.who or None, about, self.clock()), None, f"About {about}")

    def closeEvent(self, event: QCloseEvent) -> None:
        super().closeEvent(event)
        self.left.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        self.session.pause()
        self.warmer.stop()
        super().hideEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        self.session.resume()
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
        in_round = page >= CARD
        self.tabs.setVisible(not in_round)
        self.bar.setVisible(in_round)
        self.bar.stop.setVisible(page == CARD)
        self.pages.setCurrentIndex(page)
        if not in_round:
            self._tick.stop()
            self.tabs.blockSignals(True)
            self.tabs.setCurrentIndex(page)
            self.tabs.blockSignals(False)
        if page == PRACTICE and self.catalogue is not None:
            self._show_people()
        elif page == STANDING:
            self._show_standing()
        elif page == BOARD:
            self._show_board()
        self._focus()

    def _focus(self) -> None:
        if self.pages.currentIndex() == PRACTICE:
            (self.people.list if self.people.list.count() else self.people.name).setFocus()

    def _say(self, words: str) -> None:
        self.said.setText(words)
        self.said.setVisible(bool(words))

    # -- who

    def _show_people(self) -> None:
        from counter.training import trainees

        self.people.show_people(trainees(self.data), self.who)

    def _pick(self, who: str) -> None:
        if self.catalogue is None:
            return
        self.who = who
        self.settings.setValue("trainee", who)
        self._row = row_of(self.catalogue, self.data, who, self.clock())
        self.start.show_person(self._row, bool(who) and who == self.settings.value("at_counter", ""))
        if self.isVisible() and self.session.source is None:
            self.warmer.start(self._slices())

    def _add(self, name: str) -> None:
        from counter.training import add_trainee

        try:
            self.who = add_trainee(self.data, name, self.clock()).id
        except (OSError, ValueError) as problem:
            self.people.show_problem(f"Not added: {problem}")
            return
        self.people.show_problem("")
        self._show_people()

    def _remove(self, who: str) -> None:
        from counter.training import UnknownTraineeError, remove_trainee

        try:
            remove_trainee(self.data, who)
        except UnknownTraineeError:
            pass  # gone already, which was wanted
        except OSError as problem:
            self.people.show_problem(f"Not removed: {problem}")
            return
        if who == self.settings.value("at_counter", ""):
            self._toggle_at_counter(False)
        self.who = ""
        self._show_people()

    def _toggle_at_counter(self, on: bool) -> None:
        self.settings.setValue("at_counter", self.who if on else "")
        self.at_counter_chosen.emit(self.who if on else "")

    # -- a round

    def _slices(self) -> Iterator[object]:
        """Make the deck, then the first card of whoever is chosen."""
        from counter.training import Round

        if self.catalogue is None:
            return
        yield from deck_slices(self.catalogue)
        if self.who and (self._first is None or self._first[0] != self.who):
            ahead = Round(self.catalogue, self.data, self.who, 1, self.clock())
            yield ahead
            if (card := ahead.next_card(self.clock())) is not None:
                self._first = (self.who, card)

    def _start_place(self, at: int) -> None:
        from counter.training import settings

        minutes = (*settings().rounds_min, None)
        if self.pages.currentIndex() == PRACTICE and self._row is not None and at < len(minutes):
            self.start_round(minutes[at])

    def start_round(self, minutes: float | None) -> None:
        """Start a round of whoever is chosen; None is until they stop."""
        from counter.training import Round, UnknownTraineeError

        assert self.catalogue is not None
        self.warmer.stop()
        try:
            source = Round(self.catalogue, self.data, self.who, minutes or ENDLESS_MIN, self.clock())
        except UnknownTraineeError:
            self._show_people()
            return
        length = f"{minutes:g} minutes" if minutes else "until I stop"
        first = self._first[1] if self._first is not None and self._first[0] == self.who else None
        self._begin(source, minutes, f"{self._row.name if self._row else ''} · {length}", first)

    def _begin(self, source: Source, minutes: float | None, title: str, first: Card | None = None) -> None:
        self._title, self._is_kept, self._first = title, bool(self.who), None
        self._say("")
        self._tick.start()
        self.session.begin(source, minutes, first)

    def _show_card(self, card: Card) -> None:
        from counter.training import settings

        if self.pages.currentIndex() != CARD:
            self._open(CARD)
        self.cards.show_card(card, settings().kinds[card.kind].title)
        self._show_bar()

    def _show_outcome(self, given: Given) -> None:
        self._say("")
        self.cards.show_outcome(given, self._signal_of(given.card))
        self._show_bar()

    def _signal_of(self, card: Card) -> str | None:
        """Return the signal word of the first caution of a card that asks about selling."""
        from counter.desk import assess

        if card.axis not in ("verdict", "caution") or card.case is None or self.catalogue is None:
            return None
        cautions = assess(self.catalogue, card.case).cautions
        return cautions[0].signal if cautions else None

    def _show_bar(self) -> None:
        self.bar.show_round(self._title, self.session.passed(), self.session.right, len(self.session.given))

    def _show_summary(self) -> None:
        self._tick.stop()
        if not self.session.given:
            self._open(PRACTICE)
            return
        self._show_bar()
        self.summary.show_summary(self.session.given, self._is_kept)
        self._open(SUMMARY)
        self.summary.setFocus()

    # -- where everybody stands

    def _show_standing(self) -> None:
        if self.catalogue is not None:
            fill_standing(self.standing, self.catalogue, self.data, self.who, self.clock())

    def _show_matrix(self) -> None:
        fill_matrix(self.standing, self.data, self.who)

    def _show_board(self) -> None:
        if self.catalogue is not None:
            fill_board(self.board, self.catalogue, self.data, self.who, self.clock())

    def _show_sheet(self, who: str) -> None:
        if self.catalogue is not None:
            self.who = who
            fill_sheet(self.board, self.catalogue, self.data, who, self.clock())

    def _assign(self, family: str, is_on: bool) -> None:
        from counter.training import UnknownTraineeError, assign

        try:
            assign(self.data, self.who, family, self.clock(), is_on=is_on)
        except (OSError, UnknownTraineeError) as problem:
            self._say(f"Not assigned: {problem}")
        self._first = None
        self._show_board()
