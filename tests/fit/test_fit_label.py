"""Pasted ballast labels, in the wordings met on them (common practice, no source)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.fit import Fixture, judge, parse_label
from counter.fit._codes import with_label

LABELS = [
    (
        "2 x 26W electronic ballast 120-277V 50/60Hz CLASS P",
        {"ballast_watts": (26,), "ballast_counts": (2,), "ballast": "electronic"},
    ),
    ("(1) or (2) CFQ26W/G24q", {"ballast_watts": (26,), "ballast_counts": (1, 2)}),
    ("(1)(2) F32T8", {"ballast_watts": (32,), "ballast_counts": (1, 2)}),
    ("FOR 1 OR 2 F32T8 INSTANT START", {"ballast_watts": (32,), "ballast_counts": (1, 2), "ballast": "electronic"}),
    ("magnetic choke 230V 0.17A 5/7/9/11 W", {"ballast_watts": (5, 7, 9, 11), "ballast": "magnetic"}),
    (
        "Input watts: 54 W, runs 1-4 lamps F32T8, high frequency",
        {"ballast_watts": (32,), "ballast_counts": (1, 2, 3, 4), "ballast": "electronic"},
    ),
    ("0-10V dimming (2) FT36W/2G11", {"ballast_watts": (36,), "ballast_counts": (2,), "ballast": "dimming"}),
    (
        "Non-dimming electronic ballast for one 18 W, 26W or 32W lamp",
        {"ballast_watts": (18, 26, 32), "ballast_counts": (1,), "ballast": "electronic"},
    ),
    ("LED DRIVER constant current 350 mA", {"ballast": "led-driver"}),
    ("This luminaire has been modified: ballast bypassed", {"ballast": "bypassed"}),
    ("1x26 / 2x18W", {"ballast_watts": (18, 26), "ballast_counts": (1, 2)}),
    ("Two 40 watt lamps", {"ballast_watts": (40,), "ballast_counts": (2,)}),
    ("F96T12/HO", {}),  # 96 is inches
    ("FSQ-26-E-G24q=3", {"ballast_watts": (26,)}),
    ("emergency ballast F40T12", {"ballast_watts": (40,), "emergency": True}),
    (
        "reactor ballast, 60 Hz, one 13W twin lamp",
        {"ballast_watts": (13,), "ballast_counts": (1,), "ballast": "magnetic"},
    ),
    ("", {}),
    ("nothing to read here", {}),
]


@pytest.mark.parametrize(("label", "fields"), LABELS)
def test_fields(label, fields):
    assert parse_label(label).fields == fields


def test_a_label_that_contradicts_itself_decides_nothing():
    said = parse_label("electronic ballast, magnetic core")
    assert "ballast" not in said.fields
    assert said.problems


def test_what_was_entered_wins_over_the_label(catalogue):
    fixture = with_label(catalogue, Fixture(ballast="magnetic", label="electronic, 2 x 18 W"))
    assert (fixture.ballast, fixture.ballast_watts) == ("magnetic", (18.0,))


def test_danger_on_a_label_outranks_the_rest():
    assert parse_label("electronic ballast bypassed, LED lamps only").fields["ballast"] == "bypassed"


@given(st.text(max_size=300) | st.text(alphabet="0123456789 xW/()ofrT8-.,LEDVG24q", max_size=200))
def test_never_raises_and_every_span_stands_where_it_says(label):
    said = parse_label(label)
    assert all(label[span.start : span.end] == span.text and span.means for span in said.spans)
    assert Fixture(**said.fields) is not None


def test_ten_kilobytes_are_read_only_as_far_as_a_label_goes():
    assert parse_label("26W " * 3000).spans[-1].end <= 4000


def test_judge_reads_the_label(catalogue):
    fixture = Fixture(holder="G24q-3", label="(1) or (2) CFQ26W/G24q electronic")
    assert judge(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"], fixture, "lighting").verdict == "sell"


@pytest.mark.parametrize(("label", "counts"), [("1-3 lamps 26W", (1, 2, 3)), ("1-2-4 lamps 26W", (1, 2, 4))])
def test_two_counts_are_a_range_and_more_are_a_list(label, counts):
    assert parse_label(label).fields["ballast_counts"] == counts


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        ("(1)(2) F32T8", {(1, 32), (2, 32)}),
        ("(1) or (2) F32T8", {(1, 32), (2, 32)}),
        ("1 x 26 W, 2 x 18 W", {(1, 26), (2, 18)}),
    ],
)
def test_counts_side_by_side_count_together(text, pairs):
    assert set(parse_label(text).pairs) == pairs
