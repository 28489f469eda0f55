"""A panel: paper with a thin line around it. Paints itself, since it stands before the style is there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPainterPath, QPalette
from PySide6.QtWidgets import QFrame

from counter.window.parts import early

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

ROUND_PX = 4.0


class Panel(QFrame):
    """Holds a pane; colours come from the palette."""

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        path = QPainterPath()
        path.addRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), ROUND_PX, ROUND_PX)
        palette, roles = self.palette(), QPalette.ColorRole
        painter.fillPath(path, early.brush(palette.color(roles.AlternateBase).name()))
        painter.strokePath(path, early.pen(palette.color(roles.Mid).name()))
        painter.end()
