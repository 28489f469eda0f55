"""A small button that says in place where a sentence or a figure is from."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton

from counter.language import tr
from counter.window.parts.words import Words


class WhereFrom(QPushButton):
    """Pressed, it shows `said`, which whoever makes it puts where there is room; without a source it is hidden."""

    def __init__(self) -> None:
        super().__init__(tr("where from?"))
        self.setCheckable(True)
        self.setProperty("flat", True)
        self.said = Words(role="quiet", wraps=True)
        self.said.hide()
        self.toggled.connect(self.said.setVisible)

    def show_source(self, source: str) -> None:
        """Take another source; what was asked of the one before is not asked of this."""
        if source != self.said.text():
            self.setChecked(False)
            self.said.setText(source)
        self.setVisible(bool(source))
