"""Run one command: everything that can go wrong with input and output is said in one line, in one place."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from counter import paths
from counter.cli import _case, _lamp, _training, _upkeep
from counter.cli._line import (
    ASK_FIRST,
    BAD_INPUT,
    DONE,
    NO_SCREEN,
    NOTHING,
    OUR_FAULT,
    Answer,
    BadInput,
    Commands,
    Parser,
    globals_first,
)
from counter.cli._output import complain, flush, ready_console, write
from counter.files import is_there

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

GROUPS = (_lamp, _case, _upkeep, _training)
GRAVEST_FIRST = (BAD_INPUT, NOTHING, ASK_FIRST, DONE)
STOPPED = 130  # by Ctrl+C, as shells count it


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return the exit status."""
    ready_console()
    try:
        status = _run(list(sys.argv[1:] if arguments is None else arguments))
        flush()  # here, where it can be said; at Python's own end it would be a traceback
    except BadInput as problem:
        complain(problem)
        return BAD_INPUT
    except KeyboardInterrupt:
        return STOPPED
    return status


def _run(arguments: list[str]) -> int:
    try:
        chosen = _parser().parse_args(globals_first(arguments))
    except SystemExit as stop:  # argparse has written help, a version or a complaint
        return int(stop.code or DONE)
    data = _data(chosen.data)
    try:
        return _answer(chosen, data)
    except BadInput:
        raise
    except (ImportError, SyntaxError) as damage:
        _have_repaired(arguments)
        complain(f"the installation is damaged: {damage}; install it anew")
        return OUR_FAULT
    except Exception as fault:
        from counter.reports import keep_report

        kept = keep_report(data, fault, arguments).path
        where = f"a report lies in {kept}" if kept else "no report could be written"
        complain(f"something went wrong that should not have ({type(fault).__name__}); {where}")
        return OUR_FAULT


def _have_repaired(arguments: list[str]) -> None:
    """Begin again by way of packaging/run, if it was that which started us; it mends what it installed, once."""
    run = os.environ.pop("COUNTER_REPAIR_BY", "")
    if run:
        os.execve("/bin/sh", ["sh", run, *arguments], {**os.environ, "COUNTER_REPAIR": "1"})


def _answer(chosen: argparse.Namespace, data: Path) -> int:
    if chosen.run is None:
        if chosen.json:
            raise BadInput("--json goes with a command, as «counter read CODE --json»; «counter --help» lists them")
        return _window(data)
    answers: Answer | Iterator[Answer] = chosen.run(chosen, data)
    return _written(answers, json_wanted=bool(chosen.json))


def _written(answers: Answer | Iterable[Answer], *, json_wanted: bool) -> int:
    """Write one answer, or many one a line; of many the gravest status counts."""
    found = {DONE}
    for answer in (answers,) if isinstance(answers, Answer) else answers:
        found.add(answer.status)
        if not write(answer, json_wanted=json_wanted):
            break
    return next(status for status in GRAVEST_FIRST if status in found)


def _data(chosen: str | None) -> Path:
    """Return the folder of all that users make; it need not exist, but must not be something else."""
    try:
        data = paths.user_data(chosen)
        if is_there(data) and not data.is_dir():
            raise BadInput(f"--data: {data} is not a folder; name one, it is made when it is needed")
    except (OSError, RuntimeError, ValueError) as problem:  # of a home that nobody knows; a null character
        raise BadInput(f"--data: {getattr(problem, 'strerror', None) or problem}; name another folder") from None
    return data


def _parser() -> Parser:
    parser = Parser(
        prog="counter", description="Which base, which lamp, and may it be sold. Alone it opens the window."
    )
    parser.add_argument("--data", metavar="FOLDER", help="where all that you make lives (or COUNTER_DATA)")
    parser.add_argument("--json", action="store_true", help="one JSON object instead of text; anywhere on the line")
    parser.add_argument("--version", action=_upkeep.Versions, nargs=0, help="of the program and of its catalogue")
    parser.add_argument(
        "--completions", action=_upkeep.Completions, choices=("bash", "zsh", "tcsh"), help="for this shell"
    )
    parser.set_defaults(run=None)
    commands = Commands(parser)
    for group in GROUPS:
        group.add(commands)
    return parser


def _window(data: Path) -> int:
    asked = ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")
    if sys.platform == "linux" and not any(map(os.environ.get, asked)):
        complain("the window needs a screen, and neither DISPLAY nor WAYLAND_DISPLAY is set; start it from a desktop")
        return NO_SCREEN  # Qt would end the process without a word that helps
    from counter.app import run

    return run(data)
