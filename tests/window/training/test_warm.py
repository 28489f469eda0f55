"""Work made ahead waits for the hand: keys come first."""

from PySide6.QtWidgets import QApplication

from counter.window.training.warm import Warmer


def test_a_hand_at_work_holds_what_is_made_ahead(qtbot):
    done = []
    warmer = Warmer(0)
    warmer.start(iter(lambda: done.append(None), done))  # without end
    qtbot.waitUntil(lambda: len(done) > 2)
    warmer.hold(10_000)
    count = len(done)
    for _ in range(50):  # each of which let it do a piece of work before
        QApplication.processEvents()
    assert len(done) == count
    assert warmer.is_busy
    warmer.hold(0)
    qtbot.waitUntil(lambda: len(done) > count)
    warmer.stop()


def test_holding_what_has_ended_starts_nothing(qtbot):
    warmer = Warmer(0)
    warmer.start(iter([1]))
    qtbot.waitUntil(lambda: not warmer.is_busy)
    warmer.hold(0)
    assert not warmer.is_busy
