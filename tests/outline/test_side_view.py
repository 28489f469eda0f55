"""The glass from the side: legs that can be counted, one scale, lengths and doubts as the catalogue has them."""

from __future__ import annotations

import pytest

from counter.catalogue import load
from counter.outline import Disc, Label, Measure, box_of, length_words, side_view

SHIPPED = load()
LAMPS = SHIPPED.lamps
BENDS = {"twin": 1, "long-twin": 1, "quad": 2, "triple": 3, "four-fold": 4, "flat": 2, "u-bent": 1}
LONGEST_DRAWN_MM = 340.0


def ids(lamps):
    return [lamp.id for lamp in lamps]


def parts(drawing, part):
    return [shape for shape in drawing.shapes if shape.part == part]


@pytest.mark.parametrize("lamp", LAMPS, ids=ids(LAMPS))
def test_every_lamp_draws_within_bounds(lamp):
    base = SHIPPED.base_of(lamp)
    small, full = side_view(lamp, base), side_view(lamp, base, full=True)
    assert parts(small, "cap")
    assert parts(small, "legs") or lamp.base == "GX53"  # a closed disc shows no glass
    for drawing in (small, full):
        assert 6 < drawing.width_mm < 360
        assert 25 < drawing.height_mm < 400
    assert full.box == small.box


@pytest.mark.parametrize("lamp", [lamp for lamp in LAMPS if lamp.shape in BENDS], ids=lambda lamp: lamp.id)
def test_legs_can_be_counted(lamp):
    assert len(parts(side_view(lamp, SHIPPED.base_of(lamp)), "legs")) == BENDS[lamp.shape]
    if lamp.legs is not None and lamp.shape != "u-bent":
        assert lamp.legs == 2 * BENDS[lamp.shape]


SHORT = [
    lamp
    for lamp in LAMPS
    if lamp.shape in ("twin", "quad", "triple", "four-fold", "long-twin", "flat") and lamp.length_mm
    if lamp.length_mm.value < 330
]


@pytest.mark.parametrize("lamp", SHORT, ids=ids(SHORT))
def test_a_lamp_that_fits_is_drawn_as_long_as_it_is(lamp):
    _, _, _, top = box_of(tuple(parts(side_view(lamp, SHIPPED.base_of(lamp)), "legs")))
    assert top == pytest.approx(lamp.length_mm.value, abs=0.01)


LONG = [
    lamp for lamp in LAMPS if lamp.shape in ("linear", "long-twin") and lamp.length_mm and lamp.length_mm.value > 340
]


@pytest.mark.parametrize("lamp", LONG, ids=ids(LONG))
def test_a_longer_lamp_is_broken_and_says_its_real_length(lamp):
    full = side_view(lamp, SHIPPED.base_of(lamp), full=True)
    assert parts(full, "break")
    assert full.box[3] - full.box[1] <= LONGEST_DRAWN_MM + 10
    (length,) = parts(full, "length")
    assert length.text.endswith(length_words(lamp.length_mm.value))
    _, low, _, high = box_of(tuple(parts(full, "break")))
    assert full.box[1] < low < high < full.box[3], "the break lies on the glass"


@pytest.mark.parametrize("lamp", LAMPS, ids=ids(LAMPS))
def test_the_length_says_how_sure_it_is(lamp):
    (length,) = parts(side_view(lamp, SHIPPED.base_of(lamp), full=True), "length")
    if lamp.length_mm is None:
        assert (type(length), length.text) == (Label, "length not known")
    else:
        unsure = lamp.length_mm.is_unsure
        assert isinstance(length, Measure)
        assert (length.dashed, length.text.startswith("≈")) == (unsure, unsure)


LONG_ENOUGH = [lamp for lamp in LAMPS if lamp.length_mm is not None]


@pytest.mark.parametrize("lamp", LONG_ENOUGH, ids=ids(LONG_ENOUGH))
def test_the_length_begins_and_ends_on_the_lamp(lamp):
    """From what touches first to the top of the glass; of a tube from cap to cap; of a ring across."""
    drawing = side_view(lamp, SHIPPED.base_of(lamp), full=True)
    (length,) = parts(drawing, "length")
    lamp_only = [shape for shape in drawing.shapes if shape.part in ("legs", "cap", "pins", "block")]
    if lamp.shape in ("linear", "u-bent"):
        lamp_only = [shape for shape in lamp_only if shape.part != "pins"]
    left, low, right, high = box_of(tuple(lamp_only))
    if lamp.shape == "circular":
        assert (length.start[0], length.end[0]) == pytest.approx((left, right))
    else:
        assert (length.start[1], length.end[1]) == pytest.approx((low, high))
    if not parts(drawing, "break") and lamp.length_mm.value < 330:
        drawn = max(abs(length.end[0] - length.start[0]), 0) if lamp.shape == "circular" else high - low
        assert drawn == pytest.approx(lamp.length_mm.value)


KNOWN_SHAPES = [lamp for lamp in LAMPS if lamp.shape is not None]


@pytest.mark.parametrize("lamp", KNOWN_SHAPES, ids=ids(KNOWN_SHAPES))
def test_glass_of_unsure_thickness_is_dashed_large_and_plain_small(lamp):
    base = SHIPPED.base_of(lamp)
    unsure = lamp.tube_mm is None or lamp.tube_mm.is_unsure
    assert {leg.dashed for leg in parts(side_view(lamp, base, full=True), "legs")} == {unsure}
    assert {leg.dashed for leg in parts(side_view(lamp, base), "legs")} == {False}


@pytest.mark.parametrize("lamp", [one for one in LAMPS if one.kind == "uv-c"], ids=lambda lamp: lamp.id)
def test_clear_glass_is_drawn_clear_with_its_electrodes(lamp):
    drawing = side_view(lamp, SHIPPED.base_of(lamp))
    assert {leg.fill for leg in parts(drawing, "legs")} == {"none"}
    assert parts(drawing, "electrode")


@pytest.mark.parametrize("lamp", [one for one in LAMPS if one.kind == "uv-a"], ids=lambda lamp: lamp.id)
def test_a_blacklight_is_drawn_dark(lamp):
    drawing = side_view(lamp, SHIPPED.base_of(lamp))
    glass = lamp.glass.value if lamp.glass is not None else "dark"
    filled = {leg.fill for leg in parts(drawing, "legs")} - {"paper"}  # paper shows through a ring
    assert filled == {{"dark": "dark-glass", "white": "glass"}[glass]}


@pytest.mark.parametrize("lamp", [one for one in LAMPS if one.tube_mm and one.shape], ids=lambda lamp: lamp.id)
def test_the_thickness_is_written_at_one_leg(lamp):
    drawing = side_view(lamp, SHIPPED.base_of(lamp), full=True)
    (dot,) = [shape for shape in parts(drawing, "tube") if isinstance(shape, Disc)]
    left, low, _, high = box_of(tuple(parts(drawing, "legs")))
    assert dot.x_mm == pytest.approx(left, abs=0.6)
    assert low < dot.y_mm < high
    (words,) = [shape for shape in parts(drawing, "tube") if isinstance(shape, Label)]
    assert words.text.endswith(length_words(lamp.tube_mm.value))


def test_a_length_changed_in_the_json_changes_the_drawing(changed):
    at = ids(LAMPS).index("G24q-2/18/quad")

    def longer(document):
        document["lamps"][at]["length_mm"]["value"] = 222.0

    after = changed(longer)
    drawing = side_view(after.lamps[at], after.base_of(after.lamps[at]), full=True)
    assert drawing.box[3] == pytest.approx(222.0)
    assert parts(drawing, "length")[0].text.endswith(length_words(222.0))


@pytest.mark.parametrize(
    ("mm", "metric", "inches"),
    [
        (149.225, "149.2 mm", "5 7/8 in"),
        (25.4, "25.4 mm", "1 in"),
        (12.7, "12.7 mm", "1/2 in"),
        (2.0, "2 mm", "1/16 in"),
        (4.75, "4.75 mm", "3/16 in"),
        (1199.4, "1199.4 mm", "47 1/4 in"),
        (0.3, "0.3 mm", "0 in"),
        (25.3, "25.3 mm", "1 in"),
    ],
)
def test_lengths_in_words(mm, metric, inches):
    assert length_words(mm).replace("\N{THIN SPACE}", " ") == metric
    assert length_words(mm, "in").replace("\N{THIN SPACE}", " ") == inches
