"""Paper as painted: millimetres in the PDF are millimetres, letters are inside, on the page asked for."""

from __future__ import annotations

import errno
import os
import re

import pypdf
import pytest
from PySide6.QtCore import QTimer
from PySide6.QtGui import QAction, QFont, QFontMetricsF, QGuiApplication, QPageSize
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewWidget
from PySide6.QtWidgets import QApplication

from counter import files, language, paper
from counter.shop import MIX_UPS
from counter.window.measure.mixed_here import mixed_here, pairs_here
from counter.window.paper.printing import SheetPreview, print_sheets, printer_for
from counter.window.paper.sheets import save_sheets

POINTS_PER_MM = 72 / 25.4
NUMBER = r"(-?[\d.]+)"
WORDS = re.compile(r"[\[\]<>()]|[^\s\[\]<>()]+")


def lines_in(page):
    """Yield the straight lines of a page in millimetres, by its content stream: q, Q, cm, m, l are followed."""
    at, kept, matrix, numbers = None, [], (1, 0, 0, 1, 0, 0), []
    for word in page.get_contents().get_data().decode("latin1").split():
        if re.fullmatch(r"-?\d+(\.\d+)?|-?\.\d+", word):
            numbers.append(float(word))
            continue
        if word == "q":
            kept.append(matrix)
        elif word == "Q":
            matrix = kept.pop()
        elif word == "cm":
            matrix = times(tuple(numbers[-6:]), matrix)
        elif word in ("m", "l"):
            x, y = numbers[-2:]
            here = (
                (x * matrix[0] + y * matrix[2] + matrix[4]) / POINTS_PER_MM,
                (x * matrix[1] + y * matrix[3] + matrix[5]) / POINTS_PER_MM,
            )
            if word == "l":
                yield at, here
            at = here
        numbers = []


def times(one, other):
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m)


def lengths(page):
    return [((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5 for (ax, ay), (bx, by) in lines_in(page)]


@pytest.fixture
def saved(qapp, catalogue, tmp_path):
    def save(sheets):
        out = tmp_path / "sheet.pdf"
        save_sheets(sheets, out, "Lamp counter")
        return pypdf.PdfReader(out)

    return save


@pytest.mark.parametrize("page", paper.PAGES)
def test_a_card_is_85_60_mm_in_the_pdf(saved, catalogue, page):
    found = saved(paper.pin_gauge(catalogue, page)).pages[0]
    assert any(abs(length - 85.60) <= 0.05 for length in lengths(found))


def test_pins_of_the_gauge_stand_23_mm_apart_in_the_pdf(saved, catalogue):
    """The crosses of G23, whose pins are 23 mm apart, by the published distance in the catalogue."""
    found = saved(paper.pin_gauge(catalogue)).pages[0]
    upright = [
        ((ax + bx) / 2, (ay + by) / 2)
        for (ax, ay), (bx, by) in lines_in(found)
        if abs(ax - bx) < 0.01 and abs(abs(ay - by) - 5.2) < 0.05
    ]
    apart = [x2 - x1 for x1, y1 in upright for x2, y2 in upright if abs(y1 - y2) < 0.02 and x2 > x1]
    assert any(abs(one - 23.0) <= 0.05 for one in apart)


@pytest.mark.parametrize("page", paper.PAGES)
def test_the_page_is_the_one_asked_for(saved, catalogue, page):
    box = saved([paper.wall_chart(catalogue, page)]).pages[0].mediabox
    width, height = paper.PAGES[page]
    assert float(box.width) == pytest.approx(width * POINTS_PER_MM, abs=1)  # Qt rounds to whole points
    assert float(box.height) == pytest.approx(height * POINTS_PER_MM, abs=1)


@pytest.mark.parametrize("spoken", ["en", "es"])
def test_fonts_are_embedded_and_nothing_is_a_picture(saved, catalogue, spoken):
    language.use(spoken)
    sheets = (paper.wall_chart(catalogue), *paper.pin_gauge(catalogue))
    language.use(language.OWN)
    read = saved(sheets)
    assert len(read.pages) == len(sheets)
    for page in read.pages:
        resources = page["/Resources"]
        assert "/XObject" not in resources or not resources["/XObject"]
        fonts = resources["/Font"].values()
        assert fonts
        for font in fonts:
            inner = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert {"/FontFile", "/FontFile2", "/FontFile3"} & inner.keys()


@pytest.mark.parametrize("page", paper.PAGES)
@pytest.mark.parametrize("spoken", ["en", "es"])
def test_no_words_are_set_much_smaller_than_they_are_meant(qapp, catalogue, spoken, page):
    language.use(spoken)
    grid = paper.GRIDS["letter-30" if page == "Letter" else "a4-24"]
    labels = paper.bin_labels(catalogue, paper.labels_for(catalogue), grid)
    look_alikes = paper.look_alike_sheets(catalogue, paper.likely_pairs(catalogue), page)
    sheets = (paper.wall_chart(catalogue, page), *paper.pin_gauge(catalogue, page), *look_alikes, *labels)
    language.use(language.OWN)
    for item in (item for sheet in sheets for item in sheet.items if isinstance(item, paper.Text)):
        font = QFont(QGuiApplication.font())
        font.setPixelSize(100)
        font.setBold(item.bold)
        wide_mm = QFontMetricsF(font).horizontalAdvance(item.text) / 100 * item.size_mm
        assert item.room_mm is None or wide_mm * 0.7 <= item.room_mm, item


def test_the_printers_own_dialog_opens_and_closes(windows, qtbot):
    door = windows().counter.measuring
    door.print("gauge")
    preview = door.window.findChild(SheetPreview)
    (press,) = [one for one in preview.findChildren(QAction) if one.text().replace("&", "") == "Print"]
    met = []

    def turn_away():
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, QPrintDialog):
            met.append(dialog.printer().pageLayout().pageSize().size(QPageSize.Unit.Millimeter).toTuple())
            dialog.reject()

    timer = QTimer(preview, interval=20)
    timer.timeout.connect(turn_away)
    timer.start()
    press.trigger()
    timer.stop()
    assert met == [pytest.approx(paper.PAGES[door.page()], abs=0.5)]
    preview.close()


def test_words_of_a_page_can_be_read_back(saved, catalogue):
    language.use("es")
    sheet = paper.wall_chart(catalogue)
    language.use(language.OWN)
    text = saved([sheet]).pages[0].extract_text()
    assert "G24q-3" in text
    assert "muesca" in text


def test_a_folder_that_is_not_there_is_said(qapp, catalogue, tmp_path):
    with pytest.raises(OSError, match="nowhere"):
        save_sheets(paper.pin_gauge(catalogue), tmp_path / "nowhere" / "a.pdf", "t")


def test_a_disk_that_is_full_is_said_and_leaves_nothing(qapp, catalogue, tmp_path, monkeypatch):
    def full(part, content):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(files, "_write_through", full)
    with pytest.raises(OSError, match="No space"):
        save_sheets(paper.pin_gauge(catalogue), tmp_path / "a.pdf", "t")
    assert list(tmp_path.iterdir()) == []


def test_a_printer_prints_the_same_millimetres(qapp, catalogue, tmp_path):
    """Qt's printer into a PDF: the road to paper, without a printer in the room."""
    sheets = paper.pin_gauge(catalogue)
    printer = printer_for(sheets[0], "Lamp counter")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    print_sheets(sheets, printer)
    read = pypdf.PdfReader(tmp_path / "printed.pdf")
    assert len(read.pages) == len(sheets)
    assert any(abs(length - 85.60) <= 0.05 for length in lengths(read.pages[0]))
    width, height = paper.PAGES["A4"]
    assert float(read.pages[0].mediabox.width) == pytest.approx(width * POINTS_PER_MM, abs=1)
    assert float(read.pages[0].mediabox.height) == pytest.approx(height * POINTS_PER_MM, abs=1)


def test_the_menu_shows_sheets_before_they_are_printed(windows, qtbot):
    window = windows()
    door = window.counter.measuring
    window.settings.setValue("paper", "Letter")
    door.print("gauge")
    preview = window.findChild(SheetPreview)
    qtbot.waitUntil(preview.isVisible)
    shown = preview.findChild(QPrintPreviewWidget)
    qtbot.waitUntil(lambda: shown.pageCount() == len(door._sheets("gauge")))
    size = preview.printer_.pageLayout().pageSize().size(QPageSize.Unit.Millimeter)
    assert (size.width(), size.height()) == pytest.approx(paper.PAGES["Letter"], abs=0.5)
    preview.close()


def test_what_came_back_mixed_up_heads_the_look_alikes(windows, data, catalogue):
    from counter.shop import Return, add_return, open_store

    one, other = (catalogue.lamps_on[base][0].id for base in ("2G7", "2GX7"))
    returned = Return(
        at="2026-03-02T10:00:00",
        day="2026-03-02",
        number=None,
        lamp=one,
        right_lamp=other,
        reason=MIX_UPS[0],
        note="",
    )
    add_return(open_store(data), "k1", returned)
    found = mixed_here(data)
    assert pairs_here(catalogue, found) == (("2G7", "2GX7"),)
    sheets = windows().counter.measuring._sheets("look-alikes", found)
    said = [item.text for item in sheets[0].items if isinstance(item, paper.Text)]
    assert {"2G7", "2GX7"} <= set(" ".join(said).split())
