"""The base that a ballast label names counts: its pins refuse, an X or another base asks."""

from __future__ import annotations

import pytest

from counter.fit import Fixture, judge, parse_label


@pytest.mark.parametrize(
    ("lamp", "holder", "ballast", "label", "verdict"),
    [
        ("G24d-3/26/quad", "G24d-3", "magnetic", "FOR 2 x CFQ26W/G24q 120-277 V", "do not sell"),
        ("GX24q-3/26/triple", "GX24q-3", "electronic", "CFQ26W/G24q", "ask first"),
        ("G24q-3/26/quad", "G24q-3", "electronic", "CFQ26W/G24q", "sell"),
        ("G24q-3/26/quad", "G24q-3", "electronic", "CFQ26W/G24q or CFTR26W/GX24q", "sell"),
        ("GX24q-3/26/triple", "GX24q-3", "electronic", "CFQ26W/G24q or CFTR26W/GX24q", "sell"),
        ("G24q-3/26/quad", "G24q-3", "electronic", "26 W", "sell"),
    ],
)
def test_base_on_the_label(catalogue, lamp, holder, ballast, label, verdict):
    fixture = Fixture(holder=holder, ballast=ballast, ballast_watts=(26,), label=label)
    assert judge(catalogue, catalogue.lamp_by_id[lamp], fixture, "lighting").verdict == verdict


@pytest.mark.parametrize(
    "label", ["FOR 2 x CFQ26W/G24q", "2x CFQ26W/G24q", "2 X FT36W/2G11", "(2) CFQ26W/G24q", "2 x F32T8"]
)
def test_lamps_counted_before_a_code(label):
    assert parse_label(label).fields["ballast_counts"] == (2,)


@pytest.mark.parametrize(
    "label",
    [
        "NOT FOR CFQ26W. FOR 1 x CFQ18W/G24q electronic",
        "FOR 2 x CFQ26W/G24q electronic DO NOT USE WITH 26W QUAD",
        "CFQ18W, CFQ26W, except 26W quad",
    ],
)
def test_a_restriction_nobody_can_read_asks(catalogue, label):
    fixture = Fixture(holder="G24q-3", ballast="electronic", label=label)
    said = judge(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"], fixture, "lighting")
    assert said.verdict == "ask first"
    assert "label-restricts" in {one.rule for one in said.cautions}


@pytest.mark.parametrize("label", ["CFQ26W/G24q do not use in wet places", "26 W. Not for dimmers"])
def test_other_denials_on_a_label_ask_nothing(catalogue, label):
    fixture = Fixture(holder="G24q-3", ballast="electronic", label=label)
    said = judge(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"], fixture, "lighting")
    assert "label-restricts" not in {one.rule for one in said.cautions}
