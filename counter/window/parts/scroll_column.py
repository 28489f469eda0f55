"""A column of widgets that scrolls up and down, never sideways."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from counter.window.parts.flash import RingOnFocus

LEAST_HEIGHT_PX = 40  # so that the fixture's fields, opened, find room on a small screen


class Wrapping(QWidget):
    """What is as tall as its words at the width it has.

    Qt takes no less than the least height, and that of words that wrap is counted at their least width: without this
    there would be an empty stretch below the last line to scroll into.
    """

    def minimumSizeHint(self) -> QSize:
        """Return no least size: the height follows from the width."""
        return QSize(0, 0)


class ScrollColumn(QScrollArea):
    """Holds a column; what it holds is as wide as the view, and wraps."""

    def __init__(self, name: str, spacing: int = 6) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # by keys, to scroll; a click that missed stays where it was
        self.setAccessibleName(name)
        RingOnFocus(self)
        self.setMinimumHeight(LEAST_HEIGHT_PX)
        inside = Wrapping()
        self.column = QVBoxLayout(inside)
        self.column.setContentsMargins(3, 4, 6, 0)
        self.column.setSpacing(spacing)
        self.setWidget(inside)

    def to_top(self) -> None:
        """Show the beginning."""
        self.verticalScrollBar().setValue(0)
