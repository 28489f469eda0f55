"""Undo, redo, the next customer, and what is remembered between two days."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.desk import Case
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
    assert window.looks.rows["length_mm"].field.text() == "146"
    assert window.fixture.watts.text() == "18, 26"


def test_what_is_half_typed_does_not_reach_the_next_customer(window, qtbot):
    window.marks.take_focus()
    QTest.keyClicks(window.marks.field, "CFQ26W")
    row = window.looks.rows["length_mm"]
    row.field.setFocus()
    QTest.keyClicks(row.field, "14")
    QTest.keyClicks(window.fixture.watts, "18")
    key(window, Qt.Key.Key_F2)
    qtbot.wait(400)  # longer than any pause of a field
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
    first.resize(1240, 720)
    first.across.setSizes([350, 500, 380])
    first.middle.setSizes([300, 380])
    first.set_theme("dark")
    first.set_units("in")
    QApplication.processEvents()
    kept = [splitter.sizes() for splitter in (first.across, first.middle)]
    first.close()
    second = windows()
    # The size comes back as far as this screen, 800 pixels square, has room for it.
    assert second.settings.value("geometry") == first.settings.value("geometry")
    assert second.width() <= 1240
    for before, after in zip(kept, [splitter.sizes() for splitter in (second.across, second.middle)], strict=True):
        shares = [[one / sum(sizes) for one in sizes] for sizes in (before, after)]
        assert shares[1] == pytest.approx(shares[0], abs=0.08)
    assert (second.theme.name, second.units) == ("dark", "in")


@pytest.mark.parametrize(
    "content", [b"", b"\x00\xff garbage", b"[General]\ngeometry=7\nacross=x\nunits=ell\ntheme=pink\n"]
)
def test_damaged_settings_do_not_stop_the_window(windows, data, content):
    data.mkdir()
    (data / "window.ini").write_bytes(content)
    window = windows()
    window._change(chosen="G24q-2/18/quad")
    assert window.answer.base.text() == "G24q-2"
    assert not window.grab().isNull()
