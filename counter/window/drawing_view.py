"""One large drawing: dimensioned, to scale, with a scale bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from counter.window import pen

if TYPE_CHECKING:
    from counter.outline import Drawing
    from counter.window.theme import Theme

BAR_STEPS_MM = (1, 2, 5, 10, 20, 50, 100, 200)


class DrawingView(QWidget):
    """Paints one drawing as large as it fits, leaving room for the dimension lines around it."""

    def __init__(self, theme: Theme, room: tuple[int, int, int, int] = (28, 26, 28, 70), most: float = 6.0) -> None:
        super().__init__()
        self.theme = theme
        self.room = room
        self.most = most
        self.drawing: Drawing | None = None
        self.marked: frozenset[str] = frozenset()
        self.setMinimumSize(110, 140)

    def show_drawing(self, drawing: Drawing | None, marked: frozenset[str] = frozenset()) -> None:
        """Show another drawing, with the parts named in `marked` in the accent."""
        if drawing != self.drawing or marked != self.marked:
            self.drawing, self.marked = drawing, marked
            self.update()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.drawing is None:
            return
        painter = QPainter(self)
        painter.setFont(pen.small_font(self.font()))
        left, top, right, bottom = self.room
        inside = QRectF(self.rect()).adjusted(left, top, -right, -bottom)
        view = pen.fitting(self.drawing, inside, self.most)
        pen.paint(painter, self.drawing, view, self.theme, self.marked)
        self._scale_bar(painter, view.scale)
        painter.end()

    def _scale_bar(self, painter: QPainter, scale: float) -> None:
        step = max((s for s in BAR_STEPS_MM if s * scale <= 70), default=1)
        start = QPointF(8, self.height() - 8)
        end = start + QPointF(step * scale, 0)
        painter.setPen(QPen(QColor(self.theme.muted), 1))
        painter.drawLine(QLineF(start, end))
        for tick in (start, end):
            painter.drawLine(QLineF(tick, tick - QPointF(0, 4)))
        words = QRectF(start.x(), start.y() - 18, max(end.x() - start.x(), 40), 14)
        painter.drawText(words, Qt.AlignmentFlag.AlignLeft, f"{step}\N{THIN SPACE}mm")
