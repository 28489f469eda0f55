"""The training room's widgets and their places: a head that keeps its height, and one page under it at a time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMainWindow,
    QPushButton,
    QStackedWidget,
    QTabBar,
    QVBoxLayout,
    QWidget,
)

from counter.language import marked, tr
from counter.window.parts.words import Words
from counter.window.training.board_page import BoardPage
from counter.window.training.card_page import CardPage
from counter.window.training.people_pane import PeoplePane
from counter.window.training.round_bar import RoundBar
from counter.window.training.standing_page import StandingPage
from counter.window.training.start_pane import StartPane
from counter.window.training.summary_page import SummaryPage

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme

PRACTICE, STANDING, BOARD, CARD, SUMMARY = range(5)
TABS = (marked("Practice"), marked("Where you stand"), marked("Trainer"))
HEAD_PX, TABS_PX = 44, 340


class RoomFrame(QMainWindow):
    """Makes and places; knows nothing of records and rounds."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)  # the counter's, so that it goes when the counter goes
        self.setWindowTitle(tr("Training"))  # the system adds the program's name
        self.people, self.start = PeoplePane(), StartPane(theme)
        self.standing, self.board = StandingPage(theme), BoardPage()
        self.cards, self.summary, self.bar = CardPage(theme), SummaryPage(), RoundBar(theme)
        self.said = Words(wraps=True)
        self.said.set_role("title")
        self._words, self._is_pending = "", False
        self._lay_out()
        self.show_page(PRACTICE)

    def _lay_out(self) -> None:
        self.tabs = QTabBar()
        for at, name in enumerate(TABS, 1):
            self.tabs.addTab(tr(name))
            self.tabs.setTabToolTip(at - 1, f"Ctrl+{at}")
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setUsesScrollButtons(False)
        self.tabs.setElideMode(Qt.TextElideMode.ElideNone)
        self.tabs.setMinimumWidth(TABS_PX)
        self.back = QPushButton(tr("Back to the counter  F4"))
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
        self.say("")
        self.resize(1280, 800)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for part in (self.start, self.standing, self.cards, self.bar):
            part.set_theme(theme)

    def say(self, words: str) -> None:
        """Say what went wrong, above the page; nothing for nothing."""
        self._words = words
        self._show_said()

    def show_pending(self, is_pending: bool) -> None:
        """Say that the store is being asked, beside what is said already."""
        self._is_pending = is_pending
        self._show_said()

    def _show_said(self) -> None:
        words = "  ".join(filter(None, (self._words, tr("asking the store …") if self._is_pending else "")))
        self.said.setText(words)
        self.said.setVisible(bool(words))

    def show_page(self, page: int) -> None:
        """Show a page; a round has its own head in place of the tabs."""
        in_round = page >= CARD
        self.tabs.setVisible(not in_round)
        self.bar.setVisible(in_round)
        self.bar.stop.setVisible(page == CARD)
        self.pages.setCurrentIndex(page)
        if not in_round:
            self.tabs.blockSignals(True)
            self.tabs.setCurrentIndex(page)
            self.tabs.blockSignals(False)
        if page == PRACTICE:
            (self.people.list if self.people.list.count() else self.people.name).setFocus()
