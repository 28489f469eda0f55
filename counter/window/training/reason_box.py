"""After an answer: right or not in a sentence, the signal word where there is one, and the reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.answer_bar import SignalChip
from counter.window.parts.words import Words
from counter.window.training.choices import paint_tick

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme

MARK_PX = 26


class OutcomeMark(QWidget):
    """A drawn tick for what was right; nothing for what was not, which the words beside it say."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme, self.is_right = theme, False
        self.setFixedSize(MARK_PX + 8, MARK_PX + 4)

    def show_outcome(self, is_right: bool) -> None:
        """Show a tick, or nothing."""
        self.is_right = is_right
        self.setVisible(is_right)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.is_right:
            paint_tick(painter, QRectF(self.rect()).center(), MARK_PX, self.theme)
        painter.end()


class ReasonBox(QFrame):
    """The outcome and the reason; empty while a card is open, so that nothing moves when they come."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.mark, self.chip = OutcomeMark(theme), SignalChip()
        self.said, self.note = Words(), Words()
        strong = QFont(self.font())
        strong.setPointSizeF(strong.pointSizeF() * 1.3)
        strong.setWeight(QFont.Weight.DemiBold)
        self.said.setFont(strong)
        self.note.set_role("quiet")
        self.why = Words(wraps=True)
        self.why.setAlignment(Qt.AlignmentFlag.AlignTop)
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.1)
        self.why.setFont(large)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self.mark)
        head.addWidget(self.said)
        head.addWidget(self.note)
        head.addStretch(1)
        head.addWidget(self.chip, 0, Qt.AlignmentFlag.AlignVCenter)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 6, 0, 0)
        box.setSpacing(8)
        box.addLayout(head)
        box.addWidget(self.why)
        self.clear()

    def clear(self) -> None:
        """Show nothing: a card is open."""
        self.mark.show_outcome(False)
        self.said.setText("")
        self.chip.show_signal(None)
        self.note.setText("")
        self.why.setText("")

    def show_reason(self, said: str, is_right: bool, why: str, note: str, signal: str | None) -> None:
        """Show what became of an answer, and why."""
        self.mark.show_outcome(is_right)
        self.said.setText(said)
        self.chip.show_signal(signal)
        self.note.setText(note)
        self.why.setText(why.removeprefix(f"{tr(signal)}: ") if signal else why)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.mark.theme = theme
        self.mark.update()
