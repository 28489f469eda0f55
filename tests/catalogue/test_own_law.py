"""Places, law and disposal of a shop's own: laid over, counted in a case, refused where they say what cannot be."""

from __future__ import annotations

from datetime import date

import pytest

from counter.catalogue import Problem, empty_layer, load_with_problems
from counter.desk import Case, assess
from counter.fit import disposal, law, places

BY = {"who": "Kim", "on": "2026-11-29"}
PLACE = {"code": "nz", "name": "New Zealand", "added": BY}
LAW = {
    "place": "nz",
    "classes": ["linear-t8"],
    "what": "sale of new lamps",
    "ends": "2026-01-01",
    "law": "Invented Lamps Act, section 4",
    "read": "2026-11-28",
    "read_as": "text",
    "added": BY,
}
USED = {
    "place": "nz",
    "title": "Where to",
    "text": "To the depot.",
    "law": "Council page",
    "read": "2026-11-28",
    "read_as": "summary",
    "added": BY,
}
TUBE = "G13/36/linear"


def laid(**sections: list[dict[str, object]]):
    return load_with_problems({**empty_layer(), **sections})


def sale(catalogue, day, **more):
    looks = {"legs": "1", "pins": "2", "watts": "36", "glass": "white", "length_mm": 1199.0, "tube_mm": 26.0}
    fixture = {"holder": "G13", "ballast": "magnetic", "ballast_watts": (36,)}
    told = {"chosen": TUBE, "looks": looks, "fixture": fixture, "use": "lighting", "place": "nz", "on": day, **more}
    return assess(catalogue, Case.model_validate(told))


def test_a_law_of_the_shops_own_ends_a_sale_from_its_day_on():
    catalogue = laid(places=[PLACE], law=[LAW]).catalogue
    before, after = (sale(catalogue, day) for day in (date(2025, 12, 31), date(2026, 1, 1)))
    assert "law-ended" not in {one.rule for one in before.cautions}
    (said,) = (one for one in after.cautions if one.rule == "law-ended")
    assert after.verdict != "sell"
    assert "New Zealand" in f"{said.says} {said.why}"
    (row,) = (row for row in after.law.rows if row.place == "nz")
    assert (row.law, row.read, row.who, row.note) == (
        "Invented Lamps Act, section 4",
        date(2026, 11, 28),
        "Kim",
        None,
    )


def test_a_place_without_law_gives_no_permission():
    found = sale(laid(places=[PLACE]).catalogue, date(2026, 1, 1))
    assert found.law.place_name == "New Zealand"
    assert all(row.place == "any" for row in found.law.rows)


def test_what_rests_on_a_summary_says_so():
    catalogue = laid(places=[PLACE], law=[{**LAW, "read_as": "summary"}], disposal=[USED]).catalogue
    (note,) = (row for row in law(catalogue, "nz", None, catalogue.lamp_by_id[TUBE]) if row.place == "nz")
    assert "Only a summary" in note.note
    assert note.confidence == "reproduced"
    told = disposal(catalogue, "nz")[-1]
    assert (told.title, told.who, told.read) == ("Where to", "Kim", date(2026, 11, 28))
    assert "Only a summary" in told.text


def test_a_row_beside_a_shipped_place_takes_nothing_away():
    shipped = load_with_problems().catalogue
    catalogue = laid(law=[{**LAW, "place": "us-ca", "ends": None}]).catalogue
    tube = catalogue.lamp_by_id[TUBE]
    kept = [note for note in law(catalogue, "us-ca", date(2026, 1, 1), tube) if note.who is None]
    assert kept == list(law(shipped, "us-ca", date(2026, 1, 1), tube))


def test_a_place_within_another_has_its_disposal_too():
    catalogue = laid(places=[{**PLACE, "code": "us-tx"}]).catalogue
    assert "How long" in {note.title for note in disposal(catalogue, "us-tx")}


@pytest.mark.parametrize(
    ("section", "entry", "named"),
    [
        ("places", {**PLACE, "code": "uk"}, "shipped already"),
        ("places", {**PLACE, "code": "New Zealand"}, "code"),
        ("law", LAW, "no place"),
        ("law", {**LAW, "place": "uk", "classes": []}, "classes"),
        ("law", {**LAW, "place": "uk", "classes": ["linear-t99"]}, "linear-t99"),
        ("law", {**LAW, "place": "uk", "law": ""}, "law"),
        ("law", {key: value for key, value in LAW.items() if key != "read"} | {"place": "uk"}, "read"),
        ("law", {**LAW, "place": "uk", "lengths_mm": [90000]}, "90000"),
        ("law", {**LAW, "place": "uk", "ends": "soon"}, "ends"),
        ("disposal", USED, "no place"),
    ],
)
def test_what_cannot_be_is_left_out_and_named(section, entry, named):
    found = laid(**{section: [entry]})
    assert len(places(found.catalogue)) == len(places(load_with_problems().catalogue))
    assert found.catalogue.own_law is not None
    assert (found.catalogue.own_law.law, found.catalogue.own_law.disposal) == ((), ())
    assert any(named in f"{one.path} {one.what}" for one in found.problems if isinstance(one, Problem))


def test_the_last_about_one_law_counts():
    later = {**LAW, "ends": "2027-01-01"}
    catalogue = laid(places=[PLACE], law=[LAW, later]).catalogue
    assert [row.ends for row in catalogue.own_law.law] == [date(2027, 1, 1)]
