"""A pattern on every base's face: turned, moved, mirrored and a little out of scale."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.catalogue import load, notch_look
from counter.measure import (
    Measured,
    Pattern,
    Pin,
    answered,
    certain_looks,
    faces_of,
    fit_all,
    fit_base,
    likely_of,
    similarity,
    spacing_of,
)

SHIPPED = load()
ANGLES = st.floats(-pi, pi)
SHIFTS = st.floats(-50, 50)


def pattern_of(base, turn=0.0, shift=(0.0, 0.0), **fields):
    c, s = cos(turn), sin(turn)
    pins = tuple(
        Pin(x_mm=c * pin.x_mm - s * pin.y_mm + shift[0], y_mm=s * pin.x_mm + c * pin.y_mm + shift[1])
        for pin in base.face.pins.at
    )
    return Pattern(pins=pins, **fields)


@given(st.sampled_from(SHIPPED.bases), ANGLES, SHIFTS, SHIFTS)
def test_a_base_fits_itself_however_it_lies(base, turn, x, y):
    assert fit_base(base, pattern_of(base, turn, (x, y))).residual_mm == pytest.approx(0, abs=1e-3)


@given(st.lists(st.tuples(SHIFTS, SHIFTS), min_size=2, max_size=4, unique=True), ANGLES)
def test_the_similarity_is_no_worse_than_the_true_turn(points, turn):
    drawn = [complex(*point) for point in points]
    seen = [point * complex(cos(turn), sin(turn)) + 3 - 2j for point in drawn]
    miss, _ = similarity(drawn, seen)
    assert miss < 1e-6


def test_two_pins_a_millimetre_farther_apart_leave_their_distance():
    # 24 for 23: the scale may take 1.5 %, 0.345 of it; the rest is shared by both ends.
    miss, _ = similarity([-11.5 + 0j, 11.5 + 0j], [-12 + 0j, 12 + 0j])
    assert miss == pytest.approx((24 - 23 * 1.015) / 2)


def test_scale_is_not_free():
    g5, gx53 = SHIPPED.base_by_name["G5"], SHIPPED.base_by_name["GX53"]
    assert fit_base(gx53, pattern_of(g5)).residual_mm > 15


@pytest.mark.parametrize("base", SHIPPED.bases, ids=lambda base: base.designation)
def test_its_own_pins_and_key_put_a_base_among_those_drawn_alike(base):
    notches = base.face.notches
    fits = fit_all(SHIPPED, pattern_of(base, 1.0, notch=notch_look(notches.at) if notches else None))
    mine = next(fit for fit in fits if fit.base == base.designation)
    assert mine.residual_mm == fits[0].residual_mm


def test_what_a_picture_says_of_pins_and_outline_goes_before_what_is_left_over():
    g23, g24d = SHIPPED.base_by_name["G23"], SHIPPED.base_by_name["G24d-1"]
    seen = pattern_of(g23)
    assert fit_all(SHIPPED, seen)[0].base == "G23"
    by_picture = seen.model_copy(update={"likely": {"G23": 1.0, "G24d-1": 6.0}})
    assert [fit.base for fit in fit_all(SHIPPED, by_picture)[:2]] == ["G24d-1", "G23"]
    assert (
        likely_of(g24d, by_picture) > likely_of(g23, by_picture) > likely_of(SHIPPED.base_by_name["G5"], by_picture)
    )


def test_a_key_that_is_faintly_seen_leans_the_order_and_no_more():
    names = ("G24q-1", "G24q-2", "G24q-3")
    base = SHIPPED.base_by_name["G24q-1"]
    keys = {"none": 0.6, "small-centre": 0.2, "small-left": 0.5, "small-right": 0.9}
    seen = pattern_of(base, likely=dict.fromkeys(names, 8.0) | {"G5": 0.0}, keys=keys)
    assert [fit.base for fit in fit_all(SHIPPED, seen)[:4]] == ["G24q-3", "G24q-2", "G24q-1", "G5"]


def test_bases_drawn_alike_are_one_face():
    fits = fit_all(SHIPPED, pattern_of(SHIPPED.base_by_name["G23"]))
    faces = [[fit.base for fit in face] for face in faces_of(SHIPPED, fits)]
    assert ["G23", "G23-2"] in faces
    assert sum(map(len, faces)) == len(SHIPPED.bases)


def test_a_key_on_the_other_side_speaks_against_a_base():
    left, right = SHIPPED.base_by_name["G24q-2"], SHIPPED.base_by_name["G24q-3"]
    seen = pattern_of(left, notch="small-left")
    assert fit_base(left, seen).residual_mm < 0.01 < fit_base(right, seen).residual_mm


def test_the_spacing_is_that_of_the_pins_that_the_catalogue_means():
    for name, wanted in (("G24q-1", 22.6), ("2G7", 7.0), ("2G8-1", 8.0), ("G23", 23.0), ("G10q", 7.92)):
        base = SHIPPED.base_by_name[name]
        seen = pattern_of(base, 0.4)
        assert spacing_of(base, fit_base(base, seen), seen) == pytest.approx(wanted, abs=0.01)


def test_looks_are_answers_that_the_catalogue_has():
    base = SHIPPED.base_by_name["G24q-1"]
    seen = pattern_of(base, arrangement="rectangle", notch="small-centre", block=True)
    assert certain_looks(SHIPPED, seen, 22.61) == {
        "pins": "4",
        "arrangement": "rectangle",
        "notch": "small-centre",
        "block": "yes",
        "pin_spacing_mm": 22.6,
    }


def test_what_was_not_seen_becomes_no_look():
    seen = pattern_of(SHIPPED.base_by_name["G13"], arrangement="two")
    assert set(certain_looks(SHIPPED, seen, None)) == {"pins"}


def test_looks_from_a_picture_go_through_the_one_door():
    from counter.desk import Case, assess

    base = SHIPPED.base_by_name["G24q-3"]
    told = answered(SHIPPED, Measured(size_px=(800, 600)), pattern_of(base, 2.0, notch="small-right", block=True))
    found = assess(SHIPPED, Case(looks=told.looks), ())
    assert found.candidates[0].base == "G24q-3"
