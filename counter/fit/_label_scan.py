"""A ballast label cut into what each stretch says, by the table of wordings in resources/label.json.

The label is folded first. At every word the rows of the table are tried in their order and the first that fits is
taken; what words speak of is found beside that, wherever it stands. What neither explains is left as unread.
"""

from __future__ import annotations

import json
import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from counter import paths, words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.words import Match

_HIDES: dict[str, frozenset[str]] = {  # what stands inside such a stretch and says nothing by itself
    "volts": frozenset({"line-voltage", "bypassed", "led-driver"}),
    "part": frozenset({"restricts"}),
    "starting": frozenset({"restricts", "uv-b", "magnetic"}),
    "temperature": frozenset({"restricts"}),
    "approval": frozenset({"restricts", "led"}),
    "dimming": frozenset({"led-driver"}),
    "at most": frozenset({"restricts"}),
    "percent": frozenset({"restricts"}),
    "clear part": frozenset({"uv-c"}),
    "figure": frozenset({"restricts"}),
    "free of": frozenset({"restricts", "other-source", "fault"}),
}
_MEASURED = frozenset(  # a bare 254 in such a stretch is no wavelength
    ["volts", "amperes", "hertz", "wire", "length", "size", "hours", "part", "percent", "temperature", "approval"]
)
_EXCLUSIVE = frozenset(
    ["only", "solo", "solamente", "unicamente", "nur", "seulement", "uniquement", "ausschliesslich"]
)
_JOINS = re.compile(r"[\d,/&+]|\b(?:or|and|o|y|ou|et|oder|und)\b")
_SAYS_WHICH = ("watts", "code", "tube", "pins", "base")  # stretches that "only" may stand beside
_OF_SUPPLY = ("volts", "hertz")  # "120V only" shuts no lamp out
_ORDER = re.compile(r"(?:do not|don't|never|ne pas|ne jamais|no \w+[aei]r\b|nicht)")  # of what stands behind
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
_KIND_OF_LAMP = re.compile(r"([^\W\d_]{3,}) (?:lamps?|tubes?|bulbs?)\b")
_WORD = re.compile(r"\d+(?:[.,]\d+)?|[^\W\d_]+|\?+")


class Stretch(NamedTuple):
    """One stretch of the folded label, the row that explains it, and the groups that the row took out."""

    start: int
    end: int
    about: str
    means: str
    groups: dict[str, str]
    is_unread: bool = False
    is_exclusive: bool = False


class Scan(NamedTuple):
    """Everything found in a label: stretches in their order, topics of words, and what is left over."""

    stretches: tuple[Stretch, ...]
    topics: tuple[Match, ...]
    unread: tuple[tuple[int, int], ...]


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
def gap() -> re.Pattern[str]:
    """Return what may stand between a count and the lamps that it counts, or "only" and the lamps behind it."""
    return re.compile(_filled(table()["gap"]))


@cache
def _gap_before_only() -> re.Pattern[str]:
    """Return what may stand between "only" and the lamps before it: with a "for" something else begins."""
    return re.compile(_filled(table()["gap_before_only"]))


@lru_cache(maxsize=128)
def scan(plain: str) -> Scan:
    """Return what a folded label says, stretch by stretch."""
    stretches = _with_exclusives(plain, tuple(_stretches(plain)))
    topics = tuple(one for one in words.matches(plain) if not _is_hidden(plain, one, stretches))
    return Scan(stretches, topics, tuple(_unread(plain, stretches)))


def _stretches(plain: str) -> Iterator[Stretch]:
    at = end = 0
    while at < len(plain):
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


def _with_exclusives(plain: str, stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Mark what the word "only" stands beside: such lamps and no others."""
    marked = list(stretches)
    for word in _WORD.finditer(plain):
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


def _run_behind(plain: str, end: int, stretches: Sequence[Stretch]) -> list[int]:
    after = (at for at, one in enumerate(stretches) if one.start >= end and one.about in _SAYS_WHICH)
    return [at for at in after if gap().match(_between(plain, end, stretches[at].start, stretches))]


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
        if not _gap_before_only().match(between) or (is_bare and one.about == stretches[found[-1]].about):
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


def _is_hidden(plain: str, one: Match, stretches: Sequence[Stretch]) -> bool:
    is_bare = plain[one.start : one.end].replace(".", "").isdigit()
    for other in stretches:
        is_within = other.start <= one.start and one.end <= other.end
        if is_within and (one.topic in _HIDES.get(other.about, ()) or (is_bare and other.about in _MEASURED)):
            return True
    if one.topic != "restricts":
        return False
    is_only = plain[one.start : one.end] in _EXCLUSIVE
    return (is_only and _names_which(plain, one, stretches)) or _is_of_place(plain, one, stretches)


def _names_which(plain: str, only: Match, stretches: Sequence[Stretch]) -> bool:
    """Whether "only" stands beside lamps that are named, or right behind a supply."""
    behind = (one for one in stretches if one.about in _OF_SUPPLY and one.end <= only.start)
    is_of_supply = any(not plain[one.end : only.start].strip(" (") for one in behind)
    return is_of_supply or bool(_beside(plain, only.start, only.end, stretches))


def _is_of_place(plain: str, one: Match, stretches: Sequence[Stretch]) -> bool:
    """Whether the clause around a "not" or "only" is one of place, people, mounting, waste or care."""
    first, last = max(0, one.start - LONGEST_CLAUSE), min(len(plain), one.end + LONGEST_CLAUSE)
    start = max((found.end() for found in _CLAUSE.finditer(plain, first, one.start)), default=first)
    start = one.start if _ORDER.match(plain, one.start) else start
    behind = _CLAUSE.search(plain, one.end)
    end = behind.start() if behind else len(plain)
    if end > last or (start == first > 0):  # too long a clause to be one of a place alone
        return False
    told = [(row.start, row.end) for row in stretches if row.about in _MEASURED and start <= row.start < end]
    told += [
        (row.start, row.end) for row in words.matches(plain) if row.topic == "restricts" and start <= row.start < end
    ]
    left = [
        word[0]
        for word in _WORD.finditer(plain, start, end)
        if not any(first <= word.start() and word.end() <= last for first, last in told)
    ]
    is_of_use = bool(_ORDER.match(plain, one.start) and _OF_USE.fullmatch("".join(left[:1])))
    if is_of_use and not _AT.fullmatch("".join(left[1:2])):
        return False  # "do not use" and a name of the place: nobody may use it at all
    return all(map(words.is_plain, left)) and any(map(words.is_beside, left))


def _unread(plain: str, stretches: Sequence[Stretch]) -> Iterator[tuple[int, int]]:
    """Yield the runs of words that nothing explains; a single letter says nothing by itself."""
    known = bytearray(len(plain))
    told = [(one.start, one.end) for one in stretches if not one.is_unread]
    told += [(one.start, one.end) for one in words.matches(plain)]
    for start, end in told:
        known[start:end] = b"1" * (end - start)
    for one in stretches:
        if one.is_unread:
            known[one.start : one.end] = bytes(one.end - one.start)
    for kind in _KIND_OF_LAMP.finditer(plain):
        if words.names_kind(kind[1]) and not _is_phrase(plain, kind.start(1), kind.end()):
            known[kind.start(1) : kind.end(1)] = bytes(kind.end(1) - kind.start(1))
    run: tuple[int, int] | None = None
    for word in _WORD.finditer(plain):
        is_known = all(known[word.start() : word.end()]) or (len(word[0]) == 1 and word[0].isalpha())
        if is_known and run:
            yield run
        run = None if is_known else (run[0] if run else word.start(), word.end())
    if run:
        yield run


def _is_phrase(plain: str, start: int, end: int) -> bool:
    """Whether these words together are known to say nothing: a desk lamp."""
    return any(one.topic == "harmless" and one.start <= start and end <= one.end for one in words.matches(plain))
