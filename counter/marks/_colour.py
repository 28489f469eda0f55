"""Colour: three digits, RE and three digits, kelvins, and the older letters."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from counter.marks._lex import Draft, Parsed, ends
from counter.marks._sentences import COLD, COLOUR, COLOUR_ABOUT, COLOUR_NUMBER, NEUTRAL, RENDERING, WARM
from counter.marks._tables import longest_first, tables

_CODE = r"(?:RE ?)?([5-9])(\d\d)(?!\d)"
_LETTER_BEFORE_CODE = r"[A-Z][ /\-]+(?:[5-9]\d\d(?!\d)|\d\d(?:\d\d)?K)"
_BESIDE_COLOUR = re.compile(r"(?<=/[5-9]\d\d/)\d\d(?!\d)|\d\d/[5-9]\d\d(?!\d)", re.ASCII)
_KELVIN = r"(\d{1,2})[ ,.]?(\d{3}) ?°? ?K(?![A-Z0-9])"


def at_colour(plain: str, at: int) -> bool:
    """Whether a colour and nothing else stands from here to the end of the word."""
    draft = Draft(plain, at)
    return take_colour(draft) and draft.ends()


def take_colour(draft: Draft, *, letters: bool = True) -> bool:
    """Take a colour at the draft's place; `letters` also the older letters."""
    return _code(draft) or _kelvin(draft) or _two_figures(draft) or (letters and (_letters(draft) or _tint(draft)))


def colour_code(plain: str, at: int) -> Parsed | None:
    """Read a colour that stands alone."""
    draft = Draft(plain, at)
    if not take_colour(draft) or not draft.ends():
        return None
    if draft.says_white():
        draft.state(kind="fluorescent")
    return draft.parsed("colour")


def cct_allowed(cct_k: int) -> bool:
    """Whether a lamp can have this colour temperature."""
    low, high = tables()["colour"]["cct_range_k"]
    return bool(low <= cct_k <= high)


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


def _code(draft: Draft) -> bool:
    match = draft.find(_CODE)
    if match is None or draft.find(_CODE + r" ?W(?:ATTS?)?(?![A-Z])"):
        return False
    if not cct_allowed(int(match[2]) * 100):
        return _no_white(draft, match[0])
    rare = tables()["colour"]["rare_earth"]
    before = len(match[0]) - 3
    if before:
        draft.add(before, "phosphor", rare["means"], rare["letters"])
    cri = tables()["colour"]["cri_digits"][match[1]]["cri_min"]
    cct_k = int(match[2]) * 100
    draft.add(1, "rendering", RENDERING.format(n=cri), match[1])
    draft.add(2, "colour", COLOUR.format(n=cct_k, what=_feel(cct_k)), match[2])
    draft.state(cct_k=cct_k, cri_min=cri)
    return True


def _no_white(draft: Draft, text: str) -> bool:
    """Take three figures that stand where a colour does and name no white that a lamp can have: 36W/811."""
    if not draft.find(r"(?<=/)") or not draft.find(r"\d{3}(?![A-Z0-9.,/\"'])"):
        return False
    draft.add(3, "colour-number", COLOUR_NUMBER.format(n=text, what=tables()["colour"]["unknown_number"]), text)
    return True


def _feel(cct_k: int) -> str:
    return WARM if cct_k < 3300 else COLD if cct_k > 5300 else NEUTRAL


def _two_figures(draft: Draft) -> bool:
    """Take the two figures of the older lists, behind a slash where others print 840: white, a colour, ultraviolet.

    Right behind the watts and a slash any two figures are such a number, known or not; behind a blank or a hyphen
    those that are neither ultraviolet nor hundreds of kelvins, since a count or a date may stand there.
    """
    match = draft.find(r"(?<=[/ -])(\d\d)(?![A-Z0-9.,/\"'])")
    row = number_row(match[1]) if match else {}
    if match is None or not _may_stand(draft, match[1], row):
        return False
    draft.add(2, part_of_number(row), COLOUR_NUMBER.format(n=match[1], what=row["means"]), match[1])
    kept = ("cct_k",) if draft.facts.get("kind", "fluorescent") != "fluorescent" else ("kind", "band", "cct_k")
    draft.state(**{key: row[key] for key in kept if key in row})  # of G15T8/20 the G stands
    return True


def second_colour(plain: str, at: int) -> bool:
    """Whether three figures of a colour stand right before two others or behind them: of two one is none."""
    return bool(_BESIDE_COLOUR.match(plain, at))


def _may_stand(draft: Draft, number: str, row: dict[str, Any]) -> bool:
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


def _tint(draft: Draft) -> bool:
    """Take the letters of a colour that is no white, behind a slash."""
    for row in tables()["colour"]["tints"]:
        if draft.find(rf"(?<=/){row['letters']}(?![A-Z0-9?*])"):
            draft.add(len(row["letters"]), "coloured", row["means"], row["letters"])
            return True
    return False


def _kelvin(draft: Draft) -> bool:
    match = draft.find(_KELVIN)
    if match is None or not cct_allowed(int(match[1] + match[2])):
        return False
    cct_k = int(match[1] + match[2])
    draft.add(len(match[0]), "colour", COLOUR.format(n=cct_k, what=_feel(cct_k)), f"{cct_k}K")
    draft.state(cct_k=cct_k)
    return True


def _letters(draft: Draft) -> bool:
    for row in longest_first("colour", "letters"):
        if draft.letters(row["letters"]) and _take_letters(draft, row):
            return True
    deluxe = tables()["colour"]["deluxe"]
    if draft.letters(deluxe["letters"]) and ends(draft.plain, draft.at + len(deluxe["letters"])):
        draft.add(len(deluxe["letters"]), "colour", deluxe["means"], deluxe["letters"])
        return True
    return False


def _take_letters(draft: Draft, row: dict[str, Any]) -> bool:
    letters = row["letters"]
    deluxe = draft.find(rf"{letters}[/ -]?(?:DX|X)(?![A-Z0-9])")
    better = next((r for r in tables()["colour"]["letters"] if r["letters"] == letters + "X"), None)
    if deluxe and better:
        draft.add(len(deluxe[0]), "colour", _says(better), better["letters"])
        row = better
    elif len(letters) == 1 and draft.find(_LETTER_BEFORE_CODE):
        return False  # F13D/827: the figures are the colour, the letter before them is the maker's
    elif ends(draft.plain, draft.at + len(letters)):
        draft.add(len(letters), "colour", _says(row), letters)
    else:
        return False
    draft.state(cct_k=row["cct_k"], cri_min=row["cri_min"])
    return True


def _says(row: dict[str, Any]) -> str:
    return COLOUR_ABOUT.format(what=row["means"], n=row["cct_k"])
