"""Base designations inside codes, also those the catalogue does not hold, and what each of their parts means."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import cap_size, pin_angles, scan_designation
from counter.marks._colour import at_colour
from counter.marks._lex import Cap, Parsed, Part, ends
from counter.marks._sentences import (
    ALSO_DECIDES,
    ANGLES,
    BASE,
    CAP_LENGTH,
    CIRCLE,
    DISTANCE,
    GROUPS,
    KEY,
    MEASURED,
    MODIFIED,
    PIN,
    PINS,
    SKIRT,
    SUFFIX,
    WEDGE,
    WHICH_HOLDERS,
)
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Designation, Piece
    from counter.marks._known import Known

_ONE_DIGIT_KEY = re.compile(r"[-=]\d(?![\dA-Z])(?!/\d\d)(?! ?-?(?:PIN|P\b))", re.ASCII)
_KEY_BEFORE_COLOUR = re.compile(r"[-=]\d(?=/[5-9]\d\d(?!\d))", re.ASCII)

_DECIMALS = re.compile(r"[.,]\d\d?(?![\dW])", re.ASCII)  # of a size, as in G5.3: another base than G5


class CapParsed(NamedTuple):
    """A designation, its parts where they stand, and where it ends."""

    cap: Cap
    parts: tuple[Part, ...]
    end: int
    written: str
    note: str | None = None

    @property
    def means(self) -> str:
        """All its parts in one line."""
        return base_means(self.cap, self.parts)


def base_means(cap: Cap, parts: Sequence[Part]) -> str:
    """Say what a designation means in one line, the pins counted first."""
    named = iter(_modifier_letters(cap, parts))
    said = [
        MODIFIED.format(typed=next(named), what=part.means) if part.part == "modifier" else part.means
        for part in parts
        if part.part not in ("contacts", "main letter", "assembly")
    ]
    count = cap.contacts
    pins = "" if count is None else (PIN if count == 1 else PINS).format(n=count)
    return BASE.format(code=cap.text, what="; ".join((pins or parts[0].means, *said)))


def _modifier_letters(cap: Cap, parts: Sequence[Part]) -> str:
    """Return the letters that modify the main one, as RY in GRY10q: the last ones before the number."""
    count = sum(part.part == "modifier" for part in parts)
    letters = cap.text.lstrip("0123456789")
    before = letters[: next((at for at, sign in enumerate(letters) if sign.isdigit()), 0)]
    return before[len(before) - count :]


def take_cap(plain: str, at: int, known: Known, *, loose: bool = False, sized: bool = False) -> CapParsed | None:
    """Read a designation at a place: one the catalogue knows, else any that the grammar allows.

    `loose` lets a colour follow at once, as in G24Q841; `sized` reads the length and skirt after a slash.
    """
    return _known(plain, at, known, loose, sized) or _by_grammar(plain, at, loose, sized)


def base_code(plain: str, at: int, known: Known) -> Parsed | None:
    """Read a bare designation."""
    found = take_cap(plain, at, known, loose=True, sized=True)
    if found is None:
        return None
    notes = (found.note,) if found.note else ()
    return Parsed("base", None, at, found.end, found.written, found.parts, {"base": found.cap}, notes)


def _known(plain: str, at: int, known: Known, loose: bool, sized: bool) -> CapParsed | None:
    for name, (cap, note) in known.names_at(plain, at):
        end = at + len(name)
        if ends(plain, end) or (loose and _at_printed_colour(plain, end)):
            if not cap.key and (_is_key(plain, end, cap, known) or _is_cut_short(plain, end)):
                continue  # a key or a size that the catalogue does not hold: the grammar reads it whole
            found = scan_designation(plain[:end], at, joined=True)
            pieces = found.pieces if found else ()
            behind = _behind(plain, end, sized)
            parts = _parts(pieces + behind) if pieces else (Part(at, end, "base", cap.text), *_parts(behind))
            return CapParsed(cap, parts, behind[-1].end if behind else end, cap.text + _written(behind), note)
    return None


def _at_printed_colour(plain: str, at: int) -> bool:
    """Whether a colour stands here; three figures that touch a base are one only where lamps have it: no G5518."""
    figures = plain[at : at + 3]
    printed = (*tables()["colour"]["common"], *tables()["slots"]["rare"])
    return at_colour(plain, at) and (not figures.isdigit() or figures in printed)


def _is_cut_short(plain: str, end: int) -> bool:
    """Return whether the number that ends here goes on behind a decimal sign."""
    return plain[end - 1].isdecimal() and _DECIMALS.match(plain, end) is not None


def _behind(plain: str, at: int, sized: bool) -> tuple[Piece, ...]:
    """Return the length and skirt of the cap that stand behind a designation; a colour is no length."""
    found = cap_size(plain, at) if sized else ()
    return () if len(found) == 1 and at_colour(plain, at + 1) else found


def _is_key(plain: str, at: int, cap: Cap, known: Known) -> bool:
    """Whether a key number stands here; -7/520 is a tube's size, unless the family has keys: then 520 is a colour."""
    has_keys = any("-" in base.designation for base in known.bases_by("family", cap.text))
    return bool(_ONE_DIGIT_KEY.match(plain, at) or (has_keys and _KEY_BEFORE_COLOUR.match(plain, at)))


def _by_grammar(plain: str, at: int, loose: bool, sized: bool) -> CapParsed | None:
    found = scan_designation(plain, at)
    if found is None or _is_sooner_a_code(found.designation):
        return None
    angles = pin_angles(plain, found.end) if sized else ()
    behind = angles + _behind(plain, angles[-1].end if angles else found.end, sized)
    end = behind[-1].end if behind else found.end
    if not ends(plain, end) and not (loose and _at_printed_colour(plain, end)):
        return None
    named = found.designation
    cap = Cap(named.text, named.stem, named.pins, named.key or None)
    return CapParsed(cap, _parts(found.pieces + behind), end, named.text + _written(behind))


def _written(pieces: tuple[Piece, ...]) -> str:
    return "".join(piece.written for piece in pieces)


def _is_sooner_a_code(named: Designation) -> bool:
    """Whether a designation that the catalogue does not hold is sooner letters and watts: F13D, XK9, W18, T7D."""
    if named.size.startswith("0") or (named.groups and named.letter != "G"):
        return True
    if named.letter in ("K", "X"):
        return bool(named.modifiers)
    if named.letter == "T":
        return bool(named.contacts)
    return (named.letter == "F" and not named.modifiers) or (named.letter == "W" and "x" not in named.size)


def _parts(pieces: tuple[Piece, ...]) -> tuple[Part, ...]:
    """Say what each piece of a designation means."""
    written = {piece.part: piece.written for piece in pieces}
    return tuple(
        Part(piece.start, piece.end, _NAMES.get(piece.part, piece.part), _means(piece, written)) for piece in pieces
    )


_NAMES = {"groups": "assembly", "letter": "main letter", "size": "number"}


def _means(piece: Piece, written: dict[str, str]) -> str:
    text = piece.written.lstrip("-/x")
    match piece.part:
        case "groups":
            return GROUPS.format(n=text)
        case "letter":
            return str(_row("main", text)["means"])
        case "modifier":
            return str(_row("modifiers", text)["means"])
        case "size":
            return MEASURED.format(n=text, what=_measured(written))
        case "contacts":
            return str(tables()["caps"]["contacts"][text.upper()]["means"])
        case "key":
            return _key_means(text, written)
    return _SAID[piece.part].format(n=text)


_SAID = {
    "width": WEDGE,
    "angles": ANGLES,
    "length": CAP_LENGTH,
    "skirt": SKIRT,
}


def _row(table: str, letters: str) -> dict[str, str]:
    return next(row for row in tables()["caps"][table] if row["letters"] == letters.upper())


def _measured(written: dict[str, str]) -> str:
    """Say what the number measures: with three pins or more it is the circle through them (clause 3.2)."""
    if written["letter"] == "G":
        return CIRCLE if written.get("contacts") in ("t", "q", "p") else DISTANCE
    return _row("main", written["letter"])["number"]


def _key_means(key: str, written: dict[str, str]) -> str:
    if "groups" in written or written["letter"] == "G":
        return KEY.format(n=key, what=WHICH_HOLDERS)
    return SUFFIX.format(n=key, what=ALSO_DECIDES)
