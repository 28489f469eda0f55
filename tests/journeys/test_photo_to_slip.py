"""A customer sends a picture from the road: from the file let go over the room for pictures to the slip."""

from __future__ import annotations

import pypdfium2
import pytest
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu

from counter.window.measure.photo_dialog import PhotoDialog
from tests.simulate_photos import take
from tests.window.hands import button, drop_on, press, type_into


def chosen(window, words):
    """Press an entry of the window's menus by what it says."""
    menus = window.findChildren(QMenu)
    (action,) = [action for menu in menus for action in menu.actions() if action.text().replace("&", "") == words]
    action.trigger()


@pytest.fixture
def picture(catalogue, tmp_path):
    photo = take(catalogue, 5, catalogue.base_by_name["G24q-3"])  # its key is clear
    path = tmp_path / "lamp.jpg"
    path.write_bytes(photo.jpeg)
    return path


def test_from_a_picture_to_the_slip(window, qtbot, picture, tmp_path):
    chosen(window, "From a picture …")
    dialog = window.findChild(PhotoDialog)
    about = QMimeData()
    about.setUrls([QUrl.fromLocalFile(str(picture))])
    drop_on(dialog, about)
    qtbot.waitUntil(lambda: dialog.told is not None, timeout=60_000)
    assert dialog.view.lines
    assert " mm" in dialog.found.fits.text().replace("\N{THIN SPACE}", " ")
    press(dialog.found.take)
    assert (window.case.looks["pins"], window.case.looks["notch"]) == ("4", "small-right")

    press(button(window, "glass", "white"))
    type_into(window.marks.field, "CFQ26W/G24q/835")
    assert window.counter.assessment.lamp == "G24q-3/26/quad"

    window.counter.shop.write_slip()
    slip = window.counter.shop.writer
    out = tmp_path / "slip.pdf"
    slip._as_pdf = lambda asked: slip.save(asked, out)
    QTest.mouseClick(slip.dialog.buttons["pdf"], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(out.exists, timeout=30_000)
    qtbot.waitUntil(lambda: window.counter.shop.worker.pending == 0, timeout=30_000)
    text = pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range()
    assert "G24q-3" in text
