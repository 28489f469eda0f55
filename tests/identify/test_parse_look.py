"""What is typed for a look: read, or refused with a way out."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.catalogue import load
from counter.identify import CANNOT_TELL, LookProblem, parse_look

CATALOGUE = load()


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("149.5", 149.5),
        ("149,5 mm", 149.5),
        ("14.9 cm", 149),
        ("1.2 m", 1200),
        ("1200 millimetres", 1200),
        ('5 7/8"', 149.225),
        ("5-7/8 in", 149.225),
        ("5\N{EN DASH}7/8 inches", 149.225),
        ("5⅞″", 149.225),
        ("5 ⅞ ”", 149.225),
        ("5.875 in.", 149.225),
        ("5.875''", 149.225),
        ("23/4 in", 146.05),
        ("6inch", 152.4),
        ("5 7/8", 149.225),
        ("5⅞", 149.225),
        ("4' 2 1/2", 1282.7),
        ("4'", 1219.2),
        ("4 ft", 1219.2),
        ("2 feet", 609.6),
        ("4' 2 1/2\"", 1282.7),
        ("4ft 2in", 1270),
        ("  １４９ ｍｍ ", 149),
        (149, 149),
    ],
)
def test_sizes_in_any_usual_unit(text, mm):
    assert parse_look(CATALOGUE, "length_mm", text) == pytest.approx(mm, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("-5", "below zero"),
        ("−149 mm", "below zero"),
        ("1/2", "read as 12.7 mm, is outside"),
        ("5 1/0 in", "divides by zero"),
        ("nan", "not a size"),
        ("inf", "not a size"),
        ("1e3", "not a size"),
        ("", "not a size"),
        ("😀", "not a size"),
        ("149 furlongs", "not a size"),
        ("149 mm 2 in", "not a size"),
        ("2 in 4 ft", "not a size"),
        ("9" * 400, "not a size"),
        ("9" * 10_000, "not a size"),
        ("5", "outside 50 to 3100 mm"),
        ("999999 mm", "outside 50 to 3100 mm"),
        ("40 in in", "not a size"),
        ("11 ft", "read as 3352.8 mm, is outside"),
        (math.nan, "outside"),
        (math.inf, "outside"),
    ],
)
def test_sizes_refused(text, says):
    with pytest.raises(LookProblem, match=says) as problem:
        parse_look(CATALOGUE, "length_mm", text)
    assert str(problem.value).startswith("length_mm: ")
    assert len(str(problem.value)) < 130
    assert str(problem.value).isprintable()


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("legs", "4", "4"),
        ("legs", 4.0, "4"),
        ("legs", "flat", "4-flat"),
        ("legs", "4 legs, flat", "4-flat"),
        ("legs", "4_FLAT", "4-flat"),
        ("legs", "long-twin", "2"),
        ("legs", "Quad", "4"),
        ("legs", "circular", "ring"),
        ("legs", "linear", "1"),
        ("legs", "covered", "covered"),
        ("notch", "Small, left", "small-left"),
        ("notch", "small left", "small-left"),
        ("arrangement", "in a row", "row"),
        ("block", "flat", "no"),
        ("watts", "26", "26"),
        ("watts", "26 W", "26"),
        ("watts", "26w", "26"),
        ("watts", "26 watts", "26"),
        ("watts", "26.0", "26"),
        ("watts", 26.0, "26"),
        ("pins", "?", CANNOT_TELL),
        ("length_mm", " Cannot-Tell ", CANNOT_TELL),
    ],
)
def test_words_by_value_or_label(key, text, value):
    assert parse_look(CATALOGUE, key, text) == value


@pytest.mark.parametrize(
    ("key", "text", "says"),
    [
        ("leggs", "4", 'no look "leggs"; looks are legs, pins'),
        ("", "", "no look"),
        ("legs", "5", "use 2, 4, 6, 8, 4-flat, square, ring, u-bent, 1, covered, disc or cannot-tell"),
        ("glass", "", "use white, clear, dark or cannot-tell"),
        ("glass", "x" * 10_000, "use white, clear, dark or cannot-tell"),
        ("watts", "29", "nearest are 27, 28, 30"),
        ("watts", "lots", "not a number of watts"),
        ("watts", math.nan, "not a number of watts"),
        ("watts", "-26", "not a number of watts"),
        ("watts", "26 26", "not a number of watts"),
    ],
)
def test_words_refused_with_the_way_out(key, text, says):
    with pytest.raises(LookProblem, match=says) as problem:
        parse_look(CATALOGUE, key, text)
    assert len(str(problem.value)) < 150


def test_every_value_and_label_of_every_look_is_read_back():
    for look in CATALOGUE.looks:
        for value in look.values:
            assert parse_look(CATALOGUE, look.key, value.value) == value.value
            assert parse_look(CATALOGUE, look.key, value.label.upper()) == value.value


SIZE_LIKE = st.text(st.sampled_from("0123456789.,-/ \"'⅞½″cmiftn?"), max_size=14)


@given(st.sampled_from([*CATALOGUE.look_by_key, "marks"]) | st.text(max_size=9), st.text() | SIZE_LIKE | st.floats())
def test_any_text_gives_an_answer_or_a_short_problem(key, text):
    try:
        answer = parse_look(CATALOGUE, key, text)
    except LookProblem as problem:
        assert len(str(problem)) < 200  # noqa: PT017 - both ends of one call are checked
        return
    look = CATALOGUE.look_by_key[key]
    assert answer == CANNOT_TELL or (
        look.low <= answer <= look.high if look.is_measured else answer in {value.value for value in look.values}
    )
