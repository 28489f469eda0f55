"""Clicks and keys from an empty window to a settled answer, for twelve customers; printed.

    python -m tests.count_hands

Each goes the shortest way that the window offers to whoever knows it. A click is one press of the mouse on what can
be seen there, a key one key, with or without Alt, Ctrl or Shift. What stands on the lamp is typed without the signs
between its parts. Next customer (F2) is counted with the customer who leaves, so with none.

Seconds are what a practised hand takes by the keystroke-level model (Card, Moran, Newell: The Keystroke-Level Model
for User Performance Time with Interactive Systems, Communications of the ACM 23, 1980; its figures from memory): a
key 0.28 s, pointing 1.1 s and a press 0.1 s, from keys to mouse or back 0.4 s; thinking is left out. Beside them
stands the processor time of the program from each event to its paint, all of a customer's together.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QWidget

from counter.window.main_window import MainWindow
from tests.window.hands import ALT, CTRL, LEFT, button

if TYPE_CHECKING:
    from collections.abc import Callable

PLAIN = Qt.KeyboardModifier.NoModifier
MOST_ROUNDS = 2000
SOON_MS = 300  # the longest pause in typing is shorter; for what comes later no hand waits


KEY_S, POINT_S, PRESS_S, OTHER_DEVICE_S = 0.28, 1.1, 0.1, 0.4


class Counted(NamedTuple):
    """What a customer took, the stamp at the end, and the questions that stand beside it still."""

    kind: str
    clicks: int
    keys: int
    lamp: str
    verdict: str | None
    asked: tuple[str, ...]
    hand_s: float
    machine_s: float


class Hand:
    """A hand that counts, and presses only what can be seen."""

    def __init__(self, window: MainWindow) -> None:
        self.window = window
        self.clicks = self.keys = 0
        self.hand_s = self.machine_s = 0.0
        self._at_mouse: bool | None = None

    def _moves(self, *, to_mouse: bool, takes_s: float) -> None:
        """Count what the hand takes, and going from keys to mouse or back."""
        is_other = self._at_mouse is not None and self._at_mouse != to_mouse
        self.hand_s += takes_s + (OTHER_DEVICE_S if is_other else 0.0)
        self._at_mouse = to_mouse

    def _send(self, event: Callable[[], object]) -> None:
        """Let an event come, and count the processor's time until all that follows at once is painted."""
        begun = time.process_time()
        event()
        QApplication.processEvents()
        self.machine_s += time.process_time() - begun

    def click(self, widget: QWidget, at: QPoint | None = None) -> Hand:
        """Press the mouse once, in the middle or at a point."""
        at = widget.rect().center() if at is None else at
        assert widget.isEnabled(), widget
        assert widget.visibleRegion().contains(at), f"{widget.accessibleName()} cannot be seen"
        self._moves(to_mouse=True, takes_s=POINT_S + PRESS_S)
        self._send(lambda: QTest.mouseClick(widget, LEFT, PLAIN, at))
        self.clicks += 1
        return self.rest()

    def looks(self, **seen: str) -> Hand:
        """Press pictures."""
        for look, value in seen.items():
            self.click(button(self.window, look, value))
        return self

    def key(self, which: Qt.Key, modifier: Qt.KeyboardModifier = PLAIN) -> Hand:
        """Press one key where the keyboard is."""
        self._moves(to_mouse=False, takes_s=KEY_S)
        self._send(lambda: QTest.keyClick(QApplication.focusWidget() or self.window, which, modifier))
        self.keys += 1
        return self.rest()

    def types(self, text: str) -> Hand:
        """Press a key for each character, where the keyboard is."""
        for sign in text:
            self._moves(to_mouse=False, takes_s=KEY_S)
            self._send(lambda one=sign: QTest.keyClicks(QApplication.focusWidget() or self.window, one))
        self.keys += len(text)
        return self.rest()

    def picks(self, box: QComboBox, value: str) -> Hand:
        """Open a list by the mouse and press a row of it."""
        self.click(box)
        view, row = box.view(), box.findData(value)
        QTest.mouseMove(view.viewport(), view.visualRect(box.model().index(row, 0)).center())
        return self.click(view.viewport(), view.visualRect(box.model().index(row, 0)).center())

    def answers(self, words: str) -> Hand:
        """Press an answer beside the first question."""
        return self.click(next(one for one in self.window.cautions.open_asks[0].buttons if one.text() == words))

    def rest(self) -> Hand:
        """Let what was typed be taken; flashes and what is written later are not waited for."""
        for _ in range(MOST_ROUNDS):
            self._send(lambda: QTest.qWait(1))
            timers = [one for one in self.window.findChildren(QTimer) if one.isSingleShot() and one.isActive()]
            if all(one.interval() > SOON_MS for one in timers):
                return self
        raise AssertionError("the window never comes to rest")

    def counted(self, kind: str) -> Counted:
        """Say what it took, reading the end off the window."""
        window = self.window
        stamp = window.answer.stamp
        asked = tuple(row.question.words for row in window.cautions.open_asks)
        name = f"{window.answer.base.text()} {window.answer.lamp.text()}".replace("\n", ", ")
        return Counted(
            kind,
            self.clicks,
            self.keys,
            name,
            stamp.verdict if stamp.isVisible() else None,
            asked,
            self.hand_s,
            self.machine_s,
        )


def clean(hand: Hand) -> None:
    hand.types("CFQ18WG24q841").answers("yes")


def worn(hand: Hand) -> None:
    hand.types("CF?26WG24q8*").looks(legs="4").answers("yes")


def looks_only(hand: Hand) -> None:
    hand.looks(legs="4", notch="small-left").click(hand.window.detail.choose).answers("yes")


def makers_code(hand: Hand) -> None:
    hand.types("F26QV/841/4P").answers("“QV” says nothing").looks(legs="4")
    hand.click(hand.window.detail.choose).answers("yes")


def wrong_key(hand: Hand) -> None:
    hand.types("CFQ18WG24q841").picks(hand.window.fixture.holder, "G24q-3")


def clear_glass(hand: Hand) -> None:
    hand.looks(legs="2", pins="2", glass="clear").picks(hand.window.fixture.use, "lighting")


def two_pin(hand: Hand) -> None:
    hand.types("CFQ18WG24d827").picks(hand.window.fixture.ballast, "electronic")


def broken(hand: Hand) -> None:
    hand.key(Qt.Key.Key_B, CTRL).key(Qt.Key.Key_B, CTRL).types("CFQ26WG24q841").answers("yes")


def saver(hand: Hand) -> None:
    hand.types("F32T8/25W/841").answers("yes")


def inches(hand: Hand) -> None:
    hand.looks(pins="4", notch="small-left").key(Qt.Key.Key_W, ALT).types("18")
    hand.key(Qt.Key.Key_L, ALT).types('5.75"').answers("yes")


def forgotten_filter(hand: Hand) -> None:
    hand.key(Qt.Key.Key_F, CTRL).types("G23")
    hand.key(Qt.Key.Key_M, CTRL).types("CFQ18WG24q841").key(Qt.Key.Key_Escape).answers("yes")


def same_again(hand: Hand) -> None:
    hand.types("F32T8/841").answers("yes")


CUSTOMERS: dict[str, Callable[[Hand], None]] = {
    "clean code": clean,
    "worn code": worn,
    "looks only": looks_only,
    "maker's code": makers_code,
    "wrong key in the fixture": wrong_key,
    "UV look-alike, clear glass": clear_glass,
    "two-pin on electronic": two_pin,
    "broken lamp": broken,
    "4 ft saver": saver,
    "inches typed": inches,
    "forgotten filter": forgotten_filter,
    "same lamp again": same_again,
}


def serve(window: MainWindow, kind: str) -> Counted:
    """Serve one customer at an empty window that has the keyboard in the marks."""
    hand = Hand(window)
    CUSTOMERS[kind](hand)
    return hand.counted(kind)


def main() -> int:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    application = QApplication(sys.argv[:1])
    application.setStyle("Fusion")
    with tempfile.TemporaryDirectory() as folder:
        os.environ["COUNTER_LOCAL"] = folder
        window = MainWindow(Path(folder), "")
        window.show()
        window.activateWindow()
        window.wake(None)
        assert QTest.qWaitForWindowActive(window, 5000)
        for kind in CUSTOMERS:
            QTest.keyClick(window, Qt.Key.Key_F2)
            one = serve(window, kind)
            left = f"{len(one.asked)} may be asked" if one.asked else ""
            took = f"{one.clicks:2} clicks {one.keys:2} keys {one.hand_s:5.1f} s  machine {one.machine_s:5.2f} s"
            print(f"{kind:28} {took}  {one.verdict!s:12} {left:15} {one.lamp}")
        window.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
