"""No unsafe pair is ever sold and every safe one is, against an oracle that shares no code with the rules."""

import random

import pytest
from decision_oracle import ASK, BALLASTS, NEVER, USES, Row, currents_a, must_sell, objections, raw, rows

from counter.fit import Fixture, judge
from counter.fit._drive import TOLERANCE


def _verdict(catalogue, row):
    fixture = Fixture(holder=row.holder, ballast=row.ballast, ballast_watts=row.listed)
    return judge(catalogue, catalogue.lamp_by_id[row.lamp], fixture, row.use).verdict


def _wrong(catalogue, table):
    for row in table:
        verdict = _verdict(catalogue, row)
        if verdict == "sell" and objections(row):
            yield row, verdict, objections(row)
        if verdict != "sell" and must_sell(row):
            yield row, verdict, "safe"


def _own_holder():
    for name, lamp in raw()[0].items():
        for ballast in BALLASTS:
            for use in USES:
                for listed in ((), (float(lamp["watts"]["value"]),)):
                    yield Row(name, lamp["base"], ballast, use, listed)


def test_every_lamp_in_its_own_holder(catalogue):
    assert list(_wrong(catalogue, _own_holder())) == []


def test_a_draw_from_the_whole_table(catalogue):
    table = random.Random(7).sample([*rows(is_listed=True), *rows(is_listed=False)], 3000)
    assert list(_wrong(catalogue, table)) == []


@pytest.mark.slow
@pytest.mark.parametrize("is_listed", [True, False])
def test_the_whole_table(catalogue, is_listed):
    assert list(_wrong(catalogue, rows(is_listed=is_listed))) == []


def test_watts_that_the_label_does_not_list_are_never_sold(catalogue):
    lamps, _ = raw()
    for name, lamp in lamps.items():
        if lamp["ballasts"] == ["none"]:
            continue
        others = {one["watts"]["value"] for one in lamps.values()} - {lamp["watts"]["value"]}
        for watts in sorted(others):
            for ballast in lamp["ballasts"]:
                use = {"uv-c": "germicidal", "uv-a": "blacklight"}.get(lamp["kind"], "lighting")
                assert _verdict(catalogue, Row(name, lamp["base"], ballast, use, (watts,))) != "sell"


def test_a_current_off_by_more_than_the_tolerance_is_refused(catalogue):
    lamps, _ = raw()
    refused = 0
    for name, lamp in lamps.items():
        for other in lamps.values():
            if other["base"] != lamp["base"] or other["watts"]["value"] == lamp["watts"]["value"]:
                continue
            for ballast in set(lamp["ballasts"]) & {"magnetic", "electronic"}:
                row = Row(name, lamp["base"], ballast, "lighting", (other["watts"]["value"],))
                if NEVER["current off"](row):
                    refused += 1
                    assert _verdict(catalogue, row) == "do not sell", row
    assert refused > 20  # the table must not be empty


def test_the_oracle_is_not_trivial():
    table = list(_own_holder())
    unlike = {"different pin count", "other base or key", "current off"}  # not in a lamp's own holder
    for name in NEVER.keys() - unlike:
        assert any(NEVER[name](row) for row in table), name
    assert any(applies(row) for row in table for applies in ASK.values())
    assert sum(map(must_sell, table)) > 300
    assert TOLERANCE == 0.15
    lamp = {"mains": {"current_a": {"value": 0.2}}}
    assert currents_a(lamp, lamp, "electronic") == (0.2, 0.2)
