"""Codes of straight, U-bent and circular tubes: F32T8/841, FB32T8/6, FC12T9, F96T12/HO, G15T8, F15T8/BLB."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.marks._colour import take_colour
from counter.marks._lex import Draft, Parsed
from counter.marks._tables import longest_first, tables

if TYPE_CHECKING:
    from counter.marks._known import Known

_GAP = r"[ /,\-]*"
_NUMBER_SAYS = {
    "watts": "{n} watts",
    "inches": "{n} inches across the ring",
    "either": "{n}: watts with two pins an end, inches with one pin or high output",
}


def linear_code(plain: str, at: int, known: Known) -> Parsed | None:
    """Read a tube's code at a place."""
    draft = Draft(plain, at)
    head = _head(draft)
    if head is None:
        return None
    number = _number(draft, head)
    eighths = _diameter(draft)
    germicidal = head["kind"] == "uv-c"
    if number is None or (germicidal and not eighths):
        return None
    while _extra(draft, head):
        pass
    _settle(draft, head, number, eighths)
    return draft.parsed("ansi-germicidal" if germicidal else "ansi-linear") if draft.ends() else None


def _head(draft: Draft) -> dict[str, Any] | None:
    for row in longest_first("linear", "heads"):
        if draft.find(rf"{row['letters']}[ \-]?\d"):
            draft.add(len(row["letters"]), "kind", row["means"], row["letters"])
            draft.state(kind=row["kind"], shapes=(row["shape"],), output="")
            draft.skip(r"[ \-]")
            return row
    return None


def _number(draft: Draft, head: dict[str, Any]) -> int | None:
    match = draft.find(r"\d{1,3}(?!\d)")
    if match is None:
        return None
    number = int(match[0])
    draft.add(len(match[0]), "watts or inches", _NUMBER_SAYS[head["number"]].format(n=number), str(number))
    return number


def _diameter(draft: Draft) -> str | None:
    # G13 T8 is a base and a tube, G13T8 a germicidal lamp: behind a G no space may part the two.
    space = "" if draft.facts.get("kind") == "uv-c" else " ?"
    match = draft.find(space + r"T[ \-]?(\d{1,2})(?!\d)")
    tube_mm = tables()["linear"]["eighths_mm"].get(match[1]) if match else None
    if match is None or tube_mm is None:
        return None
    lead = len(match[0]) - len(match[0].lstrip())
    draft.at += lead
    draft.add(len(match[0]) - lead, "diameter", f"tube {match[1]}/8 inch thick, {tube_mm:g} mm", f"T{match[1]}")
    draft.state(tube_mm=tube_mm)
    return match[1]


def _extra(draft: Draft, head: dict[str, Any]) -> bool:
    before = draft.at
    draft.skip(_GAP)
    clean, draft.clean = draft.clean, ""
    if draft.at < len(draft.plain) and (_spacing(draft, head) or _suffix(draft, head) or _colour(draft)):
        slash = "" if head["kind"] == "uv-c" else "/"
        draft.clean = clean + slash + draft.clean
        return True
    draft.at, draft.clean = before, clean
    return False


def _spacing(draft: Draft, head: dict[str, Any]) -> bool:
    if head["shape"] != "u-bent":
        return False
    for row in longest_first("linear", "leg_spacing"):
        if draft.find(rf"{row['letters']}(?![0-9A-Z])"):
            draft.add(len(row["letters"]), "leg spacing", row["means"], row["letters"])
            return True
    return False


def _suffix(draft: Draft, head: dict[str, Any]) -> bool:
    table = "germicidal_suffixes" if head["kind"] == "uv-c" else "suffixes"
    for row in longest_first("linear", table):
        if draft.find(rf"{row['letters']}(?![0-9A-Z])"):
            draft.add(len(row["letters"]), "suffix", row["means"], row["letters"])
            _state_suffix(draft, row)
            return True
    return False


def _state_suffix(draft: Draft, row: dict[str, Any]) -> None:
    draft.state(**{key: row[key] for key in ("output", "kind") if key in row})
    if "shape" in row:
        draft.state(shapes=(row["shape"],))
    if row.get("saving"):
        draft.facts["letters"] = "saving"


def _colour(draft: Draft) -> bool:
    if "cct_k" in draft.facts:
        return False
    before = draft.at, list(draft.parts), draft.clean, draft.facts.copy()
    if take_colour(draft) and draft.ends():
        return True
    draft.at, draft.parts, draft.clean, draft.facts = before
    return False


def _settle(draft: Draft, head: dict[str, Any], number: int, eighths: str | None) -> None:
    """Say what the number counts: watts, inches, or either."""
    facts = draft.facts
    saving = facts.pop("letters", None) == "saving"
    if head["number"] == "inches":
        facts["inches"] = float(number)
        facts["length_mm"] = round(number * 25.4)
        _watts_from(draft, "circular_watts", number, eighths)
    elif head["number"] == "watts" or "u-bent" in facts["shapes"]:
        facts["watts"] = float(number)
    else:
        facts["number"] = float(number)
    if saving:
        _watts_from(draft, "saving_watts", number, eighths)


def _watts_from(draft: Draft, table: str, number: int, eighths: str | None) -> None:
    for row in tables()["linear"][table]:
        asked = (number, eighths, row.get("output", ""))
        if asked == (row["number"], str(row["eighths"]), draft.facts.get("output") if "output" in row else ""):
            draft.facts.pop("number", None)
            draft.facts["watts"] = float(row["watts"])
            draft.notes.append(f"{draft.clean} was taken as {row['watts']} W, as the trade uses it.")
