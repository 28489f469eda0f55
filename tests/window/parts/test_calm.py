"""Nothing changes by accident: the wheel, a click that missed, and arrows in the outlines."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QSpinBox

from counter.desk import Case
from tests.window.hands import FULL, LEFT, key


def turn_wheel(widget):
    middle = QPointF(widget.rect().center())
    for step in (-120, 120, -120):
        event = QWheelEvent(
            middle,
            widget.mapToGlobal(middle),
            QPoint(),
            QPoint(0, step),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(widget, event)


@pytest.mark.parametrize("has_focus", [False, True])
def test_the_wheel_over_a_closed_box_changes_nothing(windows, has_focus):
    window = windows(case=FULL)
    window.fixture.more.setChecked(True)
    before = window.case
    boxes = [*window.findChildren(QComboBox), *window.findChildren(QSpinBox)]
    assert len(boxes) > 10
    for box in boxes:
        if has_focus:
            box.setFocus()
        was = box.currentText() if isinstance(box, QComboBox) else box.value()
        turn_wheel(box)
        assert was == (box.currentText() if isinstance(box, QComboBox) else box.value()), box.accessibleName()
    assert window.case == before


def test_a_click_that_missed_leaves_the_keys_in_the_marks(windows):
    window = windows(case=Case(looks={"pins": "2"}))
    for pane in (window.looks, window.marks, window.detail, window.fixture, window.side, window.answer):
        window.fixture.holder.setFocus()
        QTest.mouseClick(pane, LEFT, pos=QPoint(3, 3))
        assert window.focusWidget() is window.marks.field, type(pane).__name__


def test_arrows_in_the_outlines_open_what_they_highlight(windows):
    window = windows(case=Case(looks={"pins": "4"}))
    window.grid.view.setFocus()
    for which in (Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Left):
        key(window, which)
        card = window.grid.model.cards[window.grid.view.currentIndex().row()]
        assert window.grid.delegate.chosen_row == window.grid.view.currentIndex().row()
        assert window.detail.watts.currentData() == card.lamp == window.case.shown
    window.detail.choose.click()
    assert window.case.chosen == card.lamp


def test_outlines_looked_through_are_one_step_of_undo(windows):
    window = windows(case=Case(looks={"pins": "4"}))
    window.grid.view.setFocus()
    for _ in range(5):
        key(window, Qt.Key.Key_Right)
    window.counter.undo()
    assert window.case.shown is None
