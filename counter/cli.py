"""The `counter` command: the window, or one answer as text or JSON.

Exit status: 0 done; 1 done, but nothing found or a verdict of "do not sell"; 2 bad input; 4 no screen.
"""

from __future__ import annotations

import argparse
import json
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from counter import __version__, paths

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counter.catalogue import Catalogue
    from counter.desk import Assessment, Case
    from counter.marks import HouseMaker
    from counter.training import Card

    Answer = tuple[dict[str, Any], str, int]  # JSON object, text, exit status

DONE, NOTHING, BAD_INPUT = 0, 1, 2
USES = ("lighting", "germicidal", "blacklight", "insect trap", "gel curing", "tanning", "medical", "unknown")
SPELLED = "KEY=VALUE, as legs=4 pins=4 notch=small-left length_mm=146"


class BadInput(Exception):  # noqa: N818 - said to the user as it stands, never a fault of the program
    """What was typed cannot be used; the message says what, where, and the way out."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return the exit status."""
    parser = _parser()
    chosen = parser.parse_args(_globals_first(list(sys.argv[1:] if arguments is None else arguments)))
    data = paths.user_data(chosen.data)
    try:
        run: Callable[[argparse.Namespace, Path], int] = chosen.run
        return run(chosen, data)
    except BadInput as problem:
        print(f"counter: {problem}", file=sys.stderr)
        return BAD_INPUT
    except BrokenPipeError:
        # The reader of our output went away, as `| head` does; keep Python from complaining at exit.
        sys.stderr.close()
        return DONE


def _globals_first(arguments: list[str]) -> list[str]:
    """Let --data stand behind the command too; argparse takes it only before."""
    for at, word in enumerate(arguments):
        if word == "--":
            break
        if word == "--data" or word.startswith("--data="):
            end = at + 2 if word == "--data" else at + 1
            if end > len(arguments):  # no folder follows; moved forward it would swallow the command
                return ["--data"]
            return [*arguments[at:end], *arguments[:at], *arguments[end:]]
    return arguments


class Parser(argparse.ArgumentParser):
    """A parser whose complaints read like ours."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD_INPUT, f"counter: {message}. Try «{self.prog} --help».\n")


def _parser() -> Parser:
    parser = Parser(prog="counter", description="Which base, which lamp, and may it be sold.")
    parser.add_argument("--data", metavar="FOLDER", help="where all that you make lives (or COUNTER_DATA)")
    parser.add_argument("--version", action="version", version=__version__)
    parser.set_defaults(run=_window)
    commands = parser.add_subparsers(metavar="COMMAND", parser_class=Parser)

    def command(name: str, answer: Callable[[argparse.Namespace, Path], Answer], about: str) -> Parser:
        made = commands.add_parser(name, help=about, description=about)
        made.add_argument("--json", action="store_true", help="one JSON object instead of text")
        made.set_defaults(run=lambda chosen, data: _print(answer(chosen, data), chosen.json))
        return made

    read = command("read", _read, "read the code printed on a lamp")
    read.add_argument("code", metavar="CODE", help="? for an unreadable character, * for an unreadable stretch")
    identify = command("identify", _identify, "rank lamp types by what you see")
    identify.add_argument("looks", metavar="KEY=VALUE", nargs="*", help=SPELLED)
    _add_fit(command("fit", _fit, "may this lamp go into that fixture"))
    uv = command("uv", _uv, "exposure in front of a germicidal lamp")
    for name, unit in (("--uvc-watts", "W"), ("--arc-mm", "MM"), ("--distance-m", "M")):
        uv.add_argument(name, metavar=unit, required=True)
    colour = command("colour", _colour, "a colour code or colour temperature in numbers")
    colour.add_argument("code", metavar="CODE_OR_KELVIN")
    check = command("check", _check, "list every problem of a catalogue file")
    check.add_argument("file", metavar="FILE", nargs="?", type=Path)
    cards = command("cards", _cards, "training cards made from the catalogue")
    cards.add_argument("--seed", metavar="N", type=int, default=0, help="the same seed deals the same cards")
    cards.add_argument("--count", metavar="K", type=int, default=10)
    assess = command("assess", _assess, "everything the panes show of a saved case")
    assess.add_argument("case", metavar="CASE.json", type=Path)
    picture = commands.add_parser("picture", help="the window as a picture, with no screen needed")
    picture.add_argument("out", metavar="OUT.png", type=Path)
    picture.add_argument("--case", metavar="CASE.json", type=Path)
    picture.add_argument("--size", metavar="WxH", default="1440x900")
    picture.add_argument("--theme", choices=("light", "dark"), default="light")
    picture.set_defaults(run=_picture)
    return parser


def _add_fit(fit: Parser) -> None:
    fit.add_argument("--lamp", metavar="CODE", required=True)
    fit.add_argument("--holder", metavar="BASE", required=True)
    fit.add_argument("--ballast-watts", metavar="18,26", default="")
    fit.add_argument(
        "--ballast",
        choices=("magnetic", "electronic", "dimming", "led-driver", "bypassed", "unknown"),
        default="unknown",
    )
    fit.add_argument("--use", choices=USES, default="unknown")


def _print(answer: Answer, as_json: bool) -> int:
    found, text, status = answer
    print(json.dumps(found, ensure_ascii=False) if as_json else text)
    return status


# -- one function a command


def _window(chosen: argparse.Namespace, data: Path) -> int:
    from counter.app import run

    return run(data)


def _catalogue(data: Path) -> Catalogue:
    from pydantic import ValidationError

    from counter.catalogue import load

    try:
        return load(data)
    except OSError as problem:
        raise BadInput(f"the catalogue cannot be read: {problem}") from None
    except ValidationError as problem:
        raise BadInput(f"the catalogue has {problem.error_count()} problems; «counter check» lists them") from None


def _house(data: Path) -> tuple[HouseMaker, ...]:
    from pydantic import ValidationError

    from counter.marks import load_house

    try:
        return load_house(data)
    except OSError as problem:
        raise BadInput(f"house-codes.json: {problem.strerror or problem}") from None
    except ValidationError as problem:
        first = problem.errors()[0]
        place = ".".join(map(str, first["loc"])) or "file"
        raise BadInput(f"house-codes.json, {place}: {first['msg']}; mend it or take it away") from None


def _assessed(data: Path, **fields: Any) -> Assessment:
    from pydantic import ValidationError

    from counter.desk import Case, assess

    try:
        case = Case(**fields)
    except ValidationError as problem:
        first = problem.errors()[0]
        raise BadInput(f"{'.'.join(map(str, first['loc']))}: {first['msg']}") from None
    return assess(_catalogue(data), case, _house(data))


def _read(chosen: argparse.Namespace, data: Path) -> Answer:
    found = _assessed(data, marks=chosen.code)
    readings = [reading.model_dump(mode="json") for reading in found.readings]
    answer = {"input": chosen.code, "readings": readings, "problems": list(found.problems)}
    return answer, _reading_text(found), DONE if readings else NOTHING


def _reading_text(found: Assessment) -> str:
    lines = []
    for reading in found.readings:
        lines.append(f"{reading.canonical}  {reading.probability:.0%}  ({reading.system})")
        lines += [f"    {span.text:<10} {span.means}" for span in reading.spans]
        lines += [f"    taken: {words}" for words in reading.assumptions]
    return "\n".join([*lines, *found.problems]) or "nothing to read"


def _looks(catalogue: Catalogue, pairs: Sequence[str]) -> tuple[dict[str, str | float], str]:
    from counter.identify import LookProblem, parse_look

    looks: dict[str, str | float] = {}
    marks = ""
    for pair in pairs:
        key, equals, value = pair.partition("=")
        if not equals:
            raise BadInput(f"“{pair[:40]}” is not {SPELLED}")
        if key == "marks":
            marks = value
            continue
        try:
            looks[key] = parse_look(catalogue, key, value)
        except LookProblem as problem:
            raise BadInput(str(problem)) from None
    return looks, marks


def _identify(chosen: argparse.Namespace, data: Path) -> Answer:
    looks, marks = _looks(_catalogue(data), chosen.looks)
    found = _assessed(data, looks=looks, marks=marks)
    kept = ("base", "watts", "shape", "kind", "probability", "agrees", "disagrees", "lamp")
    answer = {
        "candidates": [{key: one.model_dump(mode="json")[key] for key in kept} for one in found.candidates],
        "next": [one.model_dump(mode="json") for one in found.next],
        "problems": list(found.problems),
    }
    lines = [
        f"{one.probability:6.1%}  {one.base:<10} {one.watts:>4g} W  {one.shape or '-':<10} {one.kind}"
        + (f"  against: {', '.join(one.disagrees)}" if one.disagrees else "")
        for one in found.candidates[:10]
    ]
    if found.next:
        lines.append(f"look next: {found.next[0].look}. {found.next[0].why}")
    return answer, "\n".join(lines), DONE


def _fit(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import desk, fit

    catalogue = _catalogue(data)
    try:
        fixture = desk.changed_fixture(
            catalogue,
            fit.Fixture(),
            {"holder": chosen.holder, "ballast": chosen.ballast, "ballast_watts": chosen.ballast_watts},
        )
        judged = desk.fit_code(catalogue, chosen.lamp, fixture, chosen.use, _house(data))
    except desk.CaseProblem as problem:
        raise BadInput(str(problem)) from None
    lines = [judged.verdict.upper()]
    lines += [f"{one.signal}: {one.says} {one.why} {one.do}" for one in judged.cautions]
    lines += [f"ask: {one.question} {one.why}" for one in judged.asks]
    return fit.fit_report(judged), "\n".join(lines), NOTHING if judged.verdict == "do not sell" else DONE


def _number(name: str, text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise BadInput(f"{name}: “{text[:20]}” is not a number; type it as 11 or 0.6") from None


def _uv(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import light

    watts = _number("--uvc-watts", chosen.uvc_watts)
    arc_mm, distance_m = _number("--arc-mm", chosen.arc_mm), _number("--distance-m", chosen.distance_m)
    try:
        found = light.exposure(watts, arc_mm, distance_m)
    except ValueError as problem:
        raise BadInput(str(problem)) from None
    return light.uv_report(found), light.uv_text(found), DONE


def _colour(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import light

    try:
        found = light.colour_of(chosen.code)
    except ValueError as problem:
        raise BadInput(str(problem)) from None
    return light.colour_report(found), light.colour_text(found), DONE


def _check(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import catalogue

    if chosen.file is not None:
        problems = catalogue.check_file(chosen.file)
    else:
        shop = data / catalogue.SHOP_FILE
        problems = (*catalogue.check_shipped(), *(catalogue.check_file(shop) if shop.exists() else ()))
    status = NOTHING if problems else DONE
    return catalogue.check_report(problems), catalogue.report_text(problems), status


def _cards(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import training

    if chosen.count < 1:
        raise BadInput(f"--count: {chosen.count} is too few; ask for 1 card or more")
    found = training.draw_cards(_catalogue(data), chosen.seed, chosen.count)
    return training.cards_report(found), "\n\n".join(map(_card_text, found)), DONE if found else NOTHING


def _card_text(card: Card) -> str:
    choices = [
        f"  {number} {'*' if card.worth[number - 1] >= 1 else ' '} {text}"
        for number, text in enumerate(card.choices, 1)
    ]
    return "\n".join([card.said, *choices, f"  {card.why}"])


def _saved_case(path: Path, catalogue: Catalogue) -> Case:
    from counter.desk import CaseProblem
    from counter.desk._saved_case import read_case

    try:
        return read_case(path, catalogue)
    except CaseProblem as problem:
        raise BadInput(str(problem)) from None


def _assess(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.desk import assess

    catalogue = _catalogue(data)
    case = _saved_case(chosen.case, catalogue)
    if case.place is not None and case.on is None:
        case = case.model_copy(update={"on": date.today()})
    found = assess(catalogue, case, _house(data))
    lines = [f"{found.headline} {found.subline}".strip(), found.verdict or "no verdict yet", found.advice]
    lines += [f"{one.signal}: {one.says} {one.do}" for one in found.cautions]
    return found.model_dump(mode="json"), "\n".join(lines), NOTHING if found.verdict == "do not sell" else DONE


def _size(text: str) -> tuple[int, int]:
    width, cross, height = text.lower().partition("x")
    if not (cross and text.isascii() and width.isdigit() and height.isdigit()):
        raise BadInput(f"--size: “{text[:20]}” is not a size; type it as 1440x900")
    size = (int(width), int(height))
    if not all(200 <= side <= 8000 for side in size):
        raise BadInput(f"--size: {text} is out of range; each side takes 200 to 8000 pixels")
    return size


def _picture(chosen: argparse.Namespace, data: Path) -> int:
    size = _size(chosen.size)
    case = _saved_case(chosen.case, _catalogue(data)) if chosen.case is not None else None
    from counter.app import save_picture  # what was typed is judged first: a bad size needs no Qt

    try:
        save_picture(chosen.out, data, case, size, chosen.theme)
    except OSError as problem:
        raise BadInput(str(problem)) from None
    return DONE
