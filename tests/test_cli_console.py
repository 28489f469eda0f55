"""Input and output as consoles, pipes and disks really are: any encoding, a reader that leaves, no room."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from counter import cli, paths
from counter.desk import Case

ROOT = Path(paths.__file__).parents[1]
DONE, NOTHING, BAD, ASK_FIRST = 0, 1, 2, 5
posix_only = pytest.mark.skipif(sys.platform == "win32", reason="devices, pipes and links as POSIX has them")

SELLABLE = Case(chosen="G24q-2/18/quad", marks="CFQ18W/G24q/841")
REFUSED = Case(chosen="GU24/13", fixture={"holder": "GU24", "ballast": "magnetic"})


def shell(*arguments, stdin=b"", **environment):
    command = [sys.executable, "-m", "counter", *map(os.fsdecode, map(os.fsencode, arguments))]
    whole = {**os.environ, "QT_QPA_PLATFORM": "offscreen", **environment}
    return subprocess.run(command, input=stdin, capture_output=True, cwd=ROOT, env=whole, timeout=60)


@pytest.fixture
def run(capsys, data):
    def run_one(*arguments):
        status = cli.main([*map(str, arguments)])
        said = capsys.readouterr()
        return status, said.out, said.err

    return run_one


# -- where options stand


@pytest.mark.parametrize(
    "arguments",
    [("--json", "colour", "840"), ("colour", "--json", "840"), ("colour", "840", "--json")],
    ids=" ".join,
)
def test_json_stands_anywhere(run, arguments):
    status, out, _ = run(*arguments)
    assert (status, json.loads(out)["cct_k"]) == (DONE, 4000)


def test_json_behind_the_end_of_options_is_a_code(run):
    status, out, _ = run("--json", "read", "--", "--json")
    assert (status, json.loads(out)["input"]) == (NOTHING, "--json")


def test_json_without_a_command_is_refused(run):
    status, _, err = run("--json")
    assert status == BAD
    assert "command" in err


# -- help


@pytest.mark.parametrize(
    "command", ["read", "identify", "fit", "uv", "colour", "check", "assess", "cards", "picture"]
)
def test_help_says_how_each_command_ends(run, command):
    status, out, _ = run(command, "--help")
    assert status == DONE
    assert "ask first" in out
    assert out.index("--json") < out.index("exit status:")


def test_help_of_identify_names_every_look_and_answer(run, catalogue):
    out = run("identify", "--help")[1]
    for look in catalogue.looks:
        assert look.key in out
        assert all(value.value in out for value in look.values)


@pytest.mark.parametrize("name", ["bash", "zsh", "tcsh"])
def test_completions_hold_commands_and_choices(run, name):
    status, out, _ = run("--completions", name)
    assert status == DONE
    assert all(word in out for word in ("identify", "assess", "colour"))
    assert name == "tcsh" or all(word in out for word in ("led-driver", "--holder"))  # it completes less


@posix_only
def test_the_completions_for_bash_are_sound(run):
    subprocess.run(["bash", "-n"], input=run("--completions", "bash")[1], text=True, check=True)


# -- the holder


def test_a_holder_that_no_base_is_named_for_is_said(run):
    status, out, _ = run("fit", "--lamp", "CFQ18W/G24q/841", "--holder", "G24w-2", "--json")
    (problem,) = json.loads(out)["problems"]
    assert status in (NOTHING, ASK_FIRST)
    assert "G24w-2" in problem
    assert "G24q-2" in problem


@pytest.mark.parametrize("holder", ["G24q-2", "g24q-2", " G24q ", "2G11", "G13", "", "G24", "GX24q-3"])
def test_a_holder_that_is_known_or_cut_short_is_no_problem(run, holder):
    out = run("fit", "--lamp", "CFQ18W/G24q/841", "--holder", holder, "--json")[1]
    assert json.loads(out)["problems"] == []


# -- standard input


def test_each_line_of_cases_gets_one_line(monkeypatch):
    cases = [SELLABLE.model_dump_json(), '{"looks": {"legs": "5"}}', "", "no JSON", REFUSED.model_dump_json()]
    done = shell("assess", "-", "--json", stdin="\n".join(cases).encode())
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    assert done.returncode == BAD
    assert [answer.get("verdict", "none") for answer in answers] == ["ask first", "none", "none", "do not sell"]
    assert "legs" in answers[1]["problem"]
    assert "JSON" in answers[2]["problem"]


@pytest.mark.parametrize(
    ("cases", "status"),
    [((SELLABLE, SELLABLE), ASK_FIRST), ((SELLABLE, REFUSED), NOTHING), ((Case(),), DONE), ((), DONE)],
)
def test_of_many_cases_the_gravest_status_counts(cases, status):
    done = shell("assess", "-", stdin="\n".join(one.model_dump_json() for one in cases).encode())
    assert done.returncode == status
    assert len(done.stdout.splitlines()) == len(cases)


def test_a_case_spread_over_lines_is_one(monkeypatch):
    done = shell("assess", "-", "--json", stdin=SELLABLE.model_dump_json(indent=1).encode())
    assert json.loads(done.stdout)["lamp"] == "G24q-2/18/quad"


def test_a_line_is_answered_before_the_next_is_there():
    """Whoever writes a case and waits for its answer must not wait for ever."""
    command = [sys.executable, "-m", "counter", "assess", "-", "--json"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=ROOT) as process:
        for case in (SELLABLE, REFUSED):
            process.stdin.write(case.model_dump_json().encode() + b"\n")
            process.stdin.flush()
            assert json.loads(process.stdout.readline())["verdict"]
        process.stdin.close()
    assert process.returncode == NOTHING


def test_codes_are_read_one_a_line():
    done = shell("read", "-", "--json", stdin="\ufeffCFQ18W/G24q/841\r\n\r\nFT18W/2G11\r\n".encode())
    found = [json.loads(line) for line in done.stdout.splitlines()]
    assert [one["input"] for one in found] == ["CFQ18W/G24q/841", "FT18W/2G11"]


@pytest.mark.parametrize(
    "arguments", [("identify", "-"), ("fit", "--lamp", "-", "--holder", "G23"), ("colour", "-"), ("check", "-")]
)
def test_empty_standard_input_gets_words_or_an_answer(arguments):
    done = shell(*arguments)
    assert done.returncode in (DONE, NOTHING, BAD)
    assert b"Traceback" not in done.stderr


def test_a_line_without_an_end_is_refused():
    done = shell("read", "-", stdin=b"A" * 3_000_000)
    assert done.returncode == BAD
    assert done.stderr.count(b"\n") == 1


# -- standard output

COMMANDS = [
    ("read", "CFQ26W/G24q/841"),
    ("identify", "legs=4"),
    ("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-3"),
    ("uv", "--uvc-watts", "2.5", "--arc-mm", "100", "--distance-m", "0.6"),
    ("colour", "840"),
    ("cards", "--count", "12"),
    ("identify", "--help"),
]


@pytest.fixture
def console(monkeypatch):
    """Return a runner of one command on a console of an encoding: status, and what reached it."""

    def run_on(encoding, *arguments):
        raw = io.BytesIO()
        with monkeypatch.context() as patch:
            patch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding))
            status = cli.main([*arguments])
            sys.stdout.flush()
            return status, raw.getvalue().decode(encoding)

    return run_on


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437", "cp1252", "utf-16"])
@pytest.mark.parametrize("arguments", COMMANDS, ids=" ".join)
def test_every_encoding_carries_the_answer(console, arguments, encoding):
    status, out = console(encoding, *arguments)
    assert status in (DONE, NOTHING, ASK_FIRST)
    assert out.strip()


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437"])
def test_json_is_the_same_in_every_encoding(console, encoding):
    arguments = ("cards", "--count", "20", "--json")
    assert json.loads(console(encoding, *arguments)[1]) == json.loads(console("utf-8", *arguments)[1])


def test_a_process_of_its_own_heeds_the_encoding():
    done = shell("cards", "--count", "12", PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (DONE, b"")
    assert done.stdout.isascii()


@posix_only
@pytest.mark.parametrize("arguments", [("identify", "--json"), ("--help",), ("--version",), ("--completions", "zsh")])
def test_a_full_disk_is_said_in_a_line(arguments):
    with Path("/dev/full").open("wb") as full:
        command = [sys.executable, "-m", "counter", *arguments]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, cwd=ROOT, timeout=60)
    assert done.returncode == BAD
    assert b"no space left" in done.stderr
    assert done.stderr.count(b"\n") == 1


@posix_only
@pytest.mark.parametrize(
    ("arguments", "status"),
    [(("fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-3", "--json"), NOTHING), (("--help",), DONE)],
)
def test_a_reader_that_left_changes_no_status(arguments, status):
    reading, writing = os.pipe()
    os.close(reading)
    command = [sys.executable, "-m", "counter", *arguments]
    done = subprocess.run(command, stdout=writing, stderr=subprocess.PIPE, cwd=ROOT, timeout=60)
    os.close(writing)
    assert (done.returncode, done.stderr) == (status, b"")


@posix_only
@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
def test_closed_streams_are_no_traceback(closed):
    command = f'"{sys.executable}" -m counter read - {closed}'
    done = subprocess.run(command, shell=True, input=b"CFQ18W", capture_output=True, cwd=ROOT, timeout=60)
    assert done.returncode in (DONE, NOTHING, BAD)
    assert b"Traceback" not in done.stderr


# -- text that is none


@posix_only
@pytest.mark.parametrize("lamp", [b"CFQ18W/G24q\xff", b"\xff\xfe", b"CFQ1\xed\xa0\x80W"])
def test_a_lamp_that_is_no_text_gets_words(lamp):
    done = shell("fit", "--lamp", lamp, "--holder", b"G24q-2\xff", "--json")
    assert done.returncode in (NOTHING, BAD, ASK_FIRST)
    assert b"Traceback" not in done.stderr
    if done.stdout:
        json.loads(done.stdout)


@pytest.mark.parametrize("bad", [chr(0xD800), chr(0xDCFF), chr(0)], ids=ascii)
def test_a_character_that_cannot_be_read_is_read_as_one(bad):
    case = Case(marks=f"CFQ1{bad}W/G24q", fixture={"label": f"{bad}26W", "holder": f"G24q{bad}"}, looks={"legs": bad})
    assert case == Case(marks="CFQ1?W/G24q", fixture={"label": "?26W", "holder": "G24q?"}, looks={"legs": "?"})


def test_half_a_character_in_a_saved_case_is_read_as_one(tmp_path, run):
    file = tmp_path / "case.json"
    file.write_text('{"marks": "CFQ26W/G24q/8\\ud8001"}')
    status, out, _ = run("assess", file, "--json")
    assert status in (DONE, ASK_FIRST)
    assert json.loads(out)["readings"]
