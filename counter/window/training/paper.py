"""Plain text on paper: a printer, or a PDF file of A4 or, where the shop's lengths are inches, Letter pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QFont, QFontDatabase, QPageLayout, QPageSize, QTextDocument

from counter.window.parts.pdf import pdf_file

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtGui import QPagedPaintDevice
    from PySide6.QtPrintSupport import QPrinter

MARGIN_MM = 18.0
COLUMNS = 80
DPI = 300


def save_pdf(text: str, title: str, out: Path, page: QPageSize.PageSizeId = QPageSize.PageSizeId.A4) -> None:
    """Write text of at most 80 columns as a PDF.

    Raises:
        OSError: the file cannot be written.
    """
    with pdf_file(out, title, DPI) as writer:
        writer.setPageSize(QPageSize(page))
        writer.setPageMargins(QMarginsF(*[MARGIN_MM] * 4), QPageLayout.Unit.Millimeter)
        _lay_down(text, writer)


def print_text(text: str, title: str, printer: QPrinter) -> None:
    """Print text of at most 80 columns on the page that the printer was set to."""
    printer.setDocName(title)
    _lay_down(text, printer)


def _lay_down(text: str, writer: QPagedPaintDevice) -> None:
    document = QTextDocument()
    document.documentLayout().setPaintDevice(writer)
    document.setDocumentMargin(0)
    document.setDefaultFont(_fixed_font(writer))
    document.setPageSize(QSizeF(writer.width(), writer.height()))
    document.setPlainText(text)
    document.print_(writer)


def _fixed_font(writer: QPagedPaintDevice) -> QFont:
    """Return the fixed font in the size in which 80 columns fill the line."""
    from PySide6.QtGui import QFontMetricsF

    font = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)
    font.setPointSizeF(10)
    wide = QFontMetricsF(font, writer).horizontalAdvance("0") * (COLUMNS + 1)
    font.setPointSizeF(min(10.0, 10.0 * writer.width() / wide))
    return font
