"""Sheets to a printer, looked at first: Qt's own preview, from which they are printed."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtPrintSupport import QPrinter, QPrintPreviewDialog

from counter.window.paper.sheets import layout_of, paint_all

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from counter.paper import Sheet

DPI = 600  # what office printers print


class SheetPreview(QPrintPreviewDialog):
    """Shows sheets as the printer will print them; the printer lives as long as this does."""

    def __init__(self, sheets: Sequence[Sheet], title: str, parent: QWidget) -> None:
        self.printer_ = printer_for(sheets[0], title)  # held here: Qt holds no reference that Python counts
        super().__init__(self.printer_, parent)
        self.setWindowTitle(title)
        self.paintRequested.connect(partial(print_sheets, sheets))


def printer_for(sheet: Sheet, title: str) -> QPrinter:
    """Return a printer for paper of a sheet's size, at its true scale, up to the paper's edge."""
    printer = QPrinter()
    printer.setResolution(DPI)
    printer.setDocName(title)
    printer.setFullPage(True)  # a sheet has margins of its own; the printer's would move and shrink it
    printer.setPageLayout(layout_of(sheet))
    return printer


def print_sheets(sheets: Sequence[Sheet], printer: QPrinter) -> None:
    """Paint sheets onto a printer, each on a page of its own."""
    paint_all(sheets, printer)
