"""Another shop's layer by hand: both sides shown, one chosen, nothing lost."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtWidgets import QLabel

from counter import shop
from counter.shop import confirm, keep_own
from tests.window.hands import press

BASE = {"kind": "base", "of": "G23", "part": "pin_spacing_mm"}


@pytest.fixture
def met(windows, qtbot, data, tmp_path):
    other = tmp_path / "other"
    confirm(other, **BASE, value=23.4, who="Ada", on=date(2026, 3, 9), how="caliper, five lamps", plus_minus=0.1)
    keep_own(other, "words", {"word": "Nordrau"}, who="Ada", on=date(2026, 3, 9))
    confirm(data, **BASE, value=22.9, who="Kim", on=date(2026, 3, 2), how="ruler")
    there = windows()
    file = tmp_path / "layer.json"
    share = there.counter.sharing()
    share.data = other
    share.export(file)
    qtbot.waitUntil(file.exists)
    share.data = data
    share.open(file)
    qtbot.waitUntil(lambda: share.dialog is not None)
    return there, share.dialog


def spacing(window):
    return window.counter.catalogue.base_by_name["G23"].pin_spacing_mm.value


def test_both_sides_say_who_when_how_and_how_far_they_spread(met):
    _, dialog = met
    said = "\n".join(label.text() for label in dialog.findChildren(QLabel))
    for words in ("22.9", "Kim, 2026-03-02, ruler", "23.4", "Ada, 2026-03-09, caliper, five lamps, spread ± 0.1"):
        assert words in said
    (ours,) = dialog.ours.values()
    assert not ours.isChecked()


@pytest.mark.parametrize(("ours", "counts"), [(True, 22.9), (False, 23.4)])
def test_whoever_is_chosen_counts(met, qtbot, data, ours, counts):
    window, dialog = met
    press(dialog.all_ours if ours else dialog.all_theirs)
    press(dialog.take)
    qtbot.waitUntil(lambda: window.counter.catalogue.own_words == ("Nordrau",))
    assert spacing(window) == counts
    assert len(shop.confirmed_before(data, **BASE)) == 2
    press(window.counter.desk_cases.line.buttons[0])
    qtbot.waitUntil(lambda: window.counter.catalogue.own_words == ())
    assert spacing(window) == 22.9


def test_a_file_that_is_none_is_said(windows, qtbot, tmp_path):
    window = windows()
    file = tmp_path / "no.json"
    file.write_text("[]")
    window.counter.sharing().open(file)
    qtbot.waitUntil(lambda: "no.json" in window.counter.looks.problem.text())
