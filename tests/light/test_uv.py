"""Exposure: what the formula must keep to, and what it refuses."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.light import (
    CURVE_M,
    band_exposure,
    band_report,
    band_text,
    curve,
    exposure,
    irradiance_w_m2,
    places,
    uva_exposure,
)

WATTS = st.floats(0.01, 200)
ARC_MM = st.floats(10, 2000)
DISTANCE_M = st.floats(0.05, 50)


@given(WATTS, ARC_MM, DISTANCE_M, st.floats(1.001, 10))
def test_farther_is_weaker_and_slower(watts: float, arc_mm: float, distance_m: float, factor: float) -> None:
    near, far = exposure(watts, arc_mm, distance_m), exposure(watts, arc_mm, distance_m * factor)
    assert far.irradiance_w_m2 < near.irradiance_w_m2
    assert far.time_to_limit_s > near.time_to_limit_s


@given(WATTS, ARC_MM, st.floats(10, 200))
def test_far_away_it_is_the_inverse_square(watts: float, arc_mm: float, arcs_away: float) -> None:
    distance_m = arc_mm / 1000 * arcs_away
    ratio = irradiance_w_m2(watts, arc_mm, distance_m) / irradiance_w_m2(watts, arc_mm, 2 * distance_m)
    assert ratio == pytest.approx(4, rel=0.01)


def test_close_by_it_is_not() -> None:
    assert irradiance_w_m2(10, 1000, 0.1) / irradiance_w_m2(10, 1000, 0.2) < 2.2


@given(WATTS, ARC_MM, DISTANCE_M, st.integers(1, 8))
def test_linear_in_power_and_in_lamps(watts: float, arc_mm: float, distance_m: float, lamps: int) -> None:
    together = irradiance_w_m2(watts, arc_mm, distance_m, lamps)
    assert together == pytest.approx(lamps * irradiance_w_m2(watts, arc_mm, distance_m))
    assert together == pytest.approx(irradiance_w_m2(watts * lamps, arc_mm, distance_m))


@given(WATTS, ARC_MM, DISTANCE_M)
def test_dose_at_the_time_is_the_limit(watts: float, arc_mm: float, distance_m: float) -> None:
    found = exposure(watts, arc_mm, distance_m)
    assert found.effective_w_m2 * found.time_to_limit_s == pytest.approx(found.limit_j_m2)
    assert found.effective_w_m2 == found.irradiance_w_m2 * 0.5


@pytest.mark.parametrize(
    ("arc_mm", "distance_m", "valid"),
    [(360, 0.72, True), (360, 0.719, False), (150, 0.3, True), (350, 0.7, True), (1200, 2.39, False)],
)
def test_valid_from_twice_the_arc(arc_mm: float, distance_m: float, valid: bool) -> None:
    found = exposure(11, arc_mm, distance_m)
    assert found.valid is valid
    assert found.near_field_limit_m == 2 * arc_mm / 1000
    assert any("not to be relied on" in note for note in found.notes) is not valid


@pytest.mark.parametrize(
    ("watts", "lamps", "said", "unsaid"),
    [
        (1, 1, "reflections", "8 h"),
        (1, 3, "3 lamps", "24 h"),
        (0.01, 1, "8 h", "24 h"),
        (0.001, 1, "24 h", "not to be relied on"),
    ],
)
def test_notes_say_what_is_not_counted(watts: float, lamps: int, said: str, unsaid: str) -> None:
    notes = " ".join(exposure(watts, 100, 1, lamps).notes)
    assert said in notes
    assert unsaid not in notes


BAD = [0, -1, math.nan, math.inf, -math.inf, 1e9, True]


@pytest.mark.parametrize("bad", BAD)
@pytest.mark.parametrize(
    ("argument", "named"),
    [(0, "ultraviolet output"), (1, "arc length"), (2, "distance"), (3, "number of lamps")],
)
def test_bad_numbers_are_named(argument: int, named: str, bad: float) -> None:
    values: list[float] = [11, 360, 1, 1]
    values[argument] = bad
    for refuse in (exposure, uva_exposure):
        with pytest.raises(ValueError, match=named):
            refuse(*values)  # type: ignore[arg-type]


def test_lamps_are_whole() -> None:
    with pytest.raises(ValueError, match="whole number"):
        irradiance_w_m2(11, 360, 1, 1.5)  # type: ignore[arg-type]


def test_curve_spans_the_log_axis() -> None:
    drawn = curve(11, 360, points=5)
    distances, times = zip(*drawn, strict=True)
    assert (distances[0], distances[-1]) == CURVE_M
    steps = [b / a for a, b in pairwise(distances)]
    assert steps == pytest.approx([steps[0]] * 4)
    assert list(times) == sorted(times)
    assert times[-1] == exposure(11, 360, 10).time_to_limit_s


def test_curve_of_one_point_is_refused() -> None:
    with pytest.raises(ValueError, match="2 or more"):
        curve(11, 360, points=1)


def test_places_go_outward() -> None:
    found = places(11, 360)
    assert [place.name for place, _ in found] == ["arm's length", "across the counter", "across a room"]
    assert [e.distance_m for _, e in found] == sorted(place.distance_m for place, _ in found)
    assert [e.valid for _, e in found] == [False, True, True]


def test_notes_of_a_band_are_those_of_the_limit_that_comes_first() -> None:
    found = band_exposure("uv-a", 2, 130, 0.6)
    assert found.skin.time_to_limit_s > 24 * 3600 > found.first_s
    assert not any("24 h" in note for note in found.notes)
    assert "spectrum is not known" in found.notes[0]
    assert band_report(found)["notes"] == list(found.notes)


def test_no_time_of_a_band_is_written_longer_than_it_is() -> None:
    found = band_exposure("uv-b-broad", 0.9985, 300, 1)
    assert 341.5 < found.skin.time_to_limit_s < 342  # where rounding would give 342 s
    assert "after 5 min 41 s" in band_text(found)
