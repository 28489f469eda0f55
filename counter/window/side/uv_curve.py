"""Time to the daily limit against distance, on log axes, with the working day as a line."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy

from counter.language import figure, marked, tr
from counter.window.parts import pen
from counter.window.parts.picture import Picture

if TYPE_CHECKING:
    from counter.desk.notes import UvcNote
    from counter.window.parts.theme import Theme

DISTANCES_M = (0.3, 0.5, 1, 2, 5, 10)
TIMES_S = (
    (1, "1 s"),
    (10, "10 s"),
    (60, "1 min"),
    (600, "10 min"),
    (3600, "1 h"),
    (8 * 3600, "8 h"),
    (86_400, marked("1 day")),
    (864_000, marked("10 days")),
)
HEIGHT_PX = 160  # with the rows above it in view at once on a small screen


@dataclass(frozen=True, slots=True)
class Axes:
    """Log axes in a rectangle of pixels: distance in metres to the right, time in seconds upward."""

    rect: QRectF
    far_m: tuple[float, float]
    time_s: tuple[float, float]

    def point(self, distance_m: float, time_s: float) -> QPointF:
        """Return the pixel of a distance and a time."""
        across, up = _share(distance_m, self.far_m), _share(time_s, self.time_s)
        return QPointF(self.rect.left() + across * self.rect.width(), self.rect.bottom() - up * self.rect.height())


def _share(value: float, ends: tuple[float, float]) -> float:
    low, high = ends
    return math.log(value / low) / math.log(high / low)


def axes_of(note: UvcNote, rect: QRectF) -> Axes:
    """Return axes that hold the curve and the working day, ended by a labelled time on both sides."""
    times = [time for _, time in note.curve]
    low = max((time for time, _ in TIMES_S if time <= min(times)), default=min(times))
    most = max(*times, note.working_day_s)
    high = min((time for time, _ in TIMES_S if time > most), default=most * 2)
    return Axes(rect, (note.curve[0][0], note.curve[-1][0]), (low, high))


class UvCurve(Picture):
    """The curve; near the lamp, where the formula is not to be relied on, it is dashed."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.note: UvcNote | None = None
        self.setAccessibleName(tr("Time to the daily limit against distance"))
        self.setFixedHeight(HEIGHT_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(320, HEIGHT_PX)

    def show_curve(self, note: UvcNote) -> None:
        """Show the exposure of one lamp."""
        self.note = note
        places = "; ".join(f"{row.where} {row.says}" for row in note.rows)
        self.setAccessibleDescription(places)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.note is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(pen.small_font(self.font()))
        metrics = QFontMetricsF(painter.font())
        left = max(metrics.horizontalAdvance(tr(words)) for _, words in TIMES_S) + 8
        rect = QRectF(left, metrics.height() + 4, self.width() - left - 16, 0)
        rect.setBottom(self.height() - metrics.height() - 6)
        axes = axes_of(self.note, rect)
        _paint_grid(painter, axes, self.theme)
        _paint_day(painter, axes, self.note.working_day_s, self.theme)
        _paint_line(painter, axes, self.note, self.theme)
        painter.end()


def _paint_grid(painter: QPainter, axes: Axes, theme: Theme) -> None:
    rect, metrics = axes.rect, QFontMetricsF(painter.font())
    painter.setPen(QColor(theme.muted))
    painter.drawText(QPointF(0, metrics.ascent()), tr("time to the daily limit"))
    for time, words in TIMES_S:
        if axes.time_s[0] <= time <= axes.time_s[1]:
            y = axes.point(axes.far_m[0], time).y()
            _grid_line(painter, QLineF(rect.left(), y, rect.right(), y), theme)
            box = QRectF(0, y - metrics.height() / 2, rect.left() - 6, metrics.height())
            painter.drawText(box, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter), tr(words))
    for distance in DISTANCES_M:
        x = axes.point(distance, axes.time_s[0]).x()
        _grid_line(painter, QLineF(x, rect.top(), x, rect.bottom()), theme)
        box = QRectF(x - 24, rect.bottom() + 3, 48, metrics.height())
        words = f"{figure(distance)}\N{THIN SPACE}m" if distance == DISTANCES_M[-1] else figure(distance)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop), words)


def _grid_line(painter: QPainter, line: QLineF, theme: Theme) -> None:
    painter.setPen(QPen(QColor(theme.line), pen.WIDTHS["thin"]))
    painter.drawLine(line)
    painter.setPen(QColor(theme.muted))


def _paint_day(painter: QPainter, axes: Axes, day_s: float, theme: Theme) -> None:
    at = axes.point(axes.far_m[0], day_s)
    painter.setPen(QPen(QColor(theme.accent), pen.WIDTHS["accent"]))
    painter.drawLine(QLineF(at.x(), at.y(), axes.rect.right(), at.y()))
    painter.drawText(QPointF(at.x() + 6, at.y() - 4), tr("a working day"))


def _paint_line(painter: QPainter, axes: Axes, note: UvcNote, theme: Theme) -> None:
    near = [axes.point(*one) for one in note.curve if one[0] <= note.near_field_limit_m]
    far = [axes.point(*one) for one in note.curve if one[0] > note.near_field_limit_m]
    stroke = QPen(QColor(theme.ink), pen.WIDTHS["outline"])
    painter.setPen(stroke)
    painter.drawPolyline(far)
    stroke.setDashPattern(pen.DOUBT_DASH)
    painter.setPen(stroke)
    painter.drawPolyline([*near, *far[:1]])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(theme.ink))
    for row in note.rows:
        if row.distance_m is not None:
            painter.drawEllipse(axes.point(row.distance_m, row.time_to_limit_s), 3.5, 3.5)
