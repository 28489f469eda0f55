"""The box after an unexpected error: what happened, the report to read and copy, and on with the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QTextCursor
from PySide6.QtWidgets import QApplication, QDialog, QDialogButtonBox, QPlainTextEdit, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.parts.sizes import be_large
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.reports import Report


class ReportDialog(QDialog):
    """One box for all that went wrong since it was opened."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Something went wrong"))
        be_large(self, 103, 30)
        self.words = Words(wraps=True)
        self.report = QPlainTextEdit(readOnly=True)
        self.report.setAccessibleName(tr("Report"))
        self._said: list[str] = []
        buttons = QDialogButtonBox()
        self.copy = buttons.addButton(tr("Copy"), QDialogButtonBox.ButtonRole.ActionRole)
        self.go_on = buttons.addButton(tr("Go on"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.copy.clicked.connect(lambda: QApplication.clipboard().setText(self.report.toPlainText()))
        buttons.accepted.connect(self.accept)
        box = QVBoxLayout(self)
        box.addWidget(self.words)
        box.addWidget(self.report, 1)
        box.addWidget(buttons)
        self.go_on.setDefault(True)  # not before: a button that stands in no dialog yet is no dialog's main one

    def add(self, words: str, report: Report) -> None:
        """Add one more trouble below those told already."""
        kept = (
            tr("The report lies in {path}.").format(path=report.path)
            if report.path
            else tr("The report could not be kept: copy it.")
        )
        if words not in self._said:
            self._said.append(words)
        hint = tr("It names no customer and nothing that was typed; send it to whoever looks after the program.")
        self.words.setText("\n\n".join([*self._said, f"{kept} {hint}"]))
        self.report.appendPlainText(report.text)
        self.report.moveCursor(QTextCursor.MoveOperation.Start)
