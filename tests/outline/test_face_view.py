"""The face as drawn stands where the catalogue says, keys on their side, doubts dashed."""

from __future__ import annotations

from itertools import pairwise

import pytest

from counter import outline
from counter.catalogue import load
from counter.outline import Disc, Label, Measure, Path, face_view, turned

BASES = load().bases
KEYED = [base for base in BASES if base.face.notches is not None and base.face.notches.at]
KEY_UNKNOWN = [base for base in BASES if base.face.notches is None and base.family_notches]


def named(bases):
    return [base.designation for base in bases]


def parts(drawing, part):
    return [shape for shape in drawing.shapes if shape.part == part]


def base_in(catalogue, designation):
    return catalogue.base_by_name[designation]


@pytest.mark.parametrize("base", BASES, ids=named(BASES))
def test_pins_stand_where_the_catalogue_says(base):
    drawn = [(pin.x_mm, pin.y_mm) for pin in parts(face_view(base), "pins")]
    assert drawn == [(pin.x_mm, pin.y_mm) for pin in base.face.pins.at]
    if base.face.pin_diameter_mm is not None:
        assert {pin.radius_mm for pin in parts(face_view(base), "pins")} == {base.face.pin_diameter_mm.value / 2}


@pytest.mark.parametrize("base", BASES, ids=named(BASES))
def test_the_edge_is_as_wide_and_high_as_the_catalogue_says(base):
    (edge,) = parts(face_view(base), "outline")
    left, bottom, right, top = outline.box_of((edge,))
    assert right - left == pytest.approx(base.face.outline.width_mm)
    assert top - bottom == pytest.approx(
        base.face.outline.width_mm if base.face.outline.shape == "circle" else base.face.outline.height_mm
    )


@pytest.mark.parametrize("base", BASES, ids=named(BASES))
@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_whole_face_stays_within_its_reach(base, units):
    full = face_view(base, full=True, units=units)
    left, bottom, right, top = full.reach
    assert 5 < full.width_mm < 130
    assert 5 < full.height_mm < 130
    for shape in parts(full, "up"):
        assert left <= shape.x_mm <= right
        assert bottom <= shape.y_mm <= top
    for shape in full.shapes:
        if isinstance(shape, Measure):
            assert bottom <= shape.start[1] + shape.off_mm <= top


@pytest.mark.parametrize("base", KEYED, ids=named(KEYED))
def test_notches_lie_on_their_side_with_the_key_edge_up(base):
    drawn = parts(face_view(base), "notch")
    middles = [sum(x for x, _ in notch.points) / 4 for notch in drawn]
    assert middles == pytest.approx([notch.offset_mm for notch in base.face.notches.at])
    key_edge = base.face.centre.offset_y_mm + base.face.centre.height_mm / 2
    for notch, known in zip(drawn, base.face.notches.at, strict=True):
        ys = [y for _, y in notch.points]
        assert (max(ys), min(ys)) == pytest.approx((key_edge, key_edge - known.depth_mm))
        assert notch.pen == "accent"


@pytest.mark.parametrize(("designation", "side"), [("G24q-2", -1), ("G24q-3", 1), ("G24d-2", -1), ("G24d-3", 1)])
def test_left_is_left_and_right_is_right(catalogue, designation, side):
    (notch,) = parts(face_view(base_in(catalogue, designation)), "notch")
    assert all(x * side > 0 for x, _ in notch.points)


@pytest.mark.parametrize("base", KEYED, ids=named(KEYED))
def test_the_block_is_cut_where_a_notch_lies(base):
    (block,) = parts(face_view(base), "block")
    for notch in parts(face_view(base), "notch"):
        assert set(notch.points) <= set(block.points)


@pytest.mark.parametrize("base", KEY_UNKNOWN, ids=named(KEY_UNKNOWN))
def test_a_key_nobody_knows_is_a_question_mark_and_never_a_place(base):
    drawn = parts(face_view(base), "notch")
    assert [(type(shape), shape.text) for shape in drawn] == [(Label, "?")]
    (block,) = parts(face_view(base), "block")
    assert len(block.points) == 4 if isinstance(block, Path) else True  # uncut
    assert "not known" in outline.face_doubt(base)


@pytest.mark.parametrize("base", BASES, ids=named(BASES))
def test_a_dash_stands_where_a_value_is_unsure_and_nowhere_else(base):
    """Nearly every edge is from memory: dashed they would all look alike, and the key's dash say nothing."""
    face = face_view(base, full=True)
    for part, sourced in (("notch", base.face.notches), ("pin_spacing", base.pin_spacing_mm)):
        drawn = [shape for shape in parts(face, part) if not isinstance(shape, Label)]
        assert {shape.dashed for shape in drawn} <= {sourced is not None and sourced.is_unsure}, part
    (width,) = [shape for shape in parts(face, "outline") if isinstance(shape, Measure)]
    assert (width.dashed, width.text.startswith("≈")) == (base.face.outline.is_unsure,) * 2
    edges = [shape for shape in (*parts(face, "outline"), *parts(face, "block")) if not isinstance(shape, Measure)]
    assert not any(shape.dashed for shape in edges)


@pytest.mark.parametrize("base", BASES, ids=named(BASES))
@pytest.mark.parametrize("tube_mm", [None, 38.1])
def test_the_width_begins_and_ends_on_the_edge(base, tube_mm):
    face = face_view(base, full=True, tube_mm=tube_mm)
    (width,) = [shape for shape in parts(face, "outline") if isinstance(shape, Measure)]
    left, _, right, _ = outline.box_of(tuple(s for s in parts(face, "outline") if not isinstance(s, Measure)))
    assert (width.start[0], width.end[0]) == pytest.approx((left, right))
    assert width.text.removeprefix("≈ ") == outline.length_words(right - left)


def test_a_thick_tube_has_a_wide_cap_on_the_same_pins(catalogue):
    base = base_in(catalogue, "G13")
    thin, thick = face_view(base), face_view(base, tube_mm=38.1)
    assert parts(thin, "pins") == parts(thick, "pins")
    assert outline.box_of(tuple(parts(thick, "outline")))[2] == pytest.approx(19.05)
    assert face_view(base_in(catalogue, "G23"), tube_mm=38.1) == face_view(base_in(catalogue, "G23"))


@pytest.mark.parametrize(
    ("confidence", "words"),
    [("published", ""), ("practice", "key: common practice"), ("memory-low", "key from memory")],
)
def test_the_doubt_about_a_key_is_said(catalogue, confidence, words):
    base = base_in(catalogue, "G24q-2")
    notches = base.face.notches.model_copy(update={"confidence": confidence})
    pins = base.face.pins.model_copy(update={"confidence": "published"})
    surer = base.model_copy(update={"face": base.face.model_copy(update={"notches": notches, "pins": pins})})
    assert outline.face_doubt(surer) == words
    unsure = base.model_copy(update={"face": base.face.model_copy(update={"notches": notches})})
    assert outline.face_doubt(unsure) == " · ".join(filter(None, (words, "pins unconfirmed")))
    assert [notch.dashed for notch in parts(face_view(surer), "notch")] == [confidence != "published"]


def test_a_number_changed_in_the_json_changes_the_drawing(catalogue, changed):
    at = named(catalogue.bases).index("G24q-2")

    def move(document):
        face = document["bases"][at]["face"]
        face["notches"]["at"][0]["offset_mm"] = 3.25
        face["pins"]["at"][0]["x_mm"] = -10.5
        face["outline"]["width_mm"] = 41.0

    before, after = face_view(catalogue.bases[at]), face_view(changed(move).bases[at])
    assert sum(x for x, _ in parts(before, "notch")[0].points) / 4 == pytest.approx(-4.5)
    assert sum(x for x, _ in parts(after, "notch")[0].points) / 4 == pytest.approx(3.25)
    assert parts(after, "pins")[0].x_mm == -10.5
    assert outline.box_of(tuple(parts(after, "outline")))[2] == pytest.approx(20.5)


def test_dimension_words_follow_the_catalogue_and_the_units(catalogue):
    base = base_in(catalogue, "G24q-2")

    def texts(units):
        return {s.part: s.text for s in face_view(base, full=True, units=units).shapes if isinstance(s, Measure)}

    assert texts("mm")["pin_spacing"] == f"≈ {outline.length_words(base.pin_spacing_mm.value)}"
    assert texts("in")["pin_spacing"] == f"≈ {outline.length_words(base.pin_spacing_mm.value, 'in')}"
    assert texts("mm")["pin_spacing"].endswith("mm")
    assert texts("in")["pin_spacing"].endswith("in")


@pytest.mark.parametrize("base", [b for b in BASES if b.pin_spacing_mm], ids=lambda b: b.designation)
def test_the_measured_pair_is_the_pair_of_that_distance(base):
    """The dimension line may not lie: its two pins stand as far apart as its words say, as near as any two do."""
    spans = [s for s in face_view(base, full=True).shapes if isinstance(s, Measure) and s.part == "pin_spacing"]
    at = [(pin.x_mm, pin.y_mm) for pin in base.face.pins.at]
    if len(at) < 2:
        assert spans == []
        return
    (span,) = spans

    def miss(a, b):
        return abs(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 - base.pin_spacing_mm.value)

    least = min(miss(a, b) for i, a in enumerate(at) for b in at[i + 1 :])
    assert miss(span.start, span.end) == pytest.approx(least, abs=0.05)
    assert least <= 0.6, "the pins of the drawing are not where the spacing says"
    apart = ((span.start[0] - span.end[0]) ** 2 + (span.start[1] - span.end[1]) ** 2) ** 0.5
    assert span.text.removeprefix("≈ ") == outline.length_words(apart), "the words say what is drawn"


@pytest.mark.parametrize("degrees", [0, 90, 180, 270, 37.5])
def test_turning_keeps_every_distance(catalogue, degrees):
    face = face_view(base_in(catalogue, "G24q-2"))
    around = turned(face, degrees)
    pins, back = parts(face, "pins"), parts(around, "pins")
    for a, b in zip(pairwise(pins), pairwise(back), strict=True):
        assert _distance(*a) == pytest.approx(_distance(*b), abs=1e-3)
    assert len(around.shapes) == len(face.shapes)


def test_half_a_turn_swaps_left_and_right(catalogue):
    face = face_view(base_in(catalogue, "G24q-2"), turned_deg=180)
    (notch,) = parts(face, "notch")
    assert all(x > 0 and y < 0 for x, y in notch.points)


def test_a_quarter_turn_is_anticlockwise(catalogue):
    base = base_in(catalogue, "G24q-2")
    (notch,) = parts(face_view(base, turned_deg=90), "notch")
    # The key edge was up and the notch left of it: now the edge faces left and the notch lies below the middle.
    assert all(x < 0 and y < 0 for x, y in notch.points)


def test_a_turn_of_nothing_is_the_same_drawing(catalogue):
    face = face_view(base_in(catalogue, "2G11"))
    assert face_view(base_in(catalogue, "2G11"), turned_deg=360).box == pytest.approx(face.box, abs=1e-3)


def test_a_turned_unknown_key_stays_a_question(catalogue):
    base = KEY_UNKNOWN[0]
    assert [s.text for s in parts(face_view(base, turned_deg=90), "notch")] == ["?"]


def test_boxes_do_not_count_what_is_written(catalogue):
    face = face_view(base_in(catalogue, "G23"))
    with_words = face._replace(shapes=(*face.shapes, Label("up", 500, 500, "far")))
    assert outline.box_of(with_words.shapes) == face.box


def _distance(a: Disc, b: Disc) -> float:
    return ((a.x_mm - b.x_mm) ** 2 + (a.y_mm - b.y_mm) ** 2) ** 0.5


@pytest.mark.parametrize("base", BASES, ids=named(BASES))
def test_how_to_hold_it_is_drawn(base):
    hold = outline.hold_view(base)
    assert hold.shapes
    assert 5 < hold.width_mm < 400
    assert 5 < hold.height_mm < 400
