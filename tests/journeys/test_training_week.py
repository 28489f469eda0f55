"""A week of training by keyboard alone in simulated time, and what is left of it after a kill."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from datetime import UTC, datetime, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.training import Schedule, add_trainee, mixes, progress, trainees
from counter.window.training.frame import BOARD, CARD, PRACTICE, STANDING, SUMMARY
from tests.window.hands import store_answered

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
MONDAY = datetime(2031, 3, 3, 8, tzinfo=UTC)
SWAPPED = {"small-left": "small-right", "small-right": "small-left"}


class NewHire:
    """Hands on the keyboard, a head that takes left for right, and a clock that goes as they do."""

    def __init__(self, counter):
        self.counter, self.now = counter, MONDAY
        counter.counter.training.clock = lambda: self.now

    @property
    def room(self):
        return self.counter.counter.training.room

    def presses(self, *keys, modifier=Qt.KeyboardModifier.NoModifier):
        for key in keys:
            window = QApplication.activeWindow()
            QTest.keyClick(window.focusWidget() or window, key, modifier)
            store_answered(self.counter)
            QApplication.processEvents()
        return self

    def types(self, words):
        QTest.keyClicks(QApplication.activeWindow().focusWidget(), words)
        return self

    def goes_to_training(self):
        self.presses(Qt.Key.Key_F4)
        assert QTest.qWaitForWindowActive(self.room, 5000)
        return self

    def goes_back(self):
        self.presses(Qt.Key.Key_F4)
        assert QTest.qWaitForWindowActive(self.counter, 5000)
        return self

    def answers_until_the_end(self, seconds):
        while self.room.pages.currentIndex() == CARD:
            card = self.room.session.card
            told = card.values[card.answer]
            said = SWAPPED.get(told, told) if card.kind == "notch-side" else told
            self.now += timedelta(seconds=seconds)
            self.presses(Qt.Key.Key_1 + card.values.index(said), Qt.Key.Key_Return)
        return self


def test_a_week_by_keyboard_alone(window):
    hire = NewHire(window)
    case = window.case
    hire.goes_to_training().types("Ada").presses(Qt.Key.Key_Return)
    who = trainees(window.data)[0].id
    days = []
    for day in range(7):
        hire.now = MONDAY + timedelta(days=day)
        hire.presses(Qt.Key.Key_2)  # ten minutes
        assert hire.room.pages.currentIndex() == CARD
        hire.answers_until_the_end(seconds=20)
        assert hire.room.pages.currentIndex() == SUMMARY
        hire.presses(Qt.Key.Key_Return).goes_back()
        days.append(len(progress(window.data, who).answers))
        hire.goes_to_training()
    assert days == [30 * (day + 1) for day in range(7)]  # ten minutes of twenty seconds

    known = progress(window.data, who)
    worst = mixes(known.answers)[0]
    assert {worst.asked, worst.said} == set(SWAPPED)
    repeated = {answer.point for answer in known.answers if answer.at >= MONDAY + timedelta(days=1)}
    assert repeated & {answer.point for answer in known.answers if answer.at < MONDAY + timedelta(days=1)}
    assert Schedule(known.answers).known({answer.point for answer in known.answers}, hire.now) > 0.8

    for key, page in ((Qt.Key.Key_2, STANDING), (Qt.Key.Key_3, BOARD), (Qt.Key.Key_1, PRACTICE)):
        hire.presses(key, modifier=Qt.KeyboardModifier.ControlModifier)
        assert hire.room.pages.currentIndex() == page
    assert "210 answers so far" in hire.room.start.stands.text()
    assert window.case == case


ANSWERING = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings
from counter import app, shop
from counter.window.parts.theme import LIGHT
from counter.window.training.room import TrainingRoom

application = app.make_application(["counter"])
data = Path(sys.argv[1])
room = TrainingRoom(data, QSettings(str(data / "window.ini"), QSettings.Format.IniFormat), LIGHT)
room.enter(shop.load_catalogue(data).catalogue)
room.start_round(20)
while True:
    room.session.choose(0)
    print("answered", flush=True)
    room.session.next()
    application.processEvents()
"""


@pytest.mark.parametrize("kept", [1, 4])
def test_a_kill_between_two_answers_loses_none(window, kept):
    who = add_trainee(window.data, "Ada", MONDAY).id
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-c", ANSWERING, str(window.data)]
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        for _ in range(kept):
            assert run.stdout.readline() == "answered\n"
        run.send_signal(signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
        told = kept + run.stdout.read().count("answered")  # some more may be on their way before the kill arrives
    known = progress(window.data, who)
    assert known.torn <= 1
    assert told <= len(known.answers) <= told + 1  # one may be on the disk and not told yet
    hire = NewHire(window)
    hire.now = datetime.now(UTC)
    hire.goes_to_training()
    assert f"{len(known.answers)} answer" in hire.room.start.stands.text()


MEASURING = """
import sys
from pathlib import Path
from counter import app
from counter.window.main_window import MainWindow

application = app.make_application(["counter"])
window = MainWindow(Path(sys.argv[1]), "light")
window.show()
window.wake()
application.processEvents()
window.counter.training.enter()
room = window.counter.training.room
worker = window.counter.shop.worker
while room.warmer.is_busy or worker.pending:
    application.processEvents()
before = len(sys.modules)
room._start_place(1)
while worker.pending:
    application.processEvents()
room.grab()
print(room.pages.currentIndex(), len(sys.modules) - before)
"""


def test_what_the_first_card_needs_was_made_ahead(data):
    """Its time is printed by the bench; here: the store's answer brings it, and nothing is still to be imported."""
    add_trainee(data, "Ada", MONDAY)
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, "-c", MEASURING, str(data)], env=environment, capture_output=True, text=True, check=True
    )
    page, imported = map(int, done.stdout.split())
    assert (page, imported) == (CARD, 0)
