"""What is said before the fixture is known."""

import pytest

from counter.fit import look_alikes, worth_holding_beside
from counter.thresholds import LEADING


def _rules(catalogue, chances, lamp=None):
    return [one.rule for one in look_alikes(catalogue, chances, lamp)]


def test_nothing_looked_at_warns_of_nothing(catalogue):
    even = {lamp.id: 1 / len(catalogue.lamps) for lamp in catalogue.lamps}
    assert _rules(catalogue, even) == []


@pytest.mark.parametrize("base", ["G23", "2G7", "GX23", "2G11", "G5", "G13"])
def test_every_base_with_a_germicidal_lamp_warns_as_soon_as_it_is_known(catalogue, base):
    on_it = [lamp.id for lamp in catalogue.lamps if lamp.base == base]
    said = look_alikes(catalogue, {name: 1 / len(on_it) for name in on_it})
    assert (said[0].rule, said[0].signal, said[0].unit) == ("look-uvc", "WARNING", "s")


@pytest.mark.parametrize(
    ("chances", "rule"),
    [
        ({"G23/9/twin": 0.2, "G23/9/twin/uv-c": 0.8}, "look-uvc-leading"),
        ({"G23/9/twin": 0.8, "G23/9/twin/uv-c": 0.2}, "look-uvc"),
        ({"G23/9/twin": 0.9, "G23/9/twin/uv-c": LEADING / 2}, "look-uvc-twin"),
        ({"G13/25/linear/uv-c": 0.9}, "look-uvc-leading-no-figure"),
        ([("2G11/36/long-twin", 1.0)], "look-uvc-twin"),
    ],
)
def test_how_grave_follows_the_chances(catalogue, chances, rule):
    assert _rules(catalogue, chances)[0] == rule


def test_a_settled_lighting_lamp_keeps_its_twins_warning_and_may_still_be_sold(catalogue):
    said = look_alikes(catalogue, {}, catalogue.lamp_by_id["2G7/9/twin"])
    assert (said[0].rule, said[0].signal) == ("look-uvc-twin", "WARNING")
    assert {one.verdict for one in said} == {"sell"}


@pytest.mark.parametrize(
    ("lamp", "says"),
    [
        ("GX24q-3/32/triple", {"GX24q-3 comes as 26 or 32 W", "GX24q-3 or G24q-3", "GX24q-3 or GX24d-3"}),
        ("G23/9/twin", {"G23 comes as 5 to 11 W", "G23 or GX23", "G23 or 2G7"}),
        ("2G11/18/long-twin", {"2G11 comes as 18 to 80 W"}),
        ("GR8/16/square", {"GR8 comes as 16 or 28 W", "GR8 or GR10q"}),
    ],
)
def test_other_watts_pins_and_keys(catalogue, lamp, says):
    said = [one.says for one in look_alikes(catalogue, {}, catalogue.lamp_by_id[lamp])]
    for start in says:
        assert any(one.startswith(start) for one in said), said


def test_a_pair_is_named_once(catalogue):
    said = look_alikes(catalogue, {"G24q-3/26/quad": 0.4, "G24d-3/26/quad": 0.4})
    assert sum(one.rule == "look-pins" for one in said) == 1


def test_unknown_ids_are_passed_over(catalogue):
    assert _rules(catalogue, {"no such lamp": 1.0}) == []


def test_beside_a_lamp_the_nearest_watts_of_each_other_base_are_held(catalogue):
    beside = worth_holding_beside(catalogue, catalogue.lamp_by_id["G24q-3/26/quad"])
    told = {one.base: one.watts.value for one in beside}
    assert (told["G24d-3"], told["GX24q-3"]) == (26, 26)
