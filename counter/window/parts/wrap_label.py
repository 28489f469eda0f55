"""A label of wrapped words that remembers how high it is at a width."""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QLabel, QWidget

REMEMBERED = 40


class WrapLabel(QLabel):
    """Qt's own lays its words out anew at each of some hundred questions that one pass over nested layouts asks."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setWordWrap(True)
        self._heights: dict[tuple[str, int], int] = {}

    def heightForWidth(self, width: int) -> int:
        key = (self.text(), width)
        if key not in self._heights:
            if len(self._heights) >= REMEMBERED:
                self._heights.clear()
            self._heights[key] = super().heightForWidth(width)
        return self._heights[key]

    def changeEvent(self, event: QEvent) -> None:
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._heights.clear()
        super().changeEvent(event)
