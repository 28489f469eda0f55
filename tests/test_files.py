"""Saving leaves the old file or the new one, whole."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from counter import files
from counter.files import copy_aside, migrated, write_atomic

posix_only = pytest.mark.skipif(sys.platform == "win32", reason="modes and links as POSIX has them")


def test_new_file_and_its_folder_are_made(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b.json"
    write_atomic(path, b"new")
    assert path.read_bytes() == b"new"
    assert [one.name for one in path.parent.iterdir()] == ["b.json"]


@posix_only
def test_old_mode_is_kept_and_a_new_file_has_the_usual_one(tmp_path: Path) -> None:
    old, new, usual = tmp_path / "old", tmp_path / "new", tmp_path / "usual"
    old.write_bytes(b"1")
    old.chmod(0o640)
    usual.write_bytes(b"1")
    write_atomic(old, b"2")
    write_atomic(new, b"2")
    modes = [stat.S_IMODE(path.stat().st_mode) for path in (old, new)]
    assert modes == [0o640, stat.S_IMODE(usual.stat().st_mode)]


@posix_only
def test_link_stays_a_link(tmp_path: Path) -> None:
    target, link = tmp_path / "shared" / "shop.json", tmp_path / "shop.json"
    write_atomic(target, b"1")
    link.symlink_to(target)
    write_atomic(link, b"2")
    assert link.is_symlink()
    assert target.read_bytes() == b"2"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_failure_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = tmp_path / "shop.json"
    path.write_bytes(b"old")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((os, "fsync") if step == "fsync" else (Path, "replace")), fail)
    with pytest.raises(OSError, match="No space left"):
        write_atomic(path, b"new")
    assert path.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["shop.json"]


def test_file_held_for_a_moment_on_windows_is_tried_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    refusals, replace = [1, 1], Path.replace

    def held(part: Path, target: Path) -> Path:
        if refusals:
            refusals.pop()
            raise PermissionError(13, "in use")
        return replace(part, target)

    monkeypatch.setattr(files.sys, "platform", "win32")
    monkeypatch.setattr(files, "WAITS_S", (0, 0, 0))
    monkeypatch.setattr(Path, "replace", held)
    write_atomic(tmp_path / "a", b"1")
    assert (tmp_path / "a").read_bytes() == b"1"


def test_copies_aside_never_meet(tmp_path: Path) -> None:
    path = tmp_path / "shop.json"
    path.write_bytes(b"{")
    copies = {copy_aside(path) for _ in range(3)}
    assert len(copies) == 3
    assert all(copy.read_bytes() == b"{" and copy.suffix == ".json" for copy in copies)


def test_migrations_run_in_order_up_to_the_current_version() -> None:
    steps = {n: lambda content, n=n: {**content, "went": [*content.get("went", []), n]} for n in (1, 2, 3)}
    assert migrated({"version": 1}, steps, 3) == {"version": 3, "went": [1, 2]}
    assert migrated({"version": 3}, steps, 3) == {"version": 3}


@pytest.mark.parametrize("version", [None, "1", True, 4, 0])
def test_versions_without_a_way_are_left_alone(version: object) -> None:
    assert migrated({"version": version}, {}, 3) == {"version": version}


WRITER = """
import sys
import time
from pathlib import Path
from counter.files import write_atomic
for n in range(10**9):
    write_atomic(Path(sys.argv[1]), bytes([65 + n % 2]) * 400_000)
    print(n, flush=True)
"""


@pytest.mark.slow
@posix_only
def test_killed_while_writing_leaves_a_whole_file(tmp_path: Path) -> None:
    path, root = tmp_path / "shop.json", Path(files.__file__).resolve().parent.parent
    for round_ in range(20):
        child = subprocess.Popen([sys.executable, "-c", WRITER, str(path)], cwd=root, stdout=subprocess.PIPE)
        assert child.stdout is not None
        child.stdout.readline()
        time.sleep(0.003 * round_)
        child.kill()
        child.stdout.close()
        child.wait()
        content = path.read_bytes()
        assert len(content) == 400_000
        assert len(set(content)) == 1
