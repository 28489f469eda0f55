"""packaging/run on an environment that is ready: what it hands on, what it demands, when it stops."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

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
def test_a_harmed_environment_is_kept_until_another_stands(checkout: Path) -> None:
    venv = checkout / ".venv"
    (venv / "junk").touch()
    (venv / "unfinished").touch()
    done = run(checkout, "read", PIP_NO_INDEX="1", PIP_CONFIG_FILE=os.devnull)
    assert done.returncode == 3  # with no index nothing can be installed
    assert "anew" in done.stderr
    assert (venv / "junk").exists()
    assert not venv.with_name(".venv.old").exists()


# -- with a Python that works


@pytest.fixture
def real(tmp_path: Path) -> Path:
    """Return a checkout with an environment that has Python and no packages, ready by its stamps."""
    checkout = tmp_path / "first place"
    for folder in ("packaging", "counter", "resources"):
        shutil.copytree(ROOT / folder, checkout / folder, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", checkout)
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", checkout / ".venv"], check=True)
    (checkout / ".venv" / "bin" / "tool").write_text(f"#!{checkout}/.venv/bin/python\nprint('tool')\n")
    ready = 'root=$PWD; . packaging/set-up.sh; install_counter; wanted requirements.lock >"$venv/ready-run"'
    subprocess.run(["sh", "-c", ready], cwd=checkout, check=True)
    return checkout


COLOUR = ("--data", "/nowhere", "colour", "840")
CLERK: dict[str, Any] = {"user": 65534, "group": 65534, "extra_groups": [], "cwd": "/"}
OFFLINE = {"PIP_NO_INDEX": "1", "PIP_CONFIG_FILE": os.devnull}


def test_a_link_to_it_starts_it(real: Path, tmp_path: Path) -> None:
    (tmp_path / "bin").mkdir()
    (tmp_path / "bin" / "counter").symlink_to(real / "packaging" / "run")
    (tmp_path / "again").symlink_to("bin/counter")
    done = subprocess.run(["sh", tmp_path / "again", *COLOUR], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stderr) == (0, "")
    assert "4000" in done.stdout


def test_a_moved_checkout_starts_without_a_network(real: Path, tmp_path: Path) -> None:
    place = real.rename(tmp_path / "another place")
    done = run(place, *COLOUR, **OFFLINE)
    assert (done.returncode, done.stderr.count("\n")) == (0, 1)
    assert "moved" in done.stderr
    assert "4000" in done.stdout
    assert run(place, *COLOUR, **OFFLINE).stderr == ""
    assert str(place) in (place / ".venv" / "bin" / "tool").read_text()


def _open_to_all(place: Path) -> None:
    """Let another user enter; the folder of all tests is shut to others."""
    if os.geteuid() != 0:
        pytest.skip("needs an administrator to set up")
    for folder in place.parents:
        if folder.stat().st_uid == 0 and folder.name.startswith(("pytest-", "popen-", "test_")):
            folder.chmod(0o755)
    look = [place / ".venv" / "bin" / "python", "-c", ""]
    try:
        subprocess.run(look, check=True, capture_output=True, **CLERK)
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("this Python itself lies where only the administrator may enter")


def test_a_clerk_starts_what_an_administrator_set_up(real: Path) -> None:
    _open_to_all(real)
    command = ["sh", real / "packaging" / "run", *COLOUR]
    done = subprocess.run(command, capture_output=True, text=True, **CLERK)
    assert (done.returncode, done.stderr) == (0, "")


def test_libraries_found_need_not_be_noted(real: Path) -> None:
    """The note only saves time; a folder that is shut to the clerk must not keep the window from starting."""
    _open_to_all(real)
    look = "root=$PWD; . packaging/set-up.sh; missing_libraries() { :; }; find_font() { echo a; }; need_libraries xcb"
    done = subprocess.run(["sh", "-ec", f"cd '{real}'; {look}"], capture_output=True, **CLERK)
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_package_that_cannot_be_loaded_is_installed_anew(real: Path) -> None:
    """Here nothing can be: the attempt shows, and ends instead of going round."""
    done = run(real, "--data", "/nowhere", "read", "CFQ18W", **OFFLINE)
    assert done.returncode != 0
    assert "installing all of them anew" in done.stderr
    assert "Traceback" not in done.stderr
    assert run(real, *COLOUR, **OFFLINE).returncode in (0, 3)
