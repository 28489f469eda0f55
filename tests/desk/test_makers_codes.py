"""What a shop says of makers' codes, at the one door: asked again where a case speaks against it, sold before, UV.

The codes of the properties come from the seeded generator of invented makers.
"""

from __future__ import annotations

import random

import pytest

from counter.desk import Case, SoldCode, assess, code_key
from counter.marks.letters import LettersMean, LetterTable, as_house, teach
from tests.simulate_makers import SHIPPED, Maker, maker

XK = "F26XK/841/4P"
QUAD = LettersMean(shape="quad", legs=4)
OPEN = "F26XK/4P"  # 26 W, four pins: a quad or a triple
SOLD = {code_key(OPEN): (SoldCode("G24q-3/26/quad", 2, "2026-11-02", 7, "TV100"),)}
NINE = "G23/9/twin"
UV_KINDS = {"uv", "glass"}


def taught(word, means, who="Ada"):
    return (as_house(teach(LetterTable(), word, means, who=who, at="2026-11-02T10:00")),)


def kinds(found):
    return {one.kind for one in found.doubts}


@pytest.mark.parametrize(
    ("case", "other"),
    [
        (Case(marks=XK, looks={"legs": "6"}), "You saw 3 bent tubes (legs)."),
        (Case(marks=XK, chosen="GX24q-3/26/triple"), "You said that it is 26\N{THIN SPACE}W GX24q-3."),
    ],
)
def test_letters_that_a_case_contradicts_are_asked_about_with_both_sides(catalogue, case, other):
    found = assess(catalogue, case, taught("XK", QUAD))
    assert [one.letters for one in found.letters] == ["XK"]
    assert "letters" in kinds(found)
    assert not found.is_settled
    assert "XK means two bent tubes" in found.letters[0].says
    assert "taught by Ada on 2026-11-02" in found.letters[0].says
    assert found.letters[0].says.endswith(other)


def test_letters_that_an_earlier_sale_contradicts_are_asked_about(catalogue):
    house = taught("XK", LettersMean(shape="triple", legs=6))
    found = assess(catalogue, Case(marks=OPEN), house, SOLD)
    assert "was sold here as 26\N{THIN SPACE}W G24q-3 on 2026-11-02" in found.letters[0].says
    assert found.sold[0].leads is False


@pytest.mark.parametrize("looks", [{}, {"legs": "4"}, {"legs": "4", "pins": "4"}, {"glass": "white"}])
def test_letters_that_nothing_speaks_against_are_not_asked_about(catalogue, looks):
    assert assess(catalogue, Case(marks=XK, looks=looks), taught("XK", QUAD)).letters == ()


def test_the_lamp_may_be_an_exception(catalogue):
    case = Case(marks=XK, looks={"legs": "6"}, explained=("XK",))
    found = assess(catalogue, case, taught("XK", QUAD))
    assert found.letters == ()
    assert not {"letters", "dispute", "unread"} & kinds(found)
    assert found.lamp == "GX24q-3/26/triple"


def test_letters_of_ultraviolet_cannot_be_passed_over(catalogue):
    house = taught("XK", LettersMean(kind="uv-c"))
    plain = assess(catalogue, Case(marks="9WXK", chosen="G23/9/twin"), house)
    (asked,) = plain.letters
    assert asked.may_except is False
    assert next(one for one in plain.doubts if one.kind == "letters").words == ()
    pressed = assess(catalogue, Case(marks="9WXK", chosen="G23/9/twin", explained=("XK",)), house)
    assert UV_KINDS & kinds(pressed)


# -- sold before


def test_a_code_sold_before_brings_the_same_lamp_first(catalogue):
    assert assess(catalogue, Case(marks=OPEN)).lamp is None
    found = assess(catalogue, Case(marks="f26xk 4p"), (), SOLD)
    assert (found.lamp, found.sold[0].leads) == ("G24q-3/26/quad", True)
    assert found.sold[0].says.startswith("Sold here as 26\N{THIN SPACE}W G24q-3 on 2026-11-02, slip 7 (TV100)")
    assert "unread" in kinds(found)  # the letters are read by nobody yet


def test_a_look_is_not_overruled_by_a_sale(catalogue):
    case = Case(marks=OPEN, looks={"legs": "6"})
    plain, found = assess(catalogue, case), assess(catalogue, case, (), SOLD)
    assert found.sold[0].leads is False
    assert found.candidates == plain.candidates


@pytest.mark.parametrize("marks", ["CFQ26W/G24q/841", "26W 4-pin 841", "F26XK?4P", "26W", "F26XQ/4P"])
def test_only_the_same_code_of_a_makers_own_counts(catalogue, marks):
    sold = {code_key(marks) or "26W": SOLD[code_key(OPEN)]} if marks != "F26XQ/4P" else SOLD
    assert assess(catalogue, Case(marks=marks), (), sold).sold == ()


def test_a_lamp_that_is_no_longer_known_is_left_out(catalogue):
    sold = {code_key(OPEN): (SoldCode("gone/1/quad", 2, "2026-11-02", 7, ""),)}
    assert assess(catalogue, Case(marks=OPEN), (), sold).sold == ()


# -- ultraviolet


class Uncoloured(Maker):
    """A maker who prints no colour: nothing in such a code says that the lamp is white."""

    def _colour(self, colour: str) -> str:
        return ""


def cases():
    """Yield codes of invented makers without their colour, on lamps that have a germicidal twin or are one."""
    rng = random.Random("ultraviolet")
    twins = {(lamp.base, lamp.watts.value) for lamp in SHIPPED.lamps if lamp.kind == "uv-c"}
    for number in range(16):
        made = Uncoloured(**vars(maker(rng, number)))
        for code in (made.code(rng) for _ in range(4)):
            if (code.lamp.base, code.lamp.watts.value) in twins:
                pins = f"{SHIPPED.base_of(code.lamp).pins.value:g}"
                yield code, {"pins": pins, "legs": str(code.lamp.legs or "1")}


def warns_of_ultraviolet(found):
    """Whether the answer says that the lamp may be ultraviolet, and lets nothing be sold."""
    is_said = UV_KINDS & kinds(found) or any(one.rule.startswith(("look-uv", "uv")) for one in found.cautions)
    return bool(is_said) and found.verdict != "sell"


MEANINGS = (LettersMean(), QUAD, LettersMean(shape="twin", pins=2), LettersMean(kind="led"), LettersMean(base="G23"))


def test_nothing_taught_or_sold_takes_a_doubt_about_ultraviolet_away(catalogue):
    doubted = 0
    for code, looks in cases():
        case = Case(marks=code.text, looks=looks, use="lighting", fixture={"ballast": "magnetic"})
        plain = assess(catalogue, case)
        if not warns_of_ultraviolet(plain):
            continue
        doubted += 1
        white = SoldCode(NINE, 99, "2026-11-02", 1, "")
        sold = {code_key(code.text): (white, white._replace(lamp="G24q-3/26/quad"))}
        for means in MEANINGS:
            found = assess(catalogue, case, taught(code.series, means), sold)
            assert found.verdict != "sell"  # whatever else is left open
            # Where the meaning points to lamps that have no such twin, what it goes against holds the case.
            is_open = warns_of_ultraviolet(found) or {"against", "dispute", "letters"} & kinds(found)
            assert is_open, (code.text, means)
    assert doubted >= 12


def test_what_was_sold_leaves_the_germicidal_twin_as_likely(catalogue):
    """The share of ultraviolet lamps against the lamp that leads, on its base, is the same with and without."""
    marks = "9W QKX"
    sold = {code_key(marks): (SoldCode(NINE, 5, "2026-11-02", 1, ""),)}
    plain, found = assess(catalogue, Case(marks=marks)), assess(catalogue, Case(marks=marks), (), sold)

    def share(one):
        chance = {each.lamp: each.probability for each in one.candidates}
        uv = sum(
            p for lamp, p in chance.items() if lamp.startswith("G23/") and catalogue.lamp_by_id[lamp].kind == "uv-c"
        )
        return uv / (uv + chance["G23/9/twin"])

    assert share(found) == pytest.approx(share(plain))
