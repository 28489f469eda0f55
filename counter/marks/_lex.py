"""What all grammars share: the folded text, the draft that a grammar fills part by part, and the facts it states."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypedDict

if TYPE_CHECKING:
    from counter.catalogue import Kind, LampShape

PRINTED = (
    "newborn",
    "coloured",
    "special",
    "colour-number",
)  # parts that the lamp from the shelf must have too
_TUBE_TOLERANCE_MM = 1.2
UNREADABLE, STRETCH = "?", "*"  # what stands for one character, or some, that nobody can read

_SAME = str.maketrans(
    {"‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "−": "-", "×": "X", "⁄": "/", "∕": "/", "″": '"', "”": '"',
     "“": '"', "’": "'", "′": "'", "\t": " ", "\r": " ", "\xa0": " ", "º": "°"}
)  # fmt: skip


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.ASCII)


@cache
def _fold_one(character: str) -> str:
    plain = character.translate(_SAME)
    for step in (unicodedata.normalize("NFKC", plain), plain.upper()):
        plain = step if len(step) == 1 else plain
    upper = plain.upper()
    return upper if len(upper) == 1 else plain


def fold(text: str) -> str:
    """Return the text in capitals and plain signs, character for character, so that places stay the same."""
    if text.isascii():
        return text.upper().replace("\t", " ").replace("\r", " ")
    return "".join(map(_fold_one, text))


class Cap(NamedTuple):
    """A base designation as a code prints it, in the standard's case."""

    text: str
    stem: str
    contacts: int | None
    key: str | None

    @property
    def family(self) -> str:
        """The designation without its key number."""
        return self.text.partition("-")[0] if self.key else self.text


class Facts(TypedDict, total=False):
    """What a code states; a key that is missing was not stated."""

    kind: Kind
    shapes: tuple[LampShape, ...]
    older: tuple[LampShape, ...]
    letters: str
    watts: float
    number: float
    inches: float
    tube_mm: float
    base: Cap
    may_drop_x: bool
    pins: int
    legs: int
    starter: str
    electronic: bool
    mains: bool
    output: str
    led: bool
    cct_k: int
    cri_min: int
    length_mm: float
    length_tolerance_mm: float
    ids: tuple[str, ...]
    key: str
    band: Literal["uv-b"]
    start: str
    saving: bool
    ozone: bool
    tail_watts: float


class Part(NamedTuple):
    """One meaningful part of the folded text, and what it was taken to be where it is not as typed."""

    start: int
    end: int
    part: str
    means: str
    assumed: str | None = None


class Parsed(NamedTuple):
    """What one grammar made of one stretch of text."""

    system: str
    grammar: str | None
    start: int
    end: int
    canonical: str
    parts: tuple[Part, ...]
    facts: Facts
    notes: tuple[str, ...]


class Draft:
    """A code while a grammar reads it: a place in the text, and the parts, facts and clean writing so far."""

    def __init__(self, plain: str, at: int) -> None:
        self.plain = plain
        self.start = self.at = at
        self.parts: list[Part] = []
        self.facts: Facts = {}
        self.clean = ""
        self.notes: list[str] = []
        self.head: dict[str, Any] = {}  # the row of the letters that begin a tube's code

    def find(self, pattern: str) -> re.Match[str] | None:
        """Return the match of a pattern at the current place, without moving."""
        return _compiled(pattern).match(self.plain, self.at)

    def skip(self, pattern: str) -> bool:
        """Step over what matches; say whether anything did."""
        match = self.find(pattern)
        if match is None or match.end() == self.at:
            return False
        self.at = match.end()
        return True

    def letters(self, letters: str) -> bool:
        """Whether these letters stand at the current place."""
        return self.plain.startswith(letters, self.at)

    def add(self, length: int, part: str, means: str, clean: str) -> None:
        """Take the next `length` characters as one part."""
        self.parts.append(Part(self.at, self.at + length, part, means))
        self.at += length
        self.clean += clean

    def state(self, **facts: Any) -> None:
        """State facts."""
        self.facts.update(facts)  # type: ignore[typeddict-item]

    def says_white(self) -> bool:
        """Whether a colour that was just taken is a white one: neither ultraviolet nor a colour of its own."""
        return "kind" not in self.facts and self.parts[-1].part not in PRINTED

    def ends(self) -> bool:
        """Whether no letter or figure follows."""
        return ends(self.plain, self.at)

    def parsed(self, system: str, grammar: str | None = None) -> Parsed:
        """Return the finished result."""
        return Parsed(
            system, grammar, self.start, self.at, self.clean, tuple(self.parts), self.facts, tuple(self.notes)
        )


def ends(plain: str, at: int) -> bool:
    """Whether a code may end here: at the end of the text, or before anything but a letter or a figure."""
    return at >= len(plain) or not plain[at].isalnum()


def is_one_tube(one_mm: float, other_mm: float) -> bool:
    """Whether two diameters are of one tube: 26 and 25.4, 29 and 28.6; the nearest sizes are over 3 mm apart."""
    return abs(one_mm - other_mm) <= _TUBE_TOLERANCE_MM


def figure(text: str) -> float:
    """Return the number written with a point or a comma."""
    return float(text.replace(",", "."))
