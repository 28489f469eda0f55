"""Worn codes: what is assumed for each doubtful character, what else it can be, and the doubt about UV."""

from __future__ import annotations

import pytest

from counter import marks

# worn text: what it means, as the canonical writing of the best reading
WORN = [
    ("CF?26W/G24q/841", "CFQ26W/G24q/841"),
    ("CFQ2BW/G24q/841", "CFQ26W/G24q/841"),
    ("CFQ26W/624q/841", "CFQ26W/G24q/841"),
    ("CFTR 32 W GX24Q 8?5", "CFTR32W/GX24q/835"),
    ("CFTR4*GX24q/835", "CFTR42W/GX24q/835"),
    ("F3ZT8/841", "F32T8/841"),
    ("F4OT12/CW", "F40T12/CW"),
    ("FSQ-26-E-G24q=8", "FSQ-26-E-G24q=3"),
    ("FSQ-26-E-624q=3", "FSQ-26-E-G24q=3"),
    ("TC-0EL 26W/840 G24q-3", "TC-DEL 26W 840 G24q-3"),
    ("G24q-8", "G24q-3"),
    ("2GII", "2G11"),
    ("XMP Q2?-4/840", "XMP Q26-4/840"),
    ("840 26W G2?q", "840 26W G24q"),
    ("18W 2GII 840", "18W 2G11 840"),
    ("G1ST8", "G15T8"),
    ("C?Q?6W/G?4q/8?1", "CFQ26W/G24q/841"),
    ("E40T8/840", "F40T8/840"),  # a screw base ends where its number does
    ("T38 135V/W R17D", "T38 135W W R17d"),  # no mains has 135 volts
    ("F54T5/H0/850", "F54T5/HO/850"),
    ("F96T12/CW/H0", "F96T12/CW/HO"),
    ("CFQ13W/G24d-l/827", "CFQ13W/G24d-1/827"),
    ("F54T5/8LB", "F54T5/BLB"),
]
# what one sign is gone from: whole codes, though what is left can be read in another way too
SHORT = {
    "32T8": "F32T8",
    "39T5/841": "F39T5/841",
    "72T8/865": "F72T8/865",
    "CFT11W/23/865": "CFT11W/G23/865",  # of two colours one is none
    "FB32T8/6/765/25": "FB32T8/6/765/25W",
}


@pytest.mark.parametrize(("text", "canonical"), WORN, ids=[row[0] for row in WORN])
def test_worn(shipped, text, canonical):
    evidence = marks.read(shipped, text)
    best = evidence.readings[0]
    assert best.canonical == canonical
    assert best.lamps
    assert best.assumptions
    assert any(span.assumed and span.choices for span in best.spans)
    assert evidence.likelihood[best.lamps[0]] == 1


@pytest.mark.parametrize(("text", "whole"), SHORT.items(), ids=SHORT)
def test_a_sign_that_is_gone_is_put_in(shipped, text, whole):
    best, meant = marks.read(shipped, text).readings[0], marks.read(shipped, whole).readings[0]
    assert (best.canonical, best.lamps) == (meant.canonical, meant.lamps)


def test_two_watts_near_each_other_are_two(shipped):
    assert marks.read(shipped, "13W 14W G24q").is_split
    assert not marks.read(shipped, "T26 36W 25.4 mm tube T8").is_split  # one tube in two measures


def test_volts_beside_a_code_are_no_watts(shipped):
    assert marks.read(shipped, "26W 120V G24q-3").readings[0].lamps == ("G24q-3/26/quad",)
    assert marks.read(shipped, "120V").likelihood == {}


def test_assumed_characters_are_named(shipped):
    best = marks.read(shipped, "CF?2BW/G24q").readings[0]
    assert best.assumptions == ("? was taken as Q.", "B was taken as 6.")
    doubtful = {span.text: span.assumed for span in best.spans if span.assumed}
    assert doubtful == {"?": "Q", "2BW": "26W"}


def test_choices_are_what_the_part_can_be(shipped):
    evidence = marks.read(shipped, "CFQ?6W/G24q")
    assert [reading.lamp.watts for reading in evidence.readings[:1]] == [26]
    evidence = marks.read(shipped, "CFQ26W/G24?")
    (span,) = [span for span in evidence.readings[0].spans if span.part == "base"]
    assert set(span.choices) == {"G24d", "G24q"}
    assert "Either CFQ26W/G24d or CFQ26W/G24q" in evidence.problems[0]


@pytest.mark.parametrize("text", ["?15T8", "*15T8", "G?15T8"])
def test_lighting_or_germicidal_stays_open(shipped, text):
    evidence = marks.read(shipped, text, limit=1)
    kinds = {reading.lamp.kind for reading in evidence.readings}
    if evidence.readings[0].lamp.kind == "fluorescent":
        assert "uv-c" in kinds, "kept beyond the limit"
        assert any("UV-C" in problem for problem in evidence.problems)
    assert {"G13/15/linear", "G13/15/linear/uv-c"} <= evidence.likelihood.keys()


def test_blacklight_suffix_may_have_worn_off(shipped):
    evidence = marks.read(shipped, "F15T8")
    assert evidence.floor < evidence.likelihood["G13/15/linear/uv-a"] < 0.1
    assert evidence.likelihood["G13/15/linear"] == 1


def test_letter_lost_from_a_mains_base_stays_open(shipped):
    """G24 may be a GU24 whose U is worn off, and that one is for mains."""
    bases = [reading.lamp.base for reading in marks.read(shipped, "13W G24").readings]
    assert bases == ["G24", "GU24"]


@pytest.mark.parametrize("text", ["hello world", "invoice 2024-11-03", "qqqqqqqq", "?????", "***", "*"])
def test_what_is_no_code_gets_no_lamp(shipped, text):
    assert not any(reading.lamps for reading in marks.read(shipped, text).readings)


def test_too_little_is_said(shipped):
    for text in ("CFQ*", "?????", "C?", "CF?"):
        problems = marks.read(shipped, text).problems
        assert any("one more character" in problem for problem in problems), text


def test_base_not_in_the_catalogue_is_not_bent_to_one(shipped):
    for text in ("BY22d", "GX38q", "GX16t-5", "E27"):
        assert marks.read(shipped, text).readings[0].canonical == text


@pytest.mark.parametrize("text", ["E26 13W", "13W E26", "E27 23W", "9W E14 827", "11W/E27/827", "26W E26 4P"])
def test_a_screw_base_beside_watts_is_no_misread_letter_and_number(shipped, text):
    for reading in marks.read(shipped, text).readings:
        assert (reading.lamps, reading.assumptions) == ((), ())
        assert reading.lamp.base in text


def test_germicidal_lamp_not_in_the_catalogue_is_not_bent_to_lighting(shipped):
    assert marks.read(shipped, "G36T6L").readings[0].lamp.kind == "uv-c"


def test_nothing_is_searched_for_a_clean_code(shipped, monkeypatch):
    """The vocabulary is built on the first worn text only."""

    def never(*args: object) -> None:
        raise AssertionError("the worn search ran")

    monkeypatch.setattr("counter.marks._worn.read_worn", never)
    for text in ("CFQ26W/G24q/841", "F32T8/RE830", "26W 4-pin 841", "841", "G24q-3", "73513537", ""):
        marks.read(shipped, text)


def test_every_code_of_the_vocabulary_is_read_without_a_search(shipped, monkeypatch):
    from counter.marks._vocabulary import codes_of

    monkeypatch.setattr("counter.marks._worn.read_worn", None)
    codes = list(codes_of(shipped, marks.shipped_house()))
    assert len(codes) > 10_000
    for code in codes[::7]:
        assert marks.read(shipped, code).readings[0].lamps


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("CFQ?8W", "CFQ18W"),
        ("CFTR4?W/841", "CFTR42W/841"),
        ("FT?8W", "FT18W"),
        ("CFTR3ZW", "CFTR32W"),
        ("CFO26W", "CFQ26W"),
    ],
)
def test_worn_code_without_a_base(shipped, text, canonical):
    assert marks.read(shipped, text).readings[0].canonical == canonical


def test_every_shape_of_the_watts_is_offered_where_its_letter_is_gone(shipped):
    named = {reading.canonical for reading in marks.read(shipped, "CF?13W").readings}
    assert {"CFT13W", "CFQ13W"} <= named
