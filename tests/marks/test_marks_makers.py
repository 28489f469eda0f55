"""Makers' own codes without a table: what the trade reads in them, and letters nobody knows left as such."""

from __future__ import annotations

import random

import pytest

from counter import marks
from tests.simulate_makers import maker, worn

# code: watts, colour temperature, colour rendering, pins, base as printed, letters that are the maker's own.
# Letters are invented; orders, separators and ways to write a colour are those that the trade meets.
CODES = [
    ("F11XK/835/LL", 11, 3500, 80, None, None, ("XK",)),
    ("BC 42 GX24q 41", 42, 4100, None, 4, "GX24q", ("BC",)),
    ("ZT8-36-840", 36, 4000, 80, 2, None, ("Z",)),
    ("F13D/827 GX23-2", 13, 2700, 80, 2, "GX23-2", ("D",)),
    ("F26DBX/841/ECO/4P", 26, 4100, 80, 4, None, ("DBX",)),
    ("PLQ 26W/840/4P", 26, 4000, 80, 4, None, ("PLQ",)),
    ("KD18-827-G24D-2", 18, 2700, 80, 2, "G24d-2", ("KD",)),
    ("BQ13/E/27K", 13, 2700, None, 4, None, ("BQ",)),
    ("DLX 9W 41K", 9, 4100, None, None, None, ("DLX",)),
    ("XN36/L/865", 36, 6500, 80, None, None, ("XN", "L")),
    ("Q26E41", 26, 4100, None, 4, None, ("Q",)),
    ("ZK26-4P-3500K", 26, 3500, None, 4, None, ("ZK",)),
    ("RN/13W/2P/830", 13, 3000, 80, 2, None, ("RN",)),
    ("HV 18 W 840 G24q-2", 18, 4000, 80, 4, "G24q-2", ("HV",)),
    ("18HV/840/G24Q2", 18, 4000, 80, 4, "G24q-2", ("HV",)),
    ("CF32NT/E/835", 32, 3500, 80, 4, None, ("NT",)),
    ("NT-32W-GX24q-3-835", 32, 3500, 80, 4, "GX24q-3", ("NT",)),
    ("32WNT 835 GX24Q", 32, 3500, 80, 4, "GX24q", ("NT",)),
    ("F42KM/827/4P/XL", 42, 2700, 80, 4, None, ("KM",)),
    ("KM42E/27K/LL", 42, 2700, None, 4, None, ("KM",)),
    ("LZ 55W/840 2G11", 55, 4000, 80, 4, "2G11", ("LZ",)),
    ("2G11 LZ36 830", 36, 3000, 80, 4, "2G11", ("LZ",)),
    ("F40LZ/830/RS", 40, 3000, 80, None, None, ("LZ",)),
    ("F39LZ/RE841", 39, 4100, 80, None, None, ("LZ",)),
    ("ST9/840", 9, 4000, 80, None, None, ("ST",)),
    ("ST-9W/2700K", 9, 2700, None, None, None, ("ST",)),
    ("ST7-827-2P", 7, 2700, 80, 2, None, ("ST",)),
    ("G23 ST 11W 865", 11, 6500, 80, 2, "G23", ("ST",)),
    ("ST11-65K-G23", 11, 6500, None, 2, "G23", ("ST",)),
    ("F9ST/827/G23", 9, 2700, 80, 2, "G23", ("ST",)),
    ("13VB/GX23/827", 13, 2700, 80, 2, "GX23", ("VB",)),
    ("VBT26W/840/E", 26, 4000, 80, 4, None, ("VBT",)),
    ("VBT-26-G24d3-830", 26, 3000, 80, 2, "G24d-3", ("VBT",)),
    ("DQ 10W/2P/841", 10, 4100, 80, 2, None, ("DQ",)),
    ("28SQR/835/4P", 28, 3500, 80, 4, None, ("SQR",)),
    ("SQR 28W/GR10q/827", 28, 2700, 80, 4, "GR10q", ("SQR",)),
    ("SQR-16-GR8-835", 16, 3500, 80, 2, "GR8", ("SQR",)),
    ("SQR38 41K 4P", 38, 4100, None, 4, None, ("SQR",)),
    ("F18T8KL/840", 18, 4000, 80, None, None, ("KL",)),
    ("KT 57W/840/GX24q-5", 57, 4000, 80, 4, "GX24q-5", ("KT",)),
    ("KT70/4P/835/ECO", 70, 3500, 80, 4, None, ("KT",)),
    ("70W KT GX24Q-6 841", 70, 4100, 80, 4, "GX24q-6", ("KT",)),
    ("WPL24W/840/2G10", 24, 4000, 80, 4, "2G10", ("WPL",)),
    ("F36FQ/830/2G10/ECO", 36, 3000, 80, 4, "2G10", ("FQ",)),
    ("F28T5/NK/835/ECO", 28, 3500, 80, 2, None, ("NK",)),
    ("F32T8/XP41/LL", 32, 4100, None, 2, None, ("XP",)),
    ("F32T8/NK/841/IS", 32, 4100, 80, 2, None, ("NK",)),
    ("NK F54T5/841/HO", 54, 4100, 80, 2, None, ("NK",)),
    ("CFQ26W/NK/841", 26, 4100, 80, None, None, ("NK",)),
    ("CFTR42W/GX24q/835/NKP", 42, 3500, 80, 4, "GX24q", ("NKP",)),
    ("NKP CFQ18W/G24d/827", 18, 2700, 80, 2, "G24d", ("NKP",)),
    ("26W/NKP/841/4P/LL", 26, 4100, 80, 4, None, ("NKP",)),
    ("F26NKP/ZQ41", 26, 4100, None, None, None, ("NKP", "ZQ")),
    ("F26NKP/ZQ30/4P", 26, 3000, None, 4, None, ("NKP", "ZQ")),
    ("NJ18/ZQ27/E", 18, 2700, None, 4, None, ("NJ", "ZQ")),
    ("NJ 18W/950", 18, 5000, 90, None, None, ("NJ",)),
    ("NJ18W/CW", 18, 4100, 60, None, None, ("NJ",)),
    ("NJ-22W-765-G10q", 22, 6500, 70, 4, "G10q", ("NJ",)),
    ("40NJ/835/2G11/RS", 40, 3500, 80, 4, "2G11", ("NJ",)),
    ("NJ 40W 3500K RS", 40, 3500, None, None, None, ("NJ",)),
    ("XV-13W/GX24d-1/830", 13, 3000, 80, 2, "GX24d-1", ("XV",)),
    ("XV13-2/830", 13, 3000, 80, 2, None, ("XV",)),
    ("F5KS/827/G23/LL", 5, 2700, 80, 2, "G23", ("KS",)),
    ("KS5W/41K/2P", 5, 4100, None, 2, None, ("KS",)),
    ("KS/2G7/7W/840", 7, 4000, 80, 4, "2G7", ("KS",)),
]


@pytest.mark.parametrize(
    ("code", "watts", "cct_k", "cri_min", "pins", "base", "own"), CODES, ids=[c[0] for c in CODES]
)
def test_slots(shipped, code, watts, cct_k, cri_min, pins, base, own):
    evidence = marks.read(shipped, code)
    best = evidence.readings[0]
    assert (best.lamp.watts, best.lamp.cct_k, best.lamp.cri_min) == (watts, cct_k, cri_min)
    assert best.lamp.base == base
    assert pins in (None, best.lamp.pins)
    assert evidence.makers == own
    spans = {span.text: span.means for span in best.spans if span.part == "maker"}
    assert set(spans) == set(own)
    assert set(spans.values()) == {"the maker's own; not known in this shop"}
    assert best.lamps, "some lamp type of the catalogue is meant"


@pytest.mark.parametrize("code", ["F11XK/835", "KT26", "KD18-827", "NJ40/835", "XQ13W/4P"])
def test_no_form_is_guessed_from_letters(shipped, code):
    for reading in marks.read(shipped, code).readings:
        assert reading.lamp.shape is None or len(reading.lamps) < 3, "only what watts, pins and base leave"
        assert not reading.assumptions or reading.probability < 0.3


@pytest.mark.parametrize("code", ["XK9", "F9XK", "XK-9W", "9W XK 2P", "XK36/4P", "GPX36W", "XK11W/G23", "F36XK/2G11"])
def test_letters_without_a_colour_may_mean_uv(shipped, code):
    evidence = marks.read(shipped, code)
    kinds = {shipped.lamp_by_id[lamp].kind for lamp in evidence.readings[0].lamps}
    assert {"fluorescent", "uv-c"} <= kinds
    assert evidence.readings[0].lamp.kind is None


@pytest.mark.parametrize("code", ["TUV36", "XUV9W/G23", "KUVX11/2P"])
def test_letters_that_hold_uv_are_no_makers_own(shipped, code):
    evidence = marks.read(shipped, code)
    assert evidence.readings[0].lamp.kind == "uv-c"
    assert evidence.makers == ()
    assert evidence.unread


@pytest.mark.parametrize("code", ["KS9W/08/2P", "F18KS/10/G13", "KS15W/G13/05"])
def test_numbers_of_uv_lamps_are_no_white(shipped, code):
    assert all(
        reading.lamp.kind != "fluorescent" or reading.probability < 0.5
        for reading in marks.read(shipped, code).readings
    )


@pytest.mark.parametrize("code", ["18W G13 /08", "18W T8 /08 G13", "36W/09", "T8 18W /10 G13"])
def test_numbers_of_uv_lamps_in_shorthand(shipped, code):
    assert {reading.lamp.kind for reading in marks.read(shipped, code).readings} == {"uv-a"}


def test_what_stands_twice_may_be_two_things(shipped):
    """41 behind letters is 4100 K; with nothing else to be the watts, 40 may be either, and both are said."""
    first, second = marks.read(shipped, "KS40").readings[:2]
    assert {first.lamp.watts, second.lamp.watts} == {40, None}
    assert {first.lamp.cct_k, second.lamp.cct_k} == {4000, None}


def test_letters_bent_to_a_standard_code_stay_unread(shipped):
    """TX may be a worn T8; it may as well be the maker's own, and no sale rests on the first."""
    assert "TX" in marks.read(shipped, "F18TX/835").unread


def test_known_suffixes_are_read(shipped):
    evidence = marks.read(shipped, "F28T5/835/ECO")
    assert (evidence.readings[0].system, evidence.unread, evidence.makers) == ("ansi-linear", (), ())


def test_a_word_of_the_trade_is_no_makers_own(shipped):
    for word in ("LED", "clear", "quartz", "germicidal", "ozone"):
        assert word not in marks.read(shipped, f"{word} 9W G23").makers


def test_a_worn_slash_holds_the_sale(shipped):
    evidence = marks.read(shipped, "FK 18W/8651GX24Q-2/XL")
    assert evidence.readings[0].lamps == ("GX24q-2/18/triple",)
    assert evidence.unread == ("FK", "1")


def test_uv_is_never_lost_among_invented_makers(shipped):
    """Of every code of a germicidal lamp a germicidal lamp stays in the running, whatever its letters."""
    for number in range(12):
        rng = random.Random(500 + number)
        made = maker(rng, number)
        codes = [one for one in (made.code(rng) for _ in range(60)) if one.lamp.kind == "uv-c"]
        for text, code in ((one.text, one) for one in codes):
            evidence = marks.read(shipped, text)
            kinds = {shipped.lamp_by_id[lamp].kind: value for lamp, value in evidence.likelihood.items()}
            assert not evidence.likelihood or kinds.get("uv-c", 0) >= 0.01 or evidence.floor >= 0.01, (
                text,
                code.lamp.id,
            )


def test_worn_makers_codes_raise_nothing(shipped):
    rng = random.Random(7)
    made = maker(rng, 1)
    for text, _ in worn([made.code(rng) for _ in range(40)], rng):
        evidence = marks.read(shipped, text)
        assert all(text[one.start : one.end] == one.text for reading in evidence.readings for one in reading.spans)
