"""Repeated readings of one value become a mean and a spread."""

from __future__ import annotations

import pytest

from counter import desk

PART = "pin_spacing_mm"


@pytest.mark.parametrize(
    ("text", "value", "spread"),
    [
        ("23.1", 23.1, None),
        ("23.1;", 23.1, None),
        ("23.0; 23.2; 23.1", 23.1, 0.1),
        ("23,0 ; 23,2", 23.1, 0.1),
        ("23; 23", 23.0, 0.0),
        ("2.3 cm; 23.2 mm", 23.1, 0.1),
    ],
)
def test_readings_become_a_mean_and_half_their_range(catalogue, text, value, spread):
    found = desk.readings(catalogue, PART, text)
    assert found.value == pytest.approx(value)
    assert found.plus_minus == (None if spread is None else pytest.approx(spread))


def test_a_reading_that_is_none_is_said(catalogue):
    with pytest.raises(ValueError, match="wide"):
        desk.readings(catalogue, PART, "23; wide")


def test_a_notch_is_one_word(catalogue):
    assert desk.readings(catalogue, "face.notches", "small-left") == ("small-left", None)
