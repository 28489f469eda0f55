"""A picture with points to put right: a card's corners, or the ends of a known length, and the pins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QPolygonF

from counter.language import tr
from counter.window.parts.picture import Picture

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent

    from counter.window.parts.theme import Theme

GRAB_PX = 18.0
DOT_PX = 5.0
STEP, LONG_STEP = 0.5, 8.0  # pixels of the picture that an arrow key moves a point
BLACK, WHITE = "#000000", "#FFFFFF"  # under and over: a line that shows on any picture


class PictureView(Picture):
    """Points are in pixels of the picture; `card` has four or none, `ends` two or none."""

    moved = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.image = QImage()
        self.groups: dict[str, list[QPointF]] = {"card": [], "ends": [], "pins": []}
        self.at: tuple[str, int] | None = None
        self.lines: tuple[tuple[tuple[float, float], ...], ...] = ()
        self._held = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(
            tr("Picture: Space takes the next point, arrow keys move it, Insert adds a pin, Delete drops it")
        )
        self.setMinimumSize(480, 360)

    def sizeHint(self) -> QSize:
        return QSize(800, 600)

    def show_picture(self, image: QImage) -> None:
        """Show another picture, without points."""
        self.image = image
        self.show_points([], [], [])

    def show_points(
        self,
        card: list[tuple[float, float]],
        ends: list[tuple[float, float]],
        pins: list[tuple[float, float]],
    ) -> None:
        """Show points where they were found."""
        self.groups = {
            name: [QPointF(*point) for point in points]
            for name, points in (("card", card), ("ends", ends), ("pins", pins))
        }
        self.at = None
        self.update()

    def show_lines(self, lines: tuple[tuple[tuple[float, float], ...], ...]) -> None:
        """Lay lines over the picture, in its pixels: the face of the base that fits best."""
        self.lines = lines
        self.update()

    def points(self, group: str) -> list[tuple[float, float]]:
        """Return the points of a group as they lie now."""
        return [(point.x(), point.y()) for point in self.groups[group]]

    def _frame(self) -> QRectF:
        if self.image.isNull():
            return QRectF()
        size = self.image.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        left, top = (self.width() - size.width()) / 2, (self.height() - size.height()) / 2
        return QRectF(left, top, size.width(), size.height())

    def shown(self, point: QPointF) -> QPointF:
        """Return where a point of the picture is in this widget."""
        frame = self._frame()
        scale = frame.width() / max(self.image.width(), 1)
        return frame.topLeft() + point * scale

    def _in_picture(self, place: QPointF) -> QPointF:
        frame = self._frame()
        scale = frame.width() / max(self.image.width(), 1)
        point = (place - frame.topLeft()) / max(scale, 1e-9)
        return QPointF(
            min(max(point.x(), 0.0), float(self.image.width())), min(max(point.y(), 0.0), float(self.image.height()))
        )

    def _order(self) -> list[tuple[str, int]]:
        return [(name, at) for name, points in self.groups.items() for at in range(len(points))]

    def _put(self, point: QPointF) -> None:
        if self.at is not None:
            self.groups[self.at[0]][self.at[1]] = point
            self.update()
            self.moved.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        near = [(QLineF(self.shown(self.groups[n][i]), event.position()).length(), n, i) for n, i in self._order()]
        if near and min(near)[0] <= GRAB_PX:
            _, name, index = min(near)
            self.at, self._held = (name, index), True
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held:
            self._put(self._in_picture(event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held = False

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.add_pin(self._in_picture(event.position()))

    def add_pin(self, point: QPointF | None = None) -> None:
        """Mark one pin more, at a point or in the middle."""
        if self.image.isNull() or len(self.groups["pins"]) >= 4:
            return
        middle = QPointF(self.image.width() / 2, self.image.height() / 2)
        self.groups["pins"].append(point if point is not None else middle)
        self.at = ("pins", len(self.groups["pins"]) - 1)
        self.update()
        self.moved.emit()

    def _drop(self) -> None:
        if self.at is not None and self.at[0] == "pins":
            self.groups["pins"].pop(self.at[1])
            self.at = None
            self.update()
            self.moved.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys, order = Qt.Key, self._order()
        ways = {keys.Key_Left: (-1, 0), keys.Key_Right: (1, 0), keys.Key_Up: (0, -1), keys.Key_Down: (0, 1)}
        way = ways.get(Qt.Key(event.key()))
        if event.key() == keys.Key_Space and order:
            self.at = order[(order.index(self.at) + 1) % len(order)] if self.at in order else order[0]
            self.update()
        elif way is not None and self.at is not None:
            step = LONG_STEP if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else STEP
            old = self.groups[self.at[0]][self.at[1]]
            self._put(QPointF(old.x() + way[0] * step, old.y() + way[1] * step))
        elif event.key() == keys.Key_Insert:
            self.add_pin()
        elif event.key() == keys.Key_Delete:
            self._drop()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform)
        painter.fillRect(self.rect(), QColor(self.theme.field))
        if self.image.isNull():
            painter.setPen(QColor(self.theme.muted))
            words = tr("Drop a picture here, paste one, or open a file")
            painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignCenter), words)
            painter.end()
            return
        painter.drawImage(self._frame(), self.image)
        for colour, width in ((BLACK, 3.0), (self.theme.accent, 1.6)):
            painter.setPen(QPen(QColor(colour), width))
            for line in self.lines:
                painter.drawPolyline(QPolygonF([self.shown(QPointF(*point)) for point in line]))
        for colour, width in ((BLACK, 3.0), (WHITE, 1.2)):
            painter.setPen(QPen(QColor(colour), width))
            if len(self.groups["card"]) == 4:
                painter.drawPolygon(QPolygonF([self.shown(point) for point in self.groups["card"]]))
            if len(self.groups["ends"]) == 2:
                painter.drawLine(QLineF(*(self.shown(point) for point in self.groups["ends"])))
        for name, index in self._order():
            self._dot(painter, self.shown(self.groups[name][index]), (name, index) == self.at)
        painter.end()

    def _dot(self, painter: QPainter, place: QPointF, is_taken: bool) -> None:
        for colour, width in ((BLACK, 4.0), (self.theme.accent if is_taken else WHITE, 2.0)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawEllipse(place, DOT_PX * (1.6 if is_taken else 1), DOT_PX * (1.6 if is_taken else 1))
