"""Open the window: on the way to the first paint nothing is imported that only commands need."""

from __future__ import annotations

import gc
import os
import sys
from typing import TYPE_CHECKING

from counter import paths
from counter.files import is_there, reason
from counter.language import marked, tr

if TYPE_CHECKING:
    from pathlib import Path

BAD_INPUT, NO_SCREEN, OUR_FAULT = 2, 4, 70
SCREENS = ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")
NEEDS_SCREEN = marked(
    "the window needs a screen, and neither DISPLAY nor WAYLAND_DISPLAY is set; start it from a desktop"
)


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
            told = tr("--data: {folder} is not a folder; name one, it is made when it is needed")
            raise FolderProblem(told.format(folder=data))
    except (OSError, RuntimeError, ValueError) as problem:  # of a home that nobody knows; a null character
        why = reason(problem) if isinstance(problem, OSError) else problem
        raise FolderProblem(tr("--data: {why}; name another folder").format(why=why)) from None
    return data


def open_window(chosen: str | None) -> int:
    """Open the window and stay until it is closed; return the exit status."""
    gc.disable()  # until it is awake: what is made on the way to the first paint stays
    try:
        return _opened(chosen)
    finally:
        gc.enable()


def _opened(chosen: str | None) -> int:
    try:
        data = data_folder(chosen)
    except FolderProblem as problem:
        return _complained(str(problem), BAD_INPUT)
    if sys.platform == "linux" and not any(map(os.environ.get, SCREENS)):
        # Qt would end the process without a word that helps.
        from counter.cli._language import speak

        speak(())
        return _complained(tr(NEEDS_SCREEN), NO_SCREEN)
    try:
        from counter.app import run

        return run(data)
    except (ImportError, SyntaxError) as damage:
        have_repaired(["--data", chosen] if chosen else [])
        told = tr("the installation is damaged: {damage}; install it anew").format(damage=damage)
        return _complained(told, OUR_FAULT)
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
    told = tr("something went wrong that should not have ({fault}); a report lies in {file}")
    if not kept:
        told = tr("something went wrong that should not have ({fault}); no report could be written")
    return told.format(fault=type(fault).__name__, file=kept)


def _complained(words: str, status: int) -> int:
    from counter.cli._output import complain, ready_console

    ready_console()
    complain(words)
    return status
