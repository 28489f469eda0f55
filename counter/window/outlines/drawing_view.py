"""One large drawing: dimensioned, to scale, with a scale bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QWidget

from counter.outline import MM_PER_INCH, length_words
from counter.window.parts import pen
from counter.window.parts.picture import Picture
from counter.window.parts.sizes import high

if TYPE_CHECKING:
    from counter.outline import Drawing, Units
    from counter.window.parts.theme import Theme

BAR_STEPS_MM = (1, 2, 5, 10, 20, 50, 100, 200)
BAR_STEPS_IN = (0.125, 0.25, 0.5, 1, 2, 4, 8)
BAR_MOST_PX = 52
SIDE_PX, TOP_PX, TICK_PX = 4, 6, 4
LINES_BELOW = 3  # of lettering: two of the caption, one of the scale bar
LINES_HIGH = 8.5  # of lettering that a drawing needs, so that its dimensions do not print over each other


class DrawingView(Picture):
    """Paints one drawing as large as it fits; a mate, where it shows something, is painted to the same scale."""

    def __init__(self, theme: Theme, most: float = 6.0, least_width: int = 98) -> None:
        super().__init__()
        self.theme = theme
        self.most = most
        self.mate: DrawingView | None = None
        self.drawing: Drawing | None = None
        self.caption = ""
        self.units: Units = "mm"
        self.marked: frozenset[str] = frozenset()
        self._kept: tuple[tuple[object, ...], QPixmap] | None = None
        line = high(pen.small_font(self.font()))
        self._least_px = max(140, round(line * LINES_HIGH) + self._below())
        self.setMinimumSize(max(least_width, line * 8), self._least_px)

    def be_high(self, least_px: int) -> None:
        """Take at least this height, where the drawing can be scrolled to, or only what it must have."""
        self.setMinimumHeight(max(self._least_px, least_px))

    def _below(self) -> int:
        """Return the room below the drawing, for its scale bar and its caption."""
        return high(pen.small_font(self.font()), LINES_BELOW) + 4 * TICK_PX

    def _room(self) -> QRectF:
        return QRectF(self.rect()).adjusted(SIDE_PX, TOP_PX, -SIDE_PX, -self._below())

    def show_drawing(self, drawing: Drawing | None, marked: frozenset[str] = frozenset(), caption: str = "") -> None:
        """Show another drawing, the parts named in `marked` in the accent, and a line of words under it."""
        if (drawing, marked, caption) != (self.drawing, self.marked, self.caption):
            self.drawing, self.marked, self.caption = drawing, marked, caption
            self.update()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()

    def _view(self) -> pen.View | None:
        if self.drawing is None:
            return None
        return pen.fitting(self.drawing, self._room(), self.most)

    def paintEvent(self, event: QPaintEvent) -> None:
        view = self._view()
        if view is None or self.drawing is None:
            return
        mates = self.mate._view() if self.mate is not None and self.mate.isVisible() else None
        if mates is not None and mates.scale < view.scale:
            view = pen.fitting(self.drawing, self._room(), mates.scale)
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._painted(self.drawing, view))
        painter.end()

    def _painted(self, drawing: Drawing, view: pen.View) -> QPixmap:
        """Return what was painted last, unless anything it depends on has changed."""
        ratio = self.devicePixelRatioF()
        key = (view, self.size(), ratio, self.theme.name, drawing, self.marked, self.caption, self.units)
        if self._kept is None or self._kept[0] != key:
            made = QPixmap(self.size() * ratio)
            made.setDevicePixelRatio(ratio)
            made.fill(Qt.GlobalColor.transparent)
            painter = QPainter(made)
            painter.setFont(pen.small_font(self.font()))
            pen.paint(painter, drawing, view, self.theme, self.marked)
            self._scale_bar(painter, view.scale)
            painter.end()
            self._kept = (key, made)
        return self._kept[1]

    def _scale_bar(self, painter: QPainter, scale: float) -> None:
        unit_mm, steps = (MM_PER_INCH, BAR_STEPS_IN) if self.units == "in" else (1.0, BAR_STEPS_MM)
        step = unit_mm * max((s for s in steps if s * unit_mm * scale <= BAR_MOST_PX), default=steps[0])
        line = painter.fontMetrics().lineSpacing()
        caption = 2 * line
        start = QPointF(6, self.height() - caption - TICK_PX)
        end = start + QPointF(step * scale, 0)
        painter.setPen(QPen(QColor(self.theme.muted), 1))
        painter.drawLine(QLineF(start, end))
        for tick in (start, end):
            painter.drawLine(QLineF(tick, tick - QPointF(0, TICK_PX)))
        painter.drawText(
            start - QPointF(0, TICK_PX + painter.fontMetrics().descent()), length_words(step, self.units)
        )
        if self.caption:
            box = QRectF(6, self.height() - caption, self.width() - 8, caption)
            flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
            painter.drawText(box, int(flags), self.caption)


class Sketch(QWidget):
    """A small drawing without scale or words, beside a sentence it makes plain."""

    def __init__(self, theme: Theme, width: int, height: int) -> None:
        super().__init__()
        self.theme = theme
        self.drawing: Drawing | None = None
        self.setFixedSize(width, height)

    def show_drawing(self, drawing: Drawing | None) -> None:
        """Show another drawing."""
        if drawing != self.drawing:
            self.drawing = drawing
            self.update()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.drawing is None:
            return
        painter = QPainter(self)
        inside = QRectF(self.rect()).adjusted(2, 2, -2, -2)
        pen.paint(painter, self.drawing, pen.fitting(self.drawing, inside), self.theme)
        painter.end()
