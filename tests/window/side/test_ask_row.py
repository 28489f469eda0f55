"""An answer is pressed once: what comes next under the same hand is not answered with it."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.fit import Ask
from counter.window.side.ask_row import AskRow


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
