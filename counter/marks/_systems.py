"""The code systems, read slot by slot: a system is slots in their order and then any of its extras, in any order."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.marks._caps import take_cap
from counter.marks._colour import take_colour
from counter.marks._lex import Draft, Parsed
from counter.marks._parts import fill, may_begin, slot_of
from counter.marks._sentences import TRADE_TUBE, TRADE_WATTS
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.marks._known import Known
    from counter.marks._lex import Facts

WHOLE = ("nema", "linear", "ilcos")


def code_of(name: str, plain: str, at: int, known: Known) -> Parsed | None:
    """Read a whole code of one system at a place."""
    system = tables()["systems"][name]
    if not may_begin(system["slots"][0], plain[at]):
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
        if not may_begin(slots[0], plain[at]):
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


def _take(name: str, draft: Draft, known: Known) -> bool:
    """Take a slot at the draft's place; say whether it stands there."""
    table, facts = slot_of(name).table, draft.facts
    if table.get("once") in facts or (("when" in table or "unless" in table) and not _agrees(facts, table)):
        return False
    return _TAKES[table["take"]](draft, table, known) if "take" in table else fill(name, draft, known)


def _agrees(facts: Facts, table: dict[str, Any]) -> bool:
    stated: dict[str, Any] = {**facts, "shapes": list(facts.get("shapes", ()))}
    when, unless = table.get("when", {}), table.get("unless", {})
    return all(stated.get(key) == value for key, value in when.items()) and not any(
        stated.get(key) == value for key, value in unless.items()
    )


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
