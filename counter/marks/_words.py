"""Trade shorthand, word by word and in any order: 26W 4-pin 841, 13 watt quad 2 pin; the industry's TC-D."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any

from counter.marks._colour import take_colour
from counter.marks._lex import Draft, Parsed, figure
from counter.marks._nema import nema_head_alone
from counter.marks._tables import longest_first, tables

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.marks._known import Known

_FIGURE = r"\d{1,4}(?:[.,]\d{1,2})?"
_MM = {"MM": 1.0, "CM": 10.0, "IN": 25.4, "INCH": 25.4, "INCHES": 25.4, '"': 25.4, "FT": 304.8, "FOOT": 304.8}
_MM |= {"FEET": 304.8, "'": 304.8}
_UNITS = "|".join(sorted(_MM, key=len, reverse=True))


def word(plain: str, at: int, known: Known) -> Parsed | None:
    """Read one word of shorthand at a place."""
    for take in _TAKES:
        draft = Draft(plain, at)
        if take(draft, known) and (draft.ends() or take is _industry):  # TC-D18W is met
            return draft.parsed("partial", "lbs" if take is _industry else "shorthand")
    return None


def _industry(draft: Draft, known: Known) -> bool:
    for row in longest_first("lbs", "rows"):
        pattern = row["letters"].replace("-", "[ -]?")
        if match := draft.find(pattern + (r"(?![A-Z\d])" if pattern[-1].isdigit() else r"(?![A-Z])")):
            draft.add(len(match[0]), "form", f"fluorescent: {row['means']}", row["letters"])
            draft.state(kind="fluorescent", shapes=tuple(row["shapes"]))
            draft.state(**{key: row[key] for key in ("pins", "tube_mm") if key in row})
            return True
    return False


def _watts(draft: Draft, known: Known) -> bool:
    match = draft.find(r"(\d{1,3}(?:[.,]\d)?)[ \-]?W(?:ATTS?)?(?![A-Z0-9])")
    if match is None:
        return False
    watts = figure(match[1])
    draft.add(len(match[0]), "watts", f"{watts:g} watts", f"{watts:g}W")
    draft.state(watts=watts)
    return True


def _count(draft: Draft, known: Known) -> bool:
    numbers = tables()["numbers"]
    match = draft.find(rf"(\d|{'|'.join(numbers).upper()})[ \-]?(PINS?|P|LEGS?|LIMBS?)(?![A-Z0-9])")
    if match is None:
        return False
    count = int(match[1]) if match[1].isdigit() else numbers[match[1].lower()]
    what = "pins" if match[2].startswith("P") else "legs"
    draft.add(len(match[0]), what, f"{count} {what}", f"{count}-{what[:-1]}")
    draft.state(**{what: count})
    return True


def _length(draft: Draft, known: Known) -> bool:
    match = draft.find(rf"({_FIGURE}|\d{{1,3}}[ \-]\d/\d{{1,2}}|\d/\d{{1,2}})[ \-]?({_UNITS})(?![A-Z0-9])")
    value = _with_fraction(match[1]) if match else None
    if match is None or value is None:
        return False
    length_mm = round(value * _MM[match[2]], 1)
    draft.add(len(match[0]), "length", f"{length_mm:g} mm long", f"{length_mm:g}mm")
    draft.state(length_mm=length_mm, length_tolerance_mm=max(10.0, 0.045 * length_mm))
    return True


def _with_fraction(text: str) -> float | None:
    """Return 5 7/8 as 5.875; None where it divides by nothing."""
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    if "/" not in fraction:
        return figure(text)
    over, under = map(int, fraction.split("/"))
    return int(whole or 0) + over / under if under else None


def _supply(draft: Draft, known: Known) -> bool:
    # Volts of the mains only: a lamp's 39 V is seldom printed, and a worn 39 W often.
    volts = r"[1-4]\d\d(?:[\-/][1-4]\d\d)? ?(?:VOLTS?|VAC|V)"
    match = draft.find(rf"(?:{volts}|{_FIGURE}(?:[\-/]{_FIGURE})? ?(?:HZ|MA|AMPS?|LUMENS?|LM))(?![A-Z0-9])")
    if match is None:
        return False
    draft.add(len(match[0]), "other", "volts, amperes, hertz or lumens: does not tell the base", match[0])
    return True


def _colour(draft: Draft, known: Known) -> bool:
    alone = draft.find(r"[A-Z](?![A-Z0-9])") and draft.plain[draft.at - 1 : draft.at] != "/"
    if alone or not take_colour(draft):  # a single letter is a colour behind a slash only
        return False
    draft.state(kind="fluorescent")
    return True


def _tube(draft: Draft, known: Known) -> bool:
    match = draft.find(r"T[ \-]?(\d{1,2})(?!\d)")
    tube_mm = tables()["linear"]["eighths_mm"].get(match[1]) if match else None
    if match is None or tube_mm is None:
        return False
    draft.add(len(match[0]), "diameter", f"tube {match[1]}/8 inch thick, {tube_mm:g} mm", f"T{match[1]}")
    draft.state(tube_mm=tube_mm)
    return True


@cache
def _word_rows() -> tuple[tuple[str, dict[str, Any]], ...]:
    rows = [(text.upper(), row) for row in tables()["words"] for text in row["words"]]
    return tuple(sorted(rows, key=lambda pair: -len(pair[0])))


def _trade_word(draft: Draft, known: Known) -> bool:
    for text, row in _word_rows():
        if draft.letters(text) and draft.find(re.escape(text) + r"(?![A-Z0-9])"):
            if row["means"]:
                draft.add(len(text), "word", row["means"], text.lower())
            else:
                draft.at += len(text)
            draft.state(**{key: tuple(v) if isinstance(v, list) else v for key, v in row["facts"].items()})
            return True
    return False


def _bare_number(draft: Draft, known: Known) -> bool:
    match = draft.find(r"\d{1,3}(?![\d.,]*\d)(?![A-Z])")
    if match is None or float(match[0]) not in known.watts:
        return False
    draft.add(len(match[0]), "number", f"{int(match[0])}: taken as watts", f"{int(match[0])}W")
    draft.state(watts=float(match[0]))
    draft.notes.append(f"{int(match[0])} was taken as watts.")
    return True


def _head_alone(draft: Draft, known: Known) -> bool:
    return nema_head_alone(draft)


_TAKES: tuple[Callable[[Draft, Known], bool], ...] = (
    _industry,
    _head_alone,
    _watts,
    _count,
    _length,
    _supply,
    _colour,
    _tube,
    _trade_word,
    _bare_number,
)
