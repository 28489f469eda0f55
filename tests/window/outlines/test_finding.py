"""Finding an outline again, and what to hold beside it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from counter.desk import Case
from counter.fit import worth_holding_beside
from tests.window.hands import CTRL, key


def test_a_filter_says_how_much_it_hides_and_escape_clears_it(windows):
    window = windows(case=Case(looks={"pins": "4"}))
    key(window, Qt.Key.Key_F, CTRL)
    for character in "2g7":
        key(window, Qt.Key(ord(character.upper())))
    shown, all_of_them = window.grid.model.rowCount(), len(window.grid._all)
    assert window.grid.count.text() == f"filtered, {shown} of {all_of_them}"
    assert shown < all_of_them
    key(window, Qt.Key.Key_Escape)
    assert window.grid.filter.text() == ""
    assert "filtered" not in window.grid.count.text()


def test_escape_clears_the_filter_from_the_outlines_too(windows):
    window = windows()
    window.grid.filter.setText("2g7")
    window.grid.view.setFocus()
    key(window, Qt.Key.Key_Escape)
    assert window.grid.filter.text() == ""


@pytest.mark.parametrize(
    ("lamp", "bases"),
    [
        ("G24q-3/26/quad", {"G24d-3", "GX24q-3"}),
        ("G23/9/twin", {"2G7", "GX23", "G23"}),  # its germicidal twin stands on its own base
        ("G23/9/twin/uv-c", {"2G7", "GX23", "G23"}),
    ],
)
def test_what_cautions_name_is_offered_beside(catalogue, windows, lamp, bases):
    assert {one.base for one in worth_holding_beside(catalogue, catalogue.lamp_by_id[lamp])} == bases
    window = windows()
    window.counter.open_outline(lamp)
    offered = [window.detail.compare.itemData(at) for at in range(1, 1 + len(bases))]
    assert {catalogue.lamp_by_id[one].base for one in offered} == bases


def test_the_shown_outline_is_never_folded_away(windows):
    window = windows(case=Case(looks={"pins": "4", "legs": "4"}))
    window.counter.open_outline("G5/8/linear/uv-c")
    index = window.grid.view.currentIndex()
    assert index.isValid()
    assert window.grid.model.cards[index.row()].kind == "uv-c"
