"""What is offered instead: what the fixture asks for, the white lamp for the germicidal one, never what law ended."""

from datetime import date

import pytest

from counter.desk import Case, Fixture, assess


def offered(catalogue, **case):
    return assess(catalogue, Case(**case)).replacements


@pytest.mark.parametrize(
    ("fixture", "lamps"),
    [
        ({"holder": "G24q-2", "ballast": "electronic"}, {"G24q-2/18/quad": "sell"}),
        (
            {"holder": "GX24q-3", "ballast": "electronic"},
            {"GX24q-3/26/triple": "ask first", "GX24q-3/32/triple": "ask first"},
        ),
        ({"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (32,)}, {"GX24q-3/32/triple": "sell"}),
        ({"ballast": "electronic", "ballast_watts": (32,)}, {}),
    ],
)
def test_a_fixture_alone_names_its_lamps(catalogue, fixture, lamps):
    found = offered(catalogue, fixture=Fixture(**fixture), use="lighting")
    assert {one.lamp: one.verdict for one in found if one.lamp} == lamps


def test_a_fixture_alone_gives_no_verdict(catalogue):
    found = assess(catalogue, Case(fixture=Fixture(holder="G24q-2", ballast="electronic"), use="lighting"))
    assert (found.verdict, found.lamp) == (None, None)
    assert found.subline == "No lamp yet. The fixture takes 18\N{THIN SPACE}W, G24q-2"


def test_the_lamp_the_holder_takes_is_offered_without_ballast_watts(catalogue):
    found = offered(catalogue, marks="CFQ26W/G24q-3", fixture=Fixture(holder="G24q-2", ballast="electronic"))
    assert found[0].lamp == "G24q-2/18/quad"
    assert found[0].title.startswith("What the holder takes: 18 W")


@pytest.mark.parametrize(
    ("seen", "is_there"), [({}, True), ({"marks": "FR71T12"}, False), ({"length_mm": 1764}, False)]
)
def test_no_tube_much_longer_than_the_one_in_hand_is_offered(catalogue, seen, is_there):
    """A holder and 100 W alone mean an 8 ft tube; a 6 ft one was there."""
    looks = {"pins": "2"} | {key: value for key, value in seen.items() if key != "marks"}
    fixture = Fixture(holder="G13", ballast="magnetic", ballast_watts=(100,))
    found = offered(catalogue, marks=seen.get("marks", ""), looks=looks, fixture=fixture, use="lighting")
    assert ("G13/100/linear/t8" in {one.lamp for one in found}) is is_there


def test_the_white_lamp_of_the_same_watts_comes_first_for_a_germicidal_one(catalogue):
    fixture = Fixture(holder="G23", ballast="magnetic", ballast_watts=(9,))
    found = offered(catalogue, marks="9W G23 UV-C germicidal", fixture=fixture, use="lighting")
    assert (found[0].lamp, found[0].verdict) == ("G23/9/twin", "sell")
    assert "white for lighting" in found[0].title


@pytest.mark.parametrize(
    ("place", "on", "verdict"),
    [
        (None, None, "sell"),
        ("us-ca", date(2024, 12, 31), "sell"),
        ("us-ca", date(2025, 1, 1), "ask first"),
        ("us-ca", None, "ask first"),
    ],
)
def test_the_law_is_asked_for_each_lamp_offered(catalogue, place, on, verdict):
    fixture = Fixture(holder="G24q-2", ballast="electronic")
    found = offered(catalogue, fixture=fixture, use="lighting", place=place, on=on)
    assert {one.verdict for one in found if one.lamp == "G24q-2/18/quad"} == {verdict}


@pytest.mark.parametrize(("use", "verdict"), [("unknown", "ask first"), ("lighting", "sell")])
def test_a_fixture_that_may_be_germicidal_is_asked_about(catalogue, use, verdict):
    found = offered(catalogue, fixture=Fixture(holder="G23", ballast="magnetic", ballast_watts=(9,)), use=use)
    assert [(one.lamp, one.verdict) for one in found] == [("G23/9/twin", verdict)]
