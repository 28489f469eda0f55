"""The command for makers' letters: learned from a list, shown, taught, forgotten; files and input that are none."""

from __future__ import annotations

import errno
import json
import os

import pytest

from counter.cli import main
from tests.shelf.conftest import MAKERS_HEADINGS, MAKERS_LINES, as_text

LIST = as_text(",", MAKERS_LINES, MAKERS_HEADINGS)


@pytest.fixture
def asked(tmp_path, capsys):
    def ask(*words):
        status = main(["--data", str(tmp_path / "data"), "letters", *words, "--json"])
        out = capsys.readouterr()
        return status, json.loads(out.out) if out.out else out.err

    return ask


@pytest.fixture
def listed(tmp_path):
    path = tmp_path / "list.csv"
    path.write_text(LIST, encoding="utf-8")
    return str(path)


def test_learn_shows_first_and_keeps_what_is_accepted(asked, listed):
    status, found = asked("learn", listed)
    assert (status, found["lines"], found["accepted"]) == (0, 27, False)
    rows = {one["letters"]: one for one in found["letters"]}
    assert set(rows) == {"XK", "ZN", "ST"}
    assert rows["XK"]["means"] == {"shape": "quad", "legs": 4, "base": "G24q", "pins": 4}
    assert (rows["XK"]["support"], rows["XK"]["against"], rows["XK"]["from"]) == (9, 0, "list")
    assert asked("list") == (0, {"letters": []})
    asked("learn", listed, "--accept")
    assert {one["letters"] for one in asked("list")[1]["letters"]} == {"XK", "ZN", "ST"}


def test_what_is_learned_is_read(asked, listed, tmp_path, capsys):
    asked("learn", listed, "--accept")
    assert main(["--data", str(tmp_path / "data"), "read", "26XK/850", "--json"]) == 0
    best = json.loads(capsys.readouterr().out)["readings"][0]
    assert (best["system"], best["lamp"]["bases"], best["lamp"]["cct_k"]) == ("house", ["G24q-3"], 5000)


def test_taught_and_forgotten(asked):
    status, found = asked("teach", "xk", "shape=quad", "pins=4")
    assert (status, found["letters"][0]["from"]) == (0, "taught")
    assert asked("forget", "XK")[0] == 0
    assert asked("forget", "XK") == (1, {"letters": []})


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("learn", "no-such-file.csv"), None),  # as the system says it, in whichever language
        (("teach", "X4"), "are no letters"),
        (("teach", "XK", "form=quad"), "is no meaning"),
        (("teach", "XK", "pins=many"), "pins"),
    ],
)
def test_bad_input_says_what_and_the_way_out(asked, words, said):
    status, complaint = asked(*words)
    assert status == 2
    assert (said or os.strerror(errno.ENOENT)[1:]) in complaint


def test_a_list_without_its_columns(asked, tmp_path):
    path = tmp_path / "other.csv"
    path.write_text("name,price\na,1\n")
    status, complaint = asked("learn", str(path))
    assert status == 2
    assert "no column “code”" in complaint
