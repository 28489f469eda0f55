"""Undo, redo, the next customer, and what is remembered between two days."""

from __future__ import annotations

import random

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.desk import Case
from counter.paths import machine
from tests.window.hands import CODE, CTRL, FULL, button, fields, key, press
from tests.window.looks.test_looks_pane import ANSWERS


def test_the_next_customer_finds_everything_empty(windows):
    window = windows(case=FULL)
    window.looks.rows["tube_mm"].field.setText("rubbish")
    window.looks.show_problem("tube_mm", "not a size")
    window.grid.filter.setText("26")
    key(window, Qt.Key.Key_F2)
    assert window.case.model_copy(update={"on": None}) == Case()
    assert [field.text() for field in fields(window)] == [""] * len(fields(window))
    assert not any(one.isChecked() for row in window.looks.rows.values() for one in getattr(row, "buttons", []))
    assert not window.looks.problem.isVisible()
    assert window.grid.filter.text() == ""
    assert window.answer.base.text() == ""
    assert not window.answer.stamp.isVisible()
    assert window.focusWidget() is window.marks.field


def test_one_key_brings_the_customer_back(windows):
    window = windows(case=FULL)
    key(window, Qt.Key.Key_F2)
    assert window.case != FULL
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.case == FULL
    assert window.marks.field.text() == CODE
    assert window.looks.rows["length_mm"].field.text() == "146 mm"
    assert window.fixture.watts.text() == "18, 26"


def test_what_is_half_typed_does_not_reach_the_next_customer(window, qtbot):
    window.marks.take_focus()
    QTest.keyClicks(window.marks.field, "CFQ26W")
    row = window.looks.rows["length_mm"]
    row.field.setFocus()
    QTest.keyClicks(row.field, "14")
    QTest.keyClicks(window.fixture.watts, "18")
    key(window, Qt.Key.Key_F2)
    panes = (window.looks, window.marks, window.fixture)
    assert not any(timer.isActive() for pane in panes for timer in pane.findChildren(QTimer))
    assert (window.case.marks, window.case.looks, window.case.fixture.ballast_watts) == ("", {}, ())


def test_undo_and_redo_walk_the_steps(window):
    steps = [window.case]
    for look, value in ANSWERS:
        press(button(window, look, value))
        steps.append(window.case)
    window.looks.setFocus()
    for expected in reversed(steps[:-1]):
        key(window, Qt.Key.Key_Z, CTRL)
        assert window.case == expected
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.case == steps[0]
    for expected in steps[1:]:
        key(window, Qt.Key.Key_Y, CTRL)
        assert window.case == expected


def test_undo_takes_the_fixture_back_in_its_field_too(window, qtbot):
    window.fixture.watts.setFocus()
    QTest.keyClicks(window.fixture.watts, "18")
    qtbot.waitUntil(lambda: window.case.fixture.ballast_watts == (18,), timeout=2000)
    window.looks.rows["legs"].take_focus()
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.case.fixture.ballast_watts == ()
    assert window.fixture.watts.text() == ""


def test_undo_while_the_hand_is_in_a_field_undoes_the_typing(window):
    window.marks.take_focus()
    QTest.keyClicks(window.marks.field, "CFQ")
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.marks.field.text() == ""


def test_size_splitters_units_and_palette_are_remembered(windows):
    first = windows()
    first.resize(780, 720)
    first.places.across.setSizes([350, 500, 380])
    first.places.middle.setSizes([300, 380])
    first.set_theme("dark")
    first.set_units("in")
    QApplication.processEvents()
    kept = [splitter.sizes() for splitter in (first.places.across, first.places.middle)]
    first.close()
    second = windows()
    assert (second.width(), second.height()) == (780, 720)
    for before, after in zip(
        kept, [one.sizes() for one in (second.places.across, second.places.middle)], strict=True
    ):
        shares = [[one / sum(sizes) for one in sizes] for sizes in (before, after)]
        assert shares[1] == pytest.approx(shares[0], abs=0.08)
    assert (second.theme.name, second.units) == ("dark", "in")


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x00\xff garbage",
        b"[General]\nwindow=7\nunits=ell\ntheme=pink\n[sizes]\nacross=x\n",
        b"[General]\nwindow=0 0 16000000 16000000 0\n[sizes]\nacross=16000000 1 1\n",
        b"[General]\nwindow=-90000 4 700 500 0\n[sizes]\nacross=-4 0 9\n",
        b"[General]\nwindow=0 0 0 0 1\n",
        b"[General]\nwindow=@ByteArray(\\0\\x7f)\n[sizes]\nmiddle=@ByteArray(\\0\\xff)\n",
    ],
)
def test_damaged_settings_do_not_stop_the_window(windows, data, content):
    data.mkdir()
    (data / "window.ini").write_bytes(content)
    window = windows()
    window.counter.change(chosen="G24q-2/18/quad")
    assert window.answer.base.text() == "G24q-2"
    assert (window.width(), window.height()) == (1280, 800)
    assert not window.grab().isNull()


BITS = random.Random(20261125)


@pytest.mark.parametrize("at", range(12))
def test_a_flipped_bit_in_the_settings_never_makes_a_window_that_nobody_can_use(windows, data, at):
    windows().close()
    file = machine(data) / "window.ini"
    content = bytearray(file.read_bytes())
    for _ in range(3):
        content[BITS.randrange(len(content))] ^= 1 << BITS.randrange(8)
    file.write_bytes(content)
    window = windows()
    assert 300 < window.width() <= 1280
    assert 200 < window.height() <= 800
    assert all(size < 20_000 for size in window.places.across.sizes())


def test_a_window_that_filled_the_screen_does_so_again(windows):
    first = windows()
    first.showMaximized()
    QApplication.processEvents()
    first.close()
    second = windows()
    assert not second.isMaximized(), "not before it is awake and seen"
    second.fill_screen()
    QApplication.processEvents()
    assert second.isMaximized()


def test_a_first_window_fits_the_screen_there_is(windows):
    window = windows()
    window.fit_screen()  # the screen that needs no screen is 800 pixels square
    QApplication.processEvents()
    assert window.width() <= 840, "as near to it as the answer can be"
    assert window.height() <= 800
