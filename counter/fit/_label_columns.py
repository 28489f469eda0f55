"""Numbers under the heads of a label's columns: "LAMP QTY INPUT W BF", then a lamp's code and its figures.

A heading that names lamp watts explains nothing here: then a bare number may be the lamp's. Watts behind amperes
are the supply's where lamps stand by their codes; on plates without codes they are the lamp's.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter.fit._label_rows import Stretch, pattern
from counter.language import marked

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

LEAST_COLUMNS = 3  # words of a heading
MOST_LAMPS = 8  # in one fixture
FIGURES = marked("figures of a ballast")
DRAWN = marked("watts drawn from the supply")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+")
_BEHIND_AMPERES = re.compile(r"\d ?a(?:mps?|mperes?)?\b[ ,;]*$")
_REDUCED = re.compile(r" ?\d\d ?w(?= )")  # of a saver, right behind the lamp's code


def with_columns(plain: str, found: Sequence[Stretch]) -> tuple[Stretch, ...]:
    """Return the stretches with the numbers that stand under a heading behind a lamp's code, counts as counts."""
    told = [figure for head in pattern("heading").finditer(plain) for figure in _under(plain, head, found)]
    free = (new for new in told if not any(old.start < new.end and new.start < old.end for old in found))
    return tuple(sorted((*found, *free)))


def without_drawn(plain: str, found: Sequence[Stretch]) -> tuple[Stretch, ...]:
    """Take watts right behind amperes for those drawn, where lamps stand by their codes: "F17T8 120V .27A 32W"."""
    names_lamps = any(one.about == "code" for one in found)
    return tuple(
        Stretch(one.start, one.end, "input", DRAWN, {}) if names_lamps and _is_drawn(plain, one) else one
        for one in found
    )


def _is_drawn(plain: str, one: Stretch) -> bool:
    is_bare = one.about == "watts" and "counts" not in one.groups
    return is_bare and _BEHIND_AMPERES.search(plain, max(0, one.start - 12), one.start) is not None


def _under(plain: str, head: re.Match[str], found: Sequence[Stretch]) -> Iterator[Stretch]:
    """Yield the figures of the rows that begin right behind a heading."""
    names = [one[0] for one in pattern("column").finditer(head[0])]
    rows = [one for one in found if one.about == "code" and one.start >= head.end()]
    is_heading = len(names) >= LEAST_COLUMNS and not pattern("own_watts").search(head[0])
    if rows and is_heading and not any(map(str.isalnum, plain[head.end() : rows[0].start])):
        is_counted = any(pattern("counts_lamps").fullmatch(name.rstrip(".")) for name in names)
        yield from _no_orders(head)
        for one in rows:
            yield from _figures(plain, one.end, len(names) - 1, is_counted=is_counted)


def _no_orders(head: re.Match[str]) -> Iterator[Stretch]:
    """Yield the "no." of a heading, which counts lamps and shuts none out."""
    for one in re.finditer(r"\bno\b", head[0]):
        yield Stretch(head.start() + one.start(), head.start() + one.end(), "figure", FIGURES, {})


def _figures(plain: str, start: int, most: int, *, is_counted: bool) -> Iterator[Stretch]:
    """Yield the figures of one row, as many as there are columns beside the lamp's; the first may count lamps."""
    reduced = _REDUCED.match(plain, start)
    start = reduced.end() if reduced else start
    row = pattern("figures").match(plain, start)
    at = -1
    for number in _NUMBER.finditer(plain, start, row.end()) if row is not None else ():
        at += not _is_second(plain, number)
        if at < most:
            is_count = is_counted and at == 0 and number[0].isdigit() and 0 < int(number[0]) <= MOST_LAMPS
            about, groups = ("count", {"counts": number[0]}) if is_count else ("input", {})
            yield Stretch(number.start(), number.end(), about, FIGURES, groups)


def _is_second(plain: str, number: re.Match[str]) -> bool:
    """Whether a number stands in a cell with the one before: amperes at two voltages, degrees on two scales."""
    return re.search(r"\d ?[fc]?/ ?-?$", plain[: number.start()]) is not None
