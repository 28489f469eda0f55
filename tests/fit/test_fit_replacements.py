"""What may go in instead, and why not the others."""

import pytest

from counter.fit import Fixture, judge, replacements
from counter.fit._texts import texts

OWN = {"holder": "G24q-3", "ballast": "electronic", "ballast_watts": (26,)}


@pytest.fixture
def offered(catalogue):
    def ask(lamp, use="lighting", cct_k=None, **fixture):
        return replacements(catalogue, catalogue.lamp_by_id[lamp], Fixture(**fixture), use, cct_k)

    return ask


def test_the_same_lamp_comes_first_where_it_may_be_sold(offered):
    first = offered("G24q-3/26/quad", **OWN)[0]
    assert (first.lamp, first.verdict) == ("G24q-3/26/quad", "sell")


def test_what_the_holder_names_comes_before_the_wrong_lamp_in_hand(offered):
    found = offered("G24d-3/26/quad", **OWN)
    assert (found[0].lamp, found[0].verdict) == ("G24q-3/26/quad", "sell")
    wrong = next(one for one in found if one.lamp == "G24d-3/26/quad")
    assert (wrong.verdict, bool(wrong.reason)) == ("do not sell", True)


def test_both_lamps_of_a_ballast_that_lists_both(offered):
    both = {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26, 32)}
    sold = [one.lamp for one in offered("GX24q-3/32/triple", **both) if one.verdict == "sell"]
    assert {"GX24q-3/26/triple", "GX24q-3/32/triple"} <= set(sold)


def test_reduced_wattage_only_on_a_ballast_rated_for_it(offered):
    def verdict(watts):
        found = offered("G13/40/linear/t12", holder="G13", ballast="magnetic", ballast_watts=watts)
        return next(one.verdict for one in found if one.lamp == "G13/34/linear/t12")

    assert (verdict((34, 40)), verdict((40,))) == ("sell", "ask first")


def test_the_germicidal_twin_is_refused_with_its_reason(offered):
    twin = next(
        one
        for one in offered("G23/9/twin", holder="G23", ballast="magnetic", ballast_watts=(9,))
        if one.lamp == "G23/9/twin/uv-c"
    )
    assert twin.verdict == "do not sell"
    assert "UV-C" in twin.reason
    assert twin.cautions[0].signal == "DANGER"


def test_another_colour_names_the_nearest_to_the_room(offered):
    other = next(one for one in offered("G24q-3/26/quad", cct_k=2700, room_k=4000, **OWN) if "colour" in one.title)
    assert (other.verdict, "840" in other.reason) == ("sell", True)


def test_a_tube_of_another_length_is_not_offered(offered):
    assert not any(one.lamp == "G13/18/linear" for one in offered("G13/36/linear"))


@pytest.mark.parametrize(
    ("ballast", "verdicts"),
    [
        ("electronic", {"A": "ask first", "B": "do not sell", "A+B": "ask first", "C": "do not sell"}),
        ("magnetic", {"A": "ask first", "B": "do not sell", "A+B": "ask first", "C": "do not sell"}),
        ("bypassed", {"A": "do not sell", "B": "ask first", "A+B": "ask first", "C": "do not sell"}),
        ("led-driver", {"A": "do not sell", "B": "do not sell", "A+B": "do not sell", "C": "ask first"}),
        ("unknown", {"A": "ask first", "B": "ask first", "A+B": "ask first", "C": "ask first"}),
    ],
)
def test_led_types_against_the_fixture_as_it_is(offered, ballast, verdicts):
    found = offered("G13/36/linear", holder="G13", ballast=ballast)
    assert {one.led_type: one.verdict for one in found if one.led_type} == verdicts


@pytest.mark.parametrize(
    ("lamp", "fixture", "use", "rule"),
    [
        ("G24d-3/26/quad", {"holder": "G24d-3", "ballast": "electronic"}, "lighting", "led-a-two-pin-electronic"),
        ("G23/9/twin/uv-c", {"holder": "G23"}, "germicidal", "led-no-uv"),
        ("G13/36/linear", {"shunted": True, "ballast": "bypassed"}, "lighting", "led-shunted"),
        ("G24q-3/26/quad", {"enclosed": True}, "lighting", "led-enclosed"),
        ("G24q-3/26/quad", {"damp": True}, "lighting", "led-damp"),
        ("G24q-3/26/quad", {"dimmer": True}, "lighting", "led-dimmer"),
        ("G24q-3/26/quad", {"emergency": True}, "lighting", "led-emergency"),
        ("GU24/13", {"holder": "GU24", "ballast": "none"}, "lighting", "led-mains"),
        ("GU24/13", {"holder": "GU24", "ballast": "electronic"}, "lighting", "led-mains-ballast"),
        ("2G8-1/60/triple", {}, "lighting", "no-led-known"),
    ],
)
def test_led_cautions(offered, lamp, fixture, use, rule):
    assert rule in {caution.rule for one in offered(lamp, use, **fixture) for caution in one.cautions}


def test_no_led_lamp_is_plainly_sold(offered, catalogue):
    for lamp in catalogue.lamps:
        for ballast in ("magnetic", "bypassed", "led-driver", "none"):
            found = offered(lamp.id, holder=lamp.base, ballast=ballast)
            assert not [one for one in found if one.verdict == "sell" and one.lamp is None]


def test_a_lamp_is_offered_only_as_it_would_be_judged(catalogue, offered):
    for lamp in catalogue.lamps:
        fixture = {"holder": lamp.base, "ballast": "electronic", "ballast_watts": (lamp.watts.value,)}
        for one in offered(lamp.id, **fixture):
            if one.lamp:
                alone = judge(catalogue, catalogue.lamp_by_id[one.lamp], Fixture(**fixture), "lighting")
                assert one.verdict == alone.verdict


def test_an_led_lamp_of_the_shops_own_is_asked_about(catalogue):
    led = catalogue.lamp_by_id["G24q-3/26/quad"].model_copy(update={"kind": "led"})
    said = judge(catalogue, led, Fixture(**OWN), "lighting")
    assert (said.verdict, said.cautions[0].rule) == ("ask first", "led-type")


def test_every_led_text_is_used_or_reachable():
    from counter.fit._texts import led_caps, led_type

    named = {rule for cap in led_caps() for name in cap.types for rule in led_type(name).on.values()}
    in_code = {"led-driver", "led-type", "led-no-uv", "led-enclosed", "led-damp", "led-dimmer", "led-emergency"}
    in_code |= {"led-shunted", "led-a-two-pin-electronic"}
    assert {rule for rule in texts() if rule.startswith("led-")} == named | in_code


@pytest.mark.parametrize(("other", "is_more"), [("GU24/13", False), ("GU24/26", True)])
def test_more_watts_on_mains_and_only_more_are_said_to_be_hotter(catalogue, other, is_more):
    own = catalogue.lamp_by_id["GU24/18"]
    fixture = Fixture(holder="GU24", ballast="none")
    offered = {one.lamp: one for one in replacements(catalogue, own, fixture, "lighting")}
    assert ("More watts" in offered[other].model_dump_json()) == is_more


def test_two_pins_on_an_electronic_ballast_ask_for_the_holder_of_the_four_pin_lamp(catalogue):
    own = catalogue.lamp_by_id["G24d-3/26/quad"]
    for holder, verdict in ((None, "ask first"), ("G24q-3", "sell"), ("G24d-3", None)):
        fixture = Fixture(holder=holder, ballast="electronic", ballast_watts=(26,))
        offered = {one.lamp: one.verdict for one in replacements(catalogue, own, fixture, "lighting")}
        assert offered.get("G24q-3/26/quad") in ((verdict,) if verdict else (None, "do not sell"))


def _offer(found, lamp):
    return next((one for one in found if one.lamp == lamp), None)


@pytest.mark.parametrize(
    ("lamp", "offer", "base", "ballast", "watts"),
    [  # the label's watts mean the full lamp of another length before the saver of this one
        ("G5/28/linear", "G5/49/linear/saver", "G5", "electronic", 49),
        ("G13/32/linear", "G13/30/linear/saver", "G13", "electronic", 30),
        ("G13/32/linear", "G13/25/linear/saver", "G13", "electronic", 25),
        # nobody has read which germicidal lamp the unit takes
        ("G13/15/linear", "G13/15/linear/uv-c", "G13", "magnetic", 15),
        ("G13/15/linear/uv-a", "G13/15/linear/uv-c", "G13", "magnetic", 15),
        # nor whether the dimming ballast dims the saver
        ("G13/32/linear", "G13/28/linear/saver", "G13", "dimming", 28),
    ],
)
def test_what_bare_watts_do_not_name_is_asked_about(offered, lamp, offer, base, ballast, watts):
    use = "germicidal" if offer.endswith("uv-c") else "lighting"
    found = _offer(offered(lamp, use, holder=base, ballast=ballast, ballast_watts=(watts,)), offer)
    assert found is not None
    assert found.verdict == "ask first"


def test_a_germicidal_lamp_that_the_unit_names_is_sold_in_place_of_a_white_one(offered):
    unit = {"holder": "G13", "ballast": "magnetic", "ballast_watts": (15,), "label": "germicidal lamp G15T8"}
    assert _offer(offered("G13/15/linear", "germicidal", **unit), "G13/15/linear/uv-c").verdict == "sell"


def test_what_a_customer_would_bring_back_is_said(offered):
    ring = {"holder": "G10q", "ballast": "magnetic", "ballast_watts": (22, 32)}
    assert _offer(offered("G10q/32/circular", **ring), "G10q/22/circular") is None  # it does not reach the clips
    choke = {"holder": "G23", "ballast": "magnetic", "ballast_watts": (7, 9, 11)}
    longer = _offer(offered("G23/9/twin", **choke), "G23/11/twin")
    assert "236 mm, not 167 mm" in longer.reason
    both = {"holder": "G13", "ballast": "magnetic", "ballast_watts": (34, 40)}
    saver = _offer(offered("G13/40/linear/t12", **both), "G13/34/linear/t12")
    assert "16 degrees" in saver.reason


def test_a_coloured_lamp_is_not_asked_about_as_if_it_were_germicidal(catalogue):
    fixture = Fixture(holder="G13", ballast="magnetic", ballast_watts=(20,))
    lamp = catalogue.lamp_by_id["G13/20/linear/t12"]
    colour = replacements(catalogue, lamp, fixture, "lighting", is_white=False)[1]
    assert colour.verdict == "ask first"
    assert "germicidal" not in colour.reason
