"""Words that say nothing of a lamp, by what they are of: resources/plain-words.json, each class with its reason.

A word counts as it stands or with an ending of its language, in German put together of words that stand there too.
What a class holds is what things are called, never what was done to them: nothing of taking out, replacing, cutting
or leading past, so that no sentence on a changed fixture is made of plain words alone.
"""

from __future__ import annotations

import json
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from counter import paths

if TYPE_CHECKING:
    from collections.abc import Iterator

_LEAST_PART = 3  # letters of a word in a German compound
_LEAST_COMPOUND = 7


class _Words(NamedTuple):
    """The words of one language: with endings, without, of orders, those that may be joined, name a place, a kind."""

    inflected: frozenset[str]
    fixed: frozenset[str]
    orders: frozenset[str]
    joined: frozenset[str]
    beside: frozenset[str]
    of_kinds: frozenset[str]
    endings: tuple[tuple[str, str], ...]


@cache
def _file() -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads((paths.resources() / "plain-words.json").read_text(encoding="utf-8")))


@cache
def _languages() -> dict[str, _Words]:
    return {language: _words_of(language) for language in _file()["endings"]}


def _words_of(language: str) -> _Words:
    classes = [(row, frozenset(row["words"].get(language, "").split())) for row in _file()["classes"]]
    return _Words(
        inflected=frozenset().union(*(words for row, words in classes if not row.get("fixed"))),
        fixed=frozenset().union(*(words for row, words in classes if row.get("fixed") and not row.get("orders"))),
        orders=frozenset().union(*(words for row, words in classes if row.get("orders"))),
        joined=frozenset().union(*(words for row, words in classes if row.get("joins"))),
        of_kinds=frozenset().union(*(words for row, words in classes if row.get("of_kinds"))),
        beside=frozenset().union(*(words for row, words in classes if row.get("beside"))),
        endings=tuple((ending, instead) for ending, instead in _file()["endings"][language]),
    )


@cache
def plain_phrases() -> tuple[str, ...]:
    """Return the words that are written in two parts, "flicker-free": they say nothing together alone."""
    listed = (text.split() for row in _file()["classes"] for text in row["words"].values())
    return tuple(dict.fromkeys(word for words in listed for word in words if "-" in word))


@lru_cache(maxsize=4096)
def is_plain(word: str) -> bool:
    """Whether one folded word says nothing of a lamp by itself; an order does not where it is of something else."""
    return any(word in words.orders for words in _languages().values()) or _is_known(word)


@lru_cache(maxsize=1024)
def is_order(word: str) -> bool:
    """Whether a folded word is an order, or tells of an act, and nothing else: of a lamp or its gear it says much."""
    return any(word in words.orders for words in _languages().values()) and not _is_known(word)


def _is_known(word: str) -> bool:
    return any(_is_of(word, words) for words in _languages().values()) or _is_compound(word)


@lru_cache(maxsize=1024)
def is_beside(word: str) -> bool:
    """Whether a folded word names a place, a person, mounting, waste or care: "not" beside it shuts no lamp out."""
    return any(not words.beside.isdisjoint(_forms(word, words)) for words in _languages().values())


@lru_cache(maxsize=1024)
def names_kind(word: str) -> bool:
    """Whether a folded word right before "lamp" would name a kind of lamp: a wood lamp, a black one."""
    return any(not words.of_kinds.isdisjoint(_forms(word, words)) for words in _languages().values())


@lru_cache(maxsize=256)
def is_only_of(word: str, *languages: str) -> bool:
    """Whether one folded word, no small one, is listed in some of these languages and in none of the others."""
    found = {name for name, words in _languages().items() if not words.inflected.isdisjoint(_forms(word, words))}
    return bool(found) and found <= set(languages)


def _is_of(word: str, words: _Words) -> bool:
    return word in words.fixed or not words.inflected.isdisjoint(_forms(word, words))


def _forms(word: str, words: _Words) -> Iterator[str]:
    """Yield a word as it stands and without each ending that it can have."""
    yield word
    for ending, instead in words.endings:
        if word.endswith(ending) and len(word) - len(ending) >= _LEAST_PART:
            yield word[: -len(ending)] + instead


def _is_compound(word: str) -> bool:
    """Whether a word is put together of German words, with or without a letter between them."""
    if len(word) < _LEAST_COMPOUND or not word.isalpha():
        return False
    words = _languages()["de"]
    for at in range(_LEAST_PART, len(word) - _LEAST_PART + 1):
        if word[:at] in words.joined and _is_rest(word[at:], words):
            return True
    return False


def _is_rest(rest: str, words: _Words) -> bool:
    for joint in _file()["joints"]:
        tail = rest.removeprefix(joint)
        is_rest = rest.startswith(joint) and len(tail) >= _LEAST_PART
        if is_rest and (not words.joined.isdisjoint(_forms(tail, words)) or _is_compound(tail)):
            return True
    return False
