"""The lower bound of a share of right answers; the check against scipy is among the outside checks."""

from __future__ import annotations

import pytest

from counter.training import lower_bound


@pytest.mark.parametrize("asked", [1, 5, 17, 60])
def test_all_right_has_a_closed_form(asked):
    assert lower_bound(asked, asked, 0.95) == pytest.approx(0.025 ** (1 / asked), abs=1e-12)


def test_none_right_promises_nothing():
    assert lower_bound(0, 9) == 0
    assert lower_bound(0, 0) == 0


def test_more_right_promises_more():
    bounds = [lower_bound(right, 40) for right in range(41)]
    assert bounds == sorted(set(bounds))


@pytest.mark.parametrize(("right", "asked"), [(3, 2), (-1, 2)])
def test_impossible_counts(right, asked):
    with pytest.raises(ValueError, match="right of"):
        lower_bound(right, asked)
