"""What stands beside a verdict: label, law and light of one case, through the one door."""

import json
from datetime import date

import pytest

from counter import catalogue as catalogues
from counter import desk, fit
from counter.desk import Case, notes

SHIPPED = catalogues.load()
TODAY = date(2026, 11, 25)
GERMICIDAL = {"legs": "2", "pins": "2", "glass": "clear", "watts": "9"}


@pytest.fixture(scope="module")
def assess(catalogue):
    return lambda **fields: desk.assess(catalogue, Case(**fields))


@pytest.mark.parametrize(
    ("label", "says"),
    [
        ("Electronic ballast. 2 lamps 26W", "read: 2 × 26\N{THIN SPACE}W, electronic"),
        ("1x26 / 2x18 W", "read: 1 or 2 × 18 or 26\N{THIN SPACE}W"),
        ("magnetic choke", "read: magnetic"),
        ("LED driver 24 V DC", "read: LED driver"),
        ("by the window", notes._label.NOTHING_READ),
    ],
)
def test_label_in_few_words(label, says):
    assert notes.label_note(label).says == says


def test_no_label_no_note():
    assert notes.label_note("  ") is None


def test_germicidal_lamp_has_exposure_and_no_colour(assess):
    light = assess(looks=GERMICIDAL).light
    assert (light.is_doubt, light.colour, light.uva) == (False, None, None)
    assert [row.distance_m for row in light.uvc.rows] == [0.6, 1.2, 4.0]
    times = [time for _, time in light.uvc.curve]
    assert times == sorted(times)
    assert len(times) == 49


def test_exposure_agrees_with_the_caution(assess):
    found = assess(looks=GERMICIDAL)
    caution = next(one for one in found.cautions if one.rule == "look-uvc-leading")
    below, above = [time for distance, time in found.light.uvc.curve if 1.85 < distance < 2.16][::2]
    assert below < caution.figure < above  # the caution speaks of 2 m


@pytest.mark.parametrize(("glass", "is_doubt"), [("white", False), ("cannot-tell", True)])
def test_germicidal_twin_shows_until_the_glass_is_seen(assess, glass, is_doubt):
    light = assess(looks={"legs": "2", "pins": "2", "glass": glass, "watts": "9"}, chosen="G23/9/twin").light
    assert (light.is_doubt, light.uvc is not None) == (is_doubt, is_doubt)


def test_blacklight_shows_both_limits_and_what_is_not_known(assess):
    uva = assess(marks="F15T8/BLB").light.uva
    assert (uva.eye.limit_j_m2, uva.weighed.limit_j_m2, uva.weighed.weighed_at_nm) == (10_000, 30, 350)
    assert uva.eye.rows[0].time_to_limit_s == uva.weighed.rows[0].time_to_limit_s == 8 * 3600
    assert "spectrum is not known" in uva.says
    assert uva.watts is None
    assert uva.not_known


def test_uvb_lamp_has_its_own_limit_and_no_colour(assess):
    light = assess(chosen="2G11/36/long-twin/uv-b", looks={"legs": "2", "pins": "4"}).light
    assert (light.colour, light.uva) == (None, None)
    assert light.uvb.eye is None
    assert [row.distance_m for row in light.uvb.weighed.rows] == [0.6, 1.2, 4.0]
    effective = light.uvb.weighed.rows[1].irradiance_w_m2 * 0.011052  # between 310 and 313 nm, log-linear
    assert light.uvb.weighed.rows[1].time_to_limit_s == pytest.approx(30 / effective, rel=1e-3)


@pytest.mark.parametrize("lamp", [one.id for one in SHIPPED.lamps if one.is_ultraviolet and one.kind != "uv-c"])
def test_no_time_before_a_uv_lamp_is_said_longer_than_computed(lamp):
    found = notes.light_notes(SHIPPED.lamp_by_id[lamp], None, None, None)
    band = found.uva or found.uvb
    said = [row for limit in (band.eye, band.weighed) if limit for row in limit.rows]
    for row in said:
        seconds = 24 * 3600.0
        if row.says != "not within a day":
            _, number, unit = row.says.split()
            seconds = float(number) * {"s": 1, "min": 60, "h": 3600}[unit]
        assert seconds <= row.time_to_limit_s + 1e-6


@pytest.mark.parametrize(
    ("marks", "room_k", "name", "nearest"),
    [("CFQ18W/G24q/841", None, "841", "840"), ("CFQ18W/G24q/841", 3000, "841", "830"), ("F40CW", None, "CW", "840")],
)
def test_colour_and_what_goes_with_it(assess, marks, room_k, name, nearest):
    light = assess(marks=marks, fixture={"room_k": room_k}).light
    assert (light.colour.name, light.matches[0].code) == (name, nearest)
    assert (light.room is not None) == (room_k is not None)


def test_colour_not_read_is_said(assess):
    light = assess(looks={"legs": "4", "pins": "4", "glass": "white", "watts": "18"}).light
    assert light.colour is None
    assert light.says


def test_nothing_known_has_no_light(assess):
    assert assess().light is None


@pytest.mark.parametrize(
    ("place", "lamp", "says"),
    [
        (None, True, notes._law.PLACE_NOT_SET),
        ("atlantis", True, notes._law.UNKNOWN_PLACE),
        ("us-ca", False, notes._law.NO_LAMP),
        ("us-ca", True, ""),
    ],
)
def test_law_says_why_it_is_silent(catalogue, place, lamp, says):
    shown = catalogue.lamp_by_id["G24q-2/18/quad"] if lamp else None
    found = notes.law_notes(catalogue, place, TODAY, shown, broken=False)
    assert found.says == says
    assert bool(found.rows) == (says == "")
    assert found.check == fit.law_check()


@pytest.mark.parametrize(
    ("place", "on", "ended"),
    [
        ("us-ca", date(2024, 12, 31), False),
        ("us-ca", date(2025, 1, 1), True),
        (None, TODAY, False),
    ],
)
def test_ended_sale_asks_first(assess, place, on, ended):
    found = assess(
        marks="CFQ18W/G24q/841",
        fixture={"holder": "G24q-2", "ballast": "electronic", "ballast_watts": [18]},
        use="lighting",
        place=place,
        on=on,
    )
    assert ("law-ended" in [one.rule for one in found.cautions]) == ended
    assert found.verdict == ("ask first" if ended else "sell")


def test_made_everywhere_until_is_no_caution(assess):
    found = assess(marks="CFQ18W/G24q/841", place="world", on=date(2030, 1, 1))
    assert found.law.rows[0].has_ended
    assert "law-ended" not in [one.rule for one in found.cautions]


@pytest.mark.parametrize("known", [{}, {"marks": "F32T8/841", "fixture": {"ballast": "bypassed", "holder": "G13"}}])
def test_broken_lamp_comes_first_with_its_steps(assess, known):
    found = assess(broken=True, **known)
    assert found.cautions[0].rule == "broken"
    assert next(step.when for step in found.law.broken) == "before"
    assert found.verdict != "sell"
    assert not assess(**known).law.broken


def test_same_lamp_waits_while_it_is_not_settled(assess):
    fixture = {"holder": "G24q-2", "ballast": "electronic", "ballast_watts": [18]}
    looks = {"legs": "4", "pins": "4"}
    found = assess(looks=looks, marks="18", fixture=fixture, use="lighting")
    same = [one for one in found.replacements if one.lamp == found.lamp]
    assert not found.is_settled
    assert same
    assert "sell" not in {one.verdict for one in same}


def test_all_of_it_is_json(assess):
    found = assess(looks=GERMICIDAL, fixture={"label": "26W electronic"}, place="us-wa", on=TODAY, broken=True)
    said = json.loads(found.model_dump_json())
    assert said["light"]["uvc"]["rows"]
    assert said["law"]["broken"]
    assert said["label"]["spans"]


@pytest.mark.parametrize(
    ("lost", "is_told"), [(("uvc_w",), True), (("length_mm", "length_also_mm", "arc_mm"), False)]
)
def test_a_germicidal_lamp_has_a_figure_wherever_its_length_is_known(changed, lost, is_told):
    def without(plain):
        lamp = next(one for one in plain["lamps"] if one["id"] == "2G11/18/long-twin/uv-c")
        for field in lost:
            lamp.pop(field, None)

    case = Case(chosen="2G11/18/long-twin/uv-c", looks={"glass": "clear", "watts": "18"})
    told = desk.assess(changed(without), case).light
    assert (told.uvc is not None) == is_told
    assert told.says == ("" if is_told else "Its length is not known: no figure can be given.")


def test_an_output_stated_above_the_share_of_the_watts_counts(changed):
    def stronger(plain):
        next(one for one in plain["lamps"] if one["id"] == "2G11/18/long-twin/uv-c")["uvc_w"]["value"] = 8.5

    case = Case(chosen="2G11/18/long-twin/uv-c", looks={"glass": "clear", "watts": "18"})
    assert desk.assess(changed(stronger), case).light.uvc.uvc_watts == 8.5
