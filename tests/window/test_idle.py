"""What is made ready while nobody asks changes nothing that is shown."""

from __future__ import annotations

import gc

from counter.window.idle import make_ready


def test_it_comes_to_an_end_and_changes_nothing(window, qtbot, monkeypatch):
    stays = []
    monkeypatch.setattr(gc, "freeze", lambda: stays.append(True))
    before = (window.case, window.assessment, window.answer.base.text())
    warmer = make_ready(window)
    qtbot.waitUntil(lambda: not warmer.is_busy)
    assert (window.case, window.assessment, window.answer.base.text()) == before
    assert stays == [True], "what was made ready stays, and is not walked over again"


def test_a_window_that_did_not_wake_is_left_alone(windows, qtbot):
    warmer = make_ready(windows(awake=False))
    qtbot.waitUntil(lambda: not warmer.is_busy)
