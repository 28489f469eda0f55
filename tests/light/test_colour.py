"""Colour names: what is read, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.light import chromaticity, colour_of, daylight, planckian


@pytest.mark.parametrize(
    ("text", "name", "cct_k", "cri_min"),
    [
        ("840", "840", 4000, 80),
        (840, "840", 4000, 80),
        ("RE841", "841", 4100, 80),
        ("re 841", "841", 4100, 80),
        ("/841", "841", 4100, 80),
        (" 930 ", "930", 3000, 90),
        ("640", "640", 4000, 60),
        ("CW", "CW", 4100, 60),
        ("ww", "WW", 3000, 52),
        ("C75", "C75", 7500, 91),
        ("F4000", "F4000", 4000, None),
        ("F 6500", "F6500", 6500, None),
        ("4100", "4100 K", 4100, None),
        (4100, "4100 K", 4100, None),
        (4100.0, "4100 K", 4100, None),
        ("4100K", "4100 K", 4100, None),
        ("4000 K", "4000 K", 4000, None),
        ("4,000 K", "4000 K", 4000, None),
        ("4 000 K", "4000 K", 4000, None),
        ("4\u202f000\u00a0K", "4000 K", 4000, None),
        ("6500°K", "6500 K", 6500, None),
        ("25000", "25000 K", 25000, None),
    ],
)
def test_names(text: str | float, name: str, cct_k: int, cri_min: int | None) -> None:
    colour = colour_of(text)
    assert (colour.name, colour.cct_k, colour.cri_min) == (name, cct_k, cri_min)
    assert colour.mired == pytest.approx(1e6 / cct_k)


@pytest.mark.parametrize(
    ("text", "way_out"),
    [
        ("", "such as 840"),
        ("18 840", "such as 840"),
        ("27K", "2700 K"),
        ("30", "3000 K"),
        ("340", "first digit"),
        ("800", "last two digits"),
        ("816", "last two digits"),
        ("1666", "1667 to 25000 K"),
        ("25001", "1667 to 25000 K"),
        ("840K", "1667 to 25000 K"),
        ("-4000K-", "such as 840"),
        ("cool", "CWX"),
        ("F4100", "such as 840"),
        ("٨٤٠", "such as 840"),
        (math.nan, "such as 840"),
        (math.inf, "such as 840"),
        ("8" * 5000, "such as 840"),
    ],
)
def test_unknown_names_teach(text: str | float, way_out: str) -> None:
    with pytest.raises(ValueError, match=way_out) as caught:
        colour_of(text)
    assert len(str(caught.value)) < 250


@pytest.mark.parametrize(
    ("text", "standard"),
    [
        ("827", "F2700"),
        ("830", "F3000"),
        ("835", "F3500"),
        ("840", "F4000"),
        ("850", "F5000"),
        ("865", "F6500"),
        ("F4000", "F4000"),
        ("WW", "F3000"),
        ("841", None),
        ("CW", None),
        ("4000 K", None),
    ],
)
def test_standard_colours_are_for_lamps_of_their_temperature(text: str, standard: str | None) -> None:
    colour = colour_of(text)
    assert colour.standard == standard
    source = "IEC60081-xy" if standard else "CIE-224"
    assert source in colour.sources


@pytest.mark.parametrize(
    ("text", "confidence"),
    [("840", "reproduced"), ("841", "memory-high"), ("W", "memory-medium"), ("C75", "memory-low")],
)
def test_confidence_is_of_the_weakest_part(text: str, confidence: str) -> None:
    assert colour_of(text).confidence == confidence


@given(st.text(max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        colour = colour_of(text)
    except ValueError:
        return
    assert 1667 <= colour.cct_k <= 25000


@given(st.integers(1668, 25000))
def test_chromaticity_goes_one_way_without_a_jump(cct_k: int) -> None:
    (x0, y0), (x1, y1) = chromaticity(cct_k - 1), chromaticity(cct_k)
    assert -0.0002 < x1 - x0 < 0
    assert abs(y1 - y0) < 0.0001


def test_the_rule_meets_both_loci() -> None:
    assert chromaticity(4000) == planckian(4000)
    assert chromaticity(5000) == daylight(5000)
    # The published spline itself steps by 0.00007 at 4000 K.
    assert chromaticity(4000.001) == pytest.approx(planckian(4000), abs=8e-5)
    assert chromaticity(4999.999) == pytest.approx(daylight(5000), abs=1e-6)


@pytest.mark.parametrize("cct_k", [1666, 25001, math.nan, math.inf, 0, -4000])
def test_loci_end(cct_k: float) -> None:
    for locus in (planckian, daylight, chromaticity):
        with pytest.raises(ValueError, match="colour temperature"):
            locus(cct_k)
