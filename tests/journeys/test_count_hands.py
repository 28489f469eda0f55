"""Clicks and keys to a settled answer, held where they are: a clerk counts them a hundred times a day."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from tests.count_hands import CUSTOMERS, serve
from tests.window.hands import CTRL, key, press

REFUSED = {"wrong key in the fixture", "UV look-alike, clear glass", "two-pin on electronic"}
MOST = {"clean code": (1, 13), "worn code": (2, 12), "looks only": (4, 0)}  # clicks, keys


@pytest.mark.parametrize("kind", CUSTOMERS)
def test_every_customer_comes_to_a_settled_answer_by_no_more_clicks_and_keys_than_these(window, kind):
    one = serve(window, kind)
    assert one.verdict == ("do not sell" if kind in REFUSED else "sell")
    if kind in MOST:
        clicks, keys = MOST[kind]
        assert one.clicks <= clicks
        assert one.keys <= keys
        assert one.lamp.startswith("G24q-3" if kind == "worn code" else "G24q-2")


def test_a_filter_goes_by_escape_from_the_marks(window):
    window.grid.filter.setText("G23")
    press(window.marks.field)
    key(window, Qt.Key.Key_Escape)
    assert not window.grid.filter.text()


def test_a_broken_lamp_alone_is_asked_about_and_then_the_marks_have_the_keyboard(window):
    key(window, Qt.Key.Key_B, CTRL)
    assert window.looks.advice.text() == "Is the broken lamp cleaned up, by the steps under Law?"
    key(window, Qt.Key.Key_B, CTRL)
    assert window.marks.field.hasFocus()
    assert window.answer.stamp.verdict is None
