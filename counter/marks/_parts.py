"""One slot of a code: what it looks like, means and states, from its row under `parts` in resources/marks.json.

A slot is a pattern; `<rows>` in it stands for the letters of its rows, longest first, and the row that was met
fills in what is said and stated.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.marks._lex import Draft, figure, is_one_tube
from counter.marks._sentences import COLD, NEUTRAL, WARM
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.marks._known import Known

_MM = {"MM": 1.0, "CM": 10.0, "IN": 25.4, "INCH": 25.4, "INCHES": 25.4, '"': 25.4, "FT": 304.8, "FOOT": 304.8}
_MM |= {"FEET": 304.8, "'": 304.8}


class Slot(NamedTuple):
    """A slot as its table describes it."""

    pattern: re.Pattern[str]
    rows: dict[str, dict[str, Any]]
    table: dict[str, Any]


@cache
def slot_of(name: str) -> Slot:
    table = tables()["systems"]["parts"][name]
    rows = [row for row in _rows(table) if table.get("least", 0) <= len(row["letters"]) <= table.get("most", 99)]
    letters = "|".join(_spelled(row, table) for row in sorted(rows, key=lambda row: -len(row["letters"])))
    pattern = table.get("pattern", "").replace("<rows>", f"(?P<letters>{letters})")
    return Slot(re.compile(pattern, re.ASCII), {_bare(row["letters"]): row for row in rows}, table)


@cache
def may_begin(name: str, sign: str) -> bool:
    """Whether what stands in this slot may begin with a sign."""
    slot = slot_of(name)
    begins = [letters[0] for letters in slot.rows] or slot.table.get("begins")
    return not begins or sign in begins


def _rows(table: dict[str, Any]) -> list[dict[str, Any]]:
    if "rows" not in table:
        return []
    rows: Any = tables()
    for key in table["rows"]:
        rows = rows[key]
    if "spelled" in table:
        return [row | {"letters": text} for row in rows for text in row.get(table["spelled"], ())]
    return [row | {"letters": text.upper()} for row in rows for text in row.get("words", (row.get("letters"),))]


def _spelled(row: dict[str, Any], table: dict[str, Any]) -> str:
    letters = re.escape(str(row["letters"])).replace(r"\-", "[ -]?" if "spaced" in table else "-")
    if "shapes before" in table:
        shapes = sorted(row["shapes"], key=len, reverse=True)
        return f"{letters}(?=(?:{'|'.join(shapes)}){table['shapes before']})"
    if "ends" in table:
        return letters + (r"(?![A-Z\d])" if letters[-1].isdigit() else "(?![A-Z])")
    return letters


def _bare(letters: str) -> str:
    return letters.replace(" ", "").replace("-", "")


def fill(name: str, draft: Draft, known: Known | None = None) -> bool:
    """Take a slot that is a pattern at the draft's place; say whether it stands there."""
    slot = slot_of(name)
    match = slot.pattern.match(draft.plain, draft.at)
    stated = _read(match, slot.table) if match else None
    if match is None or stated is None or not _CHECKS[slot.table.get("check", "")](draft, match, stated, known):
        return False
    row = slot.rows[_bare(match["letters"])] if slot.rows else {}
    if "head" in slot.table:
        draft.head = row
    facts = _stated(row, slot.table)
    _add_parts(draft, match, slot.table, {**row, **stated})
    draft.state(**facts, **stated)
    return True


def _read(match: re.Match[str], table: dict[str, Any]) -> dict[str, Any] | None:
    """Return the values that a slot's groups state; None where one of them can be no such value."""
    stated = {fact: _READS[how](match, group) for fact, (group, how) in table.get("reads", {}).items()}
    return None if any(value is None for value in stated.values()) else stated


def _stated(row: dict[str, Any], table: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = dict(table.get("facts", {}))
    for key in table.get("states", ()):
        found |= row[key] if key == "facts" else {"shapes": [row[key]]} if key == "shape" and key in row else {}
        if key in row and key not in ("facts", "shape") and row[key] not in (None, []):
            found[key] = row[key]
    return {key: tuple(value) if isinstance(value, list) else value for key, value in found.items()}


def _add_parts(draft: Draft, match: re.Match[str], table: dict[str, Any], say: dict[str, Any]) -> None:
    groups = match.groupdict()
    say |= {"text": match[0], "lower": match[0].lower(), "n": groups.get("n"), "cri": groups.get("cri")}
    say |= {"long": groups.get("long"), "eighths": _eighths(groups.get("n") or "")}
    say |= {"feel": _feel(say["cct_k"])} if "cct_k" in say else {}
    for group, part, means, clean in table["parts"]:
        if match.start(group or 0) < 0:
            continue
        draft.at = match.start(group or 0)
        length = match.end(group or 0) - draft.at
        means = (means[draft.head["number"]] if isinstance(means, dict) else means).format(**say)
        if means:
            draft.add(length, say.get("part", part), means, clean.format(**say))
    draft.at = match.end()
    if "note" in table:
        draft.notes.append(table["note"].format(**say))


def _feel(cct_k: int) -> str:
    return WARM if cct_k < 3300 else COLD if cct_k > 5300 else NEUTRAL


def _eighths(text: str) -> str:
    """Return 5 1/2 as 5.5."""
    return "5.5" if len(text) > 2 else text


def _tube_mm(match: re.Match[str], group: str) -> float | None:
    found: float | None = tables()["linear"]["eighths_mm"].get(_eighths(match[group]))
    return found


def _count(match: re.Match[str], group: str) -> int:
    numbers: dict[str, int] = tables()["numbers"]
    return int(match[group]) if match[group].isdigit() else numbers[match[group].lower()]


def _length_mm(match: re.Match[str], group: str) -> float | None:
    """Return 5 7/8 inches in millimetres; None where it divides by nothing."""
    whole, _, fraction = match[group].replace("-", " ").rpartition(" ")
    over, _, under = fraction.partition("/")
    if not under:
        return round(figure(match[group]) * _MM[match["unit"]], 1)
    return round((int(whole or 0) + int(over) / int(under)) * _MM[match["unit"]], 1) if int(under) else None


def _tolerance_mm(match: re.Match[str], group: str) -> float:
    return max(10.0, 0.045 * (_length_mm(match, group) or 0.0))


_READS: dict[str, Callable[[re.Match[str], str], float | None]] = {
    "figure": lambda match, group: figure(match[group]),
    "count": _count,
    "hundreds": lambda match, group: int(match[group]) * 100,
    "thousands": lambda match, group: int("".join(filter(str.isdigit, match[group]))),
    "cri": lambda match, group: tables()["colour"]["cri_digits"][match[group]]["cri_min"],
    "eighths": _tube_mm,
    "rendering": lambda match, group: tables()["ilcos"]["cri_classes"][match[group]],
    "length": _length_mm,
    "tolerance": _tolerance_mm,
}


def cct_allowed(cct_k: int) -> bool:
    """Whether a lamp can have this colour temperature."""
    low, high = tables()["colour"]["cct_range_k"]
    return bool(low <= cct_k <= high)


_CHECKS: dict[str, Callable[[Draft, re.Match[str], dict[str, Any], Known | None], bool]] = {
    "": lambda draft, match, stated, known: True,
    "colour": lambda draft, match, stated, known: cct_allowed(stated["cct_k"]),
    "tube": lambda draft, match, stated, known: any(
        is_one_tube(stated["tube_mm"], one) for one in tables()["linear"]["eighths_mm"].values()
    ),
    "known watts": lambda draft, match, stated, known: known is None or stated["watts"] in known.catalogue.watts,
    "tube number": lambda draft, match, stated, known: (
        stated["number"] < 1000 or draft.head["number"] == "millimetres"
    ),
    # G13 T8 is a base and a tube, G13T8 a germicidal lamp: behind a G no space may part the two.
    "diameter": lambda draft, match, stated, known: match[0][0] == "T" or draft.facts.get("kind") != "uv-c",
}
