"""The table of label wordings, resources/label.json, and a folded label cut into the stretches that its rows explain.

At every word the rows are tried in their order and the first that fits is taken.
"""

from __future__ import annotations

import json
import re
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from counter import paths

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator


class Stretch(NamedTuple):
    """One stretch of the folded label, the row that explains it, and the groups that the row took out."""

    start: int
    end: int
    about: str
    means: str
    groups: dict[str, str]
    is_unread: bool = False
    is_exclusive: bool = False


class _Row(NamedTuple):
    about: str
    means: str
    pattern: re.Pattern[str]
    is_unread: bool


@cache
def table() -> dict[str, Any]:
    """Return the table of wordings as it lies in the file."""
    return cast("dict[str, Any]", json.loads((paths.resources() / "label.json").read_text(encoding="utf-8")))


def _filled(pattern: str) -> str:
    pieces = table()["pieces"]
    for _ in range(3):  # a piece may hold others
        pattern = re.sub(r"\{([A-Z]+)\}", lambda name: str(pieces[name[1]]), pattern)
    return pattern


@cache
def _rows() -> tuple[_Row, ...]:
    return tuple(
        _Row(row["about"], row["means"], re.compile(_filled(row["pattern"])), bool(row.get("unread")))
        for row in table()["rows"]
    )


@cache
def _any_row() -> re.Pattern[str]:
    """Return all rows as one pattern, which the engine tries far faster than one by one."""
    plain = (re.sub(r"\(\?P<\w+>", "(?:", _filled(row["pattern"])) for row in table()["rows"])
    return re.compile("|".join(f"(?P<r{at}>{pattern})" for at, pattern in enumerate(plain)))


@cache
def holder_words() -> re.Pattern[str]:
    """Return what holders bear beside their mark and what says nothing: ratings, approvals, how they are mounted."""
    return re.compile("|".join(row["pattern"] for row in table()["holder"]))


@cache
def pattern(name: str) -> re.Pattern[str]:
    """Return a pattern of the table by its name: what may stand between a word and the lamps that it is of, …"""
    return re.compile(_filled(table()[name]))


@cache
def starts() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """Return the ways of starting and what labels print for each, in the order in which they are looked for."""
    return tuple((name, re.compile(pattern)) for name, pattern in table()["starts"].items())


def stretches(plain: str, known: Iterable[Stretch] = ()) -> Iterator[Stretch]:
    """Yield the stretches that a row explains, in their order, and those that are known before."""
    at = end = 0
    waiting = {one.start: one for one in known}
    while at < len(plain):
        if one := waiting.get(at):
            yield one
            at = end = one.end
            continue
        found = _any_row().match(plain, at) if _begins(plain, at) or (at == end and plain[at] != " ") else None
        if found is None or found.end() == at:
            at += 1
            continue
        row = _rows()[int(str(found.lastgroup)[1:])]
        own = row.pattern.match(plain, at)
        groups = {name: text for name, text in (own.groupdict() if own else {}).items() if text}
        yield Stretch(at, found.end(), row.about, row.means, groups, row.is_unread)
        at = end = found.end()


def _begins(plain: str, at: int) -> bool:
    """Whether a word or number, or a sign before one, begins here."""
    if plain[at] == " " or at == 0:
        return at == 0
    before, here = plain[at - 1], plain[at]
    return not (before.isalnum() and here.isalnum()) or before.isdigit() != here.isdigit()
