"""Points put right by hand give what the automatic way gives; nonsense is said."""

from __future__ import annotations

import numpy as np
import pytest

from counter.measure import Measured, by_card, by_length, overlay
from counter.measure._view import View

SIZE = (1600, 1200)


def straight(distance=250.0, focal=1376.0):
    """A camera straight above the card, 0.86 of the longer side long: the usual lens."""
    matrix = np.array([[focal, 0, 800, 0], [0, focal, 600, 0], [0, 0, 1, 0]]) @ np.array(
        [[1, 0, 0, 0], [0, -1, 0, 0], [0, 0, -1, distance], [0, 0, 0, 1]]
    )
    return View(matrix, np.array([0, 0, distance]), 0.0)


CARD = np.array([(-42.8, 26.99), (42.8, 26.99), (42.8, -26.99), (-42.8, -26.99)])


def pins_of(base, view, away=(0.0, -60.0)):
    at = np.array([(pin.x_mm, pin.y_mm) for pin in base.face.pins.at]) + away
    return [tuple(map(float, point)) for point in view.pixels(at, 7.0)]


@pytest.mark.parametrize("name", ["G23", "G24q-1", "2G11", "GX53"])
def test_corners_and_pins_by_hand_give_the_spacing(catalogue, name):
    view, base = straight(), catalogue.base_by_name[name]
    card = [tuple(map(float, point)) for point in view.pixels(CARD)]
    told = by_card(catalogue, Measured(size_px=SIZE), card, pins_of(base, view), None)
    assert told.spacing_mm == pytest.approx(base.pin_spacing_mm.value, abs=0.05)
    assert told.candidates[0].residual_mm < 0.05
    assert told.looks["pins"] == f"{base.pins.value:g}"


@pytest.mark.parametrize("turns", range(4))
def test_corners_may_begin_anywhere_and_go_either_way(catalogue, turns):
    view, base = straight(), catalogue.base_by_name["G24q-1"]
    card = [tuple(map(float, point)) for point in np.roll(view.pixels(CARD), turns, axis=0)]
    for corners in (card, card[::-1]):
        told = by_card(catalogue, Measured(size_px=SIZE), corners, pins_of(base, view), None)
        assert told.spacing_mm == pytest.approx(22.6, abs=0.05)


def test_a_key_by_hand_joins_the_looks(catalogue):
    view, base = straight(), catalogue.base_by_name["G24q-3"]
    card = [tuple(map(float, point)) for point in view.pixels(CARD)]
    told = by_card(catalogue, Measured(size_px=SIZE), card, pins_of(base, view), "small-right")
    assert told.looks["notch"] == "small-right"
    assert told.candidates[0].base == "G24q-3"


@pytest.mark.parametrize("card", [[(0, 0)] * 4, [(0, 0), (1, 0), (2, 0)], [(0, 0), (900, 0), (900, 900), (0, 900)]])
def test_corners_of_no_card_are_said(catalogue, card):
    told = by_card(catalogue, Measured(size_px=SIZE), card, [(500.0, 500.0)], None)
    assert told.candidates == ()
    assert "corner" in told.problems[0]


def test_one_known_length_gives_the_scale(catalogue):
    told = by_length(catalogue, Measured(size_px=SIZE), ((0, 0), (400, 0)), 40.0, [(100, 100), (330, 100)], None)
    assert told.spacing_mm == pytest.approx(23.0, abs=0.01)
    assert "straight above" in told.problems[0]
    assert told.tolerances_mm["pin_spacing_mm"] == pytest.approx(0.92)


@pytest.mark.parametrize("tall_mm", [6.0, 8.0])
def test_points_put_right_by_hand_lie_as_high_as_the_pins_were_seen_to_stand(catalogue, tall_mm):
    view, base = straight(), catalogue.base_by_name["G24q-1"]
    card = [tuple(map(float, point)) for point in view.pixels(CARD)]
    at = np.array([(pin.x_mm, pin.y_mm) for pin in base.face.pins.at])
    pins = [tuple(map(float, point)) for point in view.pixels(at, tall_mm)]
    told = by_card(catalogue, Measured(size_px=SIZE, pins_tall_mm=tall_mm), card, pins, None)
    assert told.spacing_mm == pytest.approx(base.pin_spacing_mm.value, abs=0.02)


@pytest.mark.parametrize("ends", [((0, 0), (0, 0)), ((5, 5), (6, 6))])
def test_a_length_between_one_point_and_itself_is_none(catalogue, ends):
    told = by_length(catalogue, Measured(size_px=SIZE), ends, 40.0, [(100, 100), (330, 100)], None)
    assert told.looks == {}


def test_no_pins_at_all_is_no_fault(catalogue):
    told = by_length(catalogue, Measured(size_px=SIZE), ((0, 0), (400, 0)), 40.0, [], None)
    assert "notch" not in told.looks


def test_the_face_laid_over_the_picture_has_its_pins_on_the_pins(catalogue):
    view, base = straight(), catalogue.base_by_name["G24q-1"]
    card = [tuple(map(float, point)) for point in view.pixels(CARD)]
    told = by_card(catalogue, Measured(size_px=SIZE), card, pins_of(base, view), None)
    lines = overlay(told, base, told.candidates[0])
    assert len(lines) == 2 + len(base.face.pins.at)
    middles = sorted(tuple(np.mean(line[:-1], axis=0).round()) for line in lines[2:])
    wanted = sorted(tuple(np.round(point)) for point in told.pins_px)
    assert np.abs(np.array(middles) - np.array(wanted)).max() <= 2


def test_without_a_card_nothing_is_laid_over(catalogue):
    told = by_length(catalogue, Measured(size_px=SIZE), ((0, 0), (400, 0)), 40.0, [(100, 100), (330, 100)], None)
    base = catalogue.base_by_name[told.candidates[0].base]
    assert overlay(told, base, told.candidates[0]) == ()
