"""The window in another language: switched while running, with the case still under the hand."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QWidget

from counter import language
from counter.language import tr
from counter.window.main_window import MainWindow
from counter.window.parts.languages import speak
from tests.window.hands import FULL, press, type_into


@pytest.fixture
def window(windows):
    yield windows("light", FULL)
    speak(language.OWN)


def settle():
    for _ in range(8):
        QApplication.processEvents()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def test_the_case_and_its_history_stay_under_the_hand(window):
    before = window.case
    window.counter.change(use="disinfecting")
    window.set_language("es")
    assert window.case == before.model_copy(update={"use": "disinfecting"})
    assert window.marks.field.text() == FULL.marks
    window.counter.undo()
    assert window.case == before
    window.counter.redo()
    assert window.case.use == "disinfecting"


def test_the_verdict_stays(window):
    before = window.assessment
    window.set_language("es")
    after = window.assessment
    assert (after.verdict, after.lamp, after.headline) == (before.verdict, before.lamp, before.headline)
    assert window.answer.stamp.verdict == before.verdict


def test_how_the_panes_stood_stays(window):
    window.grid.filter.setText("26")
    window.side.shelf.field.setText("CFQ")
    window.side.shelf.needed.setValue(7)
    window.side.open(3)
    window.fixture.more.setChecked(True)
    window.set_language("es")
    settle()
    assert window.grid.filter.text() == "26"
    assert (window.side.shelf.field.text(), window.side.shelf.needed.value()) == ("CFQ", 7)
    assert window.side.shown() == 3
    assert window.fixture.more.isChecked()


def test_widths_that_a_hand_set_stay(window):
    window.places.across.splitterMoved.emit(0, 0)
    window.places.across.setSizes([380, 500, 400])
    settle()
    before = window.places.across.sizes()
    window.set_language("es")
    settle()
    assert window.places.across.sizes() == before


def test_the_guided_case_goes_on(window):
    window.counter.training.first.start()
    window.set_language("es")
    settle()
    first = window.counter.training.first
    assert first.is_on
    assert first.line.isVisibleTo(window)
    assert first.line.first.text() == "Hágalo por mí"


def test_nothing_of_the_old_window_is_left(window):
    window.set_language("es")
    window.set_language("en")
    settle()
    widgets, whole = len(window.findChildren(QWidget)), len(QApplication.topLevelWidgets())
    for code in ("es", "en"):
        window.set_language(code)
        settle()
    assert (len(window.findChildren(QWidget)), len(QApplication.topLevelWidgets())) == (widgets, whole)


def test_each_key_still_means_one_thing(window):
    window.set_language("es")
    settle()
    keys = [one.toString() for action in window.actions() for one in action.shortcuts()]
    assert len(keys) == len(set(keys))
    type_into(window.marks.field, "F9TT/G23")
    press(window.answer.next)
    assert window.case.marks == ""


def test_the_next_start_speaks_it_before_the_core_is_awake(window, windows):
    window.set_language("es")
    window.settings.sync()
    asleep = windows(awake=False)
    assert language.current() == "es"
    assert asleep.windowTitle() == "Mostrador de lámparas"


def test_a_picture_speaks_what_it_is_asked_for_and_not_what_the_settings_say(qapp, data, in_spanish):
    titles = [MainWindow(data, "light", spoken).windowTitle() for spoken in ("en", "")]
    assert titles == ["Lamp counter", tr("Lamp counter")]
    assert titles[0] != titles[1]
