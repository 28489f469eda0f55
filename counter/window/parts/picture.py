"""A widget that paints a picture, and is one to whoever listens: bare widgets pass for mere room between others."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap

from counter.window.parts.words import Words


class Picture(Words):
    """A label without words that holds one clear pixel, since Qt calls a label an image by its pixmap alone."""

    def __init__(self) -> None:
        super().__init__()
        clear = QPixmap(1, 1)
        clear.fill(Qt.GlobalColor.transparent)
        self.setPixmap(clear)

    def describe(self, name: str, words: str) -> None:
        """Say what is drawn, and in words what a drawing shows; empty: nothing is drawn."""
        self.setAccessibleName(name)
        self.setAccessibleDescription(words)
