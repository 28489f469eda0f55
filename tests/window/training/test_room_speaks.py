"""The room in another language: switched while running, and no word of it cut."""

from datetime import UTC, datetime

import pytest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from counter import language
from counter.desk import Case
from counter.training import add_trainee
from counter.window.parts.languages import speak
from counter.window.training.frame import BOARD, PRACTICE, STANDING
from tests.window.hands import store_answered

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
SETTLED = "CFQ18W/G24q/841"


@pytest.fixture
def window(windows):
    yield windows("light", Case(marks=SETTLED, use="lighting"))
    speak(language.OWN)


def settle():
    for _ in range(6):
        QApplication.processEvents()


def test_a_language_is_chosen_in_the_menu_and_kept(window):
    view = next(one.menu() for one in window.counter.answer.menu.menu().actions() if one.text() == "&View")
    view.aboutToShow.emit()
    spoken = next(one.menu() for one in view.actions() if one.menu() is not None and one.text() == "Language")
    next(action for action in spoken.actions() if action.text() == "Español").trigger()
    assert language.current() == "es"
    assert window.counter.settings.value("language") == "es"


def test_cautions_and_questions_change_at_once(window):
    before = [one.says for one in window.counter.assessment.cautions]
    window.set_language("es")
    after = [one.says for one in window.counter.assessment.cautions]
    assert len(after) == len(before)
    assert all(one != other for one, other in zip(before, after, strict=True))
    window.set_language("en")
    assert [one.says for one in window.counter.assessment.cautions] == before


def test_an_open_room_speaks_at_once(window):
    window.counter.training.enter()
    window.set_language("es")
    room = window.counter.training.room
    assert room.isVisible()
    assert room.windowTitle() == "Capacitación"
    assert room.back.text() == "Volver al mostrador  F4"


def test_the_lamp_that_is_offered_for_training_is_asked_in_it(window):
    window.set_language("es")
    assert window.counter.training.line.keep.text() == "Sí, guardarlo para la capacitación"


def test_qts_own_words_follow(window):
    window.set_language("es")
    assert QApplication.translate("QPlatformTheme", "Cancel") == "Cancelar"
    window.set_language("en")
    assert QApplication.translate("QPlatformTheme", "Cancel") == "Cancel"


@pytest.mark.parametrize("page", [PRACTICE, STANDING, BOARD])
@pytest.mark.parametrize("size", [(1024, 768), (1366, 768)])
def test_no_spanish_word_is_cut(window, size, page):
    add_trainee(window.data, "Ada Nordberg", datetime(2031, 3, 3, tzinfo=UTC))
    window.set_language("es")
    window.counter.training.enter()
    room = window.counter.training.room
    room.resize(*size)
    room._open(page)
    store_answered(window)
    settle()
    for label in room.findChildren(QLabel):
        if label.isVisible() and label.text():
            need = label.heightForWidth(label.width()) if label.wordWrap() else label.sizeHint().height()
            assert label.height() >= need, label.text()
            assert label.wordWrap() or label.width() >= label.sizeHint().width(), label.text()
    for button in room.findChildren(QPushButton):
        if button.isVisible():
            assert button.width() >= button.fontMetrics().horizontalAdvance(button.text()), button.text()
    assert all(room.tabs.tabRect(at).right() <= room.tabs.width() for at in range(room.tabs.count()))
