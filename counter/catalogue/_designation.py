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

_GRAMMAR = re.compile(
    r"(?P<groups>[2-9])?(?P<letter>F[ABC]|BA|BM|PG|SV|[BEFGKPRSTWX])(?P<modifiers>[XYZURJ]*)"
    r"(?P<size>\d+(?:\.\d)?(?:X\d+(?:\.\d)?)?)(?:(?P<contacts>[SDTQP])-?(?P<key>\d+)?|-(?P<bare_key>\d+))?"
    r"(?:/[\dX.]+)?"
)
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
        return f"{self.groups}{self.letter}{self.modifiers}{self.size}{self.contacts}"

    @property
    def pins(self) -> int | None:
        """Contacts on one base: by the letter, else two for each like group of G; None where nothing says it."""
        if self.contacts:
            return _COUNT[self.contacts] * int(self.groups or 1)
        if self.letter == "G":
            return 2 * int(self.groups or 1)
        return 1 if self.letter.startswith("F") else None

    def may_be(self, other: Designation) -> bool:
        """Whether `other` is this designation, with what is not written here (contacts, key) filled in."""
        same = self[:4] == other[:4]
        return same and self.contacts in ("", other.contacts) and self.key in ("", other.key)


def _tidied(text: str) -> str:
    """Return a designation without the blanks that people leave in it: "GX 24 q - 3", never "G13 2" as G132."""
    plain = fold(text).cased.translate(_TIDY)
    plain = re.sub(r"^([2-9] )?([A-Za-z]{1,3}) (?=\d)", lambda found: found[0].replace(" ", ""), plain)
    plain = re.sub(r" ?- ?", "-", plain)
    return re.sub(r"(?<=\d) (?=[dqstpDQSTP](?:-\d+)?$)", "", plain)


@lru_cache(maxsize=512)
def parse_designation(text: str) -> Designation | None:
    """Return the parts of one designation, however it is spaced or written in capitals, or None."""
    found = _GRAMMAR.fullmatch(_tidied(text[:_LONGEST]).upper())
    if found is None:
        return None
    letter = found["letter"]
    return Designation(
        groups=found["groups"] or "",
        letter=letter if letter[0] != "F" else letter.capitalize(),
        modifiers=found["modifiers"],
        size=found["size"].lower(),
        contacts=(found["contacts"] or "").lower(),
        key=found["key"] or found["bare_key"] or "",
    )


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
