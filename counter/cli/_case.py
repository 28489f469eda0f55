"""A saved case: everything the panes show of it, and the window as a picture."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from counter.cli._core import catalogue_of, desk_of, saved_case
from counter.cli._input import STANDARD_INPUT, lines
from counter.cli._line import BAD_INPUT, BY_VERDICT, DONE, Answer, BadInput
from counter.files import reason, target_of
from counter.language import marked, tr

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from counter.cli._core import Desk
    from counter.cli._line import Commands
    from counter.desk import Assessment, Case


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    assess = commands.add("assess", _assess, tr("everything the panes show of a saved case"))
    each = tr(
        "a saved case; - reads one case a line (JSON lines) and answers one line each, a bad one with its problem"
    )
    assess.add_argument("case", metavar="CASE.json", type=Path, help=each)
    picture = commands.add("picture", _picture, tr("the window as a picture, with no screen needed"))
    picture.add_argument("out", metavar="OUT.png", type=Path)
    picture.add_argument("--case", metavar="CASE.json", type=Path, help=tr("a saved case to show; - reads it"))
    picture.add_argument("--size", metavar="WxH", default="1440x900", help=tr("in pixels, each side 200 to 8000"))
    picture.add_argument("--theme", choices=("light", "dark"), default="light")


def _assess(chosen: argparse.Namespace, data: Path) -> Answer | Iterator[Answer]:
    desk = desk_of(data)
    if str(chosen.case) == STANDARD_INPUT:
        return _assess_lines(desk)
    return _whole(_found(saved_case(chosen.case, desk.catalogue), desk))


def _assess_lines(desk: Desk) -> Iterator[Answer]:
    """Answer each line; one that is no case gets its problem as its answer, so that lines and answers stay paired."""
    from counter.desk import CaseProblem, case_in

    for number, line in enumerate(_cases(), 1):
        try:
            case = case_in(line, tr("case {number}").format(number=number), desk.catalogue)
        except CaseProblem as problem:
            told = tr("problem: {problem}").format(problem=problem)
            yield Answer({"problem": str(problem)}, told, BAD_INPUT)
            continue
        found = _found(case, desk)
        yield Answer(found.model_dump(mode="json"), _one_line(found), _status(found))


def _cases() -> Iterator[str]:
    """Yield one case after another; a single case may be spread over many lines, as files of ours are."""
    pending = lines()
    first = next(pending, None)
    if first is None:
        return
    if first.strip() in ("{", "[{"):  # no case by itself: what follows belongs to it
        yield "\n".join([first, *pending])
        return
    yield first
    yield from pending


def _found(case: Case, desk: Desk) -> Assessment:
    if case.place is not None and case.on is None:
        case = case.model_copy(update={"on": date.today()})
    return desk.assess(case)


def _status(found: Assessment) -> int:
    return BY_VERDICT.get(found.verdict or "", DONE)


def _whole(found: Assessment) -> Answer:
    said = [f"{found.headline} {found.subline}".strip(), _verdict(found), found.advice]
    said += [one.says for one in found.sold]
    said += [f"{tr(one.signal)}: {one.says} {one.do}" for one in found.cautions]
    return Answer(found.model_dump(mode="json"), "\n".join(said), _status(found))


NO_VERDICT = marked("no verdict yet")


def _verdict(found: Assessment) -> str:
    return tr(found.verdict or NO_VERDICT)


def _one_line(found: Assessment) -> str:
    first = [f"{tr(one.signal)}: {one.says}" for one in found.cautions[:1]]
    said = (_verdict(found), f"{found.headline} {found.subline}".strip(), *first)
    return "  ".join(" ".join(words.split()) for words in said)


def _size(text: str) -> tuple[int, int]:
    width, cross, height = text.lower().partition("x")
    if not (cross and text.isascii() and width.isdigit() and height.isdigit()):
        raise BadInput(tr("--size: “{text}” is not a size; type it as 1440x900").format(text=text[:20]))
    size = (int(width), int(height))
    if not all(200 <= side <= 8000 for side in size):
        raise BadInput(tr("--size: {size} is out of range; each side takes 200 to 8000 pixels").format(size=text))
    return size


def _hold_png(out: Path) -> None:
    try:
        if out.suffix.lower() != ".png" or not target_of(out).parent.is_dir():
            raise BadInput(tr("{file}: name a .png in a folder that exists").format(file=out))
    except OSError as problem:
        raise BadInput(tr(UNWRITABLE).format(file=out, why=reason(problem))) from None


UNWRITABLE = marked("{file}: {why}; name a .png in a folder that can be written")


def _picture(chosen: argparse.Namespace, data: Path) -> Answer:
    size = _size(chosen.size)
    _hold_png(chosen.out)
    case = saved_case(chosen.case, catalogue_of(data)) if chosen.case is not None else None
    from counter.app import save_picture  # what was typed is judged first: a bad size needs no Qt

    try:
        save_picture(chosen.out, data, case, size, chosen.theme, chosen.language or "")
    except OSError as problem:
        raise BadInput(tr(UNWRITABLE).format(file=chosen.out, why=reason(problem))) from None
    return Answer({"picture": str(chosen.out), "width": size[0], "height": size[1]}, "")
