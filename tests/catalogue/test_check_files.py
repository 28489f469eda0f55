"""Files that are no catalogue at all: always a short problem with a way out, never a traceback."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING

import pytest

from counter import paths
from counter.catalogue import Finding, check_file, check_report, report_text

if TYPE_CHECKING:
    from pathlib import Path

SHIPPED = (paths.resources() / "catalogue.json").read_text("utf-8")

BAD = {
    "empty": (b"", "not JSON", "line 1, column 1"),
    "no text": (b"\xff\xfe\x00{", "not UTF-8", "line 1"),
    "later byte": (b'{\n"a": "\xe9"}', "not UTF-8", "line 2"),
    "mark": (b"\xef\xbb\xbf{}", "byte-order mark", ""),
    "comma": (b'{"a": 1,\n "b" 2}', "not JSON", "line 2, column 6"),
    "cut off": (b'{"a": "abc', "not JSON", "line 1, column 7"),
    "list": (b"[1, 2]", "no object", ""),
    "NaN": (b'{"format": "x", "a": NaN}', "NaN is not a number", ""),
    "Infinity": (b'{"a": -Infinity}', "-Infinity is not a number", ""),
    "deep": (b"[" * 100_000, "nested more than 100 deep", ""),
    "deep objects": (b'{"a":' * 5000 + b"1" + b"}" * 5000, "nested more than 100 deep", ""),
    "just too deep": (b'{"a":' + b"[" * 100 + b"]" * 100 + b"}", "nested more than 100 deep", ""),
    "long number": (b'{"a": ' + b"9" * 5000 + b"}", "not JSON", ""),
    "no format": (b"{}", "does not say which format", ""),
    "strange format": (b'{"format": "lamp-counter/soup"}', "format lamp-counter/soup is not known", ""),
    "format of another kind": (b'{"format": ["x"]}', "is not known", ""),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_file_has_one_problem(tmp_path: Path, name: str) -> None:
    content, words, where = BAD[name]
    path = tmp_path / "file.json"
    path.write_bytes(content)
    (problem,) = check_file(path)
    assert words in problem.what
    assert problem.where == where
    assert problem.way_out
    assert len(problem.what) < 120


def test_missing_file_and_folder_are_problems(tmp_path: Path) -> None:
    assert "there is no file" in check_file(tmp_path / "none.json")[0].what
    assert "it is a folder" in check_file(tmp_path)[0].what
    assert "cannot be read" in check_file(tmp_path / "a\0b")[0].what


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert "it is not a file but a pipe" in check_file(tmp_path / "pipe")[0].what


def test_huge_file_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.json"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    (problem,) = check_file(path)
    assert problem.what == "the file cannot be read: it has 200 MB or more; at most 20 MB are read"


def test_endless_quotes_do_not_hang(tmp_path: Path) -> None:
    path = tmp_path / "quotes.json"
    path.write_text('{"a": "' + '\\"' * 2_000_000)
    assert "not JSON" in check_file(path)[0].what


def test_keys_that_stand_twice_are_named_with_their_place(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.json"
    path.write_text(SHIPPED.replace('"supply": "ballast",', '"supply": "mains", "supply": "ballast",', 1), "utf-8")
    (problem,) = check_file(path)
    assert (problem.path, problem.where) == ("bases[0].supply", "G23")
    assert "more than once" in problem.what


@pytest.mark.parametrize("bad", ["\ud800", "\x07\x1b[31m", "\u202e"])
def test_text_that_cannot_be_shown_is_named_and_not_shown(tmp_path: Path, bad: str) -> None:
    path = tmp_path / "catalogue.json"
    data = json.loads(SHIPPED)
    data["bases"][0]["tell"] = f"Zwei Stifte é {bad}"
    data["bases"][0][f"key{bad}"] = 1
    path.write_text(json.dumps(data), "utf-8")
    problems = check_file(path)
    assert any("cannot be shown" in problem.what for problem in problems)
    assert bad not in report_text(problems)
    json.dumps(check_report(problems), ensure_ascii=False).encode("utf-8")


def test_number_too_large_to_hold(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.json"
    path.write_text(SHIPPED.replace('"width_mm": 33', '"width_mm": 1e999', 1), "utf-8")
    assert any(p.path == "bases[0].face.outline.width_mm" and "too large" in p.what for p in check_file(path))


def test_endless_problems_are_cut_and_counted(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.json"
    path.write_text(json.dumps({"format": "lamp-counter/catalogue", "lamps": [1] * 3000}))
    problems = check_file(path)
    assert len(problems) == 1001
    assert problems[-1].what == "there are 2005 more problems"


def test_wrong_kinds_at_the_top_are_problems(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.json"
    data = {"format": "lamp-counter/catalogue", "version": 1, "sources": {}, "bases": 3, "lamps": None}
    path.write_text(json.dumps({**data, "looks": [[]], "legs_by_shape": []}))
    places = [problem.path for problem in check_file(path)]
    assert places == ["bases", "lamps", "legs_by_shape", "looks[0]", "sources"]


def test_other_parts_bring_their_own_checker(tmp_path: Path) -> None:
    path = tmp_path / "marks.json"
    path.write_text('{"format": "lamp-counter/marks", "codes": [{"id": "a"}]}')
    others = {"lamp-counter/marks": lambda data: [Finding(("codes", 0), f"{len(data['codes'])} code", "Add more.")]}
    (problem,) = check_file(path, others)
    assert (problem.path, problem.where, problem.what) == ("codes[0]", "a", "1 code")
    assert "lamp-counter/marks" not in check_file(path)[0].way_out


def test_report_has_the_fields_of_the_contract(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.json"
    path.write_text(SHIPPED.replace('"value": 23,', '"value": 32,', 1), "utf-8")
    problems = check_file(path)
    what = "32 mm, but the pins are drawn 23.0 mm apart"
    line = SHIPPED[: SHIPPED.index('"value": 23,')].count("\n") + 1
    row = {"path": "bases[0].pin_spacing_mm.value", "where": "G23", "what": what}
    said = {**row, "way_out": "Correct the number, or face.pins.", "file": "catalogue.json", "line": line}
    assert check_report(problems) == {"problems": [said]}
    place = f"catalogue.json, line {line}: bases[0].pin_spacing_mm.value (G23)"
    expected = f"{place}: {what}\n    Correct the number, or face.pins."
    assert report_text(problems) == expected
    assert report_text(()) == "No problems."
