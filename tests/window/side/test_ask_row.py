"""An answer is pressed once: what comes next under the same hand is not answered with it."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.desk import Case
from counter.fit import Ask
from counter.window.side.ask_row import AskRow
from tests.window.hands import CODE, press


def shown(qtbot, about):
    row = AskRow()
    qtbot.addWidget(row)
    row.show_ask(Ask(about=about, question="Did it?", why="", outcomes=()))
    row.show()
    return row


def test_the_second_press_of_a_double_click_answers_nothing(qtbot):
    row = shown(qtbot, "came_out")
    said = []
    row.answered.connect(said.append)
    QTest.mouseClick(row.buttons[0], Qt.MouseButton.LeftButton)
    QTest.mouseDClick(row.buttons[0], Qt.MouseButton.LeftButton)  # what the system sends for the second press
    assert len(said) == 1


def test_a_key_held_answers_nothing_more(qtbot):
    row = shown(qtbot, "came_out")
    said = []
    row.answered.connect(said.append)
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        key = QKeyEvent(kind, Qt.Key.Key_Space, Qt.KeyboardModifier.NoModifier, " ", autorep=True)
        QApplication.sendEvent(row.buttons[0], key)
    assert said == []
    QTest.keyClick(row.buttons[0], Qt.Key.Key_Space)
    assert len(said) == 1


def test_an_answered_question_keeps_its_place_and_can_be_answered_otherwise(windows):
    window = windows(case=Case(marks=CODE))
    row = window.cautions.open_asks[0]
    yes, no = row.buttons[:2]
    before = yes.mapTo(window, yes.rect().center())
    press(yes)
    assert window.case.fixture.came_out is True
    assert window.childAt(before) is yes, "what comes next slips under no hand"
    assert (yes.isChecked(), row in window.cautions.open_asks) == (True, False)
    case = window.case
    press(window.childAt(before))
    assert window.case is case, "a second press says nothing new"
    press(no)
    assert (window.case.fixture.came_out, no.isChecked()) == (False, True)
    window.counter.change(use="lighting")  # the hand has gone elsewhere
    assert window.cautions.asks[0].given is None


def test_a_question_that_nobody_asks_any_more_keeps_its_place_too(windows):
    window = windows(case=Case(marks=CODE, fixture={"came_out": True}))
    first, *others = window.cautions.open_asks
    answered = next(row for row in others if row.buttons[0].isVisible())
    press(answered.buttons[0])
    assert first.isVisible()
    assert answered.given is not None
    window.counter.undo()
    assert all(row.given is None for row in window.cautions.asks)
