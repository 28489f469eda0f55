"""Paints drawings: the one pen language of screen, paper and cards."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QPixmap, QPolygonF

from counter.outline import Disc, Drawing, Label, Measure, Path
from counter.window.parts import early

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme

WIDTHS = {"outline": 1.8, "detail": 1.1, "thin": 0.8, "centre": 0.7, "accent": 2.0}
ARROW_PX = 6.0
ON_GLASS = {"glass": "on_glass", "dark-glass": "on_dark_glass"}  # a line that can be seen on its ground
DOUBT_DASH = [3.5, 2.5]
CENTRE_DASH = [10.0, 3.0, 2.0, 3.0]


class View(NamedTuple):
    """Where a drawing lands: pixels a millimetre, and the pixel that its origin falls on."""

    scale: float
    x: float
    y: float

    def point(self, x_mm: float, y_mm: float) -> QPointF:
        """Return the pixel of a point in millimetres, y up."""
        return QPointF(self.x + x_mm * self.scale, self.y - y_mm * self.scale)


def fitting(drawing: Drawing, rect: QRectF, most: float = 1e9) -> View:
    """Return the view that centres a drawing's box in a rectangle, at most `most` pixels a millimetre."""
    scale = min(rect.width() / max(drawing.width_mm, 0.1), rect.height() / max(drawing.height_mm, 0.1), most)
    left, bottom, right, top = drawing.reach
    middle_x, middle_y = (left + right) / 2, (bottom + top) / 2
    return View(scale, rect.center().x() - middle_x * scale, rect.center().y() + middle_y * scale)


def paint(
    painter: QPainter, drawing: Drawing, view: View, theme: Theme, marked: frozenset[str] = frozenset()
) -> None:
    """Paint a drawing; parts named in `marked` are drawn in the accent, to show where two bases differ.

    Then nothing else is: a notch that is the same on both would only draw the eye away.
    """
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for shape in drawing.shapes:
        if marked and shape.part not in marked and isinstance(shape, Path) and shape.pen == "accent":
            shape = shape._replace(pen="outline")
        if isinstance(shape, Path):
            _paint_path(painter, shape, view, theme, shape.part in marked)
        elif isinstance(shape, Disc):
            _paint_disc(painter, shape, view, theme, shape.part in marked)
        elif isinstance(shape, Label):
            _paint_label(painter, shape, view, theme)
        else:
            _paint_measure(painter, shape, view, theme, shape.part in marked)
    painter.restore()


def pixmap(drawing: Drawing, box: QRectF, most: float, ratio: float, theme: Theme) -> QPixmap:
    """Return a drawing fitted into a box of that size on a clear ground, `ratio` device pixels a pixel."""
    made = QPixmap(max(int(box.width() * ratio), 1), max(int(box.height() * ratio), 1))
    made.setDevicePixelRatio(ratio)
    made.fill(QColor(0, 0, 0, 0))
    painter = QPainter(made)
    inside = QRectF(1, 1, box.width() - 2, box.height() - 2)
    paint(painter, drawing, fitting(drawing, inside, most), theme)
    painter.end()
    return made


def _pen(name: str, theme: Theme, dashed: bool, marked: bool) -> QPen:
    colour = theme.accent if marked or name == "accent" else theme.muted if name in ("centre", "thin") else theme.ink
    pen = early.pen(colour, WIDTHS[name] + (0.8 if marked else 0))
    if name == "centre":
        pen.setDashPattern(CENTRE_DASH)
    elif dashed:
        pen.setDashPattern(DOUBT_DASH)
    return pen


def _fill(name: str, theme: Theme, marked: bool = False) -> QBrush:
    if name == "ink":
        return early.brush(theme.accent if marked else theme.ink)
    fills = {"paper": theme.paper, "glass": theme.glass, "dark-glass": theme.dark_glass, "tint": theme.tint}
    return early.brush(fills[name])


def _lay_down(painter: QPainter, path: QPainterPath, shape: Path | Disc, theme: Theme, marked: bool) -> None:
    if shape.fill != "none":
        painter.fillPath(path, _fill(shape.fill, theme, marked))
    if shape.pen != "none":
        stroke = _pen(shape.pen, theme, shape.dashed, marked)
        if not marked and shape.fill in ON_GLASS:
            stroke.setColor(QColor(getattr(theme, ON_GLASS[shape.fill])))
        painter.strokePath(path, stroke)


def _paint_path(painter: QPainter, shape: Path, view: View, theme: Theme, marked: bool) -> None:
    points = [view.point(x, y) for x, y in shape.points]
    is_rounded = shape.closed and shape.corner_mm > 0
    path = _rounded(points, shape.corner_mm * view.scale) if is_rounded else _line(points, is_closed=shape.closed)
    _lay_down(painter, path, shape, theme, marked)


def _line(points: list[QPointF], *, is_closed: bool) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(QPolygonF(points))  # at once: nine points in ten have no corner to round
    if is_closed:
        path.closeSubpath()
    return path


def _rounded(points: list[QPointF], radius_px: float) -> QPainterPath:
    """Return a closed path through points with every corner rounded as far as its sides allow."""
    path = QPainterPath()
    count = len(points)
    for i, corner in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % count]
        entry, leave = _toward(corner, before, radius_px), _toward(corner, after, radius_px)
        if i == 0:
            path.moveTo(entry)
        else:
            path.lineTo(entry)
        path.quadTo(corner, leave)
    path.closeSubpath()
    return path


def _toward(corner: QPointF, other: QPointF, distance: float) -> QPointF:
    line = QLineF(corner, other)
    if line.length() == 0:
        return corner
    return line.pointAt(min(distance / line.length(), 0.5))


def _paint_disc(painter: QPainter, shape: Disc, view: View, theme: Theme, marked: bool) -> None:
    radius = max(shape.radius_mm * view.scale, 1.4)  # a pin never vanishes at small scales
    path = QPainterPath()
    path.addEllipse(view.point(shape.x_mm, shape.y_mm), radius, radius)
    _lay_down(painter, path, shape, theme, marked)


def _paint_label(painter: QPainter, shape: Label, view: View, theme: Theme) -> None:
    colour = theme.muted if shape.quiet else theme.ink
    at = view.point(shape.x_mm, shape.y_mm)
    metrics = QFontMetricsF(painter.font())
    width = metrics.horizontalAdvance(shape.text)
    left = at.x() - {"left": 0.0, "middle": width / 2, "right": width}[shape.align]
    foot = QPointF(left, at.y() + metrics.capHeight() / 2)
    if shape.part == "notch":  # the question mark of an unknown key is part of the drawing, and of the first paint
        glyph = QPainterPath()
        glyph.addText(foot, painter.font(), shape.text)
        painter.fillPath(glyph, early.brush(colour))
        return
    painter.setPen(QColor(colour))
    painter.drawText(foot, shape.text)


def _paint_measure(painter: QPainter, shape: Measure, view: View, theme: Theme, marked: bool) -> None:
    start, end = view.point(*shape.start), view.point(*shape.end)
    upright = abs(end.x() - start.x()) < abs(end.y() - start.y())
    off = shape.off_mm * view.scale
    pick = max if (off > 0) == upright else min
    if upright:
        x = pick(start.x(), end.x()) + off
        a, b = QPointF(x, start.y()), QPointF(x, end.y())
    else:
        y = pick(start.y(), end.y()) - off
        a, b = QPointF(start.x(), y), QPointF(end.x(), y)
    painter.setPen(early.pen(theme.accent if marked else theme.muted, WIDTHS["thin"]))
    painter.drawLine(QLineF(start, a))
    painter.drawLine(QLineF(end, b))
    pen = painter.pen()
    if shape.dashed:
        pen.setDashPattern(DOUBT_DASH)
        painter.setPen(pen)
    painter.drawLine(QLineF(a, b))
    _arrow(painter, a, b, theme)
    _arrow(painter, b, a, theme)
    _measure_text(painter, shape.text, QLineF(a, b), upright, theme)


def _arrow(painter: QPainter, tip: QPointF, other: QPointF, theme: Theme) -> None:
    line = QLineF(tip, other)
    if line.length() < ARROW_PX * 2:
        return
    unit = QPointF(line.dx() / line.length(), line.dy() / line.length())
    back = tip + unit * ARROW_PX
    side = QPointF(-unit.y(), unit.x()) * (ARROW_PX * 0.3)
    painter.fillPath(_line([tip, back + side, back - side], is_closed=True), early.brush(theme.muted))


def _measure_text(painter: QPainter, text: str, line: QLineF, upright: bool, theme: Theme) -> None:
    metrics = QFontMetricsF(painter.font())
    box = QRectF(0, 0, metrics.horizontalAdvance(text) + 6, metrics.height())
    painter.save()
    painter.translate(line.center())
    if upright:
        painter.rotate(-90)
    box.moveCenter(QPointF(0, 0))
    painter.fillRect(box, QColor(theme.paper))
    painter.setPen(QColor(theme.ink))
    painter.drawText(box, early.CENTRE, text)
    painter.restore()


def small_font(base: QFont, step: float = 0.86) -> QFont:
    """Return the drawing's lettering: the system's font, a step smaller."""
    font = QFont(base)
    font.setPointSizeF(max(base.pointSizeF() * step, 6.5))
    return font
