"""Files that survive: a crash or a full disk while saving leaves the old file whole."""

from __future__ import annotations

import contextlib
import os
import secrets
import shutil
import stat
import sys
import time
from datetime import datetime
from typing import TYPE_CHECKING, Any

from counter.paths import machine

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    Migration = Callable[[dict[str, Any]], dict[str, Any]]

WAITS_S = (0.02, 0.05, 0.1, 0.2, 0.4)  # on Windows a virus scanner or an indexer holds a file for a moment


def write_atomic(path: Path, content: bytes) -> None:
    """Replace the file by one with `content`, or leave it as it was; its folder is made if missing.

    A link is followed, so that what it points at is replaced and not the link; the old file's mode is kept.

    Raises:
        OSError: the new file could not be written in full; the old one is untouched.
    """
    target = path.resolve()
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")
    try:
        _write_through(part, content)
        _take_mode(target, part)
        _replace(part, target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def machine_file(data: Path, name: str) -> Path:
    """Return where a file of this machine alone is, brought over once from the data folder where it lay before.

    A data folder may be shared: what one machine keeps of its screen is wrong on another, and a lock that a machine
    leaves there when it loses power holds up all the others.
    """
    path = machine(data) / name
    if not path.exists():
        with contextlib.suppress(OSError):
            if (data / name).is_file():
                path.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(data / name, path)
    return path


def copy_aside(path: Path) -> Path:
    """Copy a file that cannot be used to a dated name beside it and return that name.

    Raises:
        OSError: it could not be copied; nothing may be written over it then.
    """
    stamp = datetime.now().strftime("%Y%m%d-%H%M%S")
    aside = path.with_name(f"{path.stem}.unreadable-{stamp}-{secrets.token_hex(2)}{path.suffix}")
    shutil.copy2(path, aside)
    return aside


def migrated(content: dict[str, Any], steps: Mapping[int, Migration], current: int) -> dict[str, Any]:
    """Bring a file's content up to version `current`; `steps[n]` turns version n into n + 1.

    Content without a whole number as its version, or newer than `current`, is returned as it is: the
    file's own check has the words for it.
    """
    version = content.get("version")
    while type(version) is int and version < current and version in steps:
        version += 1
        content = {**steps[version - 1](content), "version": version}
    return content


def _write_through(path: Path, content: bytes) -> None:
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _take_mode(old: Path, new: Path) -> None:
    with contextlib.suppress(FileNotFoundError):
        new.chmod(stat.S_IMODE(old.stat().st_mode))


def _replace(part: Path, target: Path) -> None:
    for wait_s in WAITS_S if sys.platform == "win32" else ():
        try:
            part.replace(target)
        except PermissionError:
            time.sleep(wait_s)
        else:
            return
    part.replace(target)


def _sync_folder(folder: Path) -> None:
    """Make the new name itself survive a power cut; Windows and some network folders cannot."""
    if sys.platform == "win32":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
