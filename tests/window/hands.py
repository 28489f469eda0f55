"""Hands at the counter, for the tests of the window: press, type, read what can be seen."""

from __future__ import annotations

import time

from PySide6.QtCore import Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from counter.desk import Case
from counter.window.looks.looks_pane import LETTERED
from counter.window.parts.letters import letter_of

LEFT = Qt.MouseButton.LeftButton
LETTERS = {look: letter_of(caption) for look, caption in LETTERED.items()}
FIXTURE_FIELDS = (
    *("holder", "ballast", "ballast_watts", "use", "lamp_count", "space_mm", "tube_room_mm", "room_k", "label"),
    *("enclosed", "damp", "cold", "base_up", "emergency", "dimmer", "shunted"),
)
ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
CODE = "CFQ18W/G24q/841"
FULL = Case(
    looks={"legs": "4", "pins": "4", "notch": "small-left", "glass": "white", "length_mm": 146.0, "watts": "18"},
    marks=CODE,
    fixture={"holder": "G24q-2", "ballast": "electronic", "ballast_watts": (18, 26), "space_mm": 160.0, "damp": True},
    use="lighting",
)


def button(window, key, value):
    return next(one for one in window.looks.rows[key].buttons if one.value == value)


def press(widget):
    QTest.mouseClick(widget, LEFT)
    QApplication.processEvents()


def drop_on(widget, about):
    """Let go of what a hand carries over a widget's middle."""
    middle = widget.rect().center()
    over = (Qt.DropAction.CopyAction, about, LEFT, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(widget, QDragEnterEvent(middle, *over))
    QApplication.sendEvent(widget, QDropEvent(middle.toPointF(), *over))


def type_into(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()


def key(window, which, modifier=Qt.KeyboardModifier.NoModifier):
    """Press a key where the keyboard is, as a hand does."""
    QTest.keyClick(window.focusWidget() or window, which, modifier)
    QApplication.processEvents()


def said(widget):
    return " ".join(label.text() for label in widget.findChildren(QLabel) if label.isVisible())


def fields(window):
    boxes = [row.field for row in window.looks.rows.values() if hasattr(row, "field")]
    return [*boxes, window.marks.field, window.fixture.watts, window.fixture.space, window.fixture.room]


def store_answered(window):
    """Wait until the store has answered all that was asked beside the window."""
    waited(lambda: window.counter.shop.worker.pending == 0)


def shop_at_rest(counter):
    """Wait until the store has answered, a search put off has run, and a list learned from has been read."""
    workers = counter.shop.worker, counter.shop.learner.worker
    waited(lambda: not any(one.pending for one in workers) and not counter.shop._soon.isActive())


def waited(done, seconds=120):
    """Let the window live until `done`; a busy machine is no fault, so the patience is long."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        QTest.qWait(5)
        if done():
            return
    raise AssertionError("the store does not answer")
