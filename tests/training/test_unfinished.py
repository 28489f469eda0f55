"""A round cut off by a crash: whether it is offered again, and what is left of it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from datetime import timedelta, timezone
from pathlib import Path

import pytest

import counter
from counter.training import (
    Round,
    RoundMark,
    UnknownTraineeError,
    progress,
    remove_trainee,
    unfinished,
    write_record,
)


@pytest.fixture
def mark(data, trainee, now):
    """Return a writer of marks; `second` counts from the start of the round of ten minutes."""

    def write(state, second=0.0, *, left_s=600.0, minutes=10.0, started=now):
        at = now + timedelta(seconds=second)
        write_record(
            data,
            trainee,
            RoundMark(at=at, round=started, minutes=minutes, left_s=left_s if minutes else None, state=state),
        )

    return write


@pytest.fixture
def say(data, trainee, now, answer):
    """Return a writer of answers in the round that began at `now`."""

    def write(second, worth=1.0):
        at = now + timedelta(seconds=second)
        write_record(data, trainee, answer(round=now.isoformat(), at=at, worth=worth))

    return write


@pytest.fixture
def found(data, trainee, now):
    return lambda **later: unfinished(progress(data, trainee), now + timedelta(**later))


def test_a_round_cut_off_has_what_was_left_at_its_last_answer(mark, say, found, now):
    mark("runs")
    say(40)
    say(100, worth=0.0)
    assert found(minutes=30) == (now, 10.0, timedelta(seconds=500), 2, 1)


@pytest.mark.parametrize(("marks", "left_s"), [(["waits"], 520), (["waits", "runs"], 520), ([], 500)])
def test_time_out_of_sight_is_not_lost(mark, say, found, marks, left_s):
    mark("runs")
    say(100 if not marks else 60)
    for at, state in enumerate(marks):
        mark(state, 80 + 1000 * at, left_s=520)
    assert found(minutes=40).left == timedelta(seconds=left_s)


def test_the_clock_runs_again_after_coming_back(mark, say, found):
    mark("runs")
    mark("waits", 80, left_s=520)
    mark("runs", 1080, left_s=520)
    say(1100)
    assert found(minutes=40).left == timedelta(seconds=500)


def test_a_round_without_end_has_none(mark, say, found, now):
    mark("runs", minutes=None)
    say(100)
    assert found(minutes=30) == (now, None, None, 1, 1)


@pytest.mark.parametrize(
    ("later", "is_offered"),
    [
        (timedelta(minutes=120, seconds=100), True),
        (timedelta(minutes=120, seconds=101), False),
        (timedelta(0), False),
    ],
    ids=["two hours", "a second more", "clock set back"],
)
def test_two_hours_from_the_last_sign_of_life(mark, say, found, later, is_offered):
    mark("runs")
    say(100)
    assert (found(seconds=later.total_seconds()) is not None) == is_offered


@pytest.mark.parametrize(("hours", "is_offered"), [(15.5, False), (16, True)], ids=["23:30", "24:00"])
def test_another_day_where_the_counter_stands_is_another_round(data, trainee, mark, say, now, hours, is_offered):
    zone = timezone(timedelta(hours=hours))
    mark("runs")
    say(100)
    later = (now + timedelta(hours=1)).astimezone(zone)
    assert (unfinished(progress(data, trainee), later) is not None) == is_offered


@pytest.mark.parametrize("why", ["no mark", "no answer", "over", "time used up", "another begun"])
def test_nothing_to_go_on_with(mark, say, found, why, now):
    if why != "no mark":
        mark("runs", left_s=50 if why == "time used up" else 600)
    if why != "no answer":
        say(60)
    if why == "over":
        mark("over", 70, left_s=530)
    if why == "another begun":
        mark("runs", 70, started=now + timedelta(seconds=70))
    assert found(minutes=5) is None


def test_a_removed_trainee_leaves_no_round(data, trainee, mark, say):
    mark("runs")
    say(60)
    remove_trainee(data, trainee)
    with pytest.raises(UnknownTraineeError):
        progress(data, trainee)


_PLAYING = """
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from counter.catalogue import load
from counter.training import Round, RoundMark, write_record
data, who, now = Path(sys.argv[1]), sys.argv[2], datetime(2031, 3, 3, 8, tzinfo=UTC)
write_record(data, who, RoundMark(at=now, round=now, minutes=10, left_s=600, state="runs"))
played = Round(load(), data, who, 10, now)
for second in range(500):
    at = now + timedelta(seconds=second)
    card = played.next_card(at)
    played.answer(card, None if second % 3 else card.answer, 1.0, at)
    print(second, flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")
def test_a_killed_round_goes_on_with_the_card_it_would_have_asked(catalogue, data, trainee, found, now):
    env = os.environ | {"PYTHONPATH": str(Path(counter.__file__).parents[1])}
    run = subprocess.Popen([sys.executable, "-c", _PLAYING, data, trainee], stdout=subprocess.PIPE, env=env)
    for _ in range(5):
        run.stdout.readline()
    os.kill(run.pid, signal.SIGKILL)
    said = 5 + len(run.stdout.readlines())
    run.stdout.close()
    run.wait()
    cut = found(minutes=30)
    assert said <= cut.asked <= said + 1  # one may be on the disk and not yet said
    assert cut.left == timedelta(seconds=600 - (cut.asked - 1))
    at = now + timedelta(minutes=30)
    again = Round(catalogue, data, trainee, cut.minutes, cut.started, at + cut.left)
    assert len(again.answers) == cut.asked
    whole = Round(catalogue, data, trainee, 60, now)
    assert again.next_card(at) == whole.next_card(at) is not None
    assert again.next_card(at + cut.left) is None
