"""Mired: differences, their words, and what goes with a room."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.light import match_word, matching, mired, mired_difference

KELVINS = st.floats(1667, 25000)


@given(KELVINS, KELVINS, KELVINS)
def test_a_distance(a: float, b: float, c: float) -> None:
    assert mired_difference(a, b) == mired_difference(b, a) >= 0
    assert mired_difference(a, a) == 0
    assert mired_difference(a, c) <= mired_difference(a, b) + mired_difference(b, c) + 1e-9


@pytest.mark.parametrize(
    ("difference", "word"),
    [
        (0, "same"),
        (5.49, "same"),
        (5.5, "just noticeable"),
        (10.9, "just noticeable"),
        (11, "different"),
        (34.9, "different"),
        (35, "clearly different"),
        (-35, "clearly different"),
        (400, "clearly different"),
    ],
)
def test_words_change_at_their_thresholds(difference: float, word: str) -> None:
    assert match_word(difference) == word


def test_matching_sorts_nearest_first() -> None:
    found = matching(["865", "827", "841", "840", "CW", "4000 K"], room_k=4000)
    assert [match.code for match in found] == ["840", "4000 K", "841", "CW", "865", "827"]
    assert [match.word for match in found] == [
        "same",
        "same",
        "just noticeable",
        "just noticeable",
        "clearly different",
        "clearly different",
    ]


def test_matching_nothing() -> None:
    assert matching([], room_k=4000) == ()


@pytest.mark.parametrize("bad", [0, -1, math.nan, math.inf, 1666, 25001])
def test_bad_temperatures_are_refused(bad: float) -> None:
    for refuse in (mired, lambda k: mired_difference(4000, k), lambda k: matching(["840"], k)):
        with pytest.raises(ValueError, match="1667 to 25000 K"):
            refuse(bad)


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_bad_differences_are_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="difference"):
        match_word(bad)
