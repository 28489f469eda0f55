"""Files and folders that are not what their names promise: one line, a status, never a wait and never a traceback."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from counter import cli

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="pipes, devices and links as POSIX has them")
BAD = 2
KINDS = [
    "itself",
    "round",
    "pipe",
    "zero",
    "null",
    "tty",
    "folder",
    "huge",
    "gone",
    "long",
    "through a file",
]


@pytest.fixture
def strange(tmp_path):
    """Return a maker of names that lead to anything but a file of ours."""

    def make(kind):
        path = tmp_path / "strange.json"
        if kind == "itself":
            path.symlink_to(path)
        elif kind == "round":
            path.symlink_to(tmp_path / "other.json")
            (tmp_path / "other.json").symlink_to(path)
        elif kind == "pipe":
            os.mkfifo(path)
        elif kind == "folder":
            path.mkdir()
        elif kind == "huge":
            with path.open("wb") as file:
                file.truncate(10_000_000_000)
        elif kind == "gone":
            path.symlink_to(tmp_path / "nowhere")
        elif kind == "long":
            return tmp_path / ("n" * 5000)
        elif kind == "through a file":
            path.write_text("{}")
            return path / "case.json"
        else:
            return Path({"zero": "/dev/zero", "null": "/dev/null", "tty": "/dev/tty"}[kind])
        return path

    return make


def one_line(capsys, *arguments):
    status = cli.main([*map(str, arguments)])
    said = capsys.readouterr()
    assert (status, said.out) == (BAD, "")
    assert said.err.startswith("counter: ")
    assert said.err.count("\n") == 1
    return said.err


@pytest.mark.parametrize("kind", KINDS)
def test_as_a_saved_case(capsys, data, strange, kind):
    one_line(capsys, "--data", data, "assess", strange(kind))


@pytest.mark.parametrize("kind", KINDS)
def test_as_a_table_to_check(capsys, data, strange, kind):
    status = cli.main(["--data", str(data), "check", str(strange(kind))])
    assert status == 1
    assert "cannot be read" in (out := capsys.readouterr().out) or "there is no file" in out


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("long", "through a file")])
def test_as_the_shop_s_makers_codes(capsys, data, strange, kind):
    data.mkdir()
    (data / "house-codes.json").symlink_to(strange(kind))
    assert "house-codes.json" in one_line(capsys, "--data", data, "read", "CFQ18W/G24q")
    assert cli.main(["--data", str(data), "check"]) == 1
    assert "house-codes.json" in capsys.readouterr().out


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("long", "through a file")])
def test_as_the_shop_s_layer(capsys, data, strange, kind):
    """It is left out, as one with a fault is; check says so."""
    data.mkdir()
    (data / "shop.json").symlink_to(strange(kind))
    assert cli.main(["--data", str(data), "read", "CFQ18W/G24q"]) == 0
    capsys.readouterr()
    assert cli.main(["--data", str(data), "check"]) == 1
    assert "shop.json" in capsys.readouterr().out


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("folder", "gone")])
def test_as_the_data_folder(capsys, strange, kind):
    status = cli.main(["--data", str(strange(kind)), "colour", "840"])
    assert "Traceback" not in capsys.readouterr().err
    assert status == BAD or kind == "through a file"  # which no folder can be made in, but nothing is made here


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="nothing is shut to an administrator")
def test_a_folder_that_may_not_be_entered(capsys, tmp_path):
    (tmp_path / "shut").mkdir(mode=0)
    one_line(capsys, "--data", tmp_path / "shut", "read", "CFQ18W/G24q")


@pytest.mark.parametrize("kind", ["itself", "pipe", "zero", "folder", "long"])
def test_a_picture_is_not_written_into_it(capsys, data, strange, kind, tmp_path):
    pytest.importorskip("PySide6")
    target = strange(kind)
    out = tmp_path / "out.png"
    if kind != "long":
        out.symlink_to(target)
    else:
        out = target.with_suffix(".png")
    one_line(capsys, "--data", data, "picture", out)
    assert kind != "zero" or Path("/dev/zero").is_char_device()


@pytest.mark.parametrize("content", ["{", "[]", '{"words": 7}', '{"words": [7]}', "[" * 100_000, "\x00"])
def test_damaged_harmless_words_are_named(capsys, data, content):
    data.mkdir()
    (data / "harmless-words.json").write_text(content)
    assert cli.main(["--data", str(data), "check"]) == 1
    assert "harmless-words.json" in capsys.readouterr().out


def test_a_damaged_table_is_named_with_its_file_and_line(capsys, data):
    data.mkdir()
    (data / "house-codes.json").write_text('{\n "makers": [\n  {"maker": "Northlamp",\n   "parts": 7}\n ]\n}')
    (data / "shop.json").write_text(
        '{"format": "lamp-counter/shop",\n "version": 1,\n "confirmed": [\n  {"kind": 1}]}'
    )
    assert cli.main(["--data", str(data), "check"]) == 1
    out = capsys.readouterr().out
    assert "house-codes.json, line 4: makers[0].parts: must be a list" in out
    assert "shop.json, line 4: confirmed[0]" in out
