"""Records: durable, healed, private, removable."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import counter
from counter.shop import append_record
from counter.shop._store import close_all
from counter.training import (
    FromCase,
    Trainee,
    UnknownTraineeError,
    add_trainee,
    assign,
    progress,
    remove_trainee,
    trainees,
    write_record,
)


@pytest.fixture
def tmp_path(shop_data):
    """Return a data folder on each kind of store in turn."""
    return shop_data


@pytest.fixture
def trainee(tmp_path, now):
    return add_trainee(tmp_path, "Ola Nordberg", now).id


def test_events_come_back_in_order(tmp_path, trainee, answer, now):
    events = [answer(), answer(day=1, worth=0), FromCase(at=now, points=("sale/G23/right",))]
    for event in events:
        write_record(tmp_path, trainee, event)
    kept = progress(tmp_path, trainee)
    assert kept.events == tuple(events)
    assert kept.answers == tuple(events[:2])
    assert kept.from_cases == ("sale/G23/right",)
    assert kept.trainee.name == "Ola Nordberg"


def test_families_are_assigned_and_taken_off(tmp_path, trainee, now):
    for family, is_on in [("G24q", True), ("G23", True), ("G24q", False), ("2G7", True), ("G23", True)]:
        assign(tmp_path, trainee, family, now, is_on=is_on)
    assert progress(tmp_path, trainee).assigned == ("2G7", "G23")


@pytest.mark.parametrize("name", ["../../x", "a/b", "'; DROP TABLE trainees; --", "né\u202e", "a" * 200, "{}\n{}"])
def test_any_name_is_kept_as_a_name(tmp_path, now, name):
    add_trainee(tmp_path, name, now)
    assert [one.name for one in trainees(tmp_path)] == [" ".join(name.split())]


@pytest.mark.parametrize("name", ["", "  \n", "a" * 201])
def test_bad_names_leave_nothing(tmp_path, now, name):
    with pytest.raises(ValueError, match="name"):
        add_trainee(tmp_path, name, now)
    assert trainees(tmp_path) == ()


def test_namesakes_are_two_people(tmp_path, now):
    one, other = (add_trainee(tmp_path, "Kim", now) for _ in range(2))
    assert one.id != other.id
    assert len(trainees(tmp_path)) == 2


def test_removing_leaves_no_trace(tmp_path, trainee, answer):
    write_record(tmp_path, trainee, answer())
    remove_trainee(tmp_path, trainee)
    assert trainees(tmp_path) == ()
    assert all(b"Nordberg" not in path.read_bytes() for path in tmp_path.rglob("*") if path.is_file())
    for gone in (lambda: write_record(tmp_path, trainee, answer()), lambda: remove_trainee(tmp_path, trainee)):
        with pytest.raises(UnknownTraineeError):
            gone()


@pytest.mark.parametrize("bad", ["", "x", "../0123456789abcdef", "0123456789ABCDEF", "0" * 16])
def test_unknown_trainee(tmp_path, bad, answer):
    for call in (lambda: progress(tmp_path, bad), lambda: write_record(tmp_path, bad, answer())):
        with pytest.raises(UnknownTraineeError):
            call()


def test_damaged_line_costs_only_itself(tmp_path, trainee, answer):
    whole = answer().model_dump_json()
    write_record(tmp_path, trainee, answer())
    append_record(tmp_path, trainee, whole[: len(whole) // 2])
    append_record(tmp_path, trainee, '{"what":"badge","version":9}')
    write_record(tmp_path, trainee, answer(day=1))
    kept = progress(tmp_path, trainee)
    assert [one.at for one in kept.answers] == [answer().at, answer(day=1).at]
    assert kept.torn == 2


def old_file(data, trainee, *lines):
    """Write a record as it lay in a file before there was a store."""
    (data / "training").mkdir(parents=True, exist_ok=True)
    file = data / "training" / f"{trainee}.jsonl"
    file.write_text("".join(f"{line}\n" for line in lines), "utf-8")
    return file


def test_old_files_are_taken_over_once_and_kept(tmp_path, answer, now):
    one = Trainee(id="0123456789abcdef", name="Ola Nordberg", at=now).model_dump_json()
    old_file(tmp_path, "0123456789abcdef", one, answer().model_dump_json(), '{"what":"answ')
    bad = old_file(tmp_path, "f" * 16, "not a record")
    assert [found.name for found in trainees(tmp_path)] == ["Ola Nordberg"]
    close_all()
    kept = progress(tmp_path, "0123456789abcdef")
    assert (kept.answers, kept.torn) == ((answer(),), 1)
    assert bad.exists()
    aside = tmp_path / "taken-over" / "training" / "0123456789abcdef.jsonl"
    assert aside.read_text("utf-8").startswith(one)
    remove_trainee(tmp_path, "0123456789abcdef")
    assert not aside.exists()


_ANSWERING = """
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from counter.training import Answer, write_record
facts = dict(round="r", card="c", point="name-base/G23", kind="name-base", family="G23", axis="family", asked="G23",
             said="G23", worth=1, seconds=1, rating="good", is_first=True, is_critical=False)
for n in range(100000):
    at = datetime(2031, 1, 1, tzinfo=UTC) + timedelta(seconds=n)
    write_record(Path(sys.argv[1]), sys.argv[2], Answer(at=at, **facts))
    print(n, flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")
@pytest.mark.parametrize("after", [1, 7, 40])
def test_killed_between_answers_loses_none_that_was_acknowledged(tmp_path, trainee, answer, after):
    found = os.environ | {"PYTHONPATH": str(Path(counter.__file__).parents[1])}
    run = subprocess.Popen([sys.executable, "-c", _ANSWERING, tmp_path, trainee], stdout=subprocess.PIPE, env=found)
    seen = [run.stdout.readline() for _ in range(after)]
    os.kill(run.pid, signal.SIGKILL)
    seen += run.stdout.readlines()
    run.stdout.close()
    run.wait()
    acknowledged = len([line for line in seen if line.endswith(b"\n")])
    assert acknowledged >= after
    kept = progress(tmp_path, trainee).answers
    assert acknowledged <= len(kept) <= acknowledged + 1  # one may be on the disk and not yet said
    write_record(tmp_path, trainee, answer())
    assert len(progress(tmp_path, trainee).answers) == len(kept) + 1
