"""Shows where to look: frames a widget, for a moment when it is asked for, or as long as it has the keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPalette, QPen
from PySide6.QtWidgets import QScrollArea, QStackedWidget, QTabWidget, QWidget

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

FOR_MS = 900


class Ring(QWidget):
    """A frame over a widget that takes no clicks."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setGeometry(over.rect())
        self.show()
        self.raise_()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Highlight), 2))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)
        painter.end()


class Flash(Ring):
    """One that goes by itself."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self.setObjectName("flash")
        QTimer.singleShot(FOR_MS, self, self.deleteLater)


class RingOnFocus(QObject):
    """Frames a widget while it has the keyboard: for those that Qt itself lets have it unseen."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self._ring: Ring | None = None
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind == QEvent.Type.FocusIn and self._ring is None and isinstance(watched, QWidget):
            self._ring = Ring(watched)
        elif kind == QEvent.Type.FocusOut and self._ring is not None:
            self._ring.hide()
            self._ring.deleteLater()
            self._ring = None
        elif kind == QEvent.Type.Resize and self._ring is not None and isinstance(watched, QWidget):
            self._ring.setGeometry(watched.rect())
        return False


def reach(widget: QWidget) -> None:
    """Bring a widget into view and the keyboard to it."""
    bring(widget)
    widget.setFocus(Qt.FocusReason.ShortcutFocusReason)


def bring(widget: QWidget) -> None:
    """Show the tab that a widget stands on, scroll to it, and frame it once."""
    below, above = widget, widget.parentWidget()
    while above is not None:
        if isinstance(above, QStackedWidget) and isinstance(tabs := above.parentWidget(), QTabWidget):
            tabs.setCurrentWidget(below)
        if isinstance(above, QScrollArea):
            above.ensureWidgetVisible(widget, 0, 8)
        below, above = above, above.parentWidget()
    if widget.findChild(Flash) is None:
        Flash(widget)
