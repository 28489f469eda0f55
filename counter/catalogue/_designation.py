"""Cap and holder designations, by the grammar of IEC 60061-4.

Everything before a solidus governs interchangeability; cap length and skirt, which follow it, do not.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from counter.words import fold

if TYPE_CHECKING:
    from collections.abc import Iterator

# Clauses 3.1 to 3.6. Only a wedge has a width. A key without its hyphen (G24q3) is for those who ask for it: in
# running text the figure may begin a colour, or be a count of pins.
_GRAMMAR = re.compile(
    r"(?P<groups>[2-9])?(?:(?P<wedge>W)|(?P<letter>F[ABC]|BA|BM|SV|[BEFGKPRSTX]))(?P<modifiers>[XYZUJRGPK]{0,3})"
    r"(?P<size>\d{1,3}(?:[.,]\d{1,2})?)(?(wedge)(?P<width>X\d{1,3}(?:[.,]\d{1,2})?)?)(?P<contacts>[SDTQP](?![A-Z]))?"
    r"(?P<key>[-=]\d{1,2}(?:[.,]\d{1,2})?(?![\dA-Z])(?! ?-?PIN)|(?<=[SDTQP])\d{1,2}(?![\dA-Z]))?",
    re.ASCII,
)
_ANGLES = re.compile(r"(?P<angles>\([\d°./, ]{1,20}\))")
_CAP_SIZE = re.compile(r"(?P<length>/\d{1,3}(?:[.,]\d)?)(?P<skirt>X\d{1,3}(?:[.,]\d)?)?(?![A-Z0-9])", re.ASCII)
_TWO_BASES = "2G13"  # a bent tube's two ends side by side: two bases of two pins, not one of four
_TIDY = str.maketrans({"=": "-", ",": ".", "‐": "-", "‑": "-", "–": "-", "−": "-", "×": "x"})
_COUNT = {"s": 1, "d": 2, "t": 3, "q": 4, "p": 5}
_BETWEEN = re.compile(r"\s+or\s+|\s*[;&+|]\s*|\s+/\s+|[/,](?=\d?[A-Za-z])|,\s+|\s{2,}|\n", re.IGNORECASE)
_LAMP_HOLDER = re.compile(r"2?G\w?\d|R17|FA[68]|2GX|E[1-4]\d|B[12]\d", re.IGNORECASE)  # no T8 among words
_LONGEST = 200  # a holder's marks are a few words; more is a paste gone wrong


class Designation(NamedTuple):
    """The parts of a designation; an empty string says that the part is not written."""

    groups: str
    letter: str
    modifiers: str
    size: str
    contacts: str
    key: str

    @property
    def text(self) -> str:
        """The designation as the standard writes it."""
        return self.family + (f"-{self.key}" if self.key else "")

    @property
    def family(self) -> str:
        """The designation without its key number."""
        return self.stem + self.contacts

    @property
    def stem(self) -> str:
        """The designation up to its number: G24 of G24q-3."""
        return f"{self.groups}{self.letter}{self.modifiers}{self.size}"

    @property
    def pins(self) -> int | None:
        """Contacts on one base: by the letter, else two for each like group of G; None where nothing says it."""
        groups = 1 if self.family == _TWO_BASES else int(self.groups or 1)
        if self.contacts:
            return _COUNT[self.contacts] * groups
        if self.letter == "G":
            return 2 * groups
        return 1 if self.letter.startswith("F") else None

    def may_be(self, other: Designation) -> bool:
        """Whether `other` is this designation, with what is not written here (contacts, key) filled in."""
        same = self[:4] == other[:4]
        return same and self.contacts in ("", other.contacts) and self.key in ("", other.key)


class Piece(NamedTuple):
    """One part of a designation: which, where it stands in the text, and how the standard writes it."""

    part: str
    start: int
    end: int
    written: str


class Scanned(NamedTuple):
    """A designation found in a text, its pieces in their order, and where it ends."""

    designation: Designation
    pieces: tuple[Piece, ...]
    end: int


def scan_designation(plain: str, at: int = 0, *, joined: bool = False) -> Scanned | None:
    """Read a designation that begins at a place of a text in capitals, or return None.

    `joined` takes a key written without its hyphen. What follows in the text is not looked at.
    """
    found = _GRAMMAR.match(plain, at)
    if found is None:
        return None
    pieces = tuple(piece for piece in _pieces(found) if joined or piece.part != "key" or piece.written[0] == "-")
    return Scanned(_designation(pieces), pieces, pieces[-1].end)


def pin_angles(plain: str, at: int) -> tuple[Piece, ...]:
    """Return the angles of the pins on a shell, where they stand behind a designation: (90°/135°)."""
    found = _ANGLES.match(plain, at)
    return tuple(_pieces(found)) if found else ()


def cap_size(plain: str, at: int) -> tuple[Piece, ...]:
    """Return the length of the cap and its skirt, in millimetres, where they stand behind a designation: /25x26."""
    found = _CAP_SIZE.match(plain, at)
    return tuple(_pieces(found)) if found else ()


def _pieces(found: re.Match[str]) -> Iterator[Piece]:
    for part, text in found.groupdict().items():
        if text:
            start = found.start(part)
            if part == "modifiers":
                yield from (Piece("modifier", start + at, start + at + 1, one) for at, one in enumerate(text))
            else:
                part = "letter" if part == "wedge" else part
                yield Piece(part, start, start + len(text), _as_written(part, text))


def _as_written(part: str, text: str) -> str:
    """Return a piece as the standard writes it: Fa, 4.3, x8.5, q, -3."""
    if part == "letter":
        return text.capitalize() if text[0] == "F" else text
    return text.lower().translate(_TIDY).replace(" ", "")


def _designation(pieces: tuple[Piece, ...]) -> Designation:
    parts = dict.fromkeys(("groups", "letter", "modifier", "size", "width", "contacts", "key"), "")
    for piece in pieces:
        if piece.part in parts:
            parts[piece.part] += piece.written
    size = parts.pop("size") + parts.pop("width")
    return Designation(
        parts["groups"], parts["letter"], parts["modifier"], size, parts["contacts"], parts["key"].lstrip("-")
    )


def _tidied(text: str) -> str:
    """Return a designation without the blanks that people leave in it: "GX 24 q - 3", never "G13 2" as G132."""
    plain = fold(text).cased.translate(_TIDY)
    plain = re.sub(r"^([2-9] )?([A-Za-z]{1,3}) (?=\d)", lambda found: found[0].replace(" ", ""), plain)
    plain = re.sub(r" ?- ?", "-", plain)
    return re.sub(r"(?<=\d) (?=[dqstpDQSTP](?:-\d+)?$)", "", plain).rstrip("-")  # a key worn off behind its hyphen


@lru_cache(maxsize=512)
def parse_designation(text: str) -> Designation | None:
    """Return the parts of one designation, however it is spaced or written in capitals, or None."""
    plain = _tidied(text[:_LONGEST]).upper()
    found = scan_designation(plain, joined=True)
    if found is None:
        return None
    end = found.end
    for behind in (pin_angles, cap_size):
        end = max([end, *(piece.end for piece in behind(plain, end))])
    return found.designation if end == len(plain) else None


@lru_cache(maxsize=512)
def parse_designations(text: str) -> tuple[Designation, ...]:
    """Return all designations of one marking, as on a holder that takes two caps: "G24q-3 / GX24q-3"."""
    parts = (part for part in _BETWEEN.split(fold(text[:_LONGEST]).cased) if part)
    return tuple(one for part in parts for one in _designations_in(part))


def _designations_in(part: str) -> Iterator[Designation]:
    """Return the designation that a part is, else those among its words: of "G24q-3 LED only" the first."""
    whole = parse_designation(part)
    if whole is not None:
        if whole.letter != "T":  # T130 is what a holder stands in degrees, T8 a tube; no lamp has a slide
            yield whole
        return
    words = (word.strip("()[],.") for word in part.split())
    yield from (one for word in words if _LAMP_HOLDER.match(word) and (one := parse_designation(word)))


@lru_cache(maxsize=512)
def words_beside(text: str) -> tuple[str, ...]:
    """Return the words of a marking that are no part of a designation: "LED only" of "G24q-3 LED only"."""
    rest = (part for part in _BETWEEN.split(fold(text[:_LONGEST]).cased) if parse_designation(part) is None)
    words = (word for part in rest for word in part.split() if any(map(str.isalnum, word)))
    return tuple(word for word in words if parse_designation(word.strip("()[],.")) is None)
