"""Faults below Python, in Qt or a driver: what `faulthandler` can still write, found by the next start."""

from __future__ import annotations

import contextlib
import faulthandler
import os
import sys
import time
from typing import IO, TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from counter.reports import Report

LARGEST = 1_000_000  # bytes of a trace
PATTERN = "fault-*.txt"


class FaultWatch:
    """An open file that a fault would be written into, held for as long as this process lives."""

    def __init__(self, data: Path) -> None:
        self._file: IO[bytes] | None = None
        path = data / "reports" / f"fault-{time.time_ns()}.txt"
        with contextlib.suppress(OSError):  # without a folder that can be written, a fault leaves nothing
            path.parent.mkdir(parents=True, exist_ok=True)
            self._file = path.open("xb")
            self._path = path
            _hold(self._file)
            faulthandler.enable(self._file)

    def end(self) -> None:
        """The process ends as it should: there was no fault."""
        if self._file is None:
            return
        faulthandler.disable()
        self._file.close()
        self._file = None
        with contextlib.suppress(OSError):
            self._path.unlink()


def left_faults(data: Path) -> list[Report]:
    """Return a report for each fault that ended an earlier process, and clear away what those left."""
    found = []
    for path in sorted((data / "reports").glob(PATTERN)):
        with contextlib.suppress(OSError):
            trace = _taken(path)
            if trace:
                from counter.reports import keep_fault

                found.append(keep_fault(data, trace.decode("utf-8", "replace")))
    return found


def _taken(path: Path) -> bytes:
    """Take a file that no living process holds out of the folder and return what it held.

    Raises:
        OSError: it is held, or cannot be read.
    """
    with path.open("rb") as file:
        _hold(file)
        trace = file.read(LARGEST)
        if sys.platform != "win32":  # where an open file cannot be removed, which also shows a living holder
            path.unlink()
    if sys.platform == "win32":
        path.unlink()
    return trace


def _hold(file: IO[bytes]) -> None:
    """Take a file for this process; the system lets go when the process ends, however it ends.

    Raises:
        OSError: another process holds it.
    """
    if os.name == "posix":
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
