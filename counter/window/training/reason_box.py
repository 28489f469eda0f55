"""After an answer: right or not in words and weight, the signal word where there is one, and the reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from counter.window.answer_bar import SignalChip
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme

SIZE = (150, 38)


class OutcomeStamp(QWidget):
    """RIGHT on solid ink, NOT RIGHT in a dashed frame: told apart by weight, from two metres, in any light."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme, self.word, self.is_solid = theme, "", False
        self.setFixedSize(*SIZE)

    def show_outcome(self, word: str, is_solid: bool) -> None:
        """Show a word."""
        self.word, self.is_solid = word, is_solid
        self.setAccessibleName(word)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.word:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink = QColor(self.theme.ink)
        frame = QPen(ink, 2.5, Qt.PenStyle.SolidLine if self.is_solid else Qt.PenStyle.DashLine)
        painter.setPen(frame)
        painter.setBrush(ink if self.is_solid else Qt.BrushStyle.NoBrush)
        box = QRectF(self.rect()).adjusted(2, 2, -2, -2)
        painter.drawRoundedRect(box, 4, 4)
        font = QFont(self.font())
        font.setPointSizeF(font.pointSizeF() * 1.3)
        font.setWeight(QFont.Weight.Bold)
        painter.setFont(font)
        painter.setPen(QColor(self.theme.paper) if self.is_solid else ink)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self.word)
        painter.end()


class ReasonBox(QFrame):
    """The outcome and the reason; empty while a card is open, so that nothing moves when they come."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.stamp, self.chip = OutcomeStamp(theme), SignalChip()
        self.note = Words()
        self.note.set_role("quiet")
        self.why = Words(wraps=True)
        self.why.setAlignment(Qt.AlignmentFlag.AlignTop)
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.1)
        self.why.setFont(large)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self.stamp)
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
        self.stamp.show_outcome("", False)
        self.chip.show_signal(None)
        self.note.setText("")
        self.why.setText("")

    def show_reason(self, word: str, is_solid: bool, why: str, note: str, signal: str | None) -> None:
        """Show what became of an answer, and why."""
        self.stamp.show_outcome(word, is_solid)
        self.chip.show_signal(signal)
        self.note.setText(note)
        self.why.setText(why.removeprefix(f"{signal}: ") if signal else why)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.stamp.theme = theme
        self.stamp.update()
