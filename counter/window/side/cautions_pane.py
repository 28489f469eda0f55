"""The caution panel: what must not be sold, why, what to do; and the questions still open."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout

from counter.language import SpokenNumber, marked, tr, trn
from counter.window.answer_bar import SignalChip
from counter.window.outlines.facts import confidence_words
from counter.window.parts.flash import RingOnFocus
from counter.window.parts.scroll_column import LEAST_HEIGHT_PX, Wrapping
from counter.window.parts.where_from import WhereFrom
from counter.window.parts.words import Words
from counter.window.side.ask_row import AskRow

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.fit import Ask, Caution

MOST_ASKS = 3  # more questions than that are not asked of a customer
AT_ONCE = 1  # cautions filled with the answer, beyond those that can be in view
LEAST_CARD_PX = 130
REST_MS = 40  # after the answer is painted, the cautions below the view
QUIET_WHEN_EMPTY = marked("Nothing to warn of yet. Cautions appear here as soon as a lamp calls for one.")


class CautionCard(QFrame):
    """One caution: signal word, what, why, what to do, the figure and where it comes from."""

    teach = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.rule = ""
        self.chip = SignalChip()
        self.says, self.why, self.do, self.source = (Words(wraps=True) for _ in range(4))
        self.where_from = WhereFrom()
        self.learn = QPushButton(tr("teach me"))
        self.learn.setFlat(True)
        self.learn.clicked.connect(lambda: self.teach.emit(self.rule))
        self.says.set_role("title")
        self.source.set_role("quiet")
        head = QHBoxLayout()
        head.addWidget(self.chip, 0, Qt.AlignmentFlag.AlignVCenter)
        head.addStretch(1)
        head.addWidget(self.learn)
        foot = QHBoxLayout()
        foot.addWidget(self.source, 1)
        foot.addWidget(self.where_from)
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 6, 8, 6)
        box.setSpacing(3)
        box.addLayout(head)
        for label in (self.says, self.why, self.do):
            box.addWidget(label)
        box.addLayout(foot)
        box.addWidget(self.where_from.said)

    def show_caution(self, caution: Caution, source: str = "") -> None:
        """Show a caution; `source` says in full where it comes from."""
        self.rule = caution.rule
        self.chip.show_signal(caution.signal)
        self.says.setText(caution.says)
        self.why.setText(caution.why)
        self.do.setText(f"→ {caution.do}")
        figure = ""
        if caution.figure is not None and caution.unit != "s":  # times stand in the sentence
            figure = f"{figure_words(caution.figure, caution.unit)} · "
        self.source.setText(f"{figure}{confidence_words(caution.confidence)}")
        self.where_from.show_source(source)
        self.source.setAccessibleDescription(source)


def figure_words(figure: float, unit: str | None) -> str:
    """Return a figure with its unit, never in powers of ten."""
    if unit == "pins":
        return trn("{count} pin", "{count} pins", figure).format(count=f"{figure:g}")
    if unit == "wattages":
        return trn("{count} wattage", "{count} wattages", figure).format(count=f"{figure:g}")
    number = f"{SpokenNumber(figure):.3g}" if abs(figure) < 1000 else f"{figure:,.0f}".replace(",", "\N{THIN SPACE}")
    return f"{number}\N{THIN SPACE}{unit}" if unit else number


class CautionsPane(QFrame):
    """Cautions, strictest first, and what to ask the customer; cards are kept and filled again, never rebuilt."""

    ask_pressed = Signal(str)
    answered = Signal(object)
    teach = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.empty = Words(tr(QUIET_WHEN_EMPTY), wraps=True)
        self.empty.set_role("quiet")
        self.cards: list[CautionCard] = []
        self.asks: list[AskRow] = []
        self._is_answering = False
        self._shown: object = None
        self._cautions: tuple[Caution, ...] = ()
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(lambda: self._show_cards(len(self._cautions)))
        self._sources: dict[str, str] = {}
        inside = Wrapping()
        self._asks_box, self._cards_box = QVBoxLayout(), QVBoxLayout()
        self._asks_box.setSpacing(6)
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 4, 0)
        column.setSpacing(6)
        column.addWidget(self.empty)
        column.addLayout(self._asks_box)
        column.addLayout(self._cards_box)
        column.addStretch(1)
        self.area = QScrollArea(widgetResizable=True)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setMinimumHeight(LEAST_HEIGHT_PX)
        self.area.setWidget(inside)
        self.area.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.area.setAccessibleName(tr("Cautions"))
        RingOnFocus(self.area)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 4, 0, 0)
        box.addWidget(self.area, 1)

    def build(self, catalogue: Catalogue) -> None:
        """Take the titles of the sources."""
        self._sources = {key: tr(source.title) for key, source in catalogue.source_by_key.items()}

    def show_cautions(self, cautions: tuple[Caution, ...], asks: tuple[Ask, ...]) -> None:
        """Show what there is to say and to ask."""
        if self._shown == (cautions, asks):
            return
        self._shown = (cautions, asks)
        self._show_asks(asks)
        self._cautions = cautions
        at_once = AT_ONCE + self.area.viewport().height() // LEAST_CARD_PX
        self._show_cards(at_once)
        self.empty.setVisible(not cautions and not asks)
        if not self._is_answering:
            self.area.verticalScrollBar().setValue(0)
        if len(cautions) > at_once:
            self._rest.start()

    def _show_cards(self, most: int) -> None:
        """Fill at most so many cards; laying out words below the view would cost the answer a frame."""
        cautions = self._cautions[:most]
        while len(self.cards) < len(cautions):
            card = CautionCard()
            card.teach.connect(self.teach)
            self.cards.append(card)
            self._cards_box.addWidget(card)
        for i, card in enumerate(self.cards):
            card.setVisible(i < len(cautions))
            if i < len(cautions):
                card.show_caution(cautions[i], self._sources.get(cautions[i].source, ""))

    @property
    def open_asks(self) -> list[AskRow]:
        """The questions still to be answered, the first first."""
        return [row for row in self.asks if row.is_open]

    def _answer(self, row: AskRow, answer: object) -> None:
        """Pass an answer on; its question, and those above it, keep their places under the pointer."""
        self._is_answering = True
        try:
            self.answered.emit(answer)
        finally:
            self._is_answering = False

    def _show_asks(self, asks: tuple[Ask, ...]) -> None:
        """Show questions from the top; after an answer below those answered, so that none slips under the hand."""
        left = list(asks[:MOST_ASKS])
        staying = self._staying()
        for row in (one for one in staying if one.given is None):
            same = next((one for one in left if row.asks_of(one)), None)
            row.setEnabled(same is not None)  # what nobody asks any more keeps its place until the hand is gone
            left = [one for one in left if one is not same]
        for ask, row in zip(left, self._rows_from(len(staying), len(left)), strict=True):
            row.show_ask(ask)
        for row in self.asks[len(staying) + len(left) :]:
            row.show_ask(None)

    def _staying(self) -> list[AskRow]:
        answered = [at for at, row in enumerate(self.asks) if row.given is not None]
        return self.asks[: answered[-1] + 1] if self._is_answering and answered else []

    def _rows_from(self, first: int, count: int) -> list[AskRow]:
        while len(self.asks) < first + count:
            row = AskRow()
            row.pressed.connect(self.ask_pressed)
            row.answered.connect(lambda answer, one=row: self._answer(one, answer))
            self.asks.append(row)
            self._asks_box.addWidget(row)
        return self.asks[first : first + count]
