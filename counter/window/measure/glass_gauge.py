"""The base held against the glass: pins and key drawn full size, dragged until they match, measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPen

from counter.language import tr
from counter.window.parts import pen
from counter.window.parts.picture import Picture

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent

    from counter.outline import Drawing
    from counter.window.parts.theme import Theme

GRAB_PX = 20.0
PIN_MM = 2.0
CROSS_MM = 4.0
STEP_MM, LONG_STEP_MM = 0.1, 1.0
REACH_MM = 45.0


class GlassGauge(Picture):
    """Pins at true size in millimetres, y up; each can be taken with the mouse, or with Space and the arrow keys."""

    moved = Signal()

    def __init__(self, theme: Theme, px_per_mm: float) -> None:
        super().__init__()
        self.theme, self.px_per_mm = theme, px_per_mm
        self.pins: list[tuple[float, float]] = []
        self.at = 0
        self.body: Drawing | None = None
        self._held = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("Pin gauge: Space takes the next pin, arrow keys move it, with Shift farther"))
        self.setMinimumSize(360, 240)

    def sizeHint(self) -> QSize:
        return QSize(560, 340)

    def show_pins(self, pins: list[tuple[float, float]], body: Drawing | None = None) -> None:
        """Begin with these pins, millimetres, over the outline of a base, seen from behind."""
        self.pins, self.at, self.body = list(pins), 0, body
        self.update()

    def set_size(self, px_per_mm: float) -> None:
        """Draw at another size, when the screen was calibrated."""
        self.px_per_mm = px_per_mm
        self.update()

    def point(self, x_mm: float, y_mm: float) -> QPointF:
        """Return the pixel of a place in millimetres."""
        middle = QRectF(self.rect()).center()
        return QPointF(middle.x() + x_mm * self.px_per_mm, middle.y() - y_mm * self.px_per_mm)

    def _move(self, x_mm: float, y_mm: float) -> None:
        def within(value: float) -> float:
            return round(min(max(value, -REACH_MM), REACH_MM), 3)

        self.pins[self.at] = (within(x_mm), within(y_mm))
        self.update()
        self.moved.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        places = [QLineF(self.point(*place), event.position()).length() for place in self.pins]
        if places and min(places) <= GRAB_PX:
            self.at, self._held = places.index(min(places)), True
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held:
            middle = QRectF(self.rect()).center()
            off = event.position() - middle
            self._move(off.x() / self.px_per_mm, -off.y() / self.px_per_mm)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held = False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys = Qt.Key
        ways = {keys.Key_Left: (-1, 0), keys.Key_Right: (1, 0), keys.Key_Up: (0, 1), keys.Key_Down: (0, -1)}
        way = ways.get(Qt.Key(event.key()))
        if event.key() == keys.Key_Space and self.pins:
            self.at = (self.at + 1) % len(self.pins)
            self.update()
        elif way is not None and self.pins:
            step = LONG_STEP_MM if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else STEP_MM
            x, y = self.pins[self.at]
            self._move(x + way[0] * step, y + way[1] * step)
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(self.theme.field))
        if self.body is not None:
            painter.save()
            painter.translate(QRectF(self.rect()).center())
            painter.scale(-1, 1)
            pen.paint(painter, self.body, pen.View(self.px_per_mm, 0.0, 0.0), self.theme)
            painter.restore()
        for at, place in enumerate(self.pins):
            taken = at == self.at and self.hasFocus()
            painter.setPen(QPen(QColor(self.theme.accent if taken else self.theme.ink), 2.0 if taken else 1.0))
            middle, arm = self.point(*place), CROSS_MM * self.px_per_mm / 2
            painter.drawEllipse(middle, PIN_MM * self.px_per_mm / 2, PIN_MM * self.px_per_mm / 2)
            painter.drawLine(QLineF(middle - QPointF(arm, 0), middle + QPointF(arm, 0)))
            painter.drawLine(QLineF(middle - QPointF(0, arm), middle + QPointF(0, arm)))
        painter.end()
