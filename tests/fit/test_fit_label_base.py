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
        "FOR 2 x CFQ26W/G24q electronic DO NOT USE WITH 26W QUAD",
        "CFQ18W, CFQ26W, except 26W quad",
    ],
)
def test_a_restriction_nobody_can_read_asks(catalogue, label):
    fixture = Fixture(holder="G24q-3", ballast="electronic", label=label)
    said = judge(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"], fixture, "lighting")
    assert said.verdict == "ask first"
    assert "label-restricts" in {one.rule for one in said.cautions}


@pytest.mark.parametrize(
    ("label", "verdict"),
    [
        ("NOT FOR CFQ26W. FOR 1 x CFQ18W/G24q electronic", "do not sell"),
        ("1 x 26W 4-pin electronic. Do not use 2-pin lamps", "sell"),
        ("1 x 26W 4-pin electronic. Do not use 2-pin or 4-pin lamps", "ask first"),
        ("1 x 26W electronic. Do not use T8 lamps", "sell"),
        ("1 x 26W electronic. Not for 18W or 32W", "sell"),
        ("1 x 26W electronic. Not for 18W or triple lamps", "ask first"),
        ("1 x 26W electronic. Do not use LED lamps", "sell"),
        ("1 x 26W electronic. Do not use LED or fluorescent lamps", "ask first"),
        ("1 x 26W electronic. Do not use LED or compact lamps", "ask first"),
        ("1 x 26W electronic. Do not use fluorescent lamps", "ask first"),
        ("1 x 26W electronic. Do not use G24q-3 lamps", "ask first"),
        ("1 x 26W electronic. Do not use G23 lamps", "sell"),
        ("1 x 26W electronic. Fluorescent lamps only", "sell"),
        ("1 x 26W electronic. G24q-3 base only", "sell"),
        ("1 x 26W electronic. No usar lámparas de 2 patillas", "sell"),
        ("1 x 26W electronic. Not for incandescent lamps", "sell"),
        ("1 x 26W electronic. Not for UV lamps", "ask first"),
    ],
)
def test_what_shuts_out_lamps_speaks_of_those_alone(catalogue, label, verdict):
    fixture = Fixture(holder="G24q-3", ballast="electronic", label=label)
    assert judge(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"], fixture, "lighting").verdict == verdict


@pytest.mark.parametrize("label", ["CFQ26W/G24q do not use in wet places", "26 W. Not for dimmers"])
def test_other_denials_on_a_label_ask_nothing(catalogue, label):
    fixture = Fixture(holder="G24q-3", ballast="electronic", label=label)
    said = judge(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"], fixture, "lighting")
    assert "label-restricts" not in {one.rule for one in said.cautions}
