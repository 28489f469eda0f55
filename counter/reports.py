"""What a fault of the program leaves behind: a log that stays small, and a report that its user can read and send.

Neither holds what a customer or a clerk said: marks, labels and names are left out, and so are folders of the user's.
"""

from __future__ import annotations

import contextlib
import logging
import os
import platform
import re
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from counter import __version__
from counter.files import read_bytes, write_atomic

if TYPE_CHECKING:
    from collections.abc import Iterable

LOG_LARGEST = 200_000  # bytes; four such files at most
LOG_KEPT = 3
LOG_LINES = 40  # of the log, in a report
MOST_REPORTS = 20
LEFT_OUT = "[left out]"
log = logging.getLogger("lamp-counter")


class Report(NamedTuple):
    """A report's text, and where it was written; None where it could not be."""

    text: str
    path: Path | None


def folder(data: Path) -> Path:
    """Return where reports and logs lie, within the folder of all that users make."""
    return data / "reports"


def start_log(data: Path) -> None:
    """Write the log into a file from now on; where that cannot be, the program goes on without one."""
    from logging.handlers import RotatingFileHandler

    logging.raiseExceptions = False  # a full disk is no reason for words on the console at each line
    stop_log()
    with contextlib.suppress(OSError):
        folder(data).mkdir(parents=True, exist_ok=True)
        handler = RotatingFileHandler(
            folder(data) / "counter.log", maxBytes=LOG_LARGEST, backupCount=LOG_KEPT, encoding="utf-8", delay=True
        )
        handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
        log.addHandler(handler)
        log.setLevel(logging.INFO)
        log.propagate = False


def stop_log() -> None:
    """Close the log's file."""
    for handler in list(log.handlers):
        log.removeHandler(handler)
        handler.close()


def keep_report(data: Path, fault: BaseException, private: Iterable[str] = ()) -> Report:
    """Write a report of an unexpected error; `private` are texts that it must not repeat."""
    from traceback import TracebackException

    details = "".join(TracebackException.from_exception(fault, capture_locals=False).format())
    return _kept(data, details, private)


def keep_fault(data: Path, trace: str) -> Report:
    """Write a report of a fault below Python, from what `faulthandler` left of it."""
    return _kept(data, trace, ())


def _kept(data: Path, details: str, private: Iterable[str]) -> Report:
    text = _without(_text(data, details), private)
    stamp = time.strftime("%Y%m%d-%H%M%S")
    path = folder(data) / f"report-{stamp}-{os.urandom(6).hex()}.txt"
    try:
        write_atomic(path, text.encode("utf-8", "replace"))
    except OSError:
        return Report(text, None)
    _forget_oldest(data)
    return Report(text, path)


def _text(data: Path, details: str) -> str:
    made = time.strftime("%Y-%m-%d %H:%M:%S %z")
    return (
        f"Lamp counter, report of {made}\n\n{versions()}\n\n{details.strip()}\n\nLast of the log:\n{_log_end(data)}\n"
    )


def versions() -> str:
    """Return what runs here: program, Python, Qt where it is loaded, system."""
    rows = [f"program {__version__}", f"Python {platform.python_version()}"]
    qt = sys.modules.get("PySide6")
    if qt is not None:
        rows.append(f"PySide6 {getattr(qt, '__version__', '?')}")
    return ", ".join([*rows, platform.platform(), f"encoding {sys.getfilesystemencoding()}"])


def _log_end(data: Path) -> str:
    try:
        raw = read_bytes(folder(data) / "counter.log", 2 * LOG_LARGEST)
    except OSError:
        return "(none)"
    return "\n".join(raw.decode("utf-8", "replace").splitlines()[-LOG_LINES:])


def _without(text: str, private: Iterable[str]) -> str:
    """Leave out what somebody said or is called; longest first, so that no half of one stays."""
    home = str(Path.home()) if os.environ.get("HOME") or os.name == "nt" else ""
    for place, sign in ((str(Path(__file__).parents[1]), "."), (home, "~")):
        if len(place) > 1:
            text = text.replace(place, sign)
    words = sorted({word for one in private if len(word := one.strip()) > 2}, key=len, reverse=True)
    text = re.sub(r"input_value=.*?(, input_type=|\])", rf"input_value={LEFT_OUT}\1", text)
    for word in words:
        text = re.sub(re.escape(word), LEFT_OUT, text, flags=re.IGNORECASE)
    return text


def _forget_oldest(data: Path) -> None:
    with contextlib.suppress(OSError):
        for old in sorted(folder(data).glob("report-*.txt"))[:-MOST_REPORTS]:
            old.unlink()
