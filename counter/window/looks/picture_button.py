"""A button with a small drawing and a word or two: one answer to a look."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QAbstractButton

from counter.window.parts import pen

if TYPE_CHECKING:
    from counter.outline import Drawing
    from counter.window.parts.theme import Theme

SIZE = QSize(58, 57)
ICON_HEIGHT = 30
MOST_SCALE = 0.95  # pixels a millimetre of the icons' own drawing


class PictureButton(QAbstractButton):
    """A checkable picture; a second press takes it back."""

    def __init__(self, value: str, words: str, drawing: Drawing | None, theme: Theme) -> None:
        super().__init__()
        self.value = value
        self.words = words
        self.drawing = drawing
        self.theme = theme
        self._icon: tuple[tuple[str, float], QPixmap] | None = None
        self.setCheckable(True)
        self.setText(words)
        self.setAccessibleName(words)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setFixedSize(SIZE)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def sizeHint(self) -> QSize:
        return SIZE

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._ground(painter)
        if self.drawing is not None:
            box = QRectF(6, 5, self.width() - 12, ICON_HEIGHT - 4)
            painter.drawPixmap(box.topLeft(), self._painted(self.drawing, box))
        self._word(painter)
        painter.end()

    def _painted(self, drawing: Drawing, box: QRectF) -> QPixmap:
        """Return the picture painted once a theme and screen: a whole pane of vectors costs a frame to paint."""
        key = (self.theme.name, self.devicePixelRatioF())
        if self._icon is None or self._icon[0] != key:
            self._icon = (key, pen.pixmap(drawing, box, MOST_SCALE, key[1], self.theme))
        return self._icon[1]

    def _ground(self, painter: QPainter) -> None:
        on, over = self.isChecked(), self.underMouse() or self.hasFocus()
        painter.setBrush(QColor(self.theme.accent_soft if on else self.theme.field))
        painter.setPen(QPen(QColor(self.theme.accent if on or over else self.theme.line), 2 if on else 1))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self.theme.accent), 1, Qt.PenStyle.DotLine))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(3, 3, -3, -3), 2, 2)

    def _word(self, painter: QPainter) -> None:
        painter.setFont(pen.small_font(self.font(), 0.8))
        painter.setPen(QColor(self.theme.ink))
        box = QRectF(2, ICON_HEIGHT + 2, self.width() - 4, self.height() - ICON_HEIGHT - 4)
        flags = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(box, int(flags), self.words)
