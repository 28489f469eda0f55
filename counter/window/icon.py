"""The program's icon: the face of a plug-in base with its key, in our own pen language."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap

from counter.outline import Disc, Drawing, Path, Shape
from counter.window.parts import pen
from counter.window.parts.theme import LIGHT

SIDES = (16, 24, 32, 48, 64, 128, 256)
GROUND_ROUND = 0.18  # of the side


def face() -> Drawing:
    """Return the face: four pins round a post with one notch; no lamp of the catalogue in particular."""
    edge = ((-15.0, -12.0), (-15.0, 12.0), (15.0, 12.0), (15.0, -12.0))
    post = ((-6.0, -5.0), (-6.0, 5.0), (-2.0, 5.0), (-2.0, 1.5), (2.0, 1.5), (2.0, 5.0), (6.0, 5.0), (6.0, -5.0))
    notch = ((-2.0, 5.0), (-2.0, 1.5), (2.0, 1.5), (2.0, 5.0))
    pins = [Disc("pins", x, y, 1.8, "none", "ink") for x in (-10.5, 10.5) for y in (-5.5, 5.5)]
    shapes: tuple[Shape, ...] = (
        Path("outline", edge, "outline", "paper", closed=True, corner_mm=6),
        Path("block", post, "detail", "tint", closed=True),
        Path("notch", notch, "accent"),
        *pins,
    )
    return Drawing(shapes, (-15, -12, 15, 12), (-15, -12, 15, 12))


def picture(side_px: int) -> QPixmap:
    """Return the icon as a square picture."""
    made = QPixmap(side_px, side_px)
    made.fill(Qt.GlobalColor.transparent)
    painter = QPainter(made)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(LIGHT.accent))
    whole = QRectF(0, 0, side_px, side_px)
    painter.drawRoundedRect(whole, side_px * GROUND_ROUND, side_px * GROUND_ROUND)
    inside = whole.adjusted(side_px * 0.1, side_px * 0.1, -side_px * 0.1, -side_px * 0.1)
    scale = side_px / 64
    painter.scale(scale, scale)  # lines as heavy for their size on a small icon as on a large one
    box = QRectF(inside.x() / scale, inside.y() / scale, inside.width() / scale, inside.height() / scale)
    pen.paint(painter, face(), pen.fitting(face(), box), LIGHT)
    painter.end()
    return made


def drawn_icon() -> QIcon:
    """Return the icon in every size a desktop asks for."""
    made = QIcon()
    for side in SIDES:
        made.addPixmap(picture(side))
    return made
