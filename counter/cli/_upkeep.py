"""What keeps the program in order: checking tables, saying which version of what this is."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counter import __version__
from counter.cli._core import catalogue_of
from counter.cli._input import STANDARD_INPUT, whole
from counter.cli._line import DONE, NOTHING, Answer, actions_of
from counter.cli._output import write_words
from counter.language import tr

if TYPE_CHECKING:
    from counter.catalogue import Finding, Problem
    from counter.cli._line import Commands

HOUSE_FORMAT = "lamp-counter/house-codes"


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    check = commands.add("check", _check, tr("list every problem of a catalogue file, with file and line"))
    about = tr(
        "a file of this program's; - reads standard input; left out: all that is shipped and what the shop made"
    )
    check.add_argument("file", metavar=tr("FILE"), nargs="?", type=Path, help=about)
    counted = tr("where the values come from and how many of each, by base and lamp")
    check.add_argument("--sources", action="store_true", help=counted)


def _check(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import catalogue

    if chosen.sources:
        tallied = catalogue.sources_report(catalogue_of(data))
        return Answer(tallied, catalogue.sources_text(tallied), DONE)
    problems = _problems(chosen.file, data)
    found = catalogue.check_report(problems)
    return Answer(found, catalogue.report_text(problems), NOTHING if problems else DONE)


def _problems(file: Path | None, data: Path) -> tuple[Problem, ...]:
    from counter import catalogue
    from counter.files import is_there
    from counter.marks import HOUSE_FILE
    from counter.shop import load_catalogue

    others = {HOUSE_FORMAT: _house_findings}
    if file is not None and str(file) == STANDARD_INPUT:
        return catalogue.check_text(whole(), others)
    if file is not None:
        return catalogue.check_file(file, others, HOUSE_FORMAT if file.name == HOUSE_FILE else "")
    found = list(catalogue.check_shipped())
    if is_there(data / catalogue.SHOP_FILE):  # not taken over yet, or it cannot be: then its own lines are named
        found += catalogue.check_file(data / catalogue.SHOP_FILE)
    else:
        found += [*load_catalogue(data).problems, *_spoken_problems(data)]
    if is_there(data / HOUSE_FILE):
        found += catalogue.check_file(data / HOUSE_FILE, others, HOUSE_FORMAT)
    return (*found, *_harmless_problems(data))


def _spoken_problems(data: Path) -> tuple[Problem, ...]:
    """Return what of the shop's cautions and words cannot be used; a store that cannot be read was named before."""
    from counter import entries, shop

    if not shop.has_store(data):
        return ()
    try:
        return entries.layer_problems(shop.layer(shop.open_store(data)).content)
    except shop.StoreProblem:
        return ()


def _harmless_problems(data: Path) -> list[Problem]:
    from counter.catalogue import Problem
    from counter.shop_words import FILE_NAME, rows

    try:
        rows(data)
    except (OSError, ValueError) as problem:
        return [Problem("", str(problem), tr("Mend the file or take it away."), file=FILE_NAME)]
    return []


def _house_findings(data: dict[str, Any]) -> list[Finding]:
    from counter.catalogue import findings_of
    from counter.marks import HouseTable

    return findings_of(HouseTable, data)


class Versions(argparse.Action):
    """Print the versions of program and catalogue, and stop."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        write_words(f"{__version__}\n{_catalogue_words()}")
        parser.exit(DONE)


def _catalogue_words() -> str:
    from pydantic import ValidationError

    from counter.catalogue import load

    try:
        edition = load().edition or tr("of no edition")
        return tr("catalogue {edition}").format(edition=edition)
    except (OSError, ValidationError):
        return tr("the catalogue cannot be read; «counter check» says why")


class Completions(argparse.Action):
    """Print what makes a shell complete the command's words, and stop."""

    def __call__(self, parser: argparse.ArgumentParser, _: object, values: object, option: str | None = None) -> None:
        import shtab

        for action in actions_of(parser):
            if action.type is Path:
                action.complete = shtab.FILE  # type: ignore[attr-defined] # where shtab looks for it
        write_words(shtab.complete(parser, str(values)))
        parser.exit(DONE)
