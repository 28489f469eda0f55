"""Boxes that change by a hand's intent alone: the wheel goes by, and by a click that missed nothing is chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QSpinBox, QWidget

from counter.window.parts.words import tip

if TYPE_CHECKING:
    from PySide6.QtGui import QWheelEvent

MOST_ROWS = 16


class CalmCombo(QComboBox):
    """A list of choices; the wheel only turns the list while that is open, where Qt sees to it without us."""

    def __init__(self, name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMaxVisibleItems(MOST_ROWS)
        if name:
            self.setAccessibleName(name)

    def setAccessibleName(self, name: str) -> None:
        """Give it a name, and say it as the description too: where Qt speaks AT-SPI the value stands as the name."""
        super().setAccessibleName(name)
        self.setAccessibleDescription(name)

    def showPopup(self) -> None:
        self.view().setAccessibleName(self.accessibleName())  # not before: each list that is made costs the start
        super().showPopup()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    def setToolTip(self, words: str) -> None:
        super().setToolTip(tip(words))


class CalmSpin(QSpinBox):
    """A number; the wheel goes by it to the column that scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()
