"""The weighting between its rows."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.light import effective_w_m2, weighting


@pytest.mark.parametrize(
    ("nm", "expected"),
    [(180, 0.012), (254, 0.5), (270, 1.0), (400, 3e-5), (262.5, math.sqrt(0.65 * 0.81))],
)
def test_rows_and_a_middle(nm: float, expected: float) -> None:
    assert weighting(nm) == pytest.approx(expected)


@given(st.floats(180, 400))
def test_never_beyond_its_neighbours(nm: float) -> None:
    assert 3e-5 <= weighting(nm) <= 1


@given(st.floats(180, 270), st.floats(180, 270))
def test_rises_to_270(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert weighting(low) <= weighting(high) * (1 + 1e-12)


@given(st.floats(270, 400), st.floats(270, 400))
def test_falls_from_270(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert weighting(high) <= weighting(low) * (1 + 1e-12)


def test_the_mercury_line_takes_the_greater_weight() -> None:
    assert effective_w_m2(2) == 1.0
    assert weighting(253.7) < 0.5


@pytest.mark.parametrize("nm", [179.9, 400.1, 0, -254, math.nan, math.inf])
def test_outside_is_refused(nm: float) -> None:
    with pytest.raises(ValueError, match="180 to 400 nm"):
        weighting(nm)
