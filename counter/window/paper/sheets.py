"""Sheets in millimetres, painted by the one pen into a PDF or a printer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QPointF, QSizeF
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QGuiApplication, QPageLayout, QPageSize, QPainter

from counter.window.parts import pen
from counter.window.parts.pdf import pdf_file
from counter.window.parts.theme import LIGHT

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from PySide6.QtGui import QPagedPaintDevice

    from counter.paper import Placed, Sheet, Text

MM_PER_INCH = 25.4
DPI = 2540  # a hundredth of a millimetre a dot
PX_PER_MM = 96 / MM_PER_INCH  # the pen's line widths are pixels of a plain screen: 1.8 of them are half a millimetre
FINE = 20  # letters are set this many times larger and painted smaller: Qt's sizes in pixels are whole numbers
INK_ON_WHITE = LIGHT._replace(name="paper", paper="#FFFFFF", glass="#FFFFFF", ink="#000000", muted="#4A4A4A")
LABEL_PX = 9  # words inside a drawing: 2.4 mm


def save_sheets(sheets: Sequence[Sheet], out: Path, title: str) -> None:
    """Write sheets as a PDF of their own sizes, vectors and fonts inside.

    Raises:
        OSError: the file cannot be written.
    """
    with pdf_file(out, title, DPI) as writer:
        writer.setPageLayout(layout_of(sheets[0]))
        paint_all(sheets, writer)


def layout_of(sheet: Sheet) -> QPageLayout:
    """Return a page of a sheet's own size, without margins: a sheet has its own."""
    size = QPageSize(QSizeF(sheet.width_mm, sheet.height_mm), QPageSize.Unit.Millimeter, "")
    return QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF(0, 0, 0, 0))


def paint_all(sheets: Sequence[Sheet], device: QPagedPaintDevice) -> None:
    """Paint sheets onto a PDF or a printer, each on a page of its own, in millimetres that are millimetres."""
    painter = QPainter(device)
    painter.scale(device.logicalDpiX() / 96, device.logicalDpiY() / 96)
    for at, sheet in enumerate(sheets):
        if at:
            device.newPage()
        paint_sheet(painter, sheet)
    painter.end()


def paint_sheet(painter: QPainter, sheet: Sheet) -> None:
    """Paint one sheet with the painter's unit at 1/96 inch and its origin at the page's upper left."""
    from counter.paper import Placed

    font = QFont(QGuiApplication.font())
    for item in sheet.items:
        if isinstance(item, Placed):
            font.setPixelSize(LABEL_PX)
            painter.setFont(font)
            _paint_drawing(painter, item, sheet.height_mm)
        else:
            _paint_text(painter, item, sheet.height_mm)


def _paint_drawing(painter: QPainter, item: Placed, height_mm: float) -> None:
    view = pen.View(item.scale * PX_PER_MM, item.x_mm * PX_PER_MM, (height_mm - item.y_mm) * PX_PER_MM)
    pen.paint(painter, item.drawing, view, INK_ON_WHITE, item.marked)


def _paint_text(painter: QPainter, item: Text, height_mm: float) -> None:
    font = QFont(QGuiApplication.font())
    font.setPixelSize(max(round(item.size_mm * PX_PER_MM * FINE), 1))
    font.setBold(item.bold)
    width = QFontMetricsF(font).horizontalAdvance(item.text)
    shrink = 1.0
    if item.room_mm is not None and width > item.room_mm * PX_PER_MM * FINE:
        shrink = item.room_mm * PX_PER_MM * FINE / width
    painter.save()
    painter.translate(item.x_mm * PX_PER_MM, (height_mm - item.y_mm) * PX_PER_MM)
    painter.scale(shrink / FINE, shrink / FINE)
    painter.setFont(font)
    painter.setPen(QColor(INK_ON_WHITE.muted if item.quiet else INK_ON_WHITE.ink))
    left = {"left": 0.0, "middle": width / 2, "right": width}[item.align]
    painter.drawText(QPointF(-left, 0), item.text)
    painter.restore()
