"""One trainee's results as text: read, copied, printed, or saved as a PDF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontDatabase, QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
)

from counter.language import marked, tr
from counter.window.parts.words import Words
from counter.window.training.paper import print_text, save_pdf

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter


class ResultsPane(QFrame):
    """Shows a sheet; the three buttons are all that leaves this machine, and only by hand."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.name = ""
        self._printer: QPrinter | None = None
        self.sheet = QPlainTextEdit(readOnly=True)
        self.sheet.setFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
        self.sheet.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        self.sheet.setTabChangesFocus(True)
        self.sheet.setAccessibleName(tr("Results sheet"))
        self.copy, self.print, self.save = (
            QPushButton(tr(words)) for words in (marked("Copy"), marked("Print …"), marked("Save as PDF …"))
        )
        self.said = Words()
        self.said.set_role("quiet")
        self.copy.clicked.connect(self._copy)
        self.print.clicked.connect(self._ask_printer)
        self.save.clicked.connect(self._ask_where)
        title = Words(tr("Results sheet"))
        title.set_role("title")
        head = QHBoxLayout()
        head.addWidget(title)
        head.addWidget(self.said, 1, Qt.AlignmentFlag.AlignRight)
        head.addWidget(self.copy)
        head.addWidget(self.print)
        head.addWidget(self.save)
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 12)
        box.setSpacing(8)
        box.addLayout(head)
        box.addWidget(self.sheet, 1)

    def show_sheet(self, name: str, text: str) -> None:
        """Show a sheet; empty where nobody is chosen."""
        self.name = name
        self.sheet.setPlainText(text)
        self.said.setText("")
        for button in (self.copy, self.print, self.save):
            button.setEnabled(bool(text))

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.sheet.toPlainText())
        self.said.setText(tr("copied"))

    def _ask_printer(self) -> None:
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter  # a library of its own, needed here only

        self._printer = QPrinter(QPrinter.PrinterMode.HighResolution)  # the dialog only borrows it
        dialog = QPrintDialog(self._printer, self)
        dialog.setWindowTitle(tr("Print the results"))
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self.print_on(dialog.printer()))
        QDialog.open(dialog)  # QPrintDialog hides it behind one that wants a receiver

    def print_on(self, printer: QPrinter) -> None:
        """Print the sheet and say so."""
        print_text(self.sheet.toPlainText(), tr("Training results: {name}").format(name=self.name), printer)
        self.said.setText(tr("sent to the printer"))

    def _ask_where(self) -> None:
        dialog = QFileDialog(self, tr("Save the results"), "", "PDF (*.pdf)")
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("pdf")
        dialog.selectFile(tr("training results") + ".pdf")
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(self.save_to)
        dialog.open()

    def save_to(self, file: str) -> None:
        """Save the sheet as a PDF and say so, or why not."""
        try:
            save_pdf(self.sheet.toPlainText(), tr("Training results: {name}").format(name=self.name), Path(file))
        except OSError as problem:
            self.said.setText(tr("not saved: {problem}").format(problem=problem.strerror))
            return
        self.said.setText(tr("saved as {file}").format(file=Path(file).name))
