"""Sheets as laid out: everything on the page, in both languages, to the scale that they say."""

from __future__ import annotations

from itertools import combinations

import pytest

from counter import language, paper
from counter.outline import Disc, Path
from counter.paper._look_alikes import differing

LANGUAGES = ("en", "es")


def sheets_of(catalogue, spoken, page="A4"):
    language.use(spoken)
    made = {
        "wall": (paper.wall_chart(catalogue, page),),
        "gauge": paper.pin_gauge(catalogue, page),
        "look-alikes": paper.look_alike_sheets(catalogue, paper.likely_pairs(catalogue), page),
    }
    language.use(language.OWN)
    return made


def texts(sheets):
    return [item.text for sheet in sheets for item in sheet.items if isinstance(item, paper.Text)]


@pytest.mark.parametrize("spoken", LANGUAGES)
@pytest.mark.parametrize("page", paper.PAGES)
def test_all_that_is_drawn_lies_on_the_page(catalogue, spoken, page):
    for sheets in sheets_of(catalogue, spoken, page).values():
        for sheet in sheets:
            assert (sheet.width_mm, sheet.height_mm) == paper.PAGES[page]
            for item in sheet.items:
                if isinstance(item, paper.Placed):
                    left, bottom, right, top = item.drawing.box
                    assert item.x_mm + left * item.scale >= 4.9
                    assert item.x_mm + right * item.scale <= sheet.width_mm - 4.9
                    assert item.y_mm + bottom * item.scale >= 4.9
                    assert item.y_mm + top * item.scale <= sheet.height_mm - 4.9
                else:
                    assert 5 <= item.y_mm <= sheet.height_mm - 5


@pytest.mark.parametrize("page", paper.PAGES)
def test_the_wall_chart_names_every_base_once_on_one_page(catalogue, page):
    (sheet,) = sheets_of(catalogue, "en", page)["wall"]
    said = [item.text for item in sheet.items if isinstance(item, paper.Text) and item.bold and not item.quiet]
    assert sorted(said[1:]) == sorted(base.designation for base in catalogue.bases)


def test_faces_on_the_chart_do_not_overlap(catalogue):
    (sheet,) = sheets_of(catalogue, "en")["wall"]
    faces = [item for item in sheet.items if isinstance(item, paper.Placed) and item.scale < 1]
    assert len(faces) == len(catalogue.bases)

    def box(item):
        left, bottom, right, top = (edge * item.scale for edge in item.drawing.box)
        return item.x_mm + left, item.y_mm + bottom, item.x_mm + right, item.y_mm + top

    for one, other in combinations(map(box, faces), 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def test_a_larger_page_carries_larger_faces(catalogue):
    def scale(page):
        (sheet,) = sheets_of(catalogue, "en", page)["wall"]
        return max(item.scale for item in sheet.items if isinstance(item, paper.Placed) and item.scale < 1)

    assert scale("A3") > scale("A4")
    assert scale("Tabloid") > scale("Letter")


def test_the_gauge_is_full_size_and_has_every_pin_pattern(catalogue):
    placed = [i for sheet in paper.pin_gauge(catalogue) for i in sheet.items if isinstance(i, paper.Placed)]
    assert {item.scale for item in placed} == {1.0}
    drawn = {
        tuple(sorted((s.x_mm, s.y_mm) for s in item.drawing.shapes if isinstance(s, Disc) and s.part == "pins"))
        for item in placed
    }
    wanted = {tuple(sorted((pin.x_mm, pin.y_mm) for pin in base.face.pins.at)) for base in catalogue.bases}
    assert wanted <= drawn


@pytest.mark.parametrize("page", paper.PAGES)
def test_the_gauge_is_one_page(catalogue, page):
    assert len(paper.pin_gauge(catalogue, page)) == 1


def test_that_one_of_two_alike_is_not_sure_is_no_difference(catalogue):
    known = catalogue.base_by_name["G23"]
    spacing = known.pin_spacing_mm.model_copy(update={"confidence": "memory-low"})
    unsure = known.model_copy(update={"pin_spacing_mm": spacing})
    assert unsure.pin_spacing_mm.is_unsure != known.pin_spacing_mm.is_unsure
    assert differing(catalogue, known, unsure) == []


def test_the_check_bar_is_a_card_wide(catalogue):
    for sheets in sheets_of(catalogue, "en").values():
        for sheet in sheets:
            bars = [
                shape
                for item in sheet.items
                if isinstance(item, paper.Placed)
                for shape in item.drawing.shapes
                if isinstance(shape, Path) and shape.part == "check-bar"
            ]
            (bar,) = bars
            assert bar.points[1][0] - bar.points[0][0] == pytest.approx(85.60)


def test_look_alikes_mark_what_differs_and_stay_full_size(catalogue):
    (sheet,) = paper.look_alike_sheets(catalogue, [("G23", "GX23")])
    faces = [item for item in sheet.items if isinstance(item, paper.Placed) and item.marked]
    assert [item.scale for item in faces] == [1.0, 1.0]
    assert "notch" in faces[0].marked
    assert "pins" not in faces[0].marked
    assert {"one large notch (not sure)", "two large notches (not sure)"} <= set(texts([sheet]))


def test_likely_pairs_are_of_as_many_pins_about_as_far_apart(catalogue):
    pairs = paper.likely_pairs(catalogue)
    assert ("G23", "GX23") in pairs
    for pair in pairs:
        one, other = (catalogue.base_by_name[name] for name in pair)
        assert one.pins.value == other.pins.value
        assert abs(one.pin_spacing_mm.value - other.pin_spacing_mm.value) <= 1.6


def test_what_a_shop_mixes_up_becomes_pairs_of_like_key_numbers(catalogue):
    mixed = [("GX24q", "G24q"), ("G24q", "GX24q"), ("G23", "nowhere"), ("G23", "G23"), ("2G7", "2GX7")]
    pairs = paper.pairs_of(catalogue, mixed)
    assert [set(pair) for pair in pairs] == [{"GX24q-1", "G24q-1"}, {"2G7", "2GX7"}]


@pytest.mark.parametrize("grid", paper.GRIDS.values(), ids=paper.GRIDS)
def test_labels_stay_inside_their_own_label(catalogue, grid):
    width, height = paper.PAGES[grid.page]
    assert grid.left + (grid.columns - 1) * grid.pitch_x + grid.width <= width + 0.01
    assert grid.top + (grid.rows - 1) * grid.pitch_y + grid.height <= height + 0.01
    labels = paper.labels_for(catalogue)
    sheets = paper.bin_labels(catalogue, labels, grid, skip=3)
    assert len(sheets) == -(-(len(labels) + 3) // grid.each)
    for sheet in sheets:
        for item in sheet.items:
            from_left = (item.x_mm - grid.left) % grid.pitch_x
            from_top = (sheet.height_mm - grid.top - item.y_mm) % grid.pitch_y
            assert 1 <= from_top <= grid.height - 1
            if isinstance(item, paper.Placed):
                left, bottom, right, top = (edge * item.scale for edge in item.drawing.box)
                assert from_left + left >= 4  # centre lines reach beyond the outline
                assert from_left + right <= grid.width - 1
                assert from_top - top >= 0
                assert from_top - bottom <= grid.height
            else:
                assert item.room_mm is not None
                assert from_left + item.room_mm <= grid.width - 4.9


def test_labels_carry_the_shops_own_code_and_bin(catalogue):
    label = paper.BinLabel(catalogue.lamps[0].id, "4711-A", "B12")
    (sheet,) = paper.bin_labels(catalogue, [label], paper.GRIDS["a4-24"])
    assert {"4711-A", "B12", catalogue.lamps[0].base} <= set(texts([sheet]))
