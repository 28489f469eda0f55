"""A white as a screen can show it: a plain field of one colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen

from counter.window.parts.picture import Picture

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme


class Swatch(Picture):
    """A field of one colour; its name stands beside it in words, never in the colour alone."""

    def __init__(self, theme: Theme, size: QSize) -> None:
        super().__init__()
        self.theme = theme
        self.colour = ""
        self.setFixedSize(size)

    def show_colour(self, colour: str, words: str) -> None:
        """Show "#rrggbb", with its name for whoever cannot see it."""
        self.colour = colour
        self.setAccessibleName(words)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.colour:
            return
        painter = QPainter(self)
        painter.setPen(QPen(QColor(self.theme.line), 1))
        painter.setBrush(QColor(self.colour))
        painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.end()
