"""What a folded ballast label says: its stretches, the topics of its words, what it shuts out, and what is unread.

Stretches come from the table of wordings (`_label_rows`), what "only" and "not" mean from `_label_bounds`; what
words speak of is found beside that, wherever it stands. What none of them explains is left as unread.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from counter import words
from counter.fit._label_bounds import (
    MEASURED,
    SENTENCE,
    WORD,
    Denial,
    denials,
    is_of_only,
    is_of_place,
    with_exclusives,
)
from counter.fit._label_columns import with_columns, without_drawn
from counter.fit._label_names import makers_names, named_models
from counter.fit._label_rows import pattern, stretches

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.fit._label_rows import Stretch
    from counter.words import Match

_HIDES: dict[str, frozenset[str]] = {  # what stands inside such a stretch and says nothing by itself
    "volts": frozenset({"line-voltage", "bypassed", "led-driver", "restricts"}),
    "care": frozenset({"restricts", "fault", "bypassed", "line-voltage", "uv-c", "uv-b"}),
    "distribution": frozenset({"bypassed", "line-voltage", "led", "uv-b"}),
    "part": frozenset({"restricts", "led"}),
    "starting": frozenset({"restricts", "uv-b", "magnetic"}),
    "temperature": frozenset({"restricts"}),
    "approval": frozenset({"restricts", "led", "other-source", "magnetic"}),
    "dimming": frozenset({"led-driver"}),
    "at most": frozenset({"restricts"}),
    "percent": frozenset({"restricts"}),
    "clear part": frozenset({"uv-c"}),
    "figure": frozenset({"restricts"}),
    "free of": frozenset({"restricts", "other-source", "fault"}),
}
NEAR = 8  # words between an order and the lamp that it is of
_KIND_OF_LAMP = re.compile(
    r"\b(?!white\b)([^\W\d_]{3,}) (?:lamps?|tubes?|bulbs?)\b"
    r"(?! (?:leads?|wires?|cables?)| [1-4]\b(?![.,]\d| ?(?:w|watts?|x|-?pins?)\b))"  # "red lamp 2" is a wire
)


class Scan(NamedTuple):
    """Everything found in a label: stretches in their order, topics of words, lamps shut out, what is left over."""

    stretches: tuple[Stretch, ...]
    topics: tuple[Match, ...]
    denied: tuple[Denial, ...]
    unread: tuple[tuple[int, int], ...]


@lru_cache(maxsize=128)
def scan(plain: str) -> Scan:
    """Return what a folded label says, stretch by stretch."""
    read = without_drawn(plain, tuple(stretches(plain, named_models(plain))))
    found = with_exclusives(plain, with_columns(plain, read))
    said = words.matches(plain)
    denied = tuple(denials(plain, found, said))
    topics = tuple(one for one in said if not _is_hidden(plain, one, found) and not _is_in(one, denied))
    allowed = tuple(one for one in found if not _is_in(one, denied))
    unread = tuple(_unread(plain, found))
    names = {(one.start, one.end) for one in makers_names(plain, found, unread)}
    return Scan(allowed, topics, denied, tuple(one for one in unread if one not in names))


def _is_in(one: Match | Stretch, denied: Sequence[Denial]) -> bool:
    return any(other.start <= one.start and one.end <= other.end for other in denied)


def _is_hidden(plain: str, one: Match, stretches: Sequence[Stretch]) -> bool:
    is_bare = plain[one.start : one.end].replace(".", "").isdigit()
    for other in stretches:
        is_within = other.start <= one.start and one.end <= other.end
        is_number = is_bare and (other.about in MEASURED or _is_glued(other, plain[one.start : one.end]))
        if is_within and (is_number or one.topic in _HIDES.get(other.about, ())):
            return True
    if one.topic == "led":
        return _is_article(plain, one)
    return one.topic == "restricts" and (is_of_only(plain, one, stretches) or is_of_place(plain, one, stretches))


def _is_article(plain: str, one: Match) -> bool:
    """Whether "del" is no LED in French, but stands before a word of Spanish or Italian."""
    behind = WORD.search(plain, one.end) if plain[one.start : one.end] == "del" else None
    return behind is not None and words.is_only_of(behind[0], "es", "other")


def _is_glued(one: Stretch, number: str) -> bool:
    """Whether a number is count and watts in one: EVG 254 runs two of 54 W."""
    return one.about == "watts" and number == one.groups.get("counts", "") + one.groups.get("watts", "")


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
        if words.names_kind(kind[1]) and not _is_phrase(plain, stretches, kind.start(1), kind.end()):
            known[kind.start(1) : kind.end(1)] = bytes(kind.end(1) - kind.start(1))
    for start, end in _orders_of_lamps(plain, told):
        known[start:end] = bytes(end - start)
    run: tuple[int, int] | None = None
    for word in WORD.finditer(plain):
        is_known = all(known[word.start() : word.end()]) or (len(word[0]) == 1 and word[0].isalpha())
        if is_known and run:
            yield run
        run = None if is_known else (run[0] if run else word.start(), word.end())
    if run:
        yield run


def _orders_of_lamps(plain: str, told: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Yield the orders that stand near a lamp, its gear or the supply, in the same sentence and in no phrase."""
    tokens = [one.span() for one in WORD.finditer(plain)]
    of_lamps = {span for span in tokens if pattern("of_lamps").fullmatch(plain, *span)}
    for at, (start, end) in enumerate(tokens):
        if words.is_order(plain[start:end]):
            near = of_lamps.intersection(tokens[max(0, at - NEAR) : at + NEAR + 1])
            is_in_phrase = any(first <= start and end <= last and last - first > end - start for first, last in told)
            if not is_in_phrase and any(_is_one_sentence(plain, (start, end), other) for other in near):
                yield start, end


def _is_one_sentence(plain: str, *spans: tuple[int, int]) -> bool:
    first, second = sorted(spans)
    return SENTENCE.search(plain, first[1], second[0]) is None


def _is_phrase(plain: str, stretches: Sequence[Stretch], start: int, end: int) -> bool:
    """Whether these words together are known to say nothing: a desk lamp, how to mount lamps."""
    told = [(one.start, one.end) for one in words.matches(plain) if one.topic == "harmless"]
    told += [(one.start, one.end) for one in stretches if one.about == "care"]
    told += [(one.start, one.end) for one in words.families(plain)]  # they are compared with the lamp
    return any(first <= start and end <= last for first, last in told)
