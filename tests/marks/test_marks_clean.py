"""Whole, clean codes of every system."""

from __future__ import annotations

import pytest

from counter import marks

# code: system, kind, shape, watts, base as printed, full bases, colour temperature, lamp types
G36T6L = ("Fa8/39/linear/uv-c", "G10q/39/linear/uv-c")  # one pin at each end, or four at one; 36 is inches
CODES = [
    ("CFT9W/G23", "nema", "fluorescent", "twin", 9, "G23", ("G23",), None, ("G23/9/twin",)),
    ("CFQ26W/G24d", "nema", "fluorescent", "quad", 26, "G24d", ("G24d-3",), None, ("G24d-3/26/quad",)),
    ("cfq 26 w g24q 841", "nema", "fluorescent", "quad", 26, "G24q", ("G24q-3",), 4100, ("G24q-3/26/quad",)),
    ("CFQ26WG24Q841", "nema", "fluorescent", "quad", 26, "G24q", ("G24q-3",), 4100, ("G24q-3/26/quad",)),
    ("CFTR42W/GX24q/835", "nema", "fluorescent", "triple", 42, "GX24q", ("GX24q-4",), 3500, ("GX24q-4/42/triple",)),
    ("CFT26W/GX24q", "nema", "fluorescent", "triple", 26, "GX24q", ("GX24q-3",), None, ("GX24q-3/26/triple",)),
    ("CFM57W/GX24q", "nema", "fluorescent", "four-fold", 57, "GX24q", ("GX24q-5",), None, ("GX24q-5/57/four-fold",)),
    ("CFS28W/GR10q", "nema", "fluorescent", "square", 28, "GR10q", ("GR10q",), None, ("GR10q/28/square",)),
    ("CFQ13W/GX23", "nema", "fluorescent", "quad", 13, "GX23", ("GX23-2",), None, ("GX23-2/13/quad",)),
    ("FT36W/2G11", "nema", "fluorescent", "long-twin", 36, "2G11", ("2G11",), None, ("2G11/36/long-twin",)),
    ("CFQ26W/4P/841", "nema", "fluorescent", "quad", 26, None, ("G24q-3",), 4100, ("G24q-3/26/quad",)),
    ("F32T8/841", "ansi-linear", "fluorescent", "linear", 32, None, ("G13",), 4100, ("G13/32/linear",)),
    ("F40CW", "ansi-linear", "fluorescent", "linear", 40, None, ("G13",), 4100, ("G13/40/linear/t12",)),
    ("F40T12/ES", "ansi-linear", "fluorescent", "linear", 34, None, ("G13",), None, ("G13/34/linear/t12",)),
    ("F96T12", "ansi-linear", "fluorescent", "linear", 75, None, ("Fa8",), None, ("Fa8/75/linear",)),
    ("F96T12/CW/HO", "ansi-linear", "fluorescent", "linear", 110, None, ("R17d",), 4100, ("R17d/110/linear/ho",)),
    ("F48T12/VHO", "ansi-linear", "fluorescent", "linear", 110, None, ("R17d",), None, ("R17d/110/linear/vho",)),
    ("F54T5/HO/830", "ansi-linear", "fluorescent", "linear", 54, None, ("G5",), 3000, ("G5/54/linear",)),
    ("FB32T8/6", "ansi-linear", "fluorescent", "u-bent", 32, None, ("2G13",), None, ("2G13/32/u-bent",)),
    ("FB31T8/1-5/8", "ansi-linear", "fluorescent", "u-bent", 31, None, ("2G13",), None, ("2G13/31/u-bent",)),
    ("F40T12/U/6", "ansi-linear", "fluorescent", "u-bent", 40, None, ("2G13",), None, ("2G13/40/u-bent/t12",)),
    ("FC12T9", "ansi-linear", "fluorescent", "circular", 32, None, ("G10q",), None, ("G10q/32/circular",)),
    ("FC12T5/HO", "ansi-linear", "fluorescent", "circular", 55, None, ("2GX13",), None, ("2GX13/55/circular",)),
    ("F15T8BLB", "ansi-linear", "uv-a", "linear", 15, None, ("G13",), None, ("G13/15/linear/uv-a",)),
    ("G15T8", "ansi-germicidal", "uv-c", "linear", 15, None, ("G13",), None, ("G13/15/linear/uv-c",)),
    ("G36T6L", "ansi-germicidal", "uv-c", "linear", 39, None, ("Fa8", "G10q"), None, G36T6L),
    ("GFT9W/G23", "ansi-germicidal", "uv-c", "twin", 9, "G23", ("G23",), None, ("G23/9/twin/uv-c",)),
    ("FSQ-26-E-G24q=3", "ilcos", "fluorescent", "quad", 26, "G24q-3", ("G24q-3",), None, ("G24q-3/26/quad",)),
    ("fsd-18/40/1b-e-2g11", "ilcos", "fluorescent", "long-twin", 18, "2G11", ("2G11",), 4000, ("2G11/18/long-twin",)),
    ("FSM-26-I", "ilcos", "fluorescent", "triple", 26, None, ("GX24d-3",), None, ("GX24d-3/26/triple",)),
    ("TC-D 18W/840", "partial", "fluorescent", "quad", 18, None, ("G24d-2",), 4000, ("G24d-2/18/quad",)),
    ("TC-TEL42W", "partial", "fluorescent", "triple", 42, None, ("GX24q-4",), None, ("GX24q-4/42/triple",)),
    ("TC-DDEL 55W", "partial", "fluorescent", "square", 55, None, ("GRY10q-3",), None, ("GRY10q-3/55/square",)),
    ("T26 58W/830", "partial", "fluorescent", "linear", 58, None, ("G13",), 3000, ("G13/58/linear",)),
    ("18W 2G11 840", "partial", "fluorescent", "long-twin", 18, "2G11", ("2G11",), 4000, ("2G11/18/long-twin",)),
    ("2G11840 18W", "partial", "fluorescent", "long-twin", 18, "2G11", ("2G11",), 4000, ("2G11/18/long-twin",)),
    ("15W G13 T8 UV-C", "partial", "uv-c", "linear", 15, "G13", ("G13",), None, ("G13/15/linear/uv-c",)),
    ("XMP Q26-4/840", "house", "fluorescent", "quad", 26, None, ("G24q-3",), 4000, ("G24q-3/26/quad",)),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "system", "kind", "shape", "watts", "base", "bases", "cct_k", "lamps"),
    CODES,
    ids=[row[0] for row in CODES],
)
def test_code(shipped, text, system, kind, shape, watts, base, bases, cct_k, lamps):
    reading = marks.read(shipped, text).readings[0]
    lamp = reading.lamp
    assert (reading.system, reading.lamps) == (system, lamps)
    assert (lamp.kind, lamp.shape, lamp.watts, lamp.cct_k) == (kind, shape, watts, cct_k)
    assert (lamp.base, lamp.bases) == (base, bases)


def test_shorthand_in_any_order(shipped):
    texts = ("26W 4-pin 841", "841 26 watt 4 pin", "4-PIN, 26w, 4100K", "four pin 26 WATTS cool white")
    for text in texts:
        (reading,) = marks.read(shipped, text).readings
        assert reading.lamps == ("G24q-3/26/quad", "GX24q-3/26/triple")
        assert (reading.lamp.pins, reading.lamp.cct_k, reading.lamp.kind) == (4, 4100, "fluorescent")


def test_quad_is_four_legs(shipped):
    (reading,) = marks.read(shipped, "13 watt quad 2 pin").readings
    assert (reading.lamp.legs, reading.lamp.shape, reading.lamp.pins) == (4, "quad", 2)
    assert reading.lamp.bases == ("GX23-2", "G24d-1")


@pytest.mark.parametrize(
    ("text", "cct_k", "cri_min"),
    [
        ("841", 4100, 80),
        ("/835", 3500, 80),
        ("RE730", 3000, 70),
        ("CWX", 4100, 87),
        ("CW/DX", 4100, 87),
        ("W", 3500, 57),
        ("d", 6500, 75),
        ("N", 3500, 86),
        ("C50", 5000, 90),
        ("4100 K", 4100, None),
    ],
)
def test_colour_alone(shipped, text, cct_k, cri_min):
    evidence = marks.read(shipped, text)
    (reading,) = evidence.readings
    assert (reading.system, reading.lamp.cct_k, reading.lamp.cri_min) == ("colour", cct_k, cri_min)
    assert evidence.likelihood == {}


def test_colour_letters_are_those_of_the_light_tables(shipped):
    """Two tables hold the older letters: this one for reading, the other for computing; they must not part."""
    from counter import light

    for row in marks.tables()["colour"]["letters"]:
        assert light.colour_of(row["letters"]).cct_k == row["cct_k"], row["letters"]


@pytest.mark.parametrize(
    ("text", "pins"), [("BY22d", 2), ("GX38q", 4), ("GX16t-5", 3), ("R7s", 1), ("P45t-41", 3), ("E27", None)]
)
def test_base_that_the_catalogue_does_not_hold(shipped, text, pins):
    evidence = marks.read(shipped, text.upper())
    reading, *_ = evidence.readings
    assert (reading.system, reading.canonical, reading.lamp.base, reading.lamp.bases) == ("base", text, text, ())
    assert reading.lamp.pins == pins
    assert "not in the catalogue" in evidence.problems[0]


def test_unknown_key_names_the_known_ones(shipped):
    problems = marks.read(shipped, "G24q-7").problems
    assert "known here: G24q-1, G24q-2, G24q-3" in problems[0]


def test_spans_stand_where_they_say(shipped):
    text = "  Cfq26w–g24q / 841"
    (reading,) = marks.read(shipped, text).readings
    assert [span.text for span in reading.spans] == ["Cf", "q", "26w", "g24q", "8", "41"]
    assert all(text[span.start : span.end] == span.text and span.means for span in reading.spans)


def test_looks_that_a_reading_claims(shipped):
    (reading,) = marks.read(shipped, "CFQ26W/G24q").readings
    claims = {"pins": "4", "legs": "4", "watts": "26", "glass": "white", "arrangement": "rectangle", "block": "yes"}
    assert marks.says(reading) == claims
    (reading,) = marks.read(shipped, "G15T8").readings
    assert (marks.says(reading)["glass"], marks.says(reading)["tube_mm"]) == ("clear", 25.4)


def test_base_alone_claims_no_watts_and_no_kind(shipped):
    (reading,) = marks.read(shipped, "G24q-3").readings
    assert (reading.lamp.watts, reading.lamp.kind, "watts" in reading.looks) == (None, None, False)


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [
        ('18W 5 7/8"', 149.2),
        ("18W 5-7/8 in", 149.2),
        ('7/8"', 22.2),
        ("4 ft T8", 1219.2),
        ("120 cm", 1200),
        ("590,5 mm", 590.5),
    ],
)
def test_lengths(shipped, text, length_mm):
    assert any(reading.lamp.length_mm == length_mm for reading in marks.read(shipped, text).readings)


def test_length_over_nothing_is_no_length(shipped):
    assert all(reading.lamp.length_mm is None for reading in marks.read(shipped, '5 7/0"').readings)


def test_base_in_a_code_is_said_in_plain_words(shipped):
    (reading,) = marks.read(shipped, "FSM-26-E-GX24q=3").readings
    (means,) = (span.means for span in reading.spans if span.part == "base")
    assert means.startswith("base GX24q-3: 4 pins; ")
    assert "key 3" in means
