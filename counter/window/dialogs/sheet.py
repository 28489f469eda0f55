"""The one dialog that others are made from: a title, a column that scrolls, buttons; gone when it is closed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout

from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.sizes import AROUND_PX, ems
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QShowEvent
    from PySide6.QtWidgets import QWidget

ABOVE_TITLE_PX = 8


class Sheet(QDialog):
    """Escape closes it. Nothing of it stays behind: dialogs that only hide pile up over a day."""

    def __init__(self, title: str, parent: QWidget | None, letters: int = 104) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.area = ScrollColumn(title, spacing=6)
        self.area.column.setContentsMargins(10, 8, 14, 8)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.buttons.rejected.connect(self.close)
        self._box = QVBoxLayout(self)
        self._box.addWidget(self.area, 1)
        self._box.addWidget(self.buttons)
        self.resize(min(ems(self.font(), letters), self._room().width()), self.height())

    def _room(self) -> QSize:
        """Return the most that a sheet may take of the screen."""
        return self.screen().availableGeometry().size() - QSize(AROUND_PX, AROUND_PX)

    def showEvent(self, event: QShowEvent) -> None:
        """Be as wide and tall as what it holds, as far as there is room; what is higher scrolls."""
        margins = self._box.contentsMargins().left() * 2
        wide = max(self.width(), self.area.column.minimumSize().width() + margins)
        inside = self.area.column.heightForWidth(wide - margins)
        around = self._box.sizeHint().height() - self.area.sizeHint().height()
        self.resize(QSize(wide, inside + around).boundedTo(self._room()))
        super().showEvent(event)

    def say(self, text: str, role: str = "") -> Words:
        """Add a paragraph."""
        words = Words(text, role, wraps=True)
        if role == "title":
            words.setContentsMargins(0, ABOVE_TITLE_PX, 0, 0)
        self.area.column.addWidget(words)
        return words

    def finish(self) -> None:
        """Leave the rest of the column empty, and show it."""
        self.area.column.addStretch(1)
        self.open()
