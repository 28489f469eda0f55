"""What makers' own letters mean in this shop: work them out from a list, show, teach and forget them."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counter.cli._core import catalogue_of
from counter.cli._input import STANDARD_INPUT, whole
from counter.cli._line import DONE, NOTHING, Answer, BadInput, Parser
from counter.files import read_bytes, reason

if TYPE_CHECKING:
    import argparse
    from collections.abc import Callable, Sequence

    from counter.cli._line import Commands
    from counter.marks import KnownLetters

SPELLED = "shape=quad, legs=4, pins=4, base=G24q, kind=uv-c or cct_k=4000"


def add(commands: Commands) -> None:
    """Name the command of this file."""
    letters = commands.add("letters", _letters, "what makers' own letters mean in this shop")
    what = letters.add_subparsers(metavar="learn | list | teach | forget", parser_class=Parser, required=True)

    def named(name: str, answer: Callable[[argparse.Namespace, Path], Answer], about: str) -> argparse.ArgumentParser:
        made = what.add_parser(name, help=about, description=about)
        made.set_defaults(letters=answer)
        return made

    learn = named("learn", _learn, "work them out from a table with columns code and description")
    learn.add_argument("file", metavar="FILE", help="a table as text, parted by comma, semicolon or tab; - reads it")
    learn.add_argument("--accept", action="store_true", help="keep what was worked out")
    named("list", _list, "show what is taught and learned")
    teach = named("teach", _teach, "say what letters mean; without a meaning: nothing that decides")
    teach.add_argument("word", metavar="LETTERS")
    teach.add_argument("means", metavar="KEY=VALUE", nargs="*", help=SPELLED)
    named("forget", _forget, "take the meaning of letters away").add_argument("word", metavar="LETTERS")


def _letters(chosen: argparse.Namespace, data: Path) -> Answer:
    answer: Callable[[argparse.Namespace, Path], Answer] = chosen.letters
    try:
        return answer(chosen, data)
    except OSError as problem:
        raise BadInput(f"letters: {reason(problem)}") from None
    except ValueError as problem:
        raise BadInput(str(problem)) from None


def _said(rows: Sequence[KnownLetters], **more: Any) -> Answer:
    from counter.marks import letters

    lines = [
        f"{one.letters:<8} {letters.letters_say(one.means) or 'nothing that decides'}"
        f"  ({one.support} for, {one.against} against, {'taught' if one.source == 'taught' else one.list_name})"
        for one in rows
    ]
    return Answer(
        {**letters.letters_report(rows), **more}, "\n".join(lines) or "no letters", DONE if rows else NOTHING
    )


def _learn(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.marks import letters

    text = whole() if chosen.file == STANDARD_INPUT else letters.as_text(read_bytes(Path(chosen.file)))
    try:
        lines = letters.lines_of(text)
    except ValueError as problem:
        raise BadInput(f"{chosen.file}: {problem}") from None
    at = datetime.now().isoformat(timespec="minutes")
    found = letters.learn(catalogue_of(data), lines, name=Path(chosen.file).name, at=at)
    if chosen.accept:
        letters.save_letters(data, letters.accept(letters.load_letters(data), found.letters))
    return _said(found.letters, lines=found.lines, used=found.used, accepted=bool(chosen.accept))


def _list(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.marks import letters

    return _said(letters.load_letters(data).letters)._replace(status=DONE)


def _teach(chosen: argparse.Namespace, data: Path) -> Answer:
    from pydantic import ValidationError

    from counter.marks import letters

    stated = dict(pair.partition("=")[::2] for pair in chosen.means)
    if wrong := [key for key in stated if key not in letters.LettersMean.model_fields]:
        raise BadInput(f"“{wrong[0][:40]}” is no meaning; type it as {SPELLED}")
    try:
        means = letters.LettersMean.model_validate_strings(stated)
    except ValidationError as problem:
        first = problem.errors()[0]
        raise BadInput(f"{'.'.join(map(str, first['loc']))}: {first['msg']}") from None
    at = datetime.now().isoformat(timespec="minutes")
    table = letters.teach(letters.load_letters(data), chosen.word, means, who="", at=at)
    letters.save_letters(data, table)
    return _said(table.letters[-1:])


def _forget(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter.marks import letters

    table = letters.load_letters(data)
    left = letters.forget(table, chosen.word)
    gone = [one for one in table.letters if one not in left.letters]
    if not gone:
        return _said(gone)._replace(text=f"“{chosen.word[:20]}” has no meaning here")
    letters.save_letters(data, left)
    return _said(gone)
