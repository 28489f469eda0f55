"""What makers' own letters mean in this shop: work them out from a list, show, teach and forget them."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counter.cli._core import catalogue_of
from counter.cli._input import STANDARD_INPUT, whole
from counter.cli._line import DONE, NOTHING, Answer, BadInput, Parser
from counter.files import read_bytes, reason
from counter.language import marked, tr

if TYPE_CHECKING:
    import argparse
    from collections.abc import Callable, Sequence

    from counter.cli._line import Commands
    from counter.marks import KnownLetters
    from counter.marks.letters import LetterTable, Line
    from counter.shop import HouseCodes

SPELLED = marked("shape=quad, legs=4, pins=4, base=G24q, kind=uv-c or cct_k=4000")


def add(commands: Commands) -> None:
    """Name the command of this file."""
    letters = commands.add("letters", _letters, tr("what makers' own letters mean in this shop"))
    names = "learn | list | teach | forget | withdraw | undo"
    what = letters.add_subparsers(metavar=names, parser_class=Parser, required=True)

    def named(name: str, answer: Callable[[argparse.Namespace, Path], Answer], about: str) -> argparse.ArgumentParser:
        made = what.add_parser(name, help=about, description=about)
        made.set_defaults(letters=answer)
        return made

    learn = named("learn", _learn, tr("work them out from a table with columns code and description"))
    parted = tr("a table as text, parted by comma, semicolon or tab; - reads it")
    learn.add_argument("file", metavar=tr("FILE"), help=parted)
    learn.add_argument("--accept", action="store_true", help=tr("keep what was worked out"))
    named("list", _list, tr("show what is taught and learned, and whose whole codes are known"))
    teach = named("teach", _teach, tr("say what letters mean; without a meaning: nothing special"))
    teach.add_argument("word", metavar="LETTERS")
    teach.add_argument("means", metavar="KEY=VALUE", nargs="*", help=tr(SPELLED))
    named("forget", _forget, tr("take the meaning of letters away")).add_argument("word", metavar="LETTERS")
    withdraw = named("withdraw", _withdraw, tr("take all back that a list taught, or the whole codes of a maker"))
    withdraw.add_argument("name", metavar="LIST_OR_MAKER")
    named("undo", _undo, tr("take the last change of letters back, whoever made it"))


def _letters(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.shop import StoreProblem

    answer: Callable[[argparse.Namespace, Path], Answer] = chosen.letters
    try:
        return answer(chosen, data)
    except StoreProblem as problem:
        raise BadInput(str(problem)) from None
    except OSError as problem:
        raise BadInput(tr("letters: {why}").format(why=reason(problem))) from None
    except ValueError as problem:
        raise BadInput(str(problem)) from None


def _codes(data: Path) -> HouseCodes:
    """Return what the store knows of makers' codes; an old file that cannot be taken over is named."""
    from counter import shop

    found = shop.load_house(data)
    if found.problems:
        raise BadInput(found.problems[0])
    return found.codes


def _change(data: Path, change: Callable[[LetterTable], LetterTable], what: str) -> None:
    from counter import shop

    shop.change_letters(shop.open_store(data), change, who="", what=what)


def _said(rows: Sequence[KnownLetters], **more: Any) -> Answer:
    from counter.marks import letters

    text = "\n".join(map(_line, rows)) or tr("no letters")
    return Answer({**letters.letters_report(rows), **more}, text, DONE if rows else NOTHING)


def _line(one: KnownLetters) -> str:
    from counter.marks import letters, spoken

    means = spoken(letters.letters_say(one.means)) or tr("nothing special")
    told = tr("{letters} {means}  ({support} for, {against} against, {origin})")
    origin = tr("taught") if one.source == "taught" else one.list_name
    counted = {"support": one.support, "against": one.against, "origin": origin}
    return told.format(letters=f"{one.letters:<8}", means=means, **counted)


def _learn(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.marks import letters

    lines = _lines(chosen.file)
    at = datetime.now().isoformat(timespec="minutes")
    name = Path(chosen.file).name
    found = letters.learn(catalogue_of(data), lines, name=name, at=at)
    if chosen.accept:
        _change(data, lambda table: letters.accept(table, found.letters), f"learned from {name}")
    return _said(found.letters, lines=found.lines, used=found.used, accepted=bool(chosen.accept))


def _lines(file: str) -> list[Line]:
    """Return the lines of a list, read as a stock list is: its columns of codes and of words, others left alone."""
    from counter import shelf
    from counter.marks.letters import Line

    rows = shelf.text_rows(whole().encode() if file == STANDARD_INPUT else read_bytes(Path(file)))
    columns = shelf.guess_columns(rows)
    for wanted in ("code", "description"):
        if wanted not in columns.at:
            found = ", ".join(filter(None, columns.headings)) or tr("none")
            told = tr("the first line names no column “{wanted}” (it names {found})")
            raise BadInput(f"{file}: {told.format(wanted=wanted, found=found[:80])}")
    code, words = columns.at["code"], columns.at["description"]
    body = (row.cells for row in rows[0 if columns.heading_row is None else columns.heading_row + 1 :])
    return [Line(cells[code].strip(), cells[words].strip()) for cells in body if len(cells) > max(code, words)]


def _list(chosen: argparse.Namespace, data: Path) -> Answer:
    codes = _codes(data)
    makers = [{"maker": one.maker, "codes": len(one.codes), "parts": len(one.parts)} for one in codes.makers]
    more = {"makers": makers} if makers else {}
    return _said(codes.letters.letters, **more)._replace(status=DONE)


def _teach(chosen: argparse.Namespace, data: Path) -> Answer:
    from pydantic import ValidationError

    from counter.marks import letters

    stated = dict(pair.partition("=")[::2] for pair in chosen.means)
    if wrong := [key for key in stated if key not in letters.LettersMean.model_fields]:
        raise BadInput(
            tr("“{text}” is no meaning; type it as {spelled}").format(text=wrong[0][:40], spelled=tr(SPELLED))
        )
    try:
        means = letters.LettersMean.model_validate_strings(stated)
    except ValidationError as problem:
        first = problem.errors()[0]
        raise BadInput(f"{'.'.join(map(str, first['loc']))}: {first['msg']}") from None
    at = datetime.now().isoformat(timespec="minutes")
    taught = letters.teach(letters.LetterTable(), chosen.word, means, who="", at=at).letters
    _change(data, lambda table: letters.teach(table, chosen.word, means, who="", at=at), f"taught {chosen.word}")
    return _said(taught)


def _forget(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.marks import letters

    table = _codes(data).letters
    left = letters.forget(table, chosen.word)
    gone = [one for one in table.letters if one not in left.letters]
    if not gone:
        return _said(gone)._replace(text=tr("“{letters}” has no meaning here").format(letters=chosen.word[:20]))
    _change(data, lambda now: letters.forget(now, chosen.word), f"forgot {chosen.word}")
    return _said(gone)


def _withdraw(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shop
    from counter.marks import letters

    codes = _codes(data)
    left = letters.withdraw(codes.letters, chosen.name)
    gone = [one for one in codes.letters.letters if one not in left.letters]
    if gone:
        _change(data, lambda now: letters.withdraw(now, chosen.name), f"withdrew {chosen.name}")
        return _said(gone)
    makers = [one.maker for one in codes.makers if one.maker == chosen.name]
    if not makers:
        told = tr("no list and no maker here is named “{name}”").format(name=chosen.name[:40])
        return _said(gone)._replace(text=told)
    shop.drop_maker(shop.open_store(data), chosen.name)
    told = tr("the codes of {name} are taken out").format(name=chosen.name)
    return Answer({"letters": [], "makers": makers}, told, DONE)


def _undo(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shop

    undone = shop.undo_letters(shop.open_store(data)) if shop.has_store(data) else None
    if undone is None:
        return Answer({"undone": None}, tr("nothing to undo"), NOTHING)
    by = f", {undone.who}" if undone.who else ""
    told = tr("undone: {what} ({when} UTC{by})").format(what=undone.what, when=undone.at[:16], by=by)
    return Answer({"undone": undone._asdict()}, told, DONE)
