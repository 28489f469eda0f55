"""The answers of a card as large numbered rows, one under the other; afterwards ticked or struck through by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QVBoxLayout, QWidget

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme

NUMBER_PX, WORD_PX, PAD_PX, LEAST_PX = 44, 136, 10, 44
TICK_PX = 18.0
WRAP = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter) | int(Qt.TextFlag.TextWordWrap)


class ChoiceButton(QAbstractButton):
    """One numbered answer; afterwards a tick in place of its number says that it was right, a stroke that it was not.

    Nothing here looks like the stamp of a sale: no box, no capitals, no solid ground.
    """

    def __init__(self, theme: Theme, number: int) -> None:
        super().__init__()
        self.theme, self.number = theme, number
        self.word, self.is_right, self.is_said, self.is_quiet = "", False, False, False
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        font = QFont(self.font())
        font.setPointSizeF(font.pointSizeF() * 1.15)
        self.setFont(font)

    def show_choice(self, text: str) -> None:
        """Show an answer that can be given."""
        self.setText(text)
        self.setAccessibleName(f"{self.number}: {text}")
        self.word, self.is_right, self.is_said, self.is_quiet = "", False, False, False
        self.setAccessibleDescription("")
        self.setEnabled(True)
        self.updateGeometry()
        self.update()

    def show_outcome(self, word: str, is_right: bool, is_said: bool) -> None:
        """Show what became of it, with `word` beside it: ticked where right, struck through where said and wrong."""
        self.word, self.is_right, self.is_said = word, is_right, is_said
        self.is_quiet = not (is_right or is_said)
        self.setAccessibleDescription(word)
        self.setEnabled(False)
        self.update()

    def _text_width(self, width: int) -> int:
        return width - NUMBER_PX - WORD_PX - PAD_PX

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        room = QRect(0, 0, max(self._text_width(width), 40), 2000)
        return max(QFontMetrics(self.font()).boundingRect(room, WRAP, self.text()).height() + 2 * PAD_PX, LEAST_PX)

    def sizeHint(self) -> QSize:
        return QSize(420, self.heightForWidth(420))

    def minimumSizeHint(self) -> QSize:
        return QSize(240, LEAST_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._frame(painter)
        painter.setPen(QColor(self.theme.muted if self.is_quiet else self.theme.ink))
        room = QRectF(NUMBER_PX, 0, self._text_width(self.width()), self.height())
        font = QFont(self.font())
        font.setBold(self.is_right)
        font.setStrikeOut(self.is_said and not self.is_right)
        painter.setFont(font)
        painter.drawText(room, WRAP, self.text())
        painter.setFont(self.font())
        right = QRectF(self.width() - WORD_PX, 0, WORD_PX - PAD_PX, self.height())
        painter.drawText(right, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter), self.word)
        self._number(painter, QRectF(0, 0, NUMBER_PX, self.height()))
        painter.end()

    def _number(self, painter: QPainter, box: QRectF) -> None:
        if self.is_right:
            paint_tick(painter, box.center(), TICK_PX, self.theme)
            return
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.Bold)
        painter.setFont(bold)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(self.number))

    def _frame(self, painter: QPainter) -> None:
        over = self.isEnabled() and (self.underMouse() or self.hasFocus())
        painter.setPen(QPen(QColor(self.theme.accent if over else self.theme.edge), 2 if over else 1))
        painter.setBrush(QColor(self.theme.accent_soft if self.isDown() else self.theme.field))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 4, 4)


def paint_tick(painter: QPainter, middle: QPointF, size: float, theme: Theme) -> None:
    """Draw a tick as a pencil makes it: a short stroke down, a long one up, `size` pixels wide."""
    path = QPainterPath(middle + QPointF(-0.5, 0.05) * size)
    path.lineTo(middle + QPointF(-0.15, 0.4) * size)
    path.quadTo(middle + QPointF(0.1, -0.15) * size, middle + QPointF(0.55, -0.5) * size)
    stroke = QPen(QColor(theme.ink), max(size / 7, 2.0))
    stroke.setCapStyle(Qt.PenCapStyle.RoundCap)
    stroke.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.strokePath(path, stroke)


class Choices(QWidget):
    """Up to nine answers; emits the place of the one pressed. Buttons are kept and filled again."""

    chosen = Signal(int)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.buttons: list[ChoiceButton] = []
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(6)

    def show_choices(self, texts: tuple[str, ...]) -> None:
        """Show the answers of another card."""
        while len(self.buttons) < len(texts):
            self._add()
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(texts))
            if at < len(texts):
                button.show_choice(texts[at])

    def _add(self) -> None:
        at = len(self.buttons)
        button = ChoiceButton(self.theme, at + 1)
        button.clicked.connect(lambda: self.chosen.emit(at))
        self.buttons.append(button)
        self._box.addWidget(button)

    def show_outcomes(self, words: tuple[str, ...], right: frozenset[int], said: int | None) -> None:
        """Show what became of each answer."""
        for at, (button, word) in enumerate(zip(self.buttons, words, strict=False)):
            button.show_outcome(word, at in right, at == said)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for button in self.buttons:
            button.theme = theme
            button.update()
