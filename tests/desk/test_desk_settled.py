"""What settles a lamp, and what must never: a click is not knowledge, and no doubt about UV-C closes by itself."""

from __future__ import annotations

import pytest

from counter.desk import Case, assess
from counter.fit import Fixture

MAGNETIC = Fixture(holder="G23", ballast="magnetic", ballast_watts=(9,))
ELECTRONIC = Fixture(holder="GX24q-3", ballast="electronic", ballast_watts=(26,))


@pytest.mark.parametrize("chosen", [None, "G23/9/twin"])
def test_clear_glass_is_never_sold_for_light(catalogue, chosen):
    case = Case(marks="CFT9W/G23/827", looks={"glass": "clear"}, chosen=chosen, fixture=MAGNETIC, use="lighting")
    found = assess(catalogue, case)
    assert (found.verdict, found.is_settled) == ("ask first", False)
    assert found.asks[0].about == "glass"
    assert any(one.rule.startswith("look-uvc-leading") for one in found.cautions)


def test_clear_glass_without_marks_is_not_settled_by_choosing(catalogue):
    case = Case(looks={"glass": "clear"}, chosen="G23/9/twin", fixture=MAGNETIC, use="lighting")
    assert assess(catalogue, case).verdict == "ask first"


def test_choosing_does_not_settle_an_open_contradiction(catalogue):
    case = Case(marks="CFQ26W/G24q", looks={"pins": "2"}, chosen="G24q-3/26/quad")
    assert not assess(catalogue, case).is_settled


def test_looking_at_an_outline_is_not_reading_its_watts(catalogue):
    looks = {"legs": "6", "pins": "4", "glass": "white"}
    case = Case(looks=looks, shown="GX24q-3/26/triple", fixture=ELECTRONIC, use="lighting")
    found = assess(catalogue, case)
    assert found == assess(catalogue, case.model_copy(update={"shown": None}))
    assert (found.verdict, found.is_settled) == ("ask first", False)


def test_white_lamp_with_no_print_may_be_sold(catalogue):
    looks = {"legs": "2", "pins": "2", "glass": "white", "watts": "9", "notch": "one-large", "block": "yes"}
    found = assess(catalogue, Case(looks=looks, fixture=MAGNETIC, use="lighting"))
    assert (found.verdict, found.lamp) == ("sell", "G23/9/twin")


@pytest.mark.parametrize(
    "text",
    [
        "FT36W/2G11/840 254nm",
        "FT36W/2G11/840 UV",
        "CFT9W/G23/UVC",
        "9W G23 253.7 nm",
        "G23 9W ozone free UV",
        "9W G23 254nm",
    ],
)
@pytest.mark.parametrize("chosen", [None, "G23/9/twin"])
def test_any_word_of_uv_warns_and_holds_the_sale(catalogue, text, chosen):
    case = Case(marks=text, chosen=chosen, fixture=MAGNETIC, use="lighting", looks={"glass": "white"})
    found = assess(catalogue, case)
    assert found.verdict != "sell"
    assert any(one.signal in ("WARNING", "DANGER") and "UV" in one.says for one in found.cautions)
    assert "likely" not in found.subline or "UV-C" in found.subline


@pytest.mark.parametrize("text", ["F15T8/BLB", "CFQ26W/G24q/841", "UV-A 18W"])
def test_other_marks_raise_no_germicidal_words(catalogue, text):
    rules = {one.rule for one in assess(catalogue, Case(marks=text)).cautions}
    assert "marks-uv" not in rules


def test_a_clear_lamp_is_not_sold_as_germicidal_before_its_marks_say_so(catalogue):
    unit = Fixture(holder="2G11", ballast="electronic", ballast_watts=(36,))
    looks = {"legs": "2", "pins": "4", "glass": "clear", "watts": "36", "arrangement": "row", "length_mm": 415.0}
    case = Case(looks=looks, fixture=unit, use="germicidal")
    found = assess(catalogue, case)
    assert (found.lamp, found.verdict) == ("2G11/36/long-twin/uv-c", "ask first")
    assert any("germicidal" in one.question for one in found.asks)
    for said in ({"marks": "36W 2G11 germicidal"}, {"chosen": found.lamp}):
        assert assess(catalogue, case.model_copy(update=said)).verdict == "sell"


def test_no_sale_where_a_place_is_set_and_no_day(catalogue):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,))
    case = Case(marks="CFQ26W/G24q/841", fixture=fixture, use="lighting", place="us-ca")
    found = assess(catalogue, case)
    assert found.verdict == "ask first"
    assert any("law" in one for one in found.problems)


@pytest.mark.parametrize(
    ("looks", "fixture", "use", "rule"),
    [
        ({"legs": "2", "pins": "2", "glass": "clear"}, {}, "lighting", "uvc-in-lighting"),
        ({"legs": "4", "pins": "2"}, {"ballast": "electronic"}, "lighting", "two-pin-on-electronic"),
        ({"legs": "4", "pins": "4"}, {"ballast": "bypassed"}, "unknown", "mains-on-holder"),
    ],
)
def test_what_no_watts_can_mend_is_refused_without_watts(catalogue, looks, fixture, use, rule):
    found = assess(catalogue, Case(looks=looks, fixture=Fixture(**fixture), use=use))
    assert (found.lamp, found.verdict) == (None, "do not sell")
    assert found.cautions[0].rule.removesuffix("-no-figure") == rule


@pytest.mark.parametrize(
    ("looks", "fixture"),
    [
        ({"legs": "4"}, {"ballast": "electronic"}),  # two pins or four: one of them may go in
        ({"legs": "2", "pins": "2"}, {}),  # white or clear: only one is refused
        ({"legs": "2", "pins": "2", "glass": "white"}, {"ballast": "magnetic"}),
    ],
)
def test_what_one_more_look_may_mend_is_asked(catalogue, looks, fixture):
    assert assess(catalogue, Case(looks=looks, fixture=Fixture(**fixture), use="lighting")).verdict == "ask first"


@pytest.mark.parametrize(
    ("case", "rule"),
    [
        ({"looks": {"legs": "2", "pins": "2"}}, "look-uvc"),
        ({"looks": {"legs": "2", "pins": "2", "glass": "white"}}, "look-uvc-twin"),
        ({"marks": "CFT9W/G23", "looks": {"glass": "white"}}, "look-uvc-shelf"),
    ],
)
def test_the_germicidal_twin_is_named_at_every_stage(catalogue, case, rule):
    assert rule in {one.rule for one in assess(catalogue, Case(**case)).cautions}


def test_a_lamp_known_to_be_germicidal_does_not_only_look_so(catalogue):
    unit = Fixture(holder="2G11", ballast="electronic", ballast_watts=(36,))
    looks = {"legs": "2", "pins": "4", "glass": "clear", "watts": "36", "arrangement": "row", "length_mm": 415.0}
    case = Case(looks=looks, fixture=unit, use="germicidal")
    rules = {one.rule for one in assess(catalogue, case).cautions}
    assert {"look-uvc-leading", "uvc-germicidal"} <= rules
    known = {one.rule for one in assess(catalogue, case.model_copy(update={"marks": "36W 2G11 germicidal"})).cautions}
    assert known & {"look-uvc-leading", "uvc-germicidal"} == {"uvc-germicidal"}
