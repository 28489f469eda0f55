"""Shows once where to look: scrolls to a widget and frames it for a moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPalette, QPen
from PySide6.QtWidgets import QScrollArea, QWidget

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

FOR_MS = 900


class Flash(QWidget):
    """A frame over a widget that goes by itself, takes no clicks, and is never more than one a widget."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self.setObjectName("flash")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setGeometry(over.rect())
        self.show()
        self.raise_()
        QTimer.singleShot(FOR_MS, self, self.deleteLater)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Highlight), 3))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5), 3, 3)
        painter.end()


def bring(widget: QWidget) -> None:
    """Scroll to a widget, whatever it stands in, and frame it once."""
    above = widget.parentWidget()
    while above is not None:
        if isinstance(above, QScrollArea):
            above.ensureWidgetVisible(widget, 0, 8)
        above = above.parentWidget()
    if widget.findChild(Flash) is None:
        Flash(widget)
