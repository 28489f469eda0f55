"""What is said where a text is not, or not wholly, a code; and that no text raises."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter import catalogue, marks

SHIPPED = catalogue.load()


def test_nothing_typed_says_nothing(shipped):
    for text in ("", "   ", "\n\t"):
        evidence = marks.read(shipped, text)
        assert (evidence.text, evidence.readings, evidence.problems) == (text, (), ())


def test_two_bases_are_two_readings(shipped):
    evidence = marks.read(shipped, "18W 2G11 G24q-2 840")
    assert sorted(reading.lamp.base for reading in evidence.readings) == ["2G11", "G24q-2"]  # both are met daily
    assert "Two bases in one text: 2G11 and G24q-2" in evidence.problems[0]


def test_two_codes_of_one_lamp_are_one_reading(shipped):
    (reading,) = marks.read(shipped, "CFQ26W/G24q/841 FSQ-26-E-G24q=3").readings
    assert reading.lamps == ("G24q-3/26/quad",)


def test_dropped_x_is_said(shipped):
    evidence = marks.read(shipped, "CFTR26W/G24q")
    assert evidence.readings[0].lamp.bases == ("GX24q-3",)
    assert "without its X" in evidence.problems[0]


def test_watts_that_do_not_exist(shipped):
    evidence = marks.read(shipped, "CFQ54W/G24q")
    assert (evidence.readings[0].lamp.watts, evidence.readings[0].lamps) == (54, ())
    assert "10, 13, 18, 21, 26 W" in evidence.problems[0]
    assert evidence.floor > 0.5, "it tells hardly anything of the lamp type"


def test_lighting_or_germicidal_is_asked(shipped):
    evidence = marks.read(shipped, "9W G23")
    assert evidence.readings[0].lamps == ("G23/9/twin", "G23/9/twin/uv-c", "G23/9/twin/uv-a", "G23/9/twin/uv-b")
    assert evidence.readings[0].lamp.kind is None
    assert any("UV-C" in problem for problem in evidence.problems)


def test_long_paste_is_kept_and_said(shipped):
    text = "CFQ26W/G24q/841 " + "x" * 10_000
    evidence = marks.read(shipped, text)
    assert evidence.text == text
    assert "10016 characters" in evidence.problems[0]
    assert evidence.readings[0].canonical == "CFQ26W/G24q/841"


def test_rest_that_is_not_understood_is_named(shipped):
    evidence = marks.read(shipped, "CFQ26W/G24q/841 zzxy")
    assert evidence.readings[0].lamps == ("G24q-3/26/quad",)
    assert "'zzxy'" in evidence.problems[-1]


@pytest.mark.parametrize("text", ["\U0001f642", "ß", "ﬁ", "٣٤٥", "\x00", "G24q\ud800-3", "🙂 26W"])
def test_odd_signs_do_no_harm(shipped, text):
    assert marks.read(shipped, text).text == text


ODD = st.text(st.characters() | st.sampled_from("GX24q-3/?*FCTRW0O1IlSB"), max_size=40)


def whole(evidence: marks.MarkEvidence) -> None:
    total = sum(reading.probability for reading in evidence.readings)
    assert total <= 1 + 1e-9
    found = [reading.probability for reading in evidence.readings]
    assert found == sorted(found, reverse=True)
    for reading in evidence.readings:
        for span in reading.spans:
            assert evidence.text[span.start : span.end] == span.text != ""
        assert set(reading.lamps) <= SHIPPED.lamp_by_id.keys()
    assert evidence.likelihood == {} or max(evidence.likelihood.values()) == pytest.approx(1)


@given(ODD)
@settings(max_examples=300, deadline=None)
def test_no_text_raises(text):
    whole(marks.read(SHIPPED, text))


@pytest.mark.slow
@given(ODD | st.text())
@settings(max_examples=20_000, deadline=None)
def test_no_text_raises_at_length(text):
    whole(marks.read(SHIPPED, text))


@pytest.mark.parametrize(
    ("text", "nearest", "holds"),
    [
        ("F20T8/CW", "F70T8/CW", True),
        ("CFQ76W/G24Q/841", "CFQ26W/G24q/841", True),
        ("10W G29Q-1 QUAD 730", "10W G24q-1 quad 730", False),  # no lamp at all is made on G29q
        ("CFT7W/7G7", "CFT7W/2G7", False),
    ],
)
def test_a_print_that_no_lamp_has_stands_beside_the_nearest_code(shipped, text, nearest, holds):
    evidence = marks.read(shipped, text)
    assert (evidence.readings[0].canonical, bool(evidence.unlisted)) == (nearest, holds)
    plain = [one.canonical.upper() for one in evidence.readings[1:2] if not one.lamps]
    assert (plain == [text]) is holds


def test_three_figures_that_are_no_white_are_a_number_nobody_knows(shipped):
    (reading,) = marks.read(shipped, "F32T8/811").readings
    assert (reading.lamps, reading.lamp.cct_k) == (("G13/32/linear",), None)
    assert "colour-number" in [span.part for span in reading.spans]


@pytest.mark.parametrize("text", ["F32T8/26W", "FT5W/2G11/850", "FDH-2-L/P-G13-26/1199"])
def test_a_print_that_no_lamp_has_stands_where_its_probability_puts_it(text):
    found = marks.read(SHIPPED, text)
    chances = [one.probability for one in found.readings]
    assert found.unlisted
    assert chances == sorted(chances, reverse=True)
