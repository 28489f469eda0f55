"""A case from the counter goes into the deck without leaving a trace of the customer."""

from __future__ import annotations

from counter.desk import Case
from counter.fit import Fixture
from counter.training import Round, add_case, points, points_of_case, progress

UV = Case(
    looks={"legs": "2", "pins": "4", "glass": "clear", "watts": "36"},
    marks="0815 private scribble",
    chosen="2G11/36/long-twin/uv-c",
    fixture=Fixture(holder="2G11", ballast="electronic", ballast_watts=(36,)),
    use="lighting",
    place="corner shop",
)


def test_points_are_the_base_and_the_scenario_of_the_caution(catalogue):
    found = points_of_case(catalogue, UV)
    assert {"name-base/2G11", "uv-or-light/2G11", "sale/2G11/for-lighting"} <= set(found)
    assert set(found) <= {point.id for point in points(catalogue)}


def test_nothing_of_the_case_is_kept(catalogue, data, trainee, now):
    add_case(data, trainee, catalogue, UV, now)
    kept = b"".join(path.read_bytes() for path in data.rglob("*") if path.is_file())
    for private in (b"scribble", b"corner", b"electronic"):
        assert private not in kept


def test_a_case_is_asked_before_other_new_points(catalogue, data, trainee, now):
    found = add_case(data, trainee, catalogue, UV, now)
    assert progress(data, trainee).from_cases == found
    lesson = Round(catalogue, data, trainee, 5, now)
    assert lesson.next_card(now).point in found


def test_an_unknown_lamp_teaches_nothing(catalogue, data, trainee, now):
    assert add_case(data, trainee, catalogue, Case(), now) == ()
    assert progress(data, trainee).events == ()
