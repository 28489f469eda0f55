"""The grid of outlines: filter and highlight."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.hands import LEFT, key


def test_an_outline_pressed_is_opened_and_settles_nothing(window):
    view = window.grid.view
    at = view.visualRect(window.grid.model.index(3)).center()
    QTest.mouseClick(view.viewport(), LEFT, pos=at)
    assert (window.case.shown, window.case.chosen) == (window.grid.model.cards[3].lamp, None)
    assert window.assessment.verdict is None
    assert view.currentIndex().row() == 3
    assert window.detail.title.text() == window.grid.model.cards[3].base


def test_enter_opens_an_outline_too(window):
    window.grid.view.setFocus()
    window.grid.view.setCurrentIndex(window.grid.model.index(2))
    key(window, Qt.Key.Key_Return)
    assert window.case.shown == window.grid.model.cards[2].lamp


def test_a_new_look_closes_the_outline_opened_before(window):
    window.counter.open_outline("G13/36/linear")
    window.counter.answer_look("legs", "4")
    assert window.case.shown is None


def test_a_filter_keeps_the_chosen_outline_marked(window):
    window.counter.change(chosen="G24q-2/18/quad")
    window.grid.filter.setText("g24q")
    chosen = window.grid.view.currentIndex()
    assert chosen.isValid()
    assert window.grid.model.cards[chosen.row()].base == "G24q-2"
    assert window.grid.view.selectionModel().isSelected(chosen)


@pytest.mark.parametrize("text", ["nothing like it", "🙂", "(", "*" * 500])
def test_a_filter_without_a_match_says_so(window, text):
    window.grid.filter.setText(text)
    assert window.grid.model.rowCount() == 0
    assert "Clear the filter" in window.grid.count.text()
    window.grid.filter.clear()
    assert window.grid.model.rowCount() > 30
