"""What this is: the versions of program and catalogue, whose data it is, where it lies."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout

from counter import __version__
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.main_window import MainWindow


class AboutDialog(QDialog):
    """Says what `counter --version` says, and what the data rests on."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self.setWindowTitle("About the lamp counter")
        catalogue = window.catalogue
        edition = catalogue.edition if catalogue is not None else None
        rows = [
            f"Program {__version__}, catalogue {edition or 'of no edition'}",
            "It advises and decides nothing: the labels, local codes and a licensed electrician come first.",
            f"All that you make lies in {window.data}.",
            "Nothing leaves this machine, but to a database that the shop named.",
            "MIT licence. No warranty.",
        ]
        self.words = [Words(row, "title" if at == 0 else "", wraps=True) for at, row in enumerate(rows)]
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        box = QVBoxLayout(self)
        for words in self.words:
            box.addWidget(words)
        box.addWidget(buttons)
        self.setMinimumWidth(self.fontMetrics().averageCharWidth() * 60)
        self.finished.connect(self.deleteLater)
