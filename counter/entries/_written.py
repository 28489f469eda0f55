"""JSON text changed in place: where each value stands in it, and how a new one is written as its neighbours are."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable

    Loc = tuple[str | int, ...]
    Span = tuple[int, int]

WIDE = 120  # characters that our tables keep one value on one line for
_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+')


def spans_in(text: str, deepest: int) -> dict[Loc, Span]:
    """Return where each value of sound JSON text begins and ends, down to `deepest` steps from the top."""
    found: dict[Loc, Span] = {}
    began: list[int] = []
    steps: list[str | int | None] = []  # key or index in each list and object not yet closed; None waits for a key
    for token in _TOKEN.finditer(text):
        word = token[0]
        if word in "}]":
            steps.pop()
            _note(found, steps, (began.pop(), token.end()), deepest)
        elif word == ",":
            last = steps[-1]
            steps[-1] = last + 1 if isinstance(last, int) else None
        elif word == ":":
            continue
        elif steps and steps[-1] is None:
            steps[-1] = str(json.loads(word))
        elif word in "{[":
            began.append(token.start())
            steps.append(0 if word == "[" else None)
        else:
            _note(found, steps, token.span(), deepest)
    return found


def _note(found: dict[Loc, Span], steps: list[str | int | None], span: Span, deepest: int) -> None:
    if len(steps) <= deepest:
        found[tuple(step for step in steps if step is not None)] = span


def written_as(value: Any, indent: int, before: int = 0) -> str:
    """Return JSON text of a value that begins `indent` blanks in, after `before` characters on its line."""
    line = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, dict | list) or not value or indent + before + len(line) <= WIDE:
        return line
    blanks, end = " " * (indent + 1), "\n" + " " * indent
    if isinstance(value, list):
        rows = [f"{blanks}{written_as(one, indent + 1)}" for one in value]
        return "[\n" + ",\n".join(rows) + f"{end}]"
    named = [(json.dumps(key, ensure_ascii=False), one) for key, one in value.items()]
    rows = [f"{blanks}{key}: {written_as(one, indent + 1, len(key) + 2)}" for key, one in named]
    return "{\n" + ",\n".join(rows) + f"{end}}}"


def with_replaced(text: str, pieces: Iterable[tuple[Span, str]]) -> str:
    """Return text with stretches of it replaced; they may not overlap."""
    for (start, end), new in sorted(pieces, reverse=True):
        text = text[:start] + new + text[end:]
    return text
