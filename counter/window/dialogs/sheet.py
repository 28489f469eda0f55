"""The one dialog that others are made from: a title, a column that scrolls, buttons; gone when it is closed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout

from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.sizes import ems, high
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class Sheet(QDialog):
    """Escape closes it. Nothing of it stays behind: dialogs that only hide pile up over a day."""

    def __init__(self, title: str, parent: QWidget | None, letters: int = 104, lines: int = 30) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.area = ScrollColumn(title, spacing=6)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.buttons.rejected.connect(self.close)
        box = QVBoxLayout(self)
        box.addWidget(self.area, 1)
        box.addWidget(self.buttons)
        screen = parent.screen().availableGeometry() if parent is not None else None
        wide, tall = ems(self.font(), letters), high(self.font(), lines)
        if screen is not None:
            wide, tall = min(wide, screen.width() - 80), min(tall, screen.height() - 80)
        self.resize(wide, tall)

    def say(self, text: str, role: str = "") -> Words:
        """Add a paragraph."""
        words = Words(text, role, wraps=True)
        self.area.column.addWidget(words)
        return words

    def finish(self) -> None:
        """Leave the rest of the column empty, and show it."""
        self.area.column.addStretch(1)
        self.open()
