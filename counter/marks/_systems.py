"""The code systems, read slot by slot: what a slot looks like, means and states stands in resources/marks.json.

A slot is a pattern; `<rows>` in it stands for the letters of its rows, longest first, and the row that was met
fills in what is said and stated. A system is slots in their order and then any of its extras, in any order.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.marks._caps import take_cap
from counter.marks._colour import cct_allowed, take_colour
from counter.marks._lex import Draft, Parsed, figure
from counter.marks._sentences import TRADE_TUBE, TRADE_WATTS
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.marks._known import Known
    from counter.marks._lex import Facts

WHOLE = ("nema", "linear", "ilcos")
_MM = {"MM": 1.0, "CM": 10.0, "IN": 25.4, "INCH": 25.4, "INCHES": 25.4, '"': 25.4, "FT": 304.8, "FOOT": 304.8}
_MM |= {"FEET": 304.8, "'": 304.8}
_TUBE_TOLERANCE_MM = 1.2


class Slot(NamedTuple):
    """A slot as its table describes it."""

    pattern: re.Pattern[str]
    rows: dict[str, dict[str, Any]]
    table: dict[str, Any]


def code_of(name: str, plain: str, at: int, known: Known) -> Parsed | None:
    """Read a whole code of one system at a place."""
    system = tables()["systems"][name]
    if not _may_begin(system["slots"][0], plain[at]):
        return None
    draft = Draft(plain, at)
    for slot in system["slots"]:
        if not _take(slot.removesuffix("?"), draft, known) and not slot.endswith("?"):
            return None
    is_uv_c = draft.facts.get("kind") == "uv-c"
    if is_uv_c and name == "linear" and "tube_mm" not in draft.facts:
        return None
    while _extra(draft, system, known, joint=system["joint"] if not is_uv_c or name == "nema" else ""):
        pass
    if name == "linear":
        _settle(draft)
    return draft.parsed("ansi-germicidal" if is_uv_c else system["system"]) if draft.ends() else None


def word(plain: str, at: int, known: Known) -> Parsed | None:
    """Read one word of trade shorthand at a place."""
    for slots in tables()["systems"]["shorthand"]["one of"]:
        if not _may_begin(slots[0], plain[at]):
            continue
        draft = Draft(plain, at)
        is_industry = slots == ["industry letters"]
        if all(_take(slot, draft, known) for slot in slots) and (is_industry or draft.ends()):  # TC-D18W is met
            return draft.parsed("partial", "lbs" if is_industry else "shorthand")
    return None


def _extra(draft: Draft, system: dict[str, Any], known: Known, joint: str) -> bool:
    """Take one more element of a code, in whatever order they stand."""
    before, clean = draft.at, draft.clean
    is_apart = draft.skip(system["gap"])
    if draft.at < len(draft.plain) and (is_apart or not system.get("apart")):
        draft.clean = ""
        if any(_take(slot, draft, known) for slot in system["extras"]):
            draft.clean = f"{clean}{joint}{draft.clean}"
            return True
    draft.at, draft.clean = before, clean
    return False


@cache
def _slot(name: str) -> Slot:
    table = tables()["systems"]["parts"][name]
    rows = [row for row in _rows(table) if len(row["letters"]) >= table.get("least", 0)]
    letters = "|".join(_spelled(row, table) for row in sorted(rows, key=lambda row: -len(row["letters"])))
    pattern = table.get("pattern", "").replace("<rows>", f"(?P<letters>{letters})")
    return Slot(re.compile(pattern, re.ASCII), {_bare(row["letters"]): row for row in rows}, table)


@cache
def _may_begin(name: str, sign: str) -> bool:
    """Whether what stands in this slot may begin with a sign."""
    slot = _slot(name)
    begins = [letters[0] for letters in slot.rows] or slot.table.get("begins")
    return not begins or sign in begins


def _rows(table: dict[str, Any]) -> list[dict[str, Any]]:
    if "rows" not in table:
        return []
    rows: Any = tables()
    for key in table["rows"]:
        rows = rows[key]
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


def _take(name: str, draft: Draft, known: Known) -> bool:
    """Take a slot at the draft's place; say whether it stands there."""
    slot = _slot(name)
    table, facts = slot.table, draft.facts
    if table.get("once") in facts or (("when" in table or "unless" in table) and not _agrees(facts, table)):
        return False
    if "take" in table:
        return _TAKES[table["take"]](draft, table, known)
    match = slot.pattern.match(draft.plain, draft.at)
    stated = _read(match, table) if match else None
    if match is None or stated is None or not _CHECKS[table.get("check", "")](draft, match, stated, known):
        return False
    row = slot.rows[_bare(match["letters"])] if slot.rows else {}
    if "head" in table:
        draft.head = row
    _add_parts(draft, match, table, {**row, **stated})
    draft.state(**_stated(row, table), **stated)
    return True


def _agrees(facts: Facts, table: dict[str, Any]) -> bool:
    stated: dict[str, Any] = {**facts, "shapes": list(facts.get("shapes", ()))}
    when, unless = table.get("when", {}), table.get("unless", {})
    return all(stated.get(key) == value for key, value in when.items()) and not any(
        stated.get(key) == value for key, value in unless.items()
    )


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
    for group, part, means, clean in table["parts"]:
        draft.at = match.start(group or 0)
        length = match.end(group or 0) - draft.at
        means = (means[draft.head["number"]] if isinstance(means, dict) else means).format(**say)
        if means:
            draft.add(length, say.get("part", part), means, clean.format(**say))
    draft.at = match.end()
    if "note" in table:
        draft.notes.append(table["note"].format(**say))


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
    "eighths": _tube_mm,
    "rendering": lambda match, group: tables()["ilcos"]["cri_classes"][match[group]],
    "length": _length_mm,
    "tolerance": _tolerance_mm,
}


def _is_tube(tube_mm: float) -> bool:
    return any(abs(tube_mm - one) < _TUBE_TOLERANCE_MM for one in tables()["linear"]["eighths_mm"].values())


_CHECKS: dict[str, Callable[[Draft, re.Match[str], dict[str, Any], Known], bool]] = {
    "": lambda draft, match, stated, known: True,
    "colour": lambda draft, match, stated, known: cct_allowed(stated["cct_k"]),
    "tube": lambda draft, match, stated, known: _is_tube(stated["tube_mm"]),
    "known watts": lambda draft, match, stated, known: stated["watts"] in known.catalogue.watts,
    "tube number": lambda draft, match, stated, known: (
        stated["number"] < 1000 or draft.head["number"] == "millimetres"
    ),
    # G13 T8 is a base and a tube, G13T8 a germicidal lamp: behind a G no space may part the two.
    "diameter": lambda draft, match, stated, known: match[0][0] == "T" or draft.facts.get("kind") != "uv-c",
}


def _base(draft: Draft, table: dict[str, Any], known: Known) -> bool:
    if "not" in table and draft.find(table["not"]):
        return False
    found = take_cap(draft.plain, draft.at, known, loose="loose" in table)
    if found is None:
        return False
    text = found.cap.text
    draft.add(
        found.end - draft.at, "base", found.means, table["clean"].format(base=text, equals=text.replace("-", "="))
    )
    draft.state(base=found.cap)
    if found.note:
        draft.notes.append(found.note)
    return True


def _colour(draft: Draft, table: dict[str, Any], known: Known) -> bool:
    if ("only" in table and not draft.find(table["only"])) or ("not" in table and draft.find(table["not"])):
        return False
    before = draft.at, list(draft.parts), draft.clean, draft.facts.copy()
    if take_colour(draft, letters=table.get("letters", True)) and ("whole" not in table or draft.ends()):
        draft.clean = table.get("before", "") + draft.clean
        if "kind" in table and draft.says_white():
            draft.facts["kind"] = table["kind"]
        return True
    draft.at, draft.parts, draft.clean, draft.facts = before
    return False


_TAKES: dict[str, Callable[[Draft, dict[str, Any], Known], bool]] = {"base": _base, "colour": _colour}


def _settle(draft: Draft) -> None:
    """Say what the number of a tube's code counts: watts, inches, or either."""
    facts, counts = draft.facts, draft.head["number"]
    number, tail = facts.pop("number"), facts.pop("tail_watts", None)
    if counts == "millimetres":
        facts["length_mm"] = number
        facts["length_tolerance_mm"] = tables()["systems"]["parts"]["ilcos size"]["facts"]["length_tolerance_mm"]
    elif counts == "inches":
        facts["inches"] = number
        facts["length_mm"] = round(number * 25.4)
        _watts_of_ring(draft, number)
    elif (counts == "watts" or "u-bent" in facts["shapes"]) and tail is None and "saving" not in facts:
        facts["watts"] = number
    else:
        facts["number"] = number
    if tail is not None:
        facts["watts"] = tail
    if "tube_mm" not in facts:
        _tube_left_out(draft, number)


def _watts_of_ring(draft: Draft, number: float) -> None:
    tubes = tables()["linear"]["eighths_mm"]
    asked = (number, draft.facts.get("tube_mm"), draft.facts.get("output"))
    for row in tables()["linear"]["circular_watts"]:
        if asked == (row["number"], tubes[str(row["eighths"])], row["output"]):
            draft.state(watts=float(row["watts"]))
            draft.notes.append(TRADE_WATTS.format(code=draft.clean, n=row["watts"]))


def _tube_left_out(draft: Draft, number: float) -> None:
    """Take the diameter that the trade means where a code leaves it out: F40 is T12."""
    for row in tables()["linear"]["tube_left_out"]:
        if row["number"] == number and draft.facts["shapes"] == ("linear",):
            draft.state(tube_mm=tables()["linear"]["eighths_mm"][str(row["eighths"])])
            draft.notes.append(TRADE_TUBE.format(code=draft.clean, n=row["eighths"]))
