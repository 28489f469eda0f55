"""Colour: three digits, RE and three digits, kelvins, the older letters and the older lists of two figures."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from counter.marks._lex import Draft, Parsed
from counter.marks._parts import fill
from counter.marks._sentences import COLOUR_NUMBER
from counter.marks._tables import tables

_BESIDE_COLOUR = re.compile(r"(?<=/[5-9]\d\d/)\d\d(?!\d)|\d\d/[5-9]\d\d(?!\d)", re.ASCII)


def at_colour(plain: str, at: int) -> bool:
    """Whether a colour and nothing else stands from here to the end of the word."""
    draft = Draft(plain, at)
    return take_colour(draft) and draft.ends()


def take_colour(draft: Draft, *, letters: bool = True) -> bool:
    """Take a colour at the draft's place; `letters` also the older letters."""
    return _fill("figures", draft) or _list_number(draft) or (letters and _fill("letters", draft))


def _fill(sort: str, draft: Draft) -> bool:
    return any(fill(slot, draft) for slot in tables()["systems"]["colour"][sort])


def colour_code(plain: str, at: int) -> Parsed | None:
    """Read a colour that stands alone."""
    draft = Draft(plain, at)
    if not take_colour(draft) or not draft.ends():
        return None
    if draft.says_white():
        draft.state(kind="fluorescent")
    return draft.parsed("colour")


@cache
def whites() -> frozenset[int]:
    """Return the colour temperatures that lamps are made in, in kelvins."""
    colour, slots = tables()["colour"], tables()["slots"]
    digits = {int(text[1:]) * 100 for text in (*colour["common"], *slots["rare"])}
    named = {row["cct_k"] for row in (*colour["letters"], *colour["two_figures"]) if "cct_k" in row}
    return frozenset({*digits, *named, *slots["kelvins"]})


def is_common(cct_k: int) -> bool:
    """Whether lamps of every maker are to be had in this white."""
    return f"8{cct_k // 100}" in tables()["colour"]["common"]


def _list_number(draft: Draft) -> bool:
    """Take the two figures of the older lists, behind a slash where others print 840: white, a colour, ultraviolet.

    Three that stand there and name no white that a lamp can have, as in 36W/811, are such a number too.

    Right behind the watts and a slash any two figures are such a number, known or not; behind a blank or a hyphen
    those that are neither ultraviolet nor hundreds of kelvins, since a count or a date may stand there.
    """
    match = draft.find(r"(?<=[/ -])(\d\d|[5-9]\d\d(?! ?W(?![A-Z])))(?![A-Z0-9.,/\"'])")
    row = number_row(match[1]) if match else {}
    if match is None or not _may_stand(draft, match[1], row):
        return False
    draft.add(len(match[1]), part_of_number(row), COLOUR_NUMBER.format(n=match[1], what=row["means"]), match[1])
    kept = ("cct_k",) if draft.facts.get("kind", "fluorescent") != "fluorescent" else ("kind", "band", "cct_k")
    draft.state(**{key: row[key] for key in kept if key in row})  # of G15T8/20 the G stands
    return True


def second_colour(plain: str, at: int) -> bool:
    """Whether three figures of a colour stand right before two others or behind them: of two one is none."""
    return bool(_BESIDE_COLOUR.match(plain, at))


def _may_stand(draft: Draft, number: str, row: dict[str, Any]) -> bool:
    if len(number) > 2:
        return draft.find("(?<=/)") is not None
    if row.get("kind") in (None, "fluorescent") and second_colour(draft.plain, draft.at):
        return False
    if draft.find("(?<=/)") or draft.find("(?<=/ )"):
        return "number" in row or draft.find("(?<=W/)") is not None
    is_sure = "number" in row and row.get("kind") in (None, "fluorescent")
    newer = (str(shade) for shade in tables()["slots"]["two_figures"])
    return is_sure and number not in newer and draft.find("(?<=W[ -])") is not None


def number_row(number: str) -> dict[str, Any]:
    """Return what two figures mean where a colour stands; for a number in no list, that nobody knows."""
    unknown = {"part": "colour-number", "means": tables()["colour"]["unknown_number"]}
    return next((row for row in tables()["colour"]["two_figures"] if row["number"] == number), unknown)


def part_of_number(row: dict[str, Any]) -> str:
    """Return what part of a code such a number is: a colour of white, a kind of ultraviolet, or one of its own."""
    own = "colour" if row.get("kind") == "fluorescent" else "kind"
    return str(row.get("part", own))
