"""Files that survive, and files that may be anything: a pipe, a device, a link to itself, without an end.

A crash or a full disk while saving leaves the old file whole; reading never waits and never takes more than a bound.
"""

from __future__ import annotations

import contextlib
import errno
import json
import os
import stat
import sys
import time
from typing import TYPE_CHECKING, Any

from counter.language import marked, tr
from counter.paths import machine

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    Migration = Callable[[dict[str, Any]], dict[str, Any]]

LARGEST = 20_000_000  # bytes; the largest file of ours, the shipped catalogue, has a quarter of a million
WAITS_S = (0.02, 0.05, 0.1, 0.2, 0.4)  # on Windows a virus scanner or an indexer holds a file for a moment


class UnusableFileError(OSError):
    """What a name leads to is no file that can be read or written; the message says what, and can be shown."""


def is_there(path: Path) -> bool:
    """Whether a name is taken, also by what cannot be used: reading it then says why it cannot."""
    try:
        path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return False
    except (OSError, ValueError):
        return True
    return True


def read_bytes(path: Path, most: int = LARGEST) -> bytes:
    """Return the content of an ordinary file of at most `most` bytes; never waits for a writer.

    Raises:
        FileNotFoundError: there is none.
        UnusableFileError: it is a folder, a pipe or a device, too large, or cannot be read; says which.
    """
    try:
        _hold_ordinary(path.stat().st_mode)  # before opening: opening a device can do something
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as file:
            about = os.fstat(handle)
            _hold_ordinary(about.st_mode)  # and again: it may have been replaced meanwhile
            content = b"" if about.st_size > most else file.read(most + 1)
            if content is None:  # what would have made us wait
                raise UnusableFileError(tr("nothing can be read from it now"))
    except FileNotFoundError:
        raise
    except OSError as problem:
        raise UnusableFileError(reason(problem)) from None
    except ValueError:
        raise UnusableFileError(tr("a name cannot hold a null character")) from None
    if (size := max(len(content), about.st_size)) > most:
        told = tr("it has {size} or more; at most {most} are read")
        raise UnusableFileError(told.format(size=_size(size), most=_size(most)))
    return content


def read_json(path: Path, most: int = LARGEST) -> Any:
    """Return what a file of JSON holds.

    Raises:
        OSError: it cannot be read, as `read_bytes` says.
        ValueError: it is no JSON, or nested deeper than any of ours.
    """
    try:
        return json.loads(read_bytes(path, most))
    except RecursionError:
        raise ValueError(tr("nested too deep")) from None


def reason(problem: OSError) -> str:
    """Return why a file cannot be used, in the system's words without its numbers and names."""
    if problem.errno == errno.ELOOP:
        return tr("it is a link that leads back to itself")
    words = problem.strerror or str(problem)
    return tr(words[:1].lower() + words[1:])


# What systems say most; the rest stands in their own words.
OFTEN_SAID = (
    *(marked("no such file or directory"), marked("permission denied"), marked("operation not permitted")),
    *(marked("is a directory"), marked("not a directory"), marked("file exists"), marked("file name too long")),
    *(marked("no space left on device"), marked("disk quota exceeded"), marked("read-only file system")),
    *(marked("input/output error"), marked("broken pipe"), marked("device or resource busy")),
)


def _size(count: int) -> str:
    return f"{count / 1_000_000:.0f} MB" if count >= 1_000_000 else f"{count / 1000:.0f} kB"


def _hold_ordinary(mode: int) -> None:
    if stat.S_ISDIR(mode):
        raise UnusableFileError(tr("it is a folder"))
    if not stat.S_ISREG(mode):
        raise UnusableFileError(tr("it is not a file but a pipe, a socket or a device"))


def write_atomic(path: Path, content: bytes) -> None:
    """Replace the file by one with `content`, or leave it as it was; its folder is made if missing.

    A link is followed, so that what it points at is replaced and not the link; the old file's mode is kept.

    Raises:
        OSError: the new file could not be written in full; the old one is untouched. Where the name leads to a
            folder, a pipe or a device, that is left alone.
    """
    target = target_of(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(f".{target.name}.{os.urandom(4).hex()}.part")
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
    if not is_there(path):
        with contextlib.suppress(OSError):
            content = read_bytes(data / name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
    return path


def copy_aside(path: Path) -> Path:
    """Copy a file that cannot be used to a dated name beside it and return that name.

    Raises:
        OSError: it could not be copied, or is no ordinary file; nothing may be written over it then.
    """
    _hold_ordinary(path.stat().st_mode)
    import shutil  # which brings five ways to unpack archives; this file is wanted before the first paint

    stamp = time.strftime("%Y%m%d-%H%M%S")
    aside = path.with_name(f"{path.stem}.unreadable-{stamp}-{os.urandom(2).hex()}{path.suffix}")
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


def target_of(path: Path) -> Path:
    """Return what a name leads to: an ordinary file, or nothing yet.

    Raises:
        OSError: it leads to something else, or to itself.
    """
    try:
        target = path.resolve()
        with contextlib.suppress(FileNotFoundError):
            _hold_ordinary(target.stat().st_mode)
    except (RuntimeError, ValueError):  # Python before 3.13 says so of a link to itself; a null character
        raise UnusableFileError(tr("the name leads back to itself or cannot be one")) from None
    return target


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
