"""The caution panel: what must not be sold, why, what to do; and the questions still open."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from counter.window.answer_bar import SignalChip
from counter.window.facts import CONFIDENCE_WORDS

if TYPE_CHECKING:
    from counter.fit import Ask, Caution

QUIET_WHEN_EMPTY = "Nothing to warn of yet. Cautions appear as soon as a candidate calls for one."


class CautionCard(QFrame):
    """One caution: signal word, what, why, what to do, the figure and where it comes from."""

    teach = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.rule = ""
        self.chip = SignalChip()
        self.says, self.why, self.do, self.source = (QLabel(wordWrap=True) for _ in range(4))
        self.learn = QPushButton("teach me")
        self.learn.setFlat(True)
        self.learn.clicked.connect(lambda: self.teach.emit(self.rule))
        self.says.setProperty("role", "title")
        self.source.setProperty("role", "quiet")
        head = QHBoxLayout()
        head.addWidget(self.chip)
        head.addStretch(1)
        head.addWidget(self.learn)
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 6, 8, 6)
        box.setSpacing(3)
        box.addLayout(head)
        for label in (self.says, self.why, self.do, self.source):
            box.addWidget(label)

    def show_caution(self, caution: Caution) -> None:
        """Show a caution."""
        self.rule = caution.rule
        self.chip.show_signal(caution.signal)
        self.says.setText(caution.says)
        self.why.setText(caution.why)
        self.do.setText(f"→ {caution.do}")
        figure = f"{caution.figure:.3g}\N{THIN SPACE}{caution.unit or ''} · " if caution.figure is not None else ""
        self.source.setText(
            f"{figure}{caution.source}, {CONFIDENCE_WORDS.get(caution.confidence, caution.confidence)}"
        )


class CautionsPane(QFrame):
    """Cautions, strictest first, and what to ask the customer; cards are kept and filled again, never rebuilt."""

    ask_pressed = Signal(str)
    teach = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.title = QLabel("Cautions")
        self.title.setProperty("role", "title")
        self.empty = QLabel(QUIET_WHEN_EMPTY, wordWrap=True)
        self.empty.setProperty("role", "quiet")
        self.cards: list[CautionCard] = []
        self.asks: list[QPushButton] = []
        self._shown: object = None
        inside = QWidget()
        self._asks_box = QVBoxLayout()
        self._cards_box = QVBoxLayout()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 4, 0)
        column.setSpacing(6)
        column.addWidget(self.empty)
        column.addLayout(self._asks_box)
        column.addLayout(self._cards_box)
        column.addStretch(1)
        self.area = QScrollArea(widgetResizable=True)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setWidget(inside)
        self.area.setAccessibleName("Cautions")
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 8, 4, 8)
        box.addWidget(self.title)
        box.addWidget(self.area, 1)

    def show_cautions(self, cautions: tuple[Caution, ...], asks: tuple[Ask, ...]) -> None:
        """Show what there is to say and to ask."""
        if self._shown == (cautions, asks):
            return
        self._shown = (cautions, asks)
        self._show_asks(asks)
        while len(self.cards) < len(cautions):
            card = CautionCard()
            card.teach.connect(self.teach)
            self.cards.append(card)
            self._cards_box.addWidget(card)
        for i, card in enumerate(self.cards):
            card.setVisible(i < len(cautions))
            if i < len(cautions):
                card.show_caution(cautions[i])
        self.empty.setVisible(not cautions and not asks)
        count = len(cautions)
        self.title.setText(f"Cautions · {count}" if count else "Cautions")
        self.area.verticalScrollBar().setValue(0)

    def _show_asks(self, asks: tuple[Ask, ...]) -> None:
        while len(self.asks) < min(len(asks), 3):
            button = QPushButton()
            button.clicked.connect(lambda _=False, b=button: self.ask_pressed.emit(str(b.property("about"))))
            self.asks.append(button)
            self._asks_box.addWidget(button)
        for i, button in enumerate(self.asks):
            button.setVisible(i < len(asks))
            if i < len(asks):
                button.setText(f"Ask: {asks[i].question}")
                button.setToolTip(asks[i].why)
                button.setProperty("about", asks[i].about)
