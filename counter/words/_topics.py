"""What words speak of: one list of topics for lamp, label and holder, from resources/words.json.

Words are compared letter by letter with blanks and signs between them left out, each match beginning and ending
where a word or a number does: "by-pass", "BY PASS" and "bypass" are one word, and "ledger" is none of LED.
"""

from __future__ import annotations

import json
import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, cast, get_args

from counter import paths
from counter.words._fold import fold
from counter.words._plain import is_plain, plain_phrases

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Iterator

Topic = Literal[
    "uv-c",
    "uv-a",
    "uv-b",
    "led",
    "led-driver",
    "bypassed",
    "line-voltage",
    "restricts",
    "other-source",
    "hazardous-place",
    "fault",
    "emergency",
    "magnetic",
    "electronic",
    "dimming",
    "dimmer",
    "ozone",
    "coated",
    "coloured",
    "special",
    "newborn",
    "print",
    "harmless",
]
UV_TOPICS: tuple[Topic, ...] = ("uv-c", "uv-b", "uv-a")
PRINTED: tuple[Topic, ...] = ("newborn", "coated", "coloured", "special")  # what the lamp from the shelf must be too
HARMLESS: tuple[Topic, ...] = ("harmless", "print")  # on a label, and on a lamp
LONGEST = 4000  # characters looked through
_MOST_TOKENS = 8  # in one phrase
_BEGINS = 6  # letters that tell whether a phrase can be one of the table
_ELIDED = r"(?<![^\W_])(?:[cdjlmns]|qu)'(?=[^\W\d_]{2})"  # French: "de l'appareil" is "de appareil", and no DEL
_TOKEN = re.compile(rf"\d+(?:[.,]\d+)?|(?<![^\W\d_])(?!{_ELIDED})[^\W\d_]+")
_WORN = re.compile(r"\S*\?\S*")


class Match(NamedTuple):
    """A stretch of folded text that speaks of a topic."""

    start: int
    end: int
    topic: Topic


class Saying(NamedTuple):
    """Words as they were typed, `text == typed[start:end]`, and what they speak of."""

    topic: Topic
    start: int
    end: int
    text: str


class _Table(NamedTuple):
    """Topics by word, by the first letters that stand for a word with any ending, and how all of these begin."""

    words: dict[str, tuple[Topic, ...]]
    stems: dict[str, tuple[Topic, ...]]
    stem_sizes: tuple[int, ...]
    begins: frozenset[str]
    worn: dict[Topic, tuple[str, ...]]


@cache
def table() -> dict[str, Any]:
    """Return the vocabulary as it lies in the file."""
    return cast("dict[str, Any]", json.loads((paths.resources() / "words.json").read_text(encoding="utf-8")))


@cache
def _is_of_lamp(topic: Topic) -> bool:
    """Whether words are of this topic only where they stand on a lamp: a blue wire says nothing of a tube."""
    return bool(table()["topics"][topic].get("of") == "lamp")


@cache
def is_danger(topic: Topic) -> bool:
    """Whether words of this topic speak against a sale, so that nobody can press them away."""
    return bool(table()["topics"][topic]["is_danger"])


@lru_cache(maxsize=512)
def danger_in(text: str) -> str:
    """Return the first words of a text that speak of danger, whole or with signs that nobody can read; "" without."""
    dangerous = tuple(topic for topic in get_args(Topic) if is_danger(topic))
    return speaks_of(dangerous, text)


@cache
def _table() -> _Table:
    words: dict[str, list[Topic]] = {}
    stems: dict[str, list[Topic]] = {}
    for topic in get_args(Topic):
        row = table()["topics"][topic]
        for kept, listed in ((words, row["words"]), (stems, row["stems"])):
            for word in (one for language in listed.values() for one in language):
                kept.setdefault(letters(word), []).append(topic)
    for phrase in plain_phrases():
        words.setdefault(letters(phrase), []).append("harmless")
    kept_words = {word: tuple(dict.fromkeys(found)) for word, found in words.items()}
    kept_stems = {stem: tuple(dict.fromkeys(found)) for stem, found in stems.items()}
    sizes = tuple(sorted({len(stem) for stem in kept_stems}))
    begins = frozenset(one[:_BEGINS] for one in (*kept_words, *kept_stems))
    return _Table(kept_words, kept_stems, sizes, begins, _worn_words())


def _worn_words() -> dict[Topic, tuple[str, ...]]:
    return {topic: tuple(fold(one).plain for one in listed) for topic, listed in table()["worn"].items()}


def letters(text: str) -> str:
    """Return the words and numbers of a text as they are compared: plain, with nothing between them."""
    written = ""
    for match in _TOKEN.finditer(fold(text).plain):
        written = _joined(written, match[0])
    return written


def phrases(plain: str, known: Container[str]) -> Iterator[tuple[int, int, str]]:
    """Yield where known words stand in folded text, at each place the longest, with the word as it is compared."""
    tokens = list(_TOKEN.finditer(plain, 0, LONGEST))
    for at, first in enumerate(tokens):
        written, longest = "", None
        for token in tokens[at : at + _MOST_TOKENS]:
            written = _joined(written, token[0])
            longest = (first.start(), token.end(), written) if written in known else longest
        if longest is not None:
            yield longest


def _joined(written: str, token: str) -> str:
    """Put a token behind others as they are compared: two numbers stay two, or 110 V would be 1-10 V."""
    between = "-" if written[-1:].isdigit() and token[0].isdigit() else ""
    return f"{written}{between}{token.replace(',', '.')}"


@lru_cache(maxsize=256)
def matches(plain: str, *, of_lamp: bool = False) -> tuple[Match, ...]:
    """Return everything that folded text speaks of, in its order; `of_lamp` where it stands on a lamp, not a label.

    A longer harmless phrase hides what stands wholly inside it: "no PCBs" shuts no lamp out.
    """
    tokens = list(_TOKEN.finditer(plain, 0, LONGEST))
    found = [one for at in range(len(tokens)) for one in _at(tokens, at) if _is_side(one.topic, of_lamp=of_lamp)]
    harmless = [one for one in found if one.topic in HARMLESS]
    telling = [one for one in found if one.topic not in HARMLESS and not _is_hidden(one, harmless)]
    longest = {
        one.start: one.end for one in sorted(telling, key=lambda one: one.end)
    }  # UV-A is not UV, which alone means UV-C
    telling = [one for one in telling if one.end == longest[one.start] and not _is_part(one, telling)]
    telling = [one for one in telling if one.topic not in PRINTED or not _is_hidden(one, telling)]  # blacklight blue
    return tuple(sorted((*telling, *harmless)))


def _is_side(topic: Topic, *, of_lamp: bool) -> bool:
    return topic != "harmless" if of_lamp else not _is_of_lamp(topic)


def _is_part(one: Match, others: Iterable[Match]) -> bool:
    """Whether words stand inside longer ones of the same topic: the "not" of "do not"."""
    return any(other.topic == one.topic and other.start < one.start and one.end <= other.end for other in others)


def _is_hidden(one: Match, harmless: Iterable[Match]) -> bool:
    return any(
        phrase.start <= one.start and one.end <= phrase.end and phrase.end - phrase.start > one.end - one.start
        for phrase in harmless
    )


def _at(tokens: list[re.Match[str]], at: int) -> Iterator[Match]:
    """Yield the longest match of each topic that begins at a token."""
    rows = _table()
    longest: dict[Topic, int] = {}
    written = ""
    for token in tokens[at : at + _MOST_TOKENS]:
        before, written = len(written), _joined(written, token[0])
        for topic in (*_of_word(rows, written), *_of_stem(rows, written, before)):
            longest[topic] = token.end()
        if len(written) >= _BEGINS and written[:_BEGINS] not in rows.begins:
            break  # what goes on so is in no table
    if "harmless" not in longest and is_plain(tokens[at][0]):
        longest["harmless"] = tokens[at].end()
    return (Match(tokens[at].start(), end, topic) for topic, end in longest.items())


def _of_word(rows: _Table, written: str) -> tuple[Topic, ...]:
    """Return the topics of a word, its plural included."""
    found = rows.words.get(written, ())
    return found or (rows.words.get(written[:-1], ()) if written[-1:] == "s" and len(written) > 3 else ())


def _of_stem(rows: _Table, written: str, before: int) -> tuple[Topic, ...]:
    """Return the topics of the stems that end inside the last word; the word itself may go on as it likes."""
    sizes = (size for size in rows.stem_sizes if before < size <= len(written))
    return tuple(topic for size in sizes for topic in rows.stems.get(written[:size], ()))


@lru_cache(maxsize=256)
def sayings(text: str, *, of_lamp: bool = False) -> tuple[Saying, ...]:
    """Return everything that a text speaks of but what is harmless, each as it was typed."""
    folded = fold(text[:LONGEST])
    found = [one for one in matches(folded.plain, of_lamp=of_lamp) if one.topic not in HARMLESS]
    return tuple(
        Saying(one.topic, *folded.span(one.start, one.end), folded.as_typed(one.start, one.end)) for one in found
    )


def speaks_of(topics: Topic | tuple[Topic, ...], text: str, *, of_lamp: bool = False) -> str:
    """Return the first words of a text that speak of a topic, as they were typed; "" where there are none.

    A word with unreadable characters counts where it can be a word of UV or LED.
    """
    wanted = (topics,) if isinstance(topics, str) else topics
    first = next((one.text for one in sayings(text, of_lamp=of_lamp) if one.topic in wanted), "")
    return first or next(filter(None, (_worn(topic, text) for topic in wanted)), "")


@lru_cache(maxsize=256)
def is_harmless(text: str, but: tuple[Topic, ...] = ()) -> bool:
    """Whether every word of a lamp's print is known to say nothing of it, but for words of some topics."""
    plain = fold(text[:LONGEST]).plain
    found = matches(plain, of_lamp=True)
    read = bytearray(len(plain))
    for one in found:
        if one.topic not in (*HARMLESS, *but):
            return False
        read[one.start : one.end] = b"1" * (one.end - one.start)
    return all(all(read[token.start() : token.end()]) for token in _TOKEN.finditer(plain))


def _worn(topic: Topic, text: str) -> str:
    if "?" not in text or topic not in _table().worn:
        return ""
    folded = fold(text[:LONGEST])
    for match in _WORN.finditer(folded.plain):
        if any(_may_be(match[0].strip(".-,/"), word) for word in _table().worn[topic]):
            return folded.as_typed(match.start(), match.end())
    return ""


def _may_be(worn: str, word: str) -> bool:
    if len(worn) != len(word) or not any(map(str.isalnum, worn)):
        return False
    return all(one in ("?", other) for one, other in zip(worn, word, strict=True))
