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
    "millimetres": "{n} mm long",
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
            draft.state(**{key: row[key] for key in ("band",) if key in row})
            draft.skip(r"[ \-]")
            return row
    return None


def _number(draft: Draft, head: dict[str, Any]) -> int | None:
    match = draft.find(r"\d{1,4}(?!\d)" if head["number"] == "millimetres" else r"\d{1,3}(?!\d)")
    if match is None:
        return None
    number = int(match[0])
    draft.add(len(match[0]), "watts or inches", _NUMBER_SAYS[head["number"]].format(n=number), str(number))
    return number


def _diameter(draft: Draft) -> str | None:
    # G13 T8 is a base and a tube, G13T8 a germicidal lamp: behind a G no space may part the two.
    space = "" if draft.facts.get("kind") == "uv-c" else " ?"
    match = draft.find(space + r"T[ \-]?(?:(5)(?:[.]5|[ \-]?1[/\u2044]2)|(\d{1,2}))(?!\d)")
    eighths = f"{match[1]}.5" if match and match[1] else match[2] if match else ""
    tube_mm = tables()["linear"]["eighths_mm"].get(eighths)
    if match is None or tube_mm is None:
        return None
    lead = len(match[0]) - len(match[0].lstrip())
    draft.at += lead
    draft.add(len(match[0]) - lead, "diameter", f"tube {eighths}/8 inch thick, {tube_mm:g} mm", f"T{eighths}")
    draft.state(tube_mm=tube_mm)
    return eighths


def _extra(draft: Draft, head: dict[str, Any]) -> bool:
    before = draft.at
    draft.skip(_GAP)
    clean, draft.clean = draft.clean, ""
    if draft.at < len(draft.plain) and any(take(draft, head) for take in (_spacing, _tail_watts, _suffix, _colour)):
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


def _tail_watts(draft: Draft, head: dict[str, Any]) -> bool:
    """Take the watts that savers and tanning tubes print behind the rest: F32T8/841/25W."""
    match = draft.find(r"(\d{2,3}) ?W(?:ATTS?)?(?![A-Z0-9])")
    if match is None or "tail_watts" in draft.facts:
        return False
    draft.add(len(match[0]), "watts", f"{int(match[1])} watts", f"{int(match[1])}W")
    draft.state(tail_watts=float(match[1]))
    return True


def _suffix(draft: Draft, head: dict[str, Any]) -> bool:
    table = "germicidal_suffixes" if head["kind"] == "uv-c" else "suffixes"
    for row in longest_first("linear", table):
        if draft.find(rf"{row['letters']}(?![0-9A-Z])"):
            draft.add(len(row["letters"]), "suffix", row["means"], row["letters"])
            _state_suffix(draft, row)
            return True
    return False


def _state_suffix(draft: Draft, row: dict[str, Any]) -> None:
    draft.state(**{key: row[key] for key in ("output", "kind", "start", "ozone", "saving") if key in row})
    if "shape" in row:
        draft.state(shapes=(row["shape"],))


def _colour(draft: Draft, head: dict[str, Any]) -> bool:
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
    tail = facts.pop("tail_watts", None)
    if head["number"] == "millimetres":
        facts["length_mm"] = float(number)
        facts["length_tolerance_mm"] = tables()["ilcos"]["length_tolerance_mm"]
    elif head["number"] == "inches":
        facts["inches"] = float(number)
        facts["length_mm"] = round(number * 25.4)
        _watts_from(draft, "circular_watts", number, eighths)
    elif (head["number"] == "watts" or "u-bent" in facts["shapes"]) and tail is None and "saving" not in facts:
        facts["watts"] = float(number)
    else:
        facts["number"] = float(number)
    if tail is not None:
        facts["watts"] = tail
    if eighths is None:
        _tube_from(draft, number)


def _watts_from(draft: Draft, table: str, number: int, eighths: str | None) -> None:
    for row in tables()["linear"][table]:
        asked = (number, eighths, row.get("output", ""))
        if asked == (row["number"], str(row["eighths"]), draft.facts.get("output") if "output" in row else ""):
            draft.facts.pop("number", None)
            draft.facts["watts"] = float(row["watts"])
            draft.notes.append(f"{draft.clean} was taken as {row['watts']} W, as the trade uses it.")


def _tube_from(draft: Draft, number: int) -> None:
    """Take the diameter that the trade means where a code leaves it out: F40 is T12."""
    for row in tables()["linear"]["tube_left_out"]:
        if row["number"] == number and draft.facts["shapes"] == ("linear",):
            draft.state(tube_mm=tables()["linear"]["eighths_mm"][str(row["eighths"])])
            draft.notes.append(f"{draft.clean} was taken as T{row['eighths']}, as the trade uses it.")
