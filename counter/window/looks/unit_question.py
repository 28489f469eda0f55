"""A bare number that makes no lamp in its unit: asked, not guessed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.identify import UnitDoubt

UNITS = ("mm", "in")


class UnitQuestion(QWidget):
    """Two buttons, one a unit; emits the look and the size with its unit said."""

    answered = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self.doubt: UnitDoubt | None = None
        self.words = Words(role="look-next")
        self.buttons = {units: QPushButton() for units in UNITS}
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.words)
        row.addStretch(1)
        for units, button in self.buttons.items():
            button.clicked.connect(lambda _=False, one=units: self._answer(one))
            row.addWidget(button)
        self.hide()

    def show_doubt(self, doubt: UnitDoubt | None, label: str = "") -> None:
        """Ask, or hide."""
        self.doubt = doubt
        self.setVisible(doubt is not None)
        if doubt is not None:
            self.words.setText(f"{label}: {doubt.question}")
            for units, button in self.buttons.items():
                button.setText(f"{doubt.text}\N{THIN SPACE}{units}")

    def _answer(self, units: str) -> None:
        if self.doubt is not None:
            self.answered.emit(self.doubt.look, f"{self.doubt.text} {units}")
