"""Open the window: on the way to the first paint nothing is imported that only commands need."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from counter import paths
from counter.files import is_there

if TYPE_CHECKING:
    from pathlib import Path

BAD_INPUT, NO_SCREEN, OUR_FAULT = 2, 4, 70
SCREENS = ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")


class FolderProblem(Exception):  # noqa: N818 - said to the user as it stands
    """The folder of all that users make cannot be that; the message says why and the way out."""


def data_folder(chosen: str | None) -> Path:
    """Return the folder of all that users make; it need not exist, but must not be something else.

    Raises:
        FolderProblem: it is no folder, or no name of one.
    """
    try:
        data = paths.user_data(chosen)
        if is_there(data) and not data.is_dir():
            raise FolderProblem(f"--data: {data} is not a folder; name one, it is made when it is needed")
    except (OSError, RuntimeError, ValueError) as problem:  # of a home that nobody knows; a null character
        raise FolderProblem(f"--data: {getattr(problem, 'strerror', None) or problem}; name another folder") from None
    return data


def open_window(chosen: str | None) -> int:
    """Open the window and stay until it is closed; return the exit status."""
    try:
        data = data_folder(chosen)
    except FolderProblem as problem:
        return _complained(str(problem), BAD_INPUT)
    if sys.platform == "linux" and not any(map(os.environ.get, SCREENS)):
        # Qt would end the process without a word that helps.
        words = "the window needs a screen, and neither DISPLAY nor WAYLAND_DISPLAY is set; start it from a desktop"
        return _complained(words, NO_SCREEN)
    try:
        from counter.app import run

        return run(data)
    except (ImportError, SyntaxError) as damage:
        have_repaired(["--data", chosen] if chosen else [])
        return _complained(f"the installation is damaged: {damage}; install it anew", OUR_FAULT)
    except Exception as fault:
        return _complained(reported(data, fault, ()), OUR_FAULT)


def have_repaired(arguments: list[str]) -> None:
    """Begin again by way of packaging/run, if it was that which started us; it mends what it installed, once."""
    run = os.environ.pop("COUNTER_REPAIR_BY", "")
    if run:
        os.execve("/bin/sh", ["sh", run, *arguments], {**os.environ, "COUNTER_REPAIR": "1"})


def reported(data: Path, fault: Exception, private: tuple[str, ...]) -> str:
    """Keep a report of an error nobody expected and return what to say of it."""
    from counter.reports import keep_report

    kept = keep_report(data, fault, private).path
    where = f"a report lies in {kept}" if kept else "no report could be written"
    return f"something went wrong that should not have ({type(fault).__name__}); {where}"


def _complained(words: str, status: int) -> int:
    from counter.cli._output import complain, ready_console

    ready_console()
    complain(words)
    return status
