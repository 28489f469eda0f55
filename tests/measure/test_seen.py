"""Pins, outlines and a card's upper edges on drawings whose places are known."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from counter.catalogue import load
from counter.measure._card import CARD_MM, THICK_MM, Quad, by_top_edges, long_first
from counter.measure._models import PIN_TALL_MM
from counter.measure._outline import outline_seen, sides_of
from counter.measure._pin_end import sharpened
from counter.measure._pins import Spot
from counter.measure._tall import standing, tall_of
from counter.measure._view import LENS, View

PX_PER_MM, EYE_MM = 8.0, 400.0
SIZE, FINE = 640, 4


def looking_down(aside_mm=0.0):
    """Return a camera above a place `aside_mm` right of the middle, level 0 in scale and unslanted."""
    focal, half = PX_PER_MM * EYE_MM, SIZE / 2
    aside = -half - PX_PER_MM * aside_mm
    lift = np.array([[focal, 0, aside, EYE_MM * half], [0, -focal, -half, EYE_MM * half], [0, 0, -1, EYE_MM]])
    return View(lift, np.array([aside_mm, 0.0, EYE_MM]), 0.0)


def painted(view, parts, ground=60.0, size=SIZE):
    """Paint shapes in grey, four times as large first: OpenCV fills a third of a pixel around what it is given."""
    large = np.full((FINE * size, FINE * size), ground, np.uint8)
    for points, level, grey in parts:
        at = (view.pixels(np.asarray(points, float), level) + 0.5) * FINE - 0.5
        cv2.fillPoly(large, [np.round(at * 16).astype(np.int32)], grey, cv2.LINE_AA, 4)
    image = cv2.resize(large, (size, size), interpolation=cv2.INTER_AREA).astype(np.float32)
    return cv2.GaussianBlur(cv2.merge([image] * 3), (0, 0), 1.0)


def disc(x, y, radius=1.0):
    turns = np.linspace(0, 2 * np.pi, 40, endpoint=False)
    return np.column_stack([x + radius * np.cos(turns), y + radius * np.sin(turns)])


def box(width, height):
    return [(-width / 2, -height / 2), (width / 2, -height / 2), (width / 2, height / 2), (-width / 2, height / 2)]


@pytest.mark.parametrize("tall_mm", [6.0, 7.0, 8.0])
@pytest.mark.parametrize("aside_mm", [120.0, 200.0])
def test_how_high_pins_stand_is_seen_from_aside(aside_mm, tall_mm):
    view, pins = looking_down(aside_mm), [(-8.0, 3.0), (9.0, -2.0)]
    sides = [(disc(*pin), level, 110.0) for pin in pins for level in np.arange(0, tall_mm, 0.25)]
    ends = [(disc(*pin), tall_mm, 200.0) for pin in pins]
    image = painted(view, [(box(34, 28), 0.0, 150.0), *sides, *ends])
    seen = view.millimetres(view.pixels(np.array(pins), tall_mm), PIN_TALL_MM)
    spots, found = standing(image, view, [Spot(x + 0.1, y - 0.1, 1.0, 0.0) for x, y in seen])
    assert found == pytest.approx(tall_mm, abs=0.25)
    assert np.array([(spot.x, spot.y) for spot in spots]) == pytest.approx(seen, abs=0.08)


def test_straight_above_a_pin_its_height_is_the_usual_one():
    view = looking_down()
    image = painted(view, [(box(34, 28), 0.0, 150.0), (disc(0.0, 0.0), 8.0, 200.0)])
    assert tall_of(image, view, [Spot(0.0, 0.0, 1.0, 0.0)]) == pytest.approx(PIN_TALL_MM, abs=0.1)


@pytest.mark.parametrize("aside_mm", [0.0, 120.0, 200.0])
@pytest.mark.parametrize("grey", [90.0, 150.0])
def test_a_pins_end_is_found_where_it_is_and_not_at_its_foot(aside_mm, grey):
    view = looking_down(aside_mm)
    pin = [(disc(3.3, -2.1), level, 110.0) for level in np.arange(0, 7, 0.25)]
    image = painted(view, [(box(34, 28), 0.0, grey), *pin, (disc(3.3, -2.1), 7.0, 200.0)])
    found = sharpened(image, view, Spot(3.6, -2.4, 1.0, 0.0), PIN_TALL_MM)
    assert (found.x, found.y) == pytest.approx((3.3, -2.1), abs=0.08)


@pytest.mark.parametrize("aside_mm", [-200.0, -120.0])
def test_a_pins_end_is_found_that_is_seen_across_the_edge_of_its_base(aside_mm):
    view, beyond_mm = looking_down(aside_mm), PIN_TALL_MM * (3.3 - aside_mm) / EYE_MM
    pin = [(disc(3.3, -2.1), level, 140.0) for level in np.arange(0, 7, 0.25)]
    edge = box(2 * (3.6 + beyond_mm), 28)
    image = painted(view, [(edge, 0.0, 190.0), *pin, (disc(3.3, -2.1), 7.0, 170.0)])
    found = sharpened(image, view, Spot(3.0, -2.0, 1.0, 0.0), PIN_TALL_MM)
    assert (found.x, found.y) == pytest.approx((3.3, -2.1), abs=0.05)


@pytest.mark.parametrize(("wider", "off"), [(0.0, 0.0), (2.0, 1.0), (-2.0, -1.0)])
def test_a_side_is_found_where_it_is(wider, off):
    outline = load().base_by_name["G24q-1"].face.outline
    view = looking_down()
    image = painted(view, [(box(outline.width_mm + wider, outline.height_mm), 0.0, 140.0)])
    seen = outline_seen(image, view, sides_of(outline), 0.0, np.zeros(2))
    assert seen.off_mm == pytest.approx([off, 0, off, 0], abs=0.26)


def test_an_outline_that_is_not_there_counts_against_a_base():
    catalogue, view = load(), looking_down()
    small, large = (catalogue.base_by_name[name].face.outline for name in ("G23", "G24q-1"))
    image = painted(view, [(box(small.width_mm, small.height_mm), 0.0, 140.0)])
    worth = [outline_seen(image, view, sides_of(one), 0.0, np.zeros(2)).worth for one in (small, large)]
    assert worth[0] > 4 > 0 > worth[1]


def slanted(tilt_deg, away_mm=165.0, size=1600):
    """Return a camera with a telephone's usual lens that looks at the middle of level 0 from the side."""
    turn, focal = np.radians(tilt_deg), LENS * size
    forward = -np.array([np.sin(turn), 0, np.cos(turn)])
    side = np.array([0.0, 1.0, 0.0])
    rotation = np.vstack([side, np.cross(forward, side), forward])
    inner = np.array([[focal, 0, size / 2], [0, focal, size / 2], [0, 0, 1]])
    eye = -forward * away_mm
    return View(inner @ np.column_stack([rotation, -rotation @ eye]), eye, 0.0)


@pytest.mark.parametrize(("ground", "side", "face"), [(60, 90, 200), (200, 60, 100), (120, 150, 230)])
@pytest.mark.parametrize("tilt_deg", [0, 34])
def test_a_card_is_measured_by_its_upper_edges(tilt_deg, ground, side, face):
    view, (width, height) = slanted(tilt_deg), CARD_MM
    card = np.array(box(width, height))
    image = painted(view, [(card, -THICK_MM, side), (card, 0.0, face)], ground, size=1600)
    upper, lower = view.pixels(card), view.pixels(card, -THICK_MM)
    outer = np.where(np.abs(lower - 800) > np.abs(upper - 800), lower, upper)
    assert np.abs(outer - upper).max() > 2 or not tilt_deg
    assert by_top_edges(image, Quad(long_first(outer), 9.0)).corners == pytest.approx(long_first(upper), abs=0.3)
