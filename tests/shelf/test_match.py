"""Lines to lamp types: what is written plainly is matched, what is open stays open with its reason."""

from __future__ import annotations

from collections import Counter

import pytest

from counter.shelf import Matcher
from counter.shelf._demo import demo_lines

MATCHED = [
    ("", "CFQ26W/G24q/835", "G24q-3/26/quad", 3500),
    ("", "TOLLVIK CFQ26W/G24q/835 10/CS", "G24q-3/26/quad", 3500),
    ("", "26W G24q-3 830", "G24q-3/26/quad", 3000),
    ("CFQ26W/G24q/835", "Compact lamp, four pins", "G24q-3/26/quad", 3500),
    ("", "F32T8/841", "G13/32/linear", 4100),
    ("", "9W G23 germicidal UV-C", "G23/9/twin/uv-c", None),
]


@pytest.mark.parametrize(("code", "description", "lamp", "cct_k"), MATCHED)
def test_plain_lines_are_matched(matcher, code, description, lamp, cct_k):
    found = matcher.match(code, description)
    assert (found.lamp, found.cct_k, found.reason) == (lamp, cct_k, "")


LEFT_OPEN = [
    ("", "ELEC BALLAST 2X26W G24Q", "a ballast"),
    ("", "LAMPHOLDER G24Q-3 26W 4-PIN", "a lampholder"),
    ("", "TUBE GUARD T8 48IN CLEAR F32T8", "an accessory"),
    ("", "WIRE NUT YELLOW 100/PK", "nothing in it reads"),
    ("", "SCREW PAN 8-32 X 3/4 ZINC", "nothing in it reads"),
    ("", "57W GX24q-5 827", "any of"),
    ("CFQ26W/G24q/835", "CFQ18W/G24q/835", "its code says"),
    ("", "LED lamp 9W", "whose base"),
    ("", "", "nothing in it reads"),
]


@pytest.mark.parametrize(("code", "description", "reason"), LEFT_OPEN)
def test_what_is_open_stays_open_and_says_why(matcher, code, description, reason):
    found = matcher.match(code, description)
    assert found.lamp is None
    assert reason in found.reason


def test_led_lamp_keeps_its_base_and_is_no_lamp_type(matcher):
    found = matcher.match("", "LED PLUG-IN G24q 9W 4000K TYPE A")
    assert (found.lamp, found.base, found.kind, found.watts) == (None, "G24q", "led", 9)


def test_hand_match_counts_by_code_and_by_barcode(catalogue):
    hands = {"tv100": "G24q-3/26/quad", "2000000000015": "G23/9/twin"}
    own = Matcher(catalogue, by_hand=hands)
    assert own.match("TV-100", "nobody knows").lamp == "G24q-3/26/quad"
    assert own.match("x", "nobody knows", "2000000000015").lamp == "G23/9/twin"


def test_hand_match_to_a_lamp_that_is_gone_is_left_out(catalogue):
    assert Matcher(catalogue, by_hand={"tv100": "G99/1"}).match("TV100", "what").lamp is None


def test_demo_list_is_matched_without_a_wrong_lamp(catalogue, matcher):
    """The list is written by the program itself; what it shows is that no line is given another lamp's name."""
    lines = demo_lines(catalogue)
    found = [(matcher.match(line.cells[0], line.cells[1]).lamp, line.lamp) for line in lines]
    assert [(got, true) for got, true in found if got is not None and got != true] == []
    # Base, watts and kind are what most lines tell: of lamp types alike in these it is left open which one is meant.
    alike = Counter((lamp.base, lamp.watts.value, lamp.kind) for lamp in catalogue.lamps)
    told = {lamp.id for lamp in catalogue.lamps if alike[lamp.base, lamp.watts.value, lamp.kind] == 1}
    assert [true for got, true in found if true in told and got is None] == []


COLOURS = ["827", "830", "835", "840", "841", "850", "865", "930", "2700K", "3000K", "6500K"]


@pytest.mark.parametrize("colour", COLOURS)
@pytest.mark.parametrize("words", ["CFQ26W/G24q/{}", "26W G24q-3 {}", "F32T8/{}", "TOLLVIK 26W G24q-3 {} 10/CS"])
def test_colour_read_for_all_is_the_colour_read_alone(catalogue, colour, words):
    from counter import marks

    text = words.format(colour)
    best = marks.read(catalogue, text.replace(" 10/CS", "").replace("TOLLVIK ", "")).readings[0]
    found = Matcher(catalogue).match("", text)
    if found.lamp is not None:
        assert (found.lamp, found.cct_k) == (best.lamps[0], best.lamp.cct_k)
    assert found.lamp is not None or "K" in colour
