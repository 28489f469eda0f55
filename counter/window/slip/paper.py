"""The slip on paper: A4, Letter or an 80 mm receipt, from one list of blocks; a base is drawn in its true size."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import segno
from PySide6.QtCore import QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QImage, QPageLayout, QPageSize, QPainter

from counter.language import marked, tr
from counter.outline import face_view
from counter.shelf import money
from counter.slip import case_text, holds_case
from counter.window.answer_bar import STAMP_WORDS
from counter.window.parts import pen
from counter.window.parts.pdf import pdf_file
from counter.window.parts.theme import LIGHT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from PySide6.QtGui import QPagedPaintDevice

    from counter.catalogue import Catalogue
    from counter.slip import Slip

    Block = Callable[[QPainter, float, float], float]  # painter, top and width in px of 1/96 inch; returns the bottom

DPI = 300
PX_PER_MM = 96 / 25.4
QR_MM, QR_QUIET = 34.0, 4
MODULE_MM = 0.44  # at least: three and a half dots of a receipt printer, and what a scanner still reads
GAP = 6.0
TYPED_MOST = 200  # characters of the marks as they were typed
WRAP = int(Qt.TextFlag.TextWordWrap)


class Paper(NamedTuple):
    """A kind of paper: its width and height in millimetres (0: as long as the slip), margin, and size of letters."""

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float
    letters_px: int


PAPERS = {
    "receipt": Paper(marked("80 mm receipt"), 80, 0, 4, 11),
    "A4": Paper("A4", 210, 297, 18, 13),
    "Letter": Paper("Letter", 215.9, 279.4, 18, 13),
}


class ShopHead(NamedTuple):
    """What the shop has set for its slips: its name and address, and whether a customer's name is asked for."""

    name: str = ""
    address: str = ""
    asks_for_names: bool = True


class Printed(NamedTuple):
    """A slip with what only paper shows: number, shop, a customer's name, and whether it is printed once more."""

    slip: Slip
    number: int | None
    shop: ShopHead = ShopHead()
    customer: str = ""
    is_copy: bool = False


def save_pdf(printed: Printed, catalogue: Catalogue, paper: Paper, out: Path) -> None:
    """Write a slip as PDF.

    Raises:
        OSError: the file cannot be written.
    """
    blocks = list(_blocks(printed, catalogue, paper))
    title = tr("Slip {number}").format(number=printed.number or printed.slip.key[:8])
    with pdf_file(out, title, DPI) as writer:
        set_page(writer, paper, height_mm(blocks, paper))
        paint(writer, blocks, paper)


def set_page(device: QPagedPaintDevice, paper: Paper, height: float) -> None:
    """Give a device the paper's size, a receipt as long as its slip."""
    size = QSizeF(paper.width_mm, paper.height_mm or height)
    page = QPageSize(size, QPageSize.Unit.Millimeter, paper.name, QPageSize.SizeMatchPolicy.ExactMatch)
    margins = QMarginsF(*[paper.margin_mm] * 4)
    device.setPageLayout(
        QPageLayout(page, QPageLayout.Orientation.Portrait, margins, QPageLayout.Unit.Millimeter, QMarginsF())
    )


def blocks_of(printed: Printed, catalogue: Catalogue, paper: Paper) -> list[Block]:
    """Return what stands on the paper, from top to bottom."""
    return list(_blocks(printed, catalogue, paper))


def height_mm(blocks: list[Block], paper: Paper) -> float:
    """Return how long the paper must be for all blocks."""
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    bottom = 0.0
    for block in blocks:
        bottom = block(painter, bottom, _width(paper)) + GAP
    painter.end()
    return bottom / PX_PER_MM + 2 * paper.margin_mm + 2


def paint(device: QPagedPaintDevice, blocks: list[Block], paper: Paper) -> None:
    """Paint blocks onto as many pages as they need."""
    painter = QPainter(device)
    scale = device.logicalDpiX() / 96
    painter.scale(scale, scale)
    bottom = device.height() / scale
    top = 0.0
    for block in blocks:
        need = _height(block, _width(paper))
        if top + need > bottom and top > 0:
            device.newPage()
            top = 0.0
        top = block(painter, top, _width(paper)) + GAP
    painter.end()


def picture(printed: Printed, catalogue: Catalogue, paper: Paper) -> QImage:
    """Return the slip as one long picture, for the preview."""
    blocks = list(_blocks(printed, catalogue, paper))
    margin = paper.margin_mm * PX_PER_MM
    height = max(height_mm(blocks, paper), paper.height_mm) * PX_PER_MM
    image = QImage(int(paper.width_mm * PX_PER_MM), int(height), QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.translate(margin, margin)
    top = 0.0
    for block in blocks:
        top = block(painter, top, _width(paper)) + GAP
    painter.end()
    return image


def _width(paper: Paper) -> float:
    return (paper.width_mm - 2 * paper.margin_mm) * PX_PER_MM


def _height(block: Block, width: float) -> float:
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    bottom = block(painter, 0.0, width)
    painter.end()
    return bottom


# -- the blocks


def _blocks(printed: Printed, catalogue: Catalogue, paper: Paper) -> Iterator[Block]:
    slip, px = printed.slip, paper.letters_px
    number = (
        tr("Slip {number}").format(number=printed.number)
        if printed.number
        else tr("Slip not numbered yet, ref. {key}").format(key=slip.key[:8].upper())
    )
    if slip.is_demo:
        yield _text(tr("DEMO: an invented shop. Nothing on this slip exists."), px + 3, bold=True)
    if printed.is_copy:
        yield _text(tr("Copy: printed once more"), px + 3, bold=True)
    if printed.shop.name:
        yield _text(printed.shop.name, px + 3, bold=True)
    if printed.shop.address:
        yield _text(printed.shop.address, px)
    till = tr("till {name}").format(name=slip.till)
    who = " · ".join(filter(None, (till, slip.initials, printed.customer)))
    yield _text("\n".join(filter(None, (f"{number}   {slip.day} {slip.at[11:16]}", who))), px)
    yield _text(slip.headline, px + 9, bold=True)
    yield _text(
        "\n".join(filter(None, (slip.subline, tr(STAMP_WORDS.get(slip.verdict or "", ""))))), px + 1, bold=True
    )
    if slip.base in catalogue.base_by_name:
        yield _base(catalogue, slip)
    typed = [tr("as typed: {marks}").format(marks=slip.case.marks[:TYPED_MOST])] if slip.case.marks.strip() else []
    yield from _section(tr("Marks"), [*typed, *(f"{one.text}: {one.means}" for one in slip.marks)], px)
    yield from _section(tr("Items"), [_item(one) for one in slip.items], px)
    if slip.total_cents is not None:
        yield _text(tr("Total {sum}").format(sum=money(slip.total_cents)), px + 1, bold=True)
    yield from _section(
        tr("Cautions"), [f"{tr(one.signal)}: {one.says} {one.do}".strip() for one in slip.cautions], px
    )
    yield from _section(tr("Seen and answered"), list(slip.answers), px)
    yield from _section(tr("Not known"), list(slip.unknown), px)
    yield from _section(tr("Used lamps"), list(slip.disposal), px)
    code = case_text(slip.case, slip.key)
    yield _code(code)
    if not holds_case(code):
        yield _text(tr("The case is too long for the code: it only names this slip in the shop's own log."), px)
    yield _text(
        tr(
            "Bring this slip next time; we scan it. Labels, local codes and a licensed "
            "electrician come before anything printed here."
        ),
        px - 1,
    )


def _item(one: object) -> str:
    from counter.slip import SlipItem

    assert isinstance(one, SlipItem)
    price = tr("{money} each").format(money=money(one.price_cents)) if one.price_cents is not None else ""
    place = tr("bin {bin}").format(bin=one.bin) if one.bin else ""
    return "  ".join(filter(None, (f"{one.quantity} × {one.code} {one.description}", price, place)))


def _section(title: str, lines: list[str], px: int) -> Iterator[Block]:
    if lines:
        yield _text(title, px, bold=True)
        for line in lines:
            yield _text(line, px)


def _text(words: str, px: int, *, bold: bool = False) -> Block:
    def block(painter: QPainter, top: float, width: float) -> float:
        font = QFont()
        font.setPixelSize(px)
        font.setBold(bold)
        painter.setFont(font)
        painter.setPen(QColor("black"))
        room = QRectF(0, top, width, 100_000)
        used = painter.boundingRect(room, WRAP, words)
        painter.drawText(QRectF(0, top, width, used.height() + 2), WRAP, words)
        return top + used.height()

    return block


def _base(catalogue: Catalogue, slip: Slip) -> Block:
    """Draw the base face on in its true size, pins toward the reader."""
    drawing = face_view(catalogue.base_by_name[slip.base or ""])

    def block(painter: QPainter, top: float, width: float) -> float:
        left, _, _, high = drawing.reach
        view = pen.View(PX_PER_MM, -left * PX_PER_MM, top + high * PX_PER_MM)
        pen.paint(painter, drawing, view, LIGHT)
        return top + drawing.height_mm * PX_PER_MM

    return block


def _code(words: str) -> Block:
    """Draw the code as one path, so that no seams show between its modules."""
    matrix = [list(row) for row in segno.make(words, error="m", micro=False).matrix]

    def block(painter: QPainter, top: float, width: float) -> float:
        count = len(matrix) + 2 * QR_QUIET
        side = min(max(QR_MM, count * MODULE_MM), width / PX_PER_MM) * PX_PER_MM
        module = side / count
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor("black"))
        for y, row in enumerate(matrix):
            for x, dark in enumerate(row):
                if dark:
                    place = QRectF((x + QR_QUIET) * module, top + (y + QR_QUIET) * module, module, module)
                    painter.drawRect(place)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        return top + side

    return block
