"""Base designations by the grammar of IEC 60061-4, clauses 3.1 to 3.6, also those the catalogue does not hold."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._colour import at_colour
from counter.marks._lex import Cap, Draft, Parsed, Part, ends
from counter.marks._tables import longest_first, tables

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.marks._known import Known

_NUMBER = r"\d{1,3}(?:[.,]\d{1,2})?"
_ONE_DIGIT_KEY = re.compile(r"[-=]\d(?![\dA-Z])(?!/\d\d)(?! ?-?(?:PIN|P\b))", re.ASCII)
_KEY_BEFORE_COLOUR = re.compile(r"[-=]\d(?=/[5-9]\d\d(?!\d))", re.ASCII)
_SIZE = r"\d{1,3}(?:[.,]\d)?"


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
        f"{next(named)}: {part.means}" if part.part == "modifier" else part.means
        for part in parts
        if part.part not in ("contacts", "main letter", "assembly")
    ]
    count = cap.contacts
    pins = "" if count is None else f"{count} pin" if count == 1 else f"{count} pins"
    return f"base {cap.text}: " + "; ".join((pins or parts[0].means, *said))


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
        if ends(plain, end) or (loose and at_colour(plain, end)):
            if not cap.key and _is_key(plain, end, cap, known):
                continue  # a key number that the catalogue does not hold: the grammar reads it whole
            draft = _elements(plain[:end], at, is_known=True) or Draft(plain, at)
            draft.plain, draft.at, draft.clean = plain, end, cap.text
            if sized:
                _size(draft)
            parts = tuple(draft.parts) or (Part(at, end, "base", cap.text),)
            return CapParsed(cap, parts, draft.at, draft.clean, note)
    return None


def _is_key(plain: str, at: int, cap: Cap, known: Known) -> bool:
    """Whether a key number stands here; -7/520 is a tube's size, unless the family has keys: then 520 is a colour."""
    has_keys = any("-" in base.designation for base in known.bases_by("family", cap.text))
    return bool(_ONE_DIGIT_KEY.match(plain, at) or (has_keys and _KEY_BEFORE_COLOUR.match(plain, at)))


def _by_grammar(plain: str, at: int, loose: bool, sized: bool) -> CapParsed | None:
    draft = _elements(plain, at, sized)
    if draft is None or _is_sooner_a_code(draft):
        return None
    if ends(plain, draft.at) or (loose and at_colour(plain, draft.at)):
        cap = draft.facts["base"]
        return CapParsed(cap, tuple(draft.parts), draft.at, draft.clean)
    return None


def _is_sooner_a_code(draft: Draft) -> bool:
    """Whether a designation that the catalogue does not hold is more likely letters and watts: F13D, XK9, W18."""
    stem = draft.facts["base"].stem.lstrip("0123456789")
    if stem[0] in "KX":
        return stem[1].isalpha()
    return (stem[0] == "F" and stem[1].isdigit()) or (stem[0] == "W" and "x" not in stem)


def _elements(plain: str, at: int, sized: bool = False, is_known: bool = False) -> Draft | None:
    draft = Draft(plain, at)
    _assembly(draft)
    main = _main_letter(draft)
    if main is None or not _number(draft, main):
        return None
    stem = draft.clean
    contacts = _contacts(draft)
    key = _key(draft, is_known)
    text = draft.clean
    if sized:
        _angles(draft)
        _size(draft)
    pins = contacts if contacts is not None else _implied_pins(stem)
    draft.state(base=Cap(text, stem, pins, key))
    return draft


def _implied_pins(stem: str) -> int | None:
    # A leading 2 doubles a like group: 2G11 is two groups of two pins. GU24, GX53 and G23 print no count.
    return 4 if stem[:2] == "2G" and stem != "2G13" else None


def _assembly(draft: Draft) -> None:
    if match := draft.find(r"[2-9](?=[A-Z])"):
        draft.add(1, "assembly", f"{match[0]} like groups side by side", match[0])


def _main_letter(draft: Draft) -> str | None:
    for row in longest_first("caps", "main"):
        letters = row["letters"]
        if draft.letters(letters) and draft.find(rf"{letters}[A-Z]{{0,3}}\d"):
            clean = "F" + letters[1].lower() if letters in ("FA", "FB", "FC") else letters
            draft.add(len(letters), "main letter", row["means"], clean)
            _modifiers(draft)
            return str(letters)
    return None


def _modifiers(draft: Draft) -> None:
    rows = {row["letters"]: row for row in tables()["caps"]["modifiers"]}
    while match := draft.find(r"[A-Z]"):
        row = rows.get(match[0])
        if row is None:
            return
        draft.add(1, "modifier", row["means"], match[0])


def _number(draft: Draft, main: str) -> bool:
    match = draft.find(_NUMBER)
    if match is None:
        return False
    size = match[0].replace(",", ".")
    draft.add(len(match[0]), "number", f"{size} mm: {_measured(draft, main, len(match[0]))}", size)
    if main == "W" and (wide := draft.find(rf"X({_NUMBER})")):
        width = wide[1].replace(",", ".")
        draft.add(len(wide[0]), "width", f"{width} mm: width of the wedge", f"x{width}")
    return True


def _measured(draft: Draft, main: str, length: int) -> str:
    """Say what the number measures: with three pins or more it is the circle through them (clause 3.2)."""
    if main == "G":
        follows = draft.plain[draft.at + length : draft.at + length + 1]
        return "the circle through the pins" if follows in ("T", "Q", "P") else "distance of two pins"
    return str(next(row["number"] for row in tables()["caps"]["main"] if row["letters"] == main))


def _contacts(draft: Draft) -> int | None:
    match = draft.find(r"[SDTQP](?![A-Z])")
    if match is None:
        return None
    row = tables()["caps"]["contacts"][match[0]]
    draft.add(1, "contacts", row["means"], match[0].lower())
    return int(row["count"])


def _key(draft: Draft, is_known: bool) -> str | None:
    match = draft.find(r"[-=](\d{1,2}(?:[.,]\d{1,2})?)(?![\dA-Z])(?! ?-?PIN)")
    match = match or (draft.find(r"(\d)$") if is_known else None)  # G24q3: only where such a base is known
    if match is None:
        return None
    is_key = draft.parts[0].part == "assembly" or "projecting contacts (pins)" in draft.parts[0].means
    what = "which holders it goes into" if is_key else "one more thing that decides which holders it fits"
    draft.add(len(match[0]), "key", f"{'key' if is_key else 'suffix'} {match[1]}: {what}", f"-{match[1]}")
    return match[1]


def _angles(draft: Draft) -> None:
    if match := draft.find(r"\([\d°./, ]{1,20}\)"):
        draft.add(len(match[0]), "angles", "where the pins of the shell sit", match[0].replace(" ", ""))


def _size(draft: Draft) -> None:
    match = draft.find(rf"/({_SIZE})(?:X({_SIZE}))?(?![A-Z0-9])")
    if match is None or (match[2] is None and at_colour(draft.plain, draft.at + 1)):
        return
    draft.add(1 + len(match[1]), "length", f"{match[1]} mm: length of the cap, pins not counted", f"/{match[1]}")
    if match[2]:
        draft.add(1 + len(match[2]), "skirt", f"{match[2]} mm: outer diameter of the skirt", f"x{match[2]}")
