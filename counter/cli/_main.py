"""Run one command: everything that can go wrong with input and output is said in one line, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.cli import _case, _lamp, _layer, _letters, _measure, _place, _shop, _training, _upkeep
from counter.cli._language import OPTION, speak
from counter.cli._line import (
    ASK_FIRST,
    BAD_INPUT,
    DONE,
    NOTHING,
    OUR_FAULT,
    Answer,
    BadInput,
    Commands,
    Parser,
    globals_first,
)
from counter.cli._output import complain, flush, ready_console, write
from counter.cli._window import FolderProblem, data_folder, have_repaired, open_window, reported
from counter.language import languages, tr

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable, Iterator
    from pathlib import Path

GROUPS = (_lamp, _letters, _layer, _case, _measure, _shop, _place, _upkeep, _training)
GRAVEST_FIRST = (BAD_INPUT, NOTHING, ASK_FIRST, DONE)
STOPPED = 130  # by Ctrl+C, as shells count it


def run_command(arguments: list[str]) -> int:
    """Run one command and return the exit status."""
    ready_console()
    speak(arguments)
    try:
        status = _run(arguments)
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
    try:
        data = data_folder(chosen.data)
    except FolderProblem as problem:
        raise BadInput(problem) from None
    try:
        return _answer(chosen, data)
    except BadInput:
        raise
    except (ImportError, SyntaxError) as damage:
        have_repaired(arguments)
        complain(tr("the installation is damaged: {damage}; install it anew").format(damage=damage))
        return OUR_FAULT
    except Exception as fault:
        complain(reported(data, fault, tuple(arguments)))
        return OUR_FAULT


def _answer(chosen: argparse.Namespace, data: Path) -> int:
    if chosen.run is None:
        if chosen.json:
            raise BadInput(
                tr("--json goes with a command, as «counter read CODE --json»; «counter --help» lists them")
            )
        if chosen.language:
            raise BadInput(tr("--language goes with a command; the window has it in its menu, under View"))
        return open_window(chosen.data)
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


def _parser() -> Parser:
    parser = Parser(
        prog="counter", description=tr("Which base, which lamp, and may it be sold. Alone it opens the window.")
    )
    told = tr("where all that you make lives (or COUNTER_DATA)")
    parser.add_argument("--data", metavar=tr("FOLDER"), help=told)
    told = tr("of text and messages (or COUNTER_LANGUAGE, else as the system is set); JSON stays the same")
    parser.add_argument(OPTION, choices=tuple(languages()), help=told)
    told = tr("one JSON object instead of text; anywhere on the line")
    parser.add_argument("--json", action="store_true", help=told)
    parser.add_argument("--version", action=_upkeep.Versions, nargs=0, help=tr("of the program and of its catalogue"))
    parser.add_argument(
        "--completions", action=_upkeep.Completions, choices=("bash", "zsh", "tcsh"), help=tr("for this shell")
    )
    parser.set_defaults(run=None)
    commands = Commands(parser)
    for group in GROUPS:
        group.add(commands)
    return parser
