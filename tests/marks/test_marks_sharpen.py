"""Marks and looks as one posterior, in both directions."""

from __future__ import annotations

import pytest

from counter import marks


def even(shipped) -> dict[str, float]:
    return {lamp.id: 1 / len(shipped.lamps) for lamp in shipped.lamps}


def test_even_posterior_changes_nothing(shipped):
    evidence = marks.read(shipped, "CFQ26W/G24?")
    sharpened = marks.sharpen(evidence, even(shipped))
    assert [r.canonical for r in sharpened] == [r.canonical for r in evidence.readings]
    for after, before in zip(sharpened, evidence.readings, strict=True):
        assert after.probability == pytest.approx(before.probability)


@pytest.mark.parametrize(("pins", "base"), [(2, "G24d"), (4, "G24q")])
def test_pins_seen_decide_between_two_readings(shipped, pins, base):
    evidence = marks.read(shipped, "CFQ26W/G24?")
    weight = {lamp.id: 0.98 if shipped.base_of(lamp).pins.value == pins else 0.02 for lamp in shipped.lamps}
    total = sum(weight.values())
    best, *_ = marks.sharpen(evidence, {lamp: value / total for lamp, value in weight.items()})
    assert best.lamp.base == base
    assert best.probability > 0.9


def test_sum_is_kept_and_order_is_by_probability(shipped):
    evidence = marks.read(shipped, "?15T8")
    posterior = even(shipped) | {"G13/15/linear/uv-c": 0.5}
    sharpened = marks.sharpen(evidence, posterior)
    assert sum(r.probability for r in sharpened) == pytest.approx(sum(r.probability for r in evidence.readings))
    assert sharpened[0].lamp.kind == "uv-c"


def test_uv_reading_is_never_dropped_and_is_named(shipped):
    evidence = marks.read(shipped, "?15T8")
    sharpened = marks.sharpen(evidence, even(shipped) | {"G13/15/linear": 0.9})
    assert {r.lamp.kind for r in sharpened} >= {"fluorescent", "uv-c"}
    assert marks.uv_doubt(marks.sharpen(evidence, even(shipped)))
    assert marks.uv_doubt(()) is None


def test_reading_that_looks_rule_out_stays_with_little(shipped):
    evidence = marks.read(shipped, "CFQ26W/G24?")
    sharpened = marks.sharpen(evidence, {"G24q-3/26/quad": 1.0})
    assert sharpened[0].lamp.base == "G24q"
    assert 0 < sharpened[-1].probability < 1e-4


@pytest.mark.parametrize(("code", "watts"), [("CFT9W/G23", "9"), ("FSQ-26-E-G24q=3", "26"), ("9.0W G23", "9")])
def test_watts_are_claimed_as_the_look_writes_them(shipped, code, watts):
    assert marks.says(marks.read(shipped, code).readings[0])["watts"] == watts
    assert watts in {value.value for value in shipped.look_by_key["watts"].values}
