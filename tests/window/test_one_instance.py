"""One window a data folder; the second start calls the first."""

from __future__ import annotations

import subprocess
import sys

from counter.window.one_instance import CALL_FILE, OneInstance


def test_the_second_is_refused_until_the_first_is_gone(qapp, data):
    first, second = OneInstance(data), OneInstance(data)
    assert (first.take(), second.take()) == (True, False)
    first.release()
    assert second.take()
    second.release()


def test_the_first_is_called_by_the_second(qtbot, data):
    first = OneInstance(data)
    first.take()
    first.listen()
    with qtbot.waitSignal(first.called, timeout=5000):
        (data / CALL_FILE).touch()
    assert not (data / CALL_FILE).exists()
    first.release()


def test_a_first_that_does_not_answer_is_named(qapp, data):
    first, second = OneInstance(data), OneInstance(data)
    first.take()
    words = second.call_first()
    assert "open already" in words
    assert str(data) in words
    assert not (data / CALL_FILE).exists()
    first.release()


def test_a_lock_left_by_a_killed_window_is_free(qapp, data):
    script = (
        "import sys, os, signal; from pathlib import Path; from counter.window.one_instance import OneInstance\n"
        f"one = OneInstance(Path({str(data)!r})); assert one.take(); os.kill(os.getpid(), signal.SIGKILL)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, timeout=60)
    assert done.returncode == -9
    after = OneInstance(data)
    assert after.take()
    after.release()


def test_a_folder_that_cannot_be_made_stops_nobody(qapp, data):
    data.write_text("a file where the folder should be")
    assert OneInstance(data).take()
