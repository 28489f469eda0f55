"""Read a JSON file that may be anything: too big, not text, not JSON, nested without end."""

from __future__ import annotations

import json
import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NoReturn

from counter.catalogue._problems import Finding, Problem, shown
from counter.files import read_bytes, reason
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from counter.catalogue._problems import Loc

DEEPEST = 100  # brackets within brackets; the JSON reader behind the models gives up at 200


@dataclass(frozen=True, slots=True)
class Document:
    """A file that is JSON with an object at its top, and what already showed while reading it."""

    data: dict[str, Any]
    findings: tuple[Finding, ...] = ()
    text: str = ""


def _too_deep() -> Problem:
    said = tr("nested more than {most} deep").format(most=DEEPEST)
    return Problem("", said, tr("No file of ours is: name another."))


def read(path: Path) -> Document | Problem:
    """Return the file's content, or the one problem that keeps it from being read. Never raises for bad input."""
    raw = _bytes(path)
    if isinstance(raw, Problem):
        return raw
    text = _text(raw)
    return text if isinstance(text, Problem) else parse(text)


def parse(text: str) -> Document | Problem:
    """Return the content of JSON text, or the problem with it."""
    try:
        data = json.loads(text, object_pairs_hook=_object, parse_constant=_refuse)
    except json.JSONDecodeError as error:
        where = tr("line {line}, column {column}").format(line=error.lineno, column=error.colno)
        way_out = tr("Correct the file at that line and column.")
        return Problem("", tr("this is not JSON"), way_out, where, line=error.lineno)
    except RecursionError:
        return _too_deep()
    except ValueError as error:
        return Problem(
            "",
            tr("not JSON: {problem}").format(problem=shown(error)),
            tr("Write plain numbers, text, lists and objects only."),
        )
    if not isinstance(data, dict):
        return Problem("", tr("the file holds no object"), tr("Begin and end it with curly brackets."))
    return _too_deep() if _depth(data) > DEEPEST else Document(data, tuple(_oddities(data, ())), text)


def _bytes(path: Path) -> bytes | Problem:
    try:
        return read_bytes(path)
    except FileNotFoundError:
        return Problem("", tr("there is no file {file}").format(file=shown(path)), tr("Correct the name."))
    except OSError as error:
        return Problem(
            "",
            tr("the file cannot be read: {why}").format(why=shown(reason(error))),
            tr("Check its name and its permissions."),
        )


def _text(raw: bytes) -> str | Problem:
    if raw.startswith(b"\xef\xbb\xbf"):
        return Problem("", tr("the file begins with a byte-order mark"), tr("Save it as UTF-8 without one."))
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return Problem(
            "",
            tr("not UTF-8 text at byte {place}").format(place=error.start),
            tr("Save the file as UTF-8."),
            tr("line {line}").format(line=line),
            line=line,
        )


def _depth(data: Any) -> int:
    """Return how deep lists and objects lie in one another, up to one more than is allowed."""
    depth, layer = 0, [data]
    while layer and depth <= DEEPEST:
        inner = (value.values() if isinstance(value, dict) else value for value in layer)
        layer = [value for values in inner for value in values if isinstance(value, dict | list)]
        depth += 1
    return depth


class _Doubled(dict[str, Any]):
    """An object in which a key stands more than once; JSON allows it and keeps the last."""

    twice: tuple[str, ...] = ()


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    content = dict(pairs)
    if len(content) == len(pairs):
        return content
    doubled = _Doubled(content)
    doubled.twice = tuple(key for key, count in Counter(key for key, _ in pairs).items() if count > 1)
    return doubled


def _refuse(word: str) -> NoReturn:
    raise ValueError(tr("{word} is not a number that JSON knows").format(word=word))


def _oddities(value: Any, loc: Loc) -> Iterator[Finding]:
    """Yield keys that stand twice, numbers too large to hold and text that no encoding can write."""
    if isinstance(value, dict):
        for key in value.twice if isinstance(value, _Doubled) else ():
            yield Finding((*loc, key), tr("the key stands more than once in one object"), tr("Keep one of them."))
        for key, inner in value.items():
            yield from _oddities(inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _oddities(inner, (*loc, index))
    elif isinstance(value, float) and not math.isfinite(value):
        yield Finding(loc, tr("the number is too large"), tr("Write a number of the lamp trade."))
    elif isinstance(value, str) and not value.isascii() and shown(value, len(value)) != value:
        yield Finding(loc, tr("the text holds characters that cannot be shown"), tr("Write it anew."))
