"""Marks in the window: contradictions, pastes, and what cannot be read."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.desk import Case
from tests.window.hands import CODE, CTRL, button, key, press, said, type_into


def test_marks_typed_go_into_the_case_after_a_moment(window, qtbot):
    QTest.keyClicks(window.marks.field, CODE)
    qtbot.waitUntil(lambda: window.case.marks == CODE, timeout=2000)
    assert window.assessment.readings[0].canonical == CODE


def test_a_contradiction_offers_both_ways_out(window):
    press(button(window, "pins", "2"))
    type_into(window.marks.field, CODE)
    assert window.marks.conflict.isVisible()
    assert window.marks.conflict_words.text().startswith("These marks say 4 pins, you saw 2")
    press(window.marks.drop_look)
    assert ("pins" in window.case.looks, window.marks.conflict.isVisible()) == (False, False)
    assert window.case.marks == CODE


def test_the_other_way_out_drops_the_marks(window):
    press(button(window, "pins", "2"))
    type_into(window.marks.field, CODE)
    press(window.marks.drop_marks)
    assert (window.case.marks, window.case.looks) == ("", {"pins": "2"})


@pytest.mark.parametrize("text", ["🙂🙂", "CFQ26W/G24q/841 " * 640, "G24d G24q", "\\<b>x</b>&amp;", "?" * 60])
def test_any_paste_into_the_marks_is_survived_and_kept(window, text):
    QApplication.clipboard().setText(text)
    window.marks.take_focus()
    key(window, Qt.Key.Key_V, CTRL)
    key(window, Qt.Key.Key_Return)
    assert window.case.marks == window.marks.field.text() == text
    assert not window.grab().isNull()


def test_marks_that_cannot_be_read_are_not_passed_over(windows):
    window = windows(case=Case(marks="XQZZY#1"))
    assert "XQZZY#1" in window.marks.problems.text()
    assert "Nothing looked at yet" not in said(window)
