"""A button with a small drawing and a word or two: one answer to a look."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QAbstractButton

from counter.window.parts import pen
from counter.window.parts.sizes import high
from counter.window.parts.words import tip

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    from counter.outline import Drawing
    from counter.window.parts.theme import Theme

LEAST = QSize(51, 50)
MOST_SCALE = 0.95  # pixels a millimetre of the icons' own drawing, at the letters they stand beside
PLAIN_LINE_PX = 15
ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)
FLAGS = int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter) | int(Qt.TextFlag.TextWordWrap)


def tile_size(font: QFont, words: list[str]) -> QSize:
    """Return the size in which each of these words fits under its picture, in two lines."""
    small = QFontMetrics(pen.small_font(font, 0.8))
    width, room = LEAST.width(), _lines_high(font)
    while any(small.boundingRect(0, 0, width - 4, 999, FLAGS, one).height() > room for one in words):
        width += 3
    widest = max((small.horizontalAdvance(part) for one in words for part in re.split(r"[\s-]", one)), default=0)
    return QSize(max(width, widest + 4), max(LEAST.height(), high(font) * 5 // 3 + room + 3))


def _lines_high(font: QFont) -> int:
    """Return the height of the words under a picture; lines in a row take more than their spacing says."""
    return QFontMetrics(pen.small_font(font, 0.8)).boundingRect(0, 0, 999, 999, FLAGS, "x\nx").height()


class PictureButton(QAbstractButton):
    """A checkable picture; a second press takes it back. Without a drawing a large sign stands in its place."""

    def __init__(self, value: str, words: str, drawing: Drawing | None, theme: Theme, sign: str = "") -> None:
        super().__init__()
        self.value = value
        self.words = words
        self.drawing = drawing
        self.theme = theme
        self.sign = sign
        self._icon: tuple[tuple[str, float], QPixmap] | None = None
        self.setCheckable(True)
        self.setText(words)
        self.setAccessibleName(words)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)  # Tab comes to one a row; arrows go on from there
        self.setFixedSize(tile_size(self.font(), [words]))
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def setToolTip(self, words: str) -> None:
        super().setToolTip(tip(words))

    def sizeHint(self) -> QSize:
        return self.size()

    def _word_height(self) -> int:
        return _lines_high(self.font())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._ground(painter)
        box = QRectF(6, 4, self.width() - 12, self.height() - self._word_height() - 7)
        if self.drawing is not None:
            painter.drawPixmap(box.topLeft(), self._painted(self.drawing, box))
        elif self.sign:
            self._sign(painter, box)
        self._word(painter)
        painter.end()

    def _painted(self, drawing: Drawing, box: QRectF) -> QPixmap:
        """Return the picture painted once a theme and screen: a whole pane of vectors costs a frame to paint."""
        key = (self.theme.name, self.devicePixelRatioF())
        if self._icon is None or self._icon[0] != key:
            most = MOST_SCALE * max(high(self.font()) / PLAIN_LINE_PX, 1)
            self._icon = (key, pen.pixmap(drawing, box, most, key[1], self.theme))
        return self._icon[1]

    def _ground(self, painter: QPainter) -> None:
        on, over = self.isChecked(), self.underMouse()
        painter.setBrush(QColor(self.theme.accent_soft if on else self.theme.field))
        painter.setPen(QPen(QColor(self.theme.accent if on or over else self.theme.edge), 2 if on else 1))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self.theme.ink), 2))  # in the accent it would look chosen
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)

    def _sign(self, painter: QPainter, box: QRectF) -> None:
        font = QFont(self.font())
        font.setPointSizeF(font.pointSizeF() * 1.5)
        painter.setFont(font)
        painter.setPen(QColor(self.theme.ink if self.isChecked() else self.theme.muted))
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), self.sign)

    def _word(self, painter: QPainter) -> None:
        painter.setFont(pen.small_font(self.font(), 0.8))
        painter.setPen(QColor(self.theme.ink))
        height = self._word_height()
        painter.drawText(QRectF(2, self.height() - height - 3, self.width() - 4, height), FLAGS, self.words)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ARROWS:
            event.ignore()  # Qt would go to the next tab stop; the row knows its own neighbours
        else:
            super().keyPressEvent(event)
