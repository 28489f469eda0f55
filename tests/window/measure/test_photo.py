"""The room for pictures: measured beside the window, points put right, looks taken into the case."""

from __future__ import annotations

from threading import Event

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt, QUrl
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtTest import QTest

from counter import measure
from counter.window.measure import screens
from tests.simulate_photos import take
from tests.window.hands import drop_on, store_answered


@pytest.fixture(scope="module")
def photo():
    from counter.catalogue import load

    catalogue = load()
    return take(catalogue, 21, catalogue.base_by_name["G24q-3"])


@pytest.fixture
def room(window, qtbot, photo):
    dialog = window.counter.measuring.open_photo()
    dialog.measure(photo.jpeg)
    qtbot.waitUntil(lambda: dialog.told is not None, timeout=30_000)
    return dialog


def test_a_picture_becomes_looks_of_the_case(window, room):
    assert room.told.pattern is not None, room.told.problems
    looks = dict(room.told.looks)
    assert looks["pins"] == "4"
    QTest.mouseClick(room.found.take, Qt.MouseButton.LeftButton)
    assert {key: window.case.looks[key] for key in looks} == looks
    window.counter.undo()
    assert "pins" not in window.case.looks


def test_a_point_dragged_with_the_mouse_changes_the_measure(room):
    view, before = room.view, room.found.fits.text()
    place = view.shown(view.groups["pins"][0]).toPoint()
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=place)
    QTest.mouseMove(view, place + QPoint(40, 25))
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, pos=place + QPoint(40, 25))
    assert room.found.fits.text() != before
    assert (view.shown(view.groups["pins"][0]) - (place + QPoint(40, 25))).manhattanLength() < 3


def test_bases_that_no_picture_tells_apart_stand_on_one_line(room):
    lines = room.found.fits.text().splitlines()
    assert lines[0].startswith("G24q-3: pins off by 0.")
    assert any(line.startswith("GX24q-1, GX24q-2, GX24q-3 …: pins off by 0.") for line in lines)


def test_a_dropped_file_and_a_copied_picture_are_measured(window, qtbot, photo, tmp_path):
    path = tmp_path / "from the road.jpg"
    path.write_bytes(photo.jpeg)
    dialog = window.counter.measuring.open_photo()
    about = QMimeData()
    about.setUrls([QUrl.fromLocalFile(str(path))])
    drop_on(dialog, about)
    qtbot.waitUntil(lambda: dialog.told is not None, timeout=30_000)
    assert len(dialog.view.points("pins")) == 4
    dropped = dialog.found.fits.text()
    QGuiApplication.clipboard().setImage(QImage.fromData(photo.jpeg))
    QTest.mouseClick(dialog.paste_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: dialog.told is not None, timeout=30_000)
    assert dialog.found.fits.text() == dropped


def test_the_window_answers_while_a_picture_is_measured(window, qtbot, photo, monkeypatch):
    begun, go_on = Event(), Event()
    measured = measure.measure_pixels

    def slowly(catalogue, pixels):
        begun.set()
        assert go_on.wait(30)
        return measured(catalogue, pixels)

    monkeypatch.setattr(measure, "measure_pixels", slowly)
    dialog = window.counter.measuring.open_photo()
    dialog.measure(photo.jpeg)
    assert begun.wait(30)
    dialog.by_length.setChecked(True)
    assert dialog.length.isEnabled()
    assert dialog.told is None
    go_on.set()
    qtbot.waitUntil(lambda: dialog.told is not None, timeout=30_000)


def test_a_point_moved_by_keys_changes_the_measure(room):
    before = room.found.fits.text()
    for _ in range(20):
        room.view.at = ("pins", 0)
        QTest.keyClick(room.view, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert room.found.fits.text() != before


def test_space_goes_round_all_points(room):
    seen = []
    for _ in range(9):
        QTest.keyClick(room.view, Qt.Key.Key_Space)
        seen.append(room.view.at)
    assert len(set(seen)) == 8
    assert seen[0] == seen[8]


def test_pins_can_be_added_and_dropped(room):
    room.view.at = ("pins", 0)
    QTest.keyClick(room.view, Qt.Key.Key_Delete)
    assert len(room.view.points("pins")) == 3
    QTest.keyClick(room.view, Qt.Key.Key_Insert)
    assert len(room.view.points("pins")) == 4


def test_a_known_length_serves_without_a_card(room):
    room.by_length.setChecked(True)
    assert "straight above" in room.found.problems.text()
    room.by_length.setChecked(False)
    assert len(room.view.points("card")) == 4


def test_what_is_no_picture_is_said(window, qtbot):
    dialog = window.counter.measuring.open_photo()
    dialog.measure(b"no picture at all")
    qtbot.waitUntil(lambda: "no picture" in dialog.found.problems.text(), timeout=10_000)
    assert not dialog.found.take.isEnabled()


def test_an_empty_clipboard_is_said(window):
    QGuiApplication.clipboard().clear()
    dialog = window.counter.measuring.open_photo()
    dialog.paste()
    assert "clipboard" in dialog.found.problems.text()


def test_on_a_screen_that_is_not_calibrated_nothing_is_measured(window):
    dialog = window.counter.measuring.open_glass()
    dialog.measure()
    assert "Calibrate" in dialog.found.problems.text()
    assert not dialog.found.take.isEnabled()


def test_pins_on_the_glass_become_looks(window):
    screens.keep(window.settings, window.screen(), 4.0)
    dialog = window.counter.measuring.open_glass()
    dialog.begin("G24q-1")
    dialog.key.setCurrentIndex(dialog.key.findData("small-left"))
    dialog.measure()
    QTest.mouseClick(dialog.found.take, Qt.MouseButton.LeftButton)
    assert window.case.looks["pin_spacing_mm"] == pytest.approx(22.6, abs=0.05)
    assert window.case.looks["notch"] == "small-left"


@pytest.mark.parametrize("what", ["wall", "gauge", "look-alikes", "labels"])
def test_the_menu_writes_sheets(window, tmp_path, monkeypatch, what):
    out = tmp_path / "sheet.pdf"
    monkeypatch.setattr(
        "counter.window.measure.door.QFileDialog.getSaveFileName", lambda *_: (str(out), "PDF (*.pdf)")
    )
    window.counter.measuring.save(what)
    store_answered(window)
    assert out.read_bytes().startswith(b"%PDF")


def test_a_sheet_that_cannot_be_written_is_said(window, tmp_path, monkeypatch):
    out = tmp_path / "nowhere" / "sheet.pdf"
    monkeypatch.setattr("counter.window.measure.door.QFileDialog.getSaveFileName", lambda *_: (str(out), ""))
    window.counter.measuring.save("wall")
    assert "Not written" in window.counter.looks.problem.text()
