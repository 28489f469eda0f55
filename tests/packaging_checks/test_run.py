"""packaging/run on an environment that is ready: what it hands on, what it demands, when it stops."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="elsewhere no libraries are looked for")

# Stands for Python: says which arguments reach it, one a line.
SPY = """#!/bin/sh
printf '%s\\n' "$@"
"""


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """Return a checkout, in a folder with a space, whose environment is ready and only reports."""
    checkout = tmp_path / "a checkout"
    shutil.copytree(ROOT / "packaging", checkout / "packaging")
    shutil.copy(ROOT / "pyproject.toml", checkout)
    spy = checkout / ".venv" / "bin" / "python"
    spy.parent.mkdir(parents=True)
    spy.write_text(SPY)
    spy.chmod(0o755)
    stamp = 'root=$PWD; . packaging/set-up.sh; wanted requirements.lock >"$venv/ready-run"; echo / >"$venv/libraries-'
    for part in ("offscreen", "xcb", "wayland"):
        subprocess.run(["sh", "-c", f'{stamp}{part}"'], cwd=checkout, check=True)
    return checkout


def run(checkout: Path, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    bare = {"PATH": os.environ["PATH"], "HOME": str(checkout), **environment}
    command = ["sh", checkout / "packaging" / "run", *arguments]
    return subprocess.run(command, env=bare, cwd="/", capture_output=True, text=True, timeout=60)


ARGUMENTS = [("read", 'F13 "DTT"/835 \'$x`', "--json"), ("--data", "a folder", "identify", "pins=4"), ("picture", "")]


@pytest.mark.parametrize("arguments", ARGUMENTS)
def test_arguments_arrive_as_they_were_given(checkout: Path, arguments: tuple[str, ...]) -> None:
    done = run(checkout, *arguments)
    assert done.stdout.splitlines() == ["-P", f"{checkout}/.venv/bin/counter", *arguments]
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("arguments", [(), ("--data", "folder")])
def test_a_window_without_a_screen_is_refused_with_words(checkout: Path, arguments: tuple[str, ...]) -> None:
    done = run(checkout, *arguments)
    assert (done.returncode, done.stdout) == (4, "")
    assert "DISPLAY" in done.stderr


@pytest.mark.parametrize(
    ("arguments", "environment", "part"),
    [
        ((), {"DISPLAY": ":0"}, "xcb"),
        ((), {"DISPLAY": ":0", "WAYLAND_DISPLAY": "wayland-0"}, "xcb"),
        ((), {"WAYLAND_DISPLAY": "wayland-0"}, "wayland"),
        ((), {"QT_QPA_PLATFORM": "offscreen"}, "offscreen"),
        ((), {"DISPLAY": ":0", "QT_QPA_PLATFORM": "wayland-egl"}, "wayland"),
        (("picture", "out.png"), {}, "offscreen"),
        (("--data", "read", "chart", "out.pdf"), {}, "offscreen"),
    ],
)
def test_only_the_part_of_qt_that_is_needed_is_looked_for(
    checkout: Path, arguments: tuple[str, ...], environment: dict[str, str], part: str
) -> None:
    (checkout / ".venv" / f"libraries-{part}").write_text("/nowhere/libgone.so\n")
    # The spy has no Qt to ask about, so looking again finds nothing missing and notes what it found.
    assert run(checkout, *arguments, **environment).returncode == 0
    assert "libgone" not in (checkout / ".venv" / f"libraries-{part}").read_text()


TEXT_COMMANDS = ["read", "identify", "fit", "uv", "colour", "check", "assess", "stock", "slips", "cards", "--help"]


@pytest.mark.parametrize("command", TEXT_COMMANDS)
def test_a_text_command_needs_no_library_of_qt(checkout: Path, command: str) -> None:
    for noted in (checkout / ".venv").glob("libraries-*"):
        noted.unlink()
    assert run(checkout, command).returncode == 0
    assert not list((checkout / ".venv").glob("libraries-*"))


@pytest.mark.slow
@pytest.mark.parametrize("harm", ["unfinished", "moved"])
def test_a_harmed_environment_is_made_anew(checkout: Path, harm: str) -> None:
    venv = checkout / ".venv"
    (venv / "junk").touch()
    if harm == "unfinished":
        (venv / "unfinished").touch()
    else:
        (venv / "ready-run").write_text("1 2 /somewhere/else\n")
    done = run(checkout, "read", PIP_NO_INDEX="1", PIP_CONFIG_FILE=os.devnull)
    assert done.returncode == 3  # with no index nothing can be installed
    assert "anew" in done.stderr
    assert not (venv / "junk").exists()
    assert (venv / "unfinished").exists()
