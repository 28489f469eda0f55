"""The line of a JSON text on which a value stands; the text has been read as JSON before."""

from __future__ import annotations

import json
import re
from bisect import bisect_right
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.catalogue._problems import Loc

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+')


def lines_of(text: str, locs: Iterable[Loc]) -> dict[Loc, int]:
    """Return for each place the line, from 1, of its value; of the nearest thing around it where it is missing."""
    wanted = list(locs)
    offsets = _offsets(text, {loc[:n] for loc in wanted for n in range(len(loc) + 1)})
    breaks = [at.start() for at in re.finditer("\n", text)]
    found = {}
    for loc in wanted:
        around = next((loc[:n] for n in range(len(loc), -1, -1) if loc[:n] in offsets), ())
        found[loc] = bisect_right(breaks, offsets.get(around, 0)) + 1
    return found


def _offsets(text: str, wanted: set[Loc]) -> dict[Loc, int]:
    """Return where each wanted value begins; `open_` holds key or index in each list and object not yet closed."""
    found: dict[Loc, int] = {}
    open_: list[str | int | None] = []
    for token in _TOKEN.finditer(text):
        word = token[0]
        if word in "}]":
            open_.pop()
        elif word == ",":
            last = open_[-1]
            open_[-1] = last + 1 if isinstance(last, int) else None
        elif word != ":":
            if open_ and open_[-1] is None:  # an object that waits for a key
                open_[-1] = json.loads(word)
                continue
            loc = tuple(step for step in open_ if step is not None)
            if loc in wanted:
                found[loc] = token.start()
            if word in "{[":
                open_.append(0 if word == "[" else None)
    return found
