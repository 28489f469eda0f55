"""A bare number for a size: millimetres or inches, as the person works and as lamps allow."""

from __future__ import annotations

import pytest

from counter.desk import Case, assess, sized
from counter.identify import LookProblem, Typed, UnitDoubt, size_of

IN = 25.4


@pytest.mark.parametrize(
    ("key", "text", "units", "mm"),
    [
        ("length_mm", "146", "mm", 146),
        ("length_mm", "5.75", "in", 5.75 * IN),
        ("length_mm", "12", "in", 12 * IN),
        ("length_mm", "48", "in", 48 * IN),
        ("length_mm", "5,75", "in", 5.75 * IN),
        ("length_mm", "146 mm", "in", 146),
        ("length_mm", '48"', "mm", 48 * IN),
        ("tube_mm", "0.5", "in", 12.7),
        ("tube_mm", "1/2", "in", 12.7),
    ],
)
def test_a_bare_number_means_what_the_person_works_in(catalogue, key, text, units, mm):
    assert size_of(catalogue, {}, key, Typed(text=text, units=units)) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("looks", "key", "text", "units"),
    [
        ({"legs": "1"}, "length_mm", "96", "mm"),  # no straight tube of 96 mm, one of 96 inches
        ({"legs": "1"}, "length_mm", "48", "mm"),  # below the smallest length there is
        ({"legs": "4"}, "length_mm", "146", "in"),  # nearly four metres
        ({}, "tube_mm", "12", "in"),
        ({}, "pin_spacing_mm", "23", "in"),
    ],
)
def test_a_number_that_makes_a_lamp_in_the_other_unit_alone_is_asked_about(catalogue, looks, key, text, units):
    found = size_of(catalogue, looks, key, Typed(text=text, units=units))
    assert isinstance(found, UnitDoubt)
    assert found.question.replace("\N{THIN SPACE}", " ") == f"{text} mm or {text} in?"


def test_a_number_that_is_no_size_in_either_unit_says_why(catalogue):
    with pytest.raises(LookProblem, match="outside"):
        size_of(catalogue, {}, "length_mm", Typed(text="99999"))


def test_what_is_seen_later_asks_again(catalogue):
    typed = {"length_mm": Typed(text="96")}
    looks, doubts = sized(catalogue, {"legs": "2", "pins": "2"}, typed)
    assert (looks.get("length_mm"), doubts) == (96.0, ())
    looks, doubts = sized(catalogue, {**looks, "legs": "1"}, typed)
    assert "length_mm" not in looks
    assert [one.look for one in doubts] == ["length_mm"]


@pytest.mark.parametrize("typed", ["96", "96 in"])
def test_straight_and_96_never_looks_germicidal(catalogue, typed):
    looks, _ = sized(catalogue, {"legs": "1", "pins": "1"}, {"length_mm": Typed(text=typed)})
    found = assess(catalogue, Case(looks=looks))
    assert "UV" not in found.headline + found.subline
    assert not any(one.rule in ("look-uvc", "look-uvc-leading") for one in found.cautions)
