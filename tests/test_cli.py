"""The command line contract: field names to the letter, exit statuses, clean JSON, words instead of tracebacks."""

from __future__ import annotations

import json
import os
import re
import struct
import subprocess
import sys
from pathlib import Path

import pytest

from counter import __version__, cli, paths
from counter.desk import Case

ROOT = Path(paths.__file__).parents[1]
DONE, NOTHING, BAD, ASK_FIRST = 0, 1, 2, 5


@pytest.fixture
def run(capsys, data):
    """Return a runner of one command in this process: status, standard output, standard error."""

    def run_one(*arguments):
        status = cli.main(["--data", str(data), *map(str, arguments)])
        said = capsys.readouterr()
        return status, said.out, said.err

    return run_one


@pytest.fixture
def answer(run):
    """Return a runner that wants one clean JSON object and nothing else."""

    def answer_one(*arguments):
        status, out, err = run(*arguments, "--json")
        assert err == ""
        assert out.count("\n") == 1
        return status, json.loads(out, parse_constant=lambda name: pytest.fail(f"{name} is no JSON"))

    return answer_one


@pytest.fixture
def saved(tmp_path):
    def save(text):
        path = tmp_path / "case.json"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    return save


# -- the fields of each answer

LAMP = {"kind", "legs", "shape", "watts", "base", "bases", "cct_k", "cri_min", "tube_mm", "length_mm"}


def test_read(answer):
    status, found = answer("read", "CFQ26W/G24q/841")
    assert status == DONE
    assert set(found) >= {"input", "readings", "problems"}
    assert (found["input"], found["problems"]) == ("CFQ26W/G24q/841", [])
    first = found["readings"][0]
    assert set(first) >= {"probability", "system", "canonical", "lamp", "spans"}
    assert set(first["lamp"]) >= LAMP
    assert {key: first["lamp"][key] for key in ("kind", "legs", "shape", "watts", "base", "bases")} == {
        "kind": "fluorescent",
        "legs": 4,
        "shape": "quad",
        "watts": 26,
        "base": "G24q",
        "bases": ["G24q-3"],
    }
    assert (first["lamp"]["cct_k"], first["lamp"]["cri_min"]) == (4100, 80)
    for span in first["spans"]:
        assert set(span) >= {"start", "end", "text", "means"}
        assert found["input"][span["start"] : span["end"]] == span["text"]


@pytest.mark.parametrize("code", ["", "   ", "zzzz", "🙂🙂", "\x00\x07"], ids=repr)
def test_read_of_nothing_is_an_empty_answer(answer, code):
    status, found = answer("read", code)
    assert (status, found["readings"]) == (NOTHING, [])
    assert (found["input"], found["problems"] != []) == (code, bool(code.strip()))


@pytest.mark.parametrize("code", ["CFQ18W/G24d/827 CFQ26W/G24q/841", "CFQ26W G23 2G11"])
def test_read_of_two_bases_says_so(answer, code):
    status, found = answer("read", code)
    assert status in (DONE, NOTHING)
    assert found["problems"]
    assert all(len(problem) < 300 for problem in found["problems"])


def test_read_of_a_long_paste(answer):
    status, found = answer("read", "CFQ26W/G24q/841 " * 640)  # 10 kB
    assert status in (DONE, NOTHING)
    assert found["problems"]


def test_identify(answer):
    status, found = answer("identify", "legs=4", "pins=4", "notch=small-left", "length_mm=146")
    assert status == DONE
    assert set(found) >= {"candidates", "next"}
    for one in found["candidates"]:
        assert set(one) >= {"base", "watts", "shape", "kind", "probability", "agrees", "disagrees"}
    assert sum(one["probability"] for one in found["candidates"]) == pytest.approx(1)
    best = found["candidates"][0]
    assert (best["base"], best["watts"], best["shape"], best["kind"]) == ("G24q-2", 18, "quad", "fluorescent")
    assert set(best["agrees"]) == {"legs", "pins", "notch", "length_mm"}
    assert best["disagrees"] == []
    assert all(set(look) >= {"look", "bits", "seconds"} for look in found["next"])
    assert not {look["look"] for look in found["next"]} & {"legs", "pins", "notch", "length_mm"}


IDENTIFY_KEYS = [
    ("legs=2", "legs"),
    ("pins=2", "pins"),
    ("arrangement=row", "arrangement"),
    ("arrangement=rectangle", "arrangement"),
    ("arrangement=two-across", "arrangement"),
    ("arrangement=ends", "arrangement"),
    *((f"notch={one}", "notch") for one in ("none", "one-large", "two-large", "small-centre", "small-left")),
    *((f"notch={one}", "notch") for one in ("small-right",)),
    ("block=yes", "block"),
    ("block=no", "block"),
    ("pin_spacing_mm=23", "pin_spacing_mm"),
    ("tube_mm=12", "tube_mm"),
    ('length_mm=5 7/8"', "length_mm"),
    ("glass=white", "glass"),
    ("glass=clear", "glass"),
    ("watts=26", "watts"),
    ("marks=CFQ26W/G24q/841", "marks"),
]


@pytest.mark.parametrize(("pair", "key"), IDENTIFY_KEYS)
def test_identify_takes_every_key_of_the_contract(answer, pair, key):
    status, found = answer("identify", pair)
    assert status == DONE
    assert key in found["candidates"][0]["agrees"]


def test_a_key_met_in_a_family_but_on_no_known_base_ranks_the_family(answer):
    """Which GX24 base has two small notches nobody wrote down, so none is said to agree, and none to disagree."""
    best = answer("identify", "notch=two-small")[1]["candidates"][0]
    assert best["base"].startswith("GX24")
    assert (best["agrees"], best["disagrees"]) == ([], [])


def test_identify_of_nothing_goes_by_how_often_a_lamp_is_met(answer):
    status, found = answer("identify")
    assert status == DONE
    chances = [one["probability"] for one in found["candidates"]]
    assert chances == sorted(chances, reverse=True)
    assert chances[0] == pytest.approx(10 * chances[-1])  # from daily to hardly ever


def test_inches_and_millimetres_are_one_length(answer):
    assert answer("identify", 'length_mm=5 7/8"') == answer("identify", "length_mm=149.225")


CAUTION = {"signal", "rule", "says", "do", "figure", "unit", "source", "confidence"}


@pytest.mark.parametrize(
    ("arguments", "status", "verdict"),
    [
        (("--lamp", "CFQ18W/G24q/841", "--holder", "G24q-3"), NOTHING, "do not sell"),
        (("--lamp", "CFQ18W/G24q/841", "--holder", "G24q-2"), ASK_FIRST, "ask first"),
        (("--lamp", "CFQ18W/G24d/841", "--holder", "G24d-2", "--ballast", "electronic"), NOTHING, "do not sell"),
        (("--lamp", "GFT9W/G23", "--holder", "G23", "--use", "lighting"), NOTHING, "do not sell"),
    ],
)
def test_fit(answer, arguments, status, verdict):
    got, found = answer("fit", *arguments)
    assert (got, found["verdict"]) == (status, verdict)
    assert set(found) >= {"verdict", "cautions"}
    for caution in found["cautions"]:
        assert set(caution) >= CAUTION
        assert caution["signal"] in ("DANGER", "WARNING", "CAUTION", "NOTICE")


def test_fit_takes_a_list_of_watts(answer):
    bad = answer("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-2", "--ballast-watts", "26,32")
    assert bad[1]["verdict"] == "do not sell"


@pytest.mark.parametrize("ballast", ["magnetic", "electronic", "led-driver", "bypassed", "unknown"])
@pytest.mark.parametrize("use", ["lighting", "germicidal", "unknown"])
def test_fit_takes_every_ballast_and_use_of_the_contract(answer, ballast, use):
    status, found = answer("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-2", "--ballast", ballast, "--use", use)
    assert status == {"do not sell": NOTHING, "ask first": ASK_FIRST, "sell": DONE}[found["verdict"]]


def test_uv(answer):
    status, found = answer("uv", "--uvc-watts", "2.5", "--arc-mm", "100", "--distance-m", "0.6")
    assert status == DONE
    assert set(found) >= {"irradiance_w_m2", "effective_w_m2", "limit_j_m2", "time_to_limit_s", "valid"}
    assert found["irradiance_w_m2"] > 0
    assert found["time_to_limit_s"] == pytest.approx(found["limit_j_m2"] / found["effective_w_m2"], rel=1e-6)


@pytest.mark.parametrize(("code", "kelvin"), [("840", 4000), ("827", 2700), ("6500", 6500)])
def test_colour(answer, code, kelvin):
    status, found = answer("colour", code)
    assert (status, found["cct_k"]) == (DONE, kelvin)
    assert set(found) >= {"cct_k", "cri_min", "mired", "x", "y", "srgb"}
    assert found["mired"] == pytest.approx(1e6 / kelvin, rel=1e-3)


def test_check_of_the_shipped_catalogue(answer):
    assert answer("check") == (DONE, {"problems": []})


def test_check_lists_every_problem_with_its_place(answer, shipped_json, tmp_path):
    document = json.loads(shipped_json)
    document["bases"][2]["pins"]["value"] = "two"
    document["lamps"][0]["base"] = "G999"
    file = tmp_path / "catalogue.json"
    file.write_text(json.dumps(document))
    status, found = answer("check", file)
    assert status == NOTHING
    assert all(set(problem) >= {"path", "what", "way_out"} for problem in found["problems"])
    assert {"bases[2].pins.value", "lamps[0].base"} <= {problem["path"] for problem in found["problems"]}


@pytest.mark.parametrize(
    "content", [None, b"", b"not json", b"[]", b"{}", b"\xff\xfe\x00", b'{"format": 7}'], ids=repr
)
def test_check_of_what_is_no_catalogue(answer, tmp_path, content):
    file = tmp_path / "some.json"
    if content is not None:
        file.write_bytes(content)
    status, found = answer("check", file)
    assert status == NOTHING
    assert found["problems"]
    assert all(problem["way_out"] for problem in found["problems"])


def test_assess_answers_a_saved_case_with_everything_the_panes_show(answer, saved):
    case = Case(marks="CFQ18W/G24q/841", looks={"legs": "4"})
    status, found = answer("assess", saved(case.model_dump_json()))
    assert (status, found["verdict"]) == (ASK_FIRST, "ask first")
    expected = {"headline", "subline", "advice", "candidates", "next", "readings", "conflicts", "problems", "lamp"}
    assert set(found) >= expected | {"verdict", "cautions", "asks", "replacements"}
    assert found["lamp"] == "G24q-2/18/quad"


def test_assess_ends_with_one_where_the_lamp_must_not_be_sold(answer, saved):
    case = Case(chosen="GU24/13", fixture={"holder": "GU24", "ballast": "magnetic"})
    assert answer("assess", saved(case.model_dump_json()))[0] == NOTHING


# -- text as well

TEXTS = [
    (("read", "CFQ26W/G24q/841"), "CFQ26W/G24q/841"),
    (("read", "zzz"), "zzz"),
    (("identify", "pins=4"), "look next"),
    (("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-3"), "DO NOT SELL"),
    (("uv", "--uvc-watts", "2.5", "--arc-mm", "100", "--distance-m", "0.6"), "J/m"),
    (("colour", "840"), "4000"),
    (("check",), "No problems."),
]


@pytest.mark.parametrize(("arguments", "words"), TEXTS)
def test_text_for_people(run, arguments, words):
    _, out, err = run(*arguments)
    assert words in out
    assert err == ""


# -- bad input: one line on standard error, nothing on standard output, nothing of our insides

BAD_INPUT = [
    ("unknown key", ("identify", "colour=red"), "colour"),
    ("no equals sign", ("identify", "legs"), "KEY=VALUE"),
    ("empty value", ("identify", "legs="), "legs"),
    ("no such answer", ("identify", "legs=5"), "legs"),
    ("negative", ("identify", "length_mm=-5"), "-5"),
    ("too long", ("identify", "length_mm=99999"), "99999"),
    ("not a size", ("identify", "tube_mm=thick"), "thick"),
    ("not a number", ("identify", "tube_mm=nan"), "nan"),
    ("no end", ("identify", "tube_mm=inf"), "inf"),
    ("emoji", ("identify", "glass=🙂"), "🙂"),
    ("emoji key", ("identify", "🙂=1"), "🙂"),
    ("long value", ("identify", "legs=" + "4" * 10_000), "legs"),
    ("long key", ("identify", "k" * 10_000 + "=4"), "kkk"),
    ("long pair", ("identify", "k" * 10_000), "KEY=VALUE"),
    ("newline", ("identify", "legs=4\n4"), "legs"),
    ("fraction over nothing", ("identify", "length_mm=5 7/0 in"), "zero"),
    ("code too long", ("read", "A" * 30_000), "20"),
    ("no code", ("read",), "CODE"),
    ("unknown command", ("sell",), "sell"),
    ("unknown option", ("read", "x", "--loud"), "--loud"),
    ("no lamp of that code", ("fit", "--lamp", "zzz", "--holder", "G23"), "zzz"),
    ("empty lamp", ("fit", "--lamp", "", "--holder", "G23"), "names no lamp"),
    ("long lamp", ("fit", "--lamp", "A" * 30_000, "--holder", "G23"), "AAA"),
    ("no holder", ("fit", "--lamp", "CFQ18W/G24q"), "--holder"),
    ("watts no number", ("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-2", "--ballast-watts", "x"), "x"),
    ("unknown ballast", ("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-2", "--ballast", "steam"), "steam"),
    ("watts missing", ("uv", "--arc-mm", "100", "--distance-m", "1"), "--uvc-watts"),
    ("watts no number in uv", ("uv", "--uvc-watts", "x", "--arc-mm", "100", "--distance-m", "1"), "x"),
    ("not a number in uv", ("uv", "--uvc-watts", "nan", "--arc-mm", "100", "--distance-m", "1"), "nan"),
    ("no end in uv", ("uv", "--uvc-watts", "inf", "--arc-mm", "100", "--distance-m", "1"), "inf"),
    ("no distance", ("uv", "--uvc-watts", "2", "--arc-mm", "100", "--distance-m", "0"), "0"),
    ("negative arc", ("uv", "--uvc-watts", "2", "--arc-mm=-3", "--distance-m", "1"), "-3"),
    ("no colour", ("colour", "warm"), "warm"),
    ("empty colour", ("colour", ""), "Colour"),
    ("emoji colour", ("colour", "🙂"), "🙂"),
    ("long colour", ("colour", "8" * 10_000), "888"),
    ("missing case", ("assess", "no such file.json"), "no such file.json"),
    ("case is a folder", ("assess", "."), "."),
    ("size", ("picture", "out.png", "--size", "big"), "big"),
    ("size zero", ("picture", "out.png", "--size", "0x0"), "0x0"),
    ("size huge", ("picture", "out.png", "--size", "99999x9"), "99999x9"),
    ("size odd digits", ("picture", "out.png", "--size", "²x²"), "²"),
    ("theme", ("picture", "out.png", "--theme", "pink"), "pink"),
    ("picture of a missing case", ("picture", "out.png", "--case", "gone.json"), "gone.json"),
]


@pytest.mark.parametrize(("arguments", "names"), [row[1:] for row in BAD_INPUT], ids=[row[0] for row in BAD_INPUT])
def test_bad_input_is_named_in_a_line(run, arguments, names, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    status, out, err = run(*arguments)
    assert (status, out) == (BAD, "")
    assert err.startswith("counter: ")
    assert names in err
    assert err.count("\n") == 1, "one line"
    assert len(err) < 450
    for inside in ("Traceback", "pydantic", "Error:", "ValidationError", "errno"):
        assert inside not in err
    assert list(tmp_path.iterdir()) == []


BAD_CASES = [
    ("not JSON", "legs: 4", "JSON"),
    ("empty", "", "JSON"),
    ("a list", "[]", "case"),
    ("unknown field", '{"colour": "red"}', "colour"),
    ("wrong type", '{"looks": 7}', "looks"),
    ("unknown look", '{"looks": {"colour": "red"}}', "colour"),
    ("unknown answer", '{"looks": {"legs": "5"}}', "legs"),
    ("negative size", '{"looks": {"length_mm": -5}}', "length_mm"),
    ("not a number", '{"looks": {"length_mm": NaN}}', "length_mm"),
    ("newer version", '{"version": 2}', "version"),
    ("unknown use", '{"use": "soup"}', "use"),
    ("marks too long", json.dumps({"marks": "x" * 30_000}), "marks"),
    ("deep", "[" * 20_000, "case"),
    ("no text", b"\xff\xfe\x00\x80", "case"),
    ("unknown lamp", '{"chosen": "G99/1"}', "G99/1"),
]
each_bad_case = pytest.mark.parametrize(
    ("content", "names"), [row[1:] for row in BAD_CASES], ids=[row[0] for row in BAD_CASES]
)


@each_bad_case
@pytest.mark.parametrize("command", ["assess", "picture"])
def test_a_bad_case_is_refused_with_its_place(run, saved, content, names, command, tmp_path):
    path = saved(content)
    out_file = tmp_path / "out.png"
    arguments = ("assess", path) if command == "assess" else ("picture", out_file, "--case", path)
    status, out, err = run(*arguments)
    assert (status, out) == (BAD, "")
    assert names in err
    assert "case.json" in err
    assert err.count("\n") == 1
    assert len(err) < 600
    assert "Traceback" not in err
    assert not out_file.exists()


def test_a_broken_shop_layer_does_not_stop_an_answer(answer, data):
    data.mkdir()
    (data / "shop.json").write_text("{ broken")
    assert answer("read", "CFQ26W/G24q/841")[0] == DONE


@pytest.mark.parametrize("content", ["", "{ broken", "[]", '{"format": "lamp-counter/catalogue"}'])
def test_a_broken_catalogue_is_said_in_a_line(run, content, tmp_path, monkeypatch):
    (tmp_path / "catalogue.json").write_text(content)
    monkeypatch.setattr(paths, "resources", lambda: tmp_path)
    status, out, err = run("identify", "legs=4")
    assert (status, out) == (BAD, "")
    assert "counter check" in err
    assert "Traceback" not in err


def test_data_may_stand_before_and_behind(run, tmp_path, capsys):
    for arguments in (
        ("--data", str(tmp_path), "colour", "840"),
        ("colour", "840", "--data", str(tmp_path)),
        ("colour", f"--data={tmp_path}", "840"),
    ):
        assert cli.main(list(arguments)) == DONE
        assert "4000" in capsys.readouterr().out


def test_data_without_a_folder_does_not_take_the_command_for_one(capsys):
    assert cli.main(["read", "--data"]) == BAD
    assert "--data" in capsys.readouterr().err


def test_version(run):
    status, out, _ = run("--version")
    program, catalogue = out.splitlines()
    assert (status, program) == (DONE, __version__)
    assert re.fullmatch(r"catalogue [0-9.]+ of \d{4}-\d\d-\d\d", catalogue)


# -- in a process of its own


def shell(*arguments, **more):
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", **more.pop("env", {})}
    command = [sys.executable, "-m", "counter", *arguments]
    return subprocess.run(command, capture_output=True, cwd=ROOT, env=environment, timeout=60, **more)


def test_the_command_itself(tmp_path):
    done = shell("--data", str(tmp_path), "identify", "legs=4", "--json")
    assert (done.returncode, done.stderr) == (DONE, b"")
    assert json.loads(done.stdout)["candidates"]


@pytest.mark.parametrize("arguments", [("read", b"CFQ\xff18W"), ("identify", b"legs=\xff"), ("identify", b"\xff=4")])
def test_bytes_that_are_no_text_get_words(arguments, tmp_path):
    done = shell("--data", str(tmp_path), *arguments, "--json")
    assert done.returncode in (DONE, NOTHING, BAD)
    assert b"Traceback" not in done.stderr
    if done.stdout:
        json.loads(done.stdout)


def test_a_reader_that_leaves_is_no_error(tmp_path):
    command = f'"{sys.executable}" -m counter --data "{tmp_path}" identify --json | true'
    done = subprocess.run(command, shell=True, capture_output=True, cwd=ROOT, timeout=60)
    assert done.stderr == b""


def test_output_for_an_old_terminal_is_no_traceback(tmp_path):
    done = shell("--data", str(tmp_path), "identify", "legs=4", env={"PYTHONIOENCODING": "ascii"})
    assert b"Traceback" not in done.stderr
    assert done.returncode == DONE


# -- the picture


def png_size(path):
    raw = path.read_bytes()
    assert raw[:8] == b"\x89PNG\r\n\x1a\n"
    return struct.unpack(">II", raw[16:24])


@pytest.mark.parametrize(("theme", "size"), [("light", "1280x800"), ("dark", "1920x1080")])
def test_picture(tmp_path, theme, size):
    pytest.importorskip("PySide6")
    case = tmp_path / "case.json"
    case.write_text(Case(marks="CFQ18W/G24q/841").model_dump_json())
    out = tmp_path / "out.png"
    data = tmp_path / "data"
    done = shell(
        "--data", data, "picture", out, "--case", case, "--size", size, "--theme", theme, env={"DISPLAY": ""}
    )
    assert (done.returncode, done.stdout) == (DONE, b"")
    assert b"Traceback" not in done.stderr
    width, height = png_size(out)
    assert f"{width}x{height}" == size
    assert len(out.read_bytes()) > 20_000, "a picture with something in it"


def test_picture_into_a_folder_that_is_not_there(tmp_path):
    pytest.importorskip("PySide6")
    done = shell("--data", tmp_path, "picture", tmp_path / "gone" / "out.png")
    assert done.returncode == BAD
    assert b"out.png" in done.stderr
    assert b"Traceback" not in done.stderr


def test_house_codes_of_the_shop_are_read(tmp_path, capsys):
    choice = {"means": "the tall one", "facts": {"watts": 26}}
    table = {"format": "lamp-counter/house-codes", "makers": [{"maker": "Northlamp", "codes": {"NL-77": choice}}]}
    (tmp_path / "house-codes.json").write_text(json.dumps(table), encoding="utf-8")
    assert cli.main(["--data", str(tmp_path), "read", "NL-77", "--json"]) == 0
    (reading,) = json.loads(capsys.readouterr().out)["readings"]
    assert (reading["system"], reading["lamp"]["watts"]) == ("house", 26)


def test_damaged_house_codes_are_named(tmp_path, capsys):
    (tmp_path / "house-codes.json").write_text("{", encoding="utf-8")
    assert cli.main(["--data", str(tmp_path), "read", "NL-77"]) == 2
    assert "house-codes.json" in capsys.readouterr().err


# -- paper


@pytest.mark.parametrize("sheet", ["wall", "look-alikes", "gauge", "labels"])
def test_chart_judges_what_was_typed_before_it_paints(run, tmp_path, monkeypatch, sheet):
    pytest.importorskip("PySide6")
    painted = []
    monkeypatch.setattr("counter.app.save_paper", lambda out, sheets: painted.append((out, len(sheets))))
    assert run("chart", tmp_path / "a.pdf", "--sheet", sheet)[0] == DONE
    assert painted[0][1] >= 1


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--sheet", "look-alikes", "--pair", "G23:XX"), "“XX” is no base"),
        (("--sheet", "labels", "--base", "nope"), "“nope” is no base"),
        (("--sheet", "labels", "--skip", "24"), "--skip: 24 is out of range"),
    ],
)
def test_chart_says_what_it_cannot_draw(run, tmp_path, arguments, says):
    status, out, err = run("chart", tmp_path / "a.pdf", *arguments)
    assert (status, out) == (BAD, "")
    assert says in err
    assert err.count("\n") == 1
