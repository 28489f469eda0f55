"""The layer by commands: listed, exported, merged, handed back."""

from __future__ import annotations

import json
from datetime import date

import pytest

from counter import cli
from counter.shop import confirm, keep_own, load_catalogue

BASE = {"kind": "base", "of": "G23", "part": "pin_spacing_mm"}
DAY = date(2026, 3, 2)


def run(capsys, data, *words):
    status = cli.main(["--data", str(data), *map(str, words), "--json"])
    return status, json.loads(capsys.readouterr().out)


@pytest.fixture
def exported(capsys, tmp_path):
    other, file = tmp_path / "other", tmp_path / "layer.json"
    confirm(other, **BASE, value=23.4, who="Ada", on=date(2026, 3, 9), how="caliper", plus_minus=0.1)
    keep_own(other, "words", {"word": "Nordrau"}, who="Ada", on=DAY)
    status, found = run(capsys, other, "layer", "export", file)
    assert (status, found["entries"]) == (0, 2)
    return file


def test_nothing_added_lists_nothing(capsys, data):
    assert run(capsys, data, "layer", "list") == (1, {"entries": []})


def test_an_export_is_listed_by_the_shop_that_takes_it_in(capsys, data, exported):
    status, found = run(capsys, data, "layer", "merge", exported)
    assert (status, found["new"], found["conflicts"]) == (0, 2, [])
    _, listed = run(capsys, data, "layer", "list")
    assert [one["about"] for one in listed["entries"]] == [["Nordrau"]]
    assert run(capsys, data, "layer", "merge", exported)[0] == 1


@pytest.mark.parametrize(("keep", "value"), [("later", 23.4), ("ours", 22.9), ("theirs", 23.4)])
def test_a_conflict_is_shown_and_one_side_counts(capsys, data, exported, keep, value):
    confirm(data, **BASE, value=22.9, who="Kim", on=DAY, how="ruler")
    _, shown = run(capsys, data, "layer", "merge", exported, "--keep", keep, "--show")
    assert not shown["taken_in"]
    assert load_catalogue(data).catalogue.base_by_name["G23"].pin_spacing_mm.value == 22.9
    _, found = run(capsys, data, "layer", "merge", exported, "--keep", keep)
    (conflict,) = found["conflicts"]
    assert (conflict["ours"]["who"], conflict["theirs"]["who"]) == ("Kim", "Ada")
    assert load_catalogue(data).catalogue.base_by_name["G23"].pin_spacing_mm.value == value


def test_a_patch_is_written(capsys, data, tmp_path):
    out = tmp_path / "shop.patch"
    assert run(capsys, data, "layer", "patch", out)[0] == 1
    keep_own(data, "words", {"word": "Nordrau"}, who="Kim", on=DAY)
    assert run(capsys, data, "layer", "patch", out)[0] == 0
    assert out.read_text(encoding="utf-8").startswith("diff --git a/resources/words.json")


def test_a_file_that_is_no_layer_is_bad_input(capsys, data, tmp_path):
    file = tmp_path / "x.json"
    file.write_text("{}")
    assert cli.main(["--data", str(data), "layer", "merge", str(file)]) == 2
    assert "x.json" in capsys.readouterr().err


def test_check_names_words_of_danger_in_a_layer(capsys, data):
    keep_own(data, "words", {"word": "germicidal"}, who="Kim", on=DAY)
    status, found = run(capsys, data, "check")
    assert status == 1
    assert any(one["path"] == "words[0].word" for one in found["problems"])
