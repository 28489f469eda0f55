"""A window made wide and narrow again looks as one that was always narrow; nothing is left of the wide one."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFont

from counter.desk import Case
from tests.conftest import settle
from tests.window.hands import FULL

TWO = Case(looks={"legs": "4"}, chosen="G24q-2/18/quad", beside="GX24q-3/32/triple")


def sized(qapp, window, width, height):
    window.resize(width, height)
    for _ in range(3):
        settle(qapp)


def columns(window):
    return [pane.width() for pane in (window.looks, window.places.middle, window.places.column)]


@pytest.mark.parametrize("case", [FULL, TWO], ids=["one lamp", "two lamps"])
def test_a_window_made_wide_and_narrow_again_needs_no_scrolling_sideways(qapp, windows, case):
    window = windows(case=case)
    sized(qapp, window, 1024, 768)
    narrow = columns(window)
    for width, height in ((1440, 900), (1920, 1080), (1024, 768)):
        sized(qapp, window, width, height)
    assert window.places._whole.horizontalScrollBar().maximum() == 0
    assert window.places._whole.verticalScrollBar().maximum() == 0
    assert columns(window) == narrow


def test_cautions_and_instead_never_lie_over_each_other(qapp, windows):
    window = windows(case=FULL)
    sized(qapp, window, 1920, 1080)
    assert window.side.instead.isVisible()
    assert window.side.cautions.isVisible()
    sized(qapp, window, 1024, 768)
    assert not window.side.instead.isVisible()
    assert window.side.cautions.isVisible()


@pytest.mark.parametrize("points", [9, 14])
@pytest.mark.parametrize("width", [1200, 1280, 1366, 1440, 1600, 1700])
def test_cards_fill_as_many_columns_as_were_counted(qapp, windows, width, points):
    before = QFont(qapp.font())
    large = QFont(before)
    large.setPointSizeF(points)
    qapp.setFont(large)
    try:
        window = windows()
        sized(qapp, window, width, 800)
        view, model = window.grid.view, window.grid.model
        tops = [view.visualRect(model.index(at)).top() for at in range(model.rowCount())]
        assert tops.count(tops[0]) == view.columns()
    finally:
        qapp.setFont(before)


def test_glass_and_sizes_follow_the_pictures_where_there_is_room(qapp, windows):
    window = windows(case=FULL)
    sized(qapp, window, 1920, 1080)
    rows = window.looks.rows
    above = rows["block"].mapTo(window, rows["block"].rect().bottomLeft()).y()
    below = rows["glass"].mapTo(window, rows["glass"].rect().topLeft()).y()
    assert 0 < below - above < 30
