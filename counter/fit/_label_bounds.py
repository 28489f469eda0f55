"""What "only" and "not" on a label stand beside: the lamps that it means alone, or shuts out, or a place.

"Only" beside lamps means these and no others; an order not to use lamps that it names shuts those out; a "not" or
"only" of place, people, mounting or waste shuts no lamp out.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from counter import words
from counter.fit._label_rows import Stretch, pattern, table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.words import Match

_EXCLUSIVE = frozenset(
    ["only", "solo", "solamente", "unicamente", "nur", "seulement", "uniquement", "ausschliesslich"]
)
_JOINS = re.compile(r"[\d,/&+]|\b(?:or|and|nor|o|u|y|ni|ou|et|oder|und|noch)\b")
SENTENCE = re.compile(r"[.;!](?!\d)")
_ENDS_ORDER = re.compile(rf"{SENTENCE.pattern}|/ ?(?=(?:not|do not|pas|ne pas|nicht|no|non|nao)\b)")
_SAYS_WHICH = (
    "watts",
    "code",
    "tube",
    "pins",
    "base",
    "fluorescent",
    "source",
)  # stretches that "only" may stand beside
_FIGURES = ("volts", "hertz", "amperes", "temperature", "approval")
_OF_SUPPLY = ("volts", "hertz")  # "120V only" shuts no lamp out
_ORDER = re.compile(  # of what stands behind
    r"(?:do not|don't|never|ne pas|ne jamais|n(?:ao|on?) \w+[aei]re?\b|nicht)"
)
_OF_USE = re.compile(
    r"use|operate|run|energi[sz]e|switch|turn|light|touch|usar|utilizar|operar|encender|prender|"
    r"utiliser|employer|allumer|verwenden|benutzen|betreiben|einschalten"
)
_AT = re.compile(
    r"in|on|at|near|under|over|inside|within|with|where|outdoors|if|when|while|"
    r"en|sobre|cerca|bajo|junto|con|dans|sur|sous|avec|im|am|auf|bei|unter"
)
_CLAUSE = re.compile(r"[.,;:!()]+(?!\d)")
LONGEST_CLAUSE = 160  # characters before and behind a "not" or "only"
WORD = re.compile(r"\d+(?:[.,]\d+)?|[^\W\d_]+|\?+")
MEASURED = frozenset(  # a bare 254 in such a stretch is no wavelength
    ["volts", "amperes", "hertz", "wire", "length", "size", "hours", "part", "percent", "temperature", "approval"]
)


class Denial(NamedTuple):
    """An order not to use lamps that it names: where it stands, and where those lamps begin."""

    start: int
    named: int
    end: int


def with_exclusives(plain: str, stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Mark what the word "only" stands beside: such lamps and no others."""
    marked = list(stretches)
    for word in WORD.finditer(plain):
        if word[0] in _EXCLUSIVE:
            for at in _beside(plain, word.start(), word.end(), marked):
                marked[at] = marked[at]._replace(is_exclusive=True)
    for order in (one for one in stretches if one.about == "points"):
        for at in _run_behind(plain, order.end, marked):
            marked[at] = marked[at]._replace(is_exclusive=True)
    return tuple(marked)


def _beside(plain: str, start: int, end: int, stretches: Sequence[Stretch]) -> list[int]:
    """Return the stretches that a word refers to: those just before it, else those just after it.

    Of watts on both sides, as in "26W only 18W", it is not known which are meant.
    """
    before, after = _run_before(plain, start, stretches), _run_behind(plain, end, stretches)
    listing = [{stretches[at].about for at in side} & {"watts", "code"} for side in (before, after)]
    if all(listing) and plain[end : stretches[after[0]].start].isspace():
        return []
    return before or after


def _run_behind(plain: str, end: int, stretches: Sequence[Stretch], between: str = "gap") -> list[int]:
    after = (at for at, one in enumerate(stretches) if one.start >= end and one.about in _SAYS_WHICH)
    return [at for at in after if pattern(between).match(_between(plain, end, stretches[at].start, stretches))]


def _run_before(plain: str, start: int, stretches: Sequence[Stretch]) -> list[int]:
    """Return the stretches that lead up to a word, joined by "or", a comma, counts; bare neighbours end the run."""
    found: list[int] = []
    edge = start
    for at in reversed(range(len(stretches))):
        one = stretches[at]
        if one.end > edge or one.about not in _SAYS_WHICH:
            continue
        between = _between(plain, one.end, start, stretches)
        is_bare = bool(found) and not _JOINS.search(plain[one.end : edge])
        if not pattern("gap_before_only").match(between) or (is_bare and one.about == stretches[found[-1]].about):
            break
        found.append(at)
        edge = one.start
    return found


def _between(plain: str, start: int, end: int, stretches: Sequence[Stretch]) -> str:
    """Return the text between two places without the stretches that name lamps or count them."""
    text = list(plain[start:end])
    for one in stretches:
        if one.about in (*_SAYS_WHICH, "count") and start <= one.start and one.end <= end:
            text[one.start - start : one.end - start] = " " * (one.end - one.start)
    return "".join(text)


def denials(plain: str, stretches: Sequence[Stretch], topics: Sequence[Match]) -> Iterator[Denial]:
    """Yield the orders that shut out lamps right behind them: "do not use 2-pin lamps", "not for LED tubes".

    Where the sentence goes on with "or" and "and", it may shut out lamps that are not known here.
    """
    sources = (Stretch(one.start, one.end, "source", "", {}) for one in topics if _is_other_source(plain, one))
    named = sorted([*stretches, *sources])
    for one in topics:
        if one.topic == "restricts" and plain[one.start : one.end] in table()["denials"]:
            run = [named[at] for at in _run_behind(plain, one.end, named, "gap_of_denial")]
            if run and not _JOINS.search(_rest(plain, run[-1].end)):
                yield Denial(one.start, run[0].start, run[-1].end)


def _rest(plain: str, start: int) -> str:
    """Return the rest of a sentence; an order that is said again in another language is one of its own."""
    return _ENDS_ORDER.split(plain[start:], maxsplit=1)[0].replace(" w/", " with ")


def _is_other_source(plain: str, one: Match) -> bool:
    return (
        one.topic in ("led", "other-source")
        and pattern("sources_denied").fullmatch(plain, one.start, one.end) is not None
    )


def is_of_only(plain: str, one: Match, stretches: Sequence[Stretch]) -> bool:
    """Whether a word is an "only" beside lamps that are named, or right behind a supply."""
    return plain[one.start : one.end] in _EXCLUSIVE and _names_which(plain, one, stretches)


def _names_which(plain: str, only: Match, stretches: Sequence[Stretch]) -> bool:
    """Whether it stands beside lamps that are named, or right behind a supply."""
    behind = (one for one in stretches if one.about in _OF_SUPPLY and one.end <= only.start)
    is_of_supply = any(not plain[one.end : only.start].strip(" (") for one in behind)
    return is_of_supply or bool(_beside(plain, only.start, only.end, stretches))


def _clause(plain: str, one: Match, stretches: Sequence[Stretch]) -> tuple[int, int]:
    """Return the clause around a word: to a stop or to a figure of the supply, which begins a line of its own."""
    figures = [row for row in stretches if row.about in _FIGURES]
    stops = [found.end() for found in _CLAUSE.finditer(plain, 0, one.start)]
    stops += [row.end for row in figures if row.end <= one.start]
    ends = [found.start() for found in _CLAUSE.finditer(plain, one.end)]
    ends += [row.start for row in figures if row.start >= one.end]
    start = one.start if _ORDER.match(plain, one.start) else max(stops, default=0)
    return start, min(ends, default=len(plain))


def is_of_place(plain: str, one: Match, stretches: Sequence[Stretch]) -> bool:
    """Whether the clause around a "not" or "only" is one of place, people, mounting, waste or care."""
    first, last = max(0, one.start - LONGEST_CLAUSE), min(len(plain), one.end + LONGEST_CLAUSE)
    start, end = _clause(plain, one, stretches)
    if end > last or (start <= first and first > 0):  # too long a clause to be one of a place alone
        return False
    told = [(row.start, row.end) for row in stretches if row.about in MEASURED and start <= row.start < end]
    told += [
        (row.start, row.end) for row in words.matches(plain) if row.topic == "restricts" and start <= row.start < end
    ]
    left = [
        word[0]
        for word in WORD.finditer(plain, start, end)
        if not any(first <= word.start() and word.end() <= last for first, last in told)
    ]
    is_of_use = bool(_ORDER.match(plain, one.start) and _OF_USE.fullmatch("".join(left[:1])))
    if is_of_use and not _AT.fullmatch("".join(left[1:2])):
        return False  # "do not use" and a name of the place: nobody may use it at all
    return all(map(words.is_plain, left)) and any(map(words.is_beside, left))
