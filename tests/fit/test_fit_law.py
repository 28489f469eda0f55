"""Law by place and day, and what to do with broken and used lamps."""

from datetime import date

import pytest

from counter.catalogue import disposal_file, law_file
from counter.fit import broken_caution, broken_steps, disposal, law, places
from counter.fit._law import lamp_class


@pytest.mark.parametrize(
    ("lamp", "is_class"),
    [
        ("G24q-3/26/quad", "pin-base"),
        ("2G10/36/flat", "pin-base"),
        ("GU24/13", "integrated"),
        ("GR10q/28/square", "square"),
        ("2GX13/40/circular", "circular-thin"),
        ("G10q/32/circular", "circular-thick"),
        ("W4.3x8.5d/8/linear", "linear-t2"),
        ("G5/28/linear", "linear-t5"),
        ("G13/36/linear", "linear-t8"),
        ("G13/40/linear/t12", "linear-t12"),
        ("2G13/31/u-bent", "u-bent"),
        ("G23/9/twin/uv-c", "uv-c"),
        ("G13/36/linear/uv-a", "uv-a"),
    ],
)
def test_class_of_a_lamp(catalogue, lamp, is_class):
    assert lamp_class(catalogue.lamp_by_id[lamp]) == is_class


def test_every_lamp_has_a_class(catalogue):
    assert [lamp.id for lamp in catalogue.lamps if lamp_class(lamp) is None] == []


@pytest.mark.parametrize(("on", "has_ended"), [(date(2024, 12, 31), False), (date(2025, 1, 1), True), (None, None)])
def test_the_day_itself_counts_as_ended(catalogue, on, has_ended):
    assert law(catalogue, "us-ca", on, catalogue.lamp_by_id["G24q-3/26/quad"])[0].has_ended is has_ended


def test_a_year_of_the_convention_lasts_to_its_end(catalogue):
    lamp = catalogue.lamp_by_id["G13/36/linear"]
    days = (date(2027, 12, 31), date(2028, 1, 1))
    assert [law(catalogue, "world", day, lamp)[0].has_ended for day in days] == [False, True]


def test_every_place_answers_for_a_pin_base_lamp_and_defers_to_the_text(catalogue):
    for place in places(catalogue):
        notes = law(catalogue, place.id, date(2026, 6, 1), catalogue.lamp_by_id["G24q-3/26/quad"])
        assert notes, place
        assert all(note.check.startswith("Check the current text") and note.law and note.source for note in notes)


def test_a_law_on_four_foot_tubes_leaves_the_others_alone(catalogue):
    ended = {}
    for name in ("G13/32/linear", "G13/17/linear", "G5/8/linear", "G5/28/linear", "G13/28/linear/saver"):
        notes = law(catalogue, "us-vt", date(2026, 6, 1), catalogue.lamp_by_id[name])
        ended[name] = any(note.place == "us-vt" and note.has_ended for note in notes)
    assert ended == dict.fromkeys(ended, True) | {"G13/17/linear": False, "G5/8/linear": False}


@pytest.mark.parametrize(
    ("place", "lamp", "day"),
    [
        ("us-ca", "GR10q/28/square", date(2025, 1, 1)),  # by the code's own words: 2D, U-bend and circular too
        ("us-ca", "GU24/13", date(2025, 1, 1)),  # integrally ballasted or not
        ("us-wa", "2G13/32/u-bent", date(2029, 1, 1)),
        ("uk", "G13/36/linear", date(2023, 9, 1)),
        ("uk", "G13/30/linear", date(2024, 2, 1)),  # T8 of 3 ft
        ("ca", "G24q-3/26/quad", date(2030, 1, 1)),
        ("eu", "2G13/32/u-bent", date(2025, 2, 24)),
        ("eu", "2G11/36/long-twin/uv-b", date(2027, 2, 24)),
    ],
)
def test_the_day_that_a_place_names(catalogue, place, lamp, day):
    notes = law(catalogue, place, None, catalogue.lamp_by_id[lamp])
    assert min(note.ends for note in notes if note.place == place and note.ends) == day


def test_what_was_read_in_a_summary_only_says_so(catalogue):
    (nevada,) = (
        note for note in law(catalogue, "us-nv", None, catalogue.lamp_by_id["G13/32/linear"]) if note.place == "us-nv"
    )
    assert nevada.ends is None
    assert "not found" in nevada.says
    assert nevada.read == date(2026, 11, 29)


@pytest.mark.parametrize(
    "row", law_file()["rows"], ids=lambda row: f"{row['place']}-{row['classes'][0]}-{row['ends']}"
)
def test_every_row_names_its_text_and_the_day_and_says_where_it_is_from_memory(row):
    assert row["law"]
    assert date.fromisoformat(row["read"]) >= date(2026, 11, 25)
    if row["confidence"].startswith("memory"):
        assert "rom memory" in row["note"]


@pytest.mark.parametrize("note", disposal_file()["notes"], ids=lambda note: f"{note['places'][0]}-{note['title']}")
def test_every_disposal_note_that_was_read_names_the_day(note):
    assert ("read" in note) is (note["confidence"] in ("published", "reproduced"))


def test_no_place_is_told_the_same_of_used_lamps_twice(catalogue):
    texts = [(note.text, place) for place in places(catalogue) for note in disposal(catalogue, place.id)]
    assert len(texts) == len(set(texts))


@pytest.mark.parametrize("place", [None, "", "nowhere", "us-xx"])
def test_an_unknown_place_says_nothing(catalogue, place):
    assert law(catalogue, place, date(2026, 1, 1), catalogue.lamp_by_id["G24q-3/26/quad"]) == ()


def test_without_a_lamp_all_classes_are_listed(catalogue):
    assert {"pin-base", "linear-t8"} <= {note.lamp_class for note in law(catalogue, "us-il", None, None)}


def test_broken_lamp_steps_in_order():
    steps = broken_steps()
    assert [step.when for step in steps] == sorted(
        (step.when for step in steps), key=["before", "during", "after"].index
    )
    assert not any(step.carpet for step in broken_steps(carpet=False))
    assert broken_caution().signal == "WARNING"


@pytest.mark.parametrize(
    ("place", "title"), [("us-ca", "What the box says"), ("eu", "Take back"), (None, "Tell the customer")]
)
def test_used_lamps(catalogue, place, title):
    assert title in {note.title for note in disposal(catalogue, place)}
