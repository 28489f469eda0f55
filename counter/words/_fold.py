"""Text as it is searched: one way to write each letter, blank and hyphen, with the place where each was typed.

What a clerk types or pastes is folded once, before anything looks into it, so that neither blanks, line breaks,
capitals, accents nor wide letters change what is found.
"""

from __future__ import annotations

import unicodedata
from functools import cache, lru_cache
from typing import NamedTuple

_HYPHENS = "‐‑‒–—―−﹣－⁃"
_SIGNS = str.maketrans({**dict.fromkeys(_HYPHENS, "-"), "×": "x", "⁄": "/", "∕": "/", "″": '"', "”": '"', "“": '"',
                        "„": '"', "’": "'", "‘": "'", "′": "'", "`": "'", "´": "'",
                        "º": "°", "∆": "δ"})  # fmt: skip
SOFT_HYPHEN = "\xad"
_UNSEEN = ("Cf", "Mn")  # characters that only format, accents on their own
_UNREADABLE = ("Cc", "Cs", "Co")  # controls, halves of a pair: something stood there


class Folded(NamedTuple):
    """Folded text, and for each of its characters the place in what was typed."""

    typed: str
    plain: str
    places: tuple[int, ...]

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Return where a stretch of the folded text stands in what was typed."""
        return (self.places[start], self.places[end - 1] + 1) if start < end else (0, 0)

    @property
    def cased(self) -> str:
        """The folded text with capitals where they were typed."""
        return "".join(
            one.upper() if self.typed[place].isupper() else one
            for one, place in zip(self.plain, self.places, strict=True)
        )

    def as_typed(self, start: int, end: int) -> str:
        """Return a stretch of the folded text as it was typed."""
        first, last = self.span(start, end)
        return self.typed[first:last]


class _Folding:
    """Folds one text: what was written so far, and the blanks and soft hyphen that wait for the next letter."""

    def __init__(self) -> None:
        self.plain: list[str] = []
        self.places: list[int] = []
        self._blank_at = -1
        self._is_break = False
        self._is_soft = False

    def blank(self, at: int, character: str) -> None:
        """Take one character of white space."""
        self._blank_at = at if self._blank_at < 0 else self._blank_at
        self._is_break = self._is_break or character not in " \t\xa0"

    def soft_hyphen(self) -> None:
        """Take a hyphen that counts at the end of a line only."""
        self._is_soft = self._blank_at < 0

    def write(self, at: int, text: str) -> None:
        """Take the plain form of one visible character."""
        if self._blank_at >= 0 and self.plain and not self._joins(text):
            self._put(self._blank_at, " ")
        self._blank_at, self._is_break, self._is_soft = -1, False, False
        for one in text:
            self._put(at, one)

    def _joins(self, text: str) -> bool:
        """Whether a word was broken here: between letters the hyphen goes, beside a figure it belongs to a code."""
        is_hyphen = self.plain[-1] == "-"
        if not self._is_break or not (is_hyphen or self._is_soft):
            return False
        if is_hyphen and text[:1].isalpha() and self.plain[-2:-1] and self.plain[-2].isalpha():
            del self.plain[-1], self.places[-1]
        return True

    def _put(self, at: int, one: str) -> None:
        if one != " " or (self.plain and self.plain[-1] != " "):
            self.plain.append(one)
            self.places.append(at)


@lru_cache(maxsize=256)
def fold(text: str) -> Folded:
    """Return the text in small plain letters, each run of blanks as one, words broken at a line's end joined."""
    folding = _Folding()
    for at, character in enumerate(text):
        if character.isspace():
            folding.blank(at, character)
        elif character == SOFT_HYPHEN:
            folding.soft_hyphen()
        elif plain := _plain(character):
            folding.write(at, plain)
    return Folded(text, "".join(folding.plain), tuple(folding.places))


def _is_accent(character: str) -> bool:
    return bool(unicodedata.combining(character)) or unicodedata.category(character) in _UNSEEN


@cache
def _plain(character: str) -> str:
    """Return one visible character in its plain form; nothing for marks that only format or accent."""
    if unicodedata.category(character) in _UNSEEN:
        return ""
    if unicodedata.category(character) in _UNREADABLE:
        return "?"
    wide = unicodedata.normalize("NFKC", character.translate(_SIGNS)).translate(_SIGNS)
    bare = "".join(one for one in unicodedata.normalize("NFKD", wide.casefold()) if not _is_accent(one))
    is_fraction = unicodedata.category(character) == "No" and "/" in bare
    return f" {bare}" if is_fraction else bare.strip()  # ½ after a 5 is five and a half, not fifty-one halves


@lru_cache(maxsize=8)
def plains(texts: tuple[str, ...]) -> frozenset[str]:
    """Return the plain letters of many texts at once: a shop keeps up to two thousand, and each key asks for them."""
    return frozenset(fold(text).plain for text in texts)
