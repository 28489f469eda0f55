"""The first minutes: offered once, skippable, the place asked for once and why."""

import pytest
from PySide6.QtWidgets import QApplication

from counter.training import STEPS
from counter.window.training.first_case import offer_first_case, start_first_case

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def window(windows):
    return windows("light")


@pytest.fixture
def line(window):
    return window.counter.training.first.line


def test_nothing_is_offered_unasked(line):
    assert line.isHidden()


def test_it_is_offered_once(window, line):
    offer_first_case(window)
    assert "invented lamp" in line.words.text()
    line.second.click()
    offer_first_case(window)
    assert "invented lamp" not in line.words.text()


def test_the_place_is_asked_for_once_with_why(window, line):
    window.counter.training.first.skip()
    assert "the law still lets you sell" in line.words.text()
    line.second.click()
    offer_first_case(window)
    assert line.isHidden()


def test_the_place_is_not_asked_for_where_it_is_known(window, line):
    window.settings.setValue("place", "somewhere")
    window.counter.training.first.skip()
    assert line.isHidden()


def test_it_leads_to_the_end_by_its_own_button(window, line):
    start_first_case(window)
    counted = []
    while not line.second.isHidden():
        counted.append(line.count.text())
        line.first.click()
        QApplication.processEvents()
    assert counted == [f"{at + 1} of {len(STEPS)}" for at in range(len(STEPS) - 1)]
    assert window.counter.assessment.verdict == "do not sell"
    line.first.click()
    assert not window.counter.training.first.is_on


def test_it_follows_the_hand(window, line):
    start_first_case(window)
    window.counter.answer_look("legs", "2")
    assert line.count.text() == f"2 of {len(STEPS)}"
    line.second.click()
    assert not window.counter.training.first.is_on


def test_the_case_before_comes_back(window):
    window.counter.change(marks="F32T8")
    start_first_case(window)
    assert window.case.marks == ""
    window.counter.undo()
    assert window.case.marks == "F32T8"


def test_the_menu_has_it(window):
    assert any("first case" in one.words for one in window.counter.commands)
    menus = [action.menu() for action in window.answer.menu.menu().actions()]
    assert any("first case" in action.text() for menu in menus for action in menu.actions())
