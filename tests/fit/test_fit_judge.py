"""One case for every rule: what must be known, what it says, and how far it goes."""

import json

import pytest
from decision_oracle import Row, objections
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from counter.fit import Fixture, fit_report, judge
from counter.fit._texts import texts

QUAD, QUAD_2 = "G24q-3/26/quad", "G24d-3/26/quad"
GERMICIDAL, NO_FIGURE = "G23/9/twin/uv-c", "G13/25/linear/uv-c"  # no length is known of the latter
OWN = {"holder": "G24q-3", "ballast": "electronic", "ballast_watts": (26,)}
OWN_2 = {"holder": "G24d-3", "ballast": "magnetic", "ballast_watts": (26,)}
G23 = {"holder": "G23", "ballast": "magnetic", "ballast_watts": (9,)}
MAGNETIC_36 = {"holder": "2G11", "ballast": "magnetic", "ballast_watts": (36,)}
G13 = {"holder": "G13", "ballast": "magnetic", "ballast_watts": (36,)}

G5 = {"holder": "G5", "ballast": "electronic"}
T8 = {"holder": "G13", "ballast": "electronic", "ballast_watts": (32,)}
SAVER = "G13/28/linear/saver"
WATTS_OFF = ("lighting", "watts-off", "do not sell")
UVB = "2G11/36/long-twin/uv-b"
CABIN = {"holder": "2G11", "ballast": "electronic", "label": "UV-B narrow band lamps 36 W"}
TRAP = {"holder": "2G11", "ballast": "electronic", "ballast_watts": (18,), "label": "insect trap"}
SUNBED = {"holder": "G13", "ballast": "magnetic", "label": "Use F71T12 lamps only"}
OZONE = {"holder": "G10q", "ballast": "electronic", "label": "lamp G36T6VH"}

# lamp, fixture, use, rule, the most the rule allows
CASES = [
    (QUAD_2, {"holder": "G24q-3"}, "lighting", "pins-two-in-four", "do not sell"),
    (QUAD, {"holder": "G24d-3"}, "lighting", "pins-four-in-two", "do not sell"),
    (QUAD, {"holder": "GX24t-3"}, "lighting", "pins-differ", "do not sell"),
    (QUAD, {"holder": "GX24q-3"}, "lighting", "keyed-apart", "do not sell"),
    (QUAD, {"holder": "G24q-2"}, "lighting", "key-differs", "do not sell"),
    (QUAD, {"holder": "G13"}, "lighting", "base-differs", "do not sell"),
    (QUAD_2, {"holder": "GU24"}, "lighting", "mains-holder", "do not sell"),
    (QUAD, OWN | {"space_mm": 120}, "lighting", "too-long", "do not sell"),
    (QUAD, OWN | {"space_mm": 168}, "lighting", "length-close", "ask first"),
    ("G13/18/linear", {"holder": "G13", "space_mm": 1200}, "lighting", "too-short", "do not sell"),
    ("G13/40/linear/t12", {"holder": "G13", "tube_room_mm": 30}, "lighting", "too-thick", "do not sell"),
    (QUAD, OWN | {"ballast": "bypassed"}, "lighting", "mains-on-holder", "do not sell"),
    (QUAD, OWN | {"ballast": "none"}, "lighting", "mains-on-holder", "do not sell"),
    (QUAD, OWN | {"ballast": "led-driver"}, "lighting", "led-driver", "do not sell"),
    ("GU24/13", {"holder": "GU24", "ballast": "electronic"}, "lighting", "mains-lamp-on-ballast", "do not sell"),
    ("GX53/9", {"holder": "GX53", "ballast": "magnetic"}, "lighting", "mains-lamp-on-ballast", "do not sell"),
    ("GU24/13", {"holder": "GU24", "ballast": "bypassed"}, "lighting", "mains-lamp-rewired", "ask first"),
    (QUAD_2, OWN_2 | {"ballast": "electronic"}, "lighting", "two-pin-on-electronic", "do not sell"),
    (QUAD_2, OWN_2 | {"ballast": "dimming"}, "lighting", "two-pin-on-electronic", "do not sell"),
    ("GX24q-4/42/triple", {"holder": "GX24q-4", "ballast": "magnetic"}, "lighting", "electronic-only", "do not sell"),
    ("G13/40/linear/t12", {"holder": "G13", "ballast": "electronic"}, "lighting", "magnetic-only", "do not sell"),
    (
        "2G11/18/long-twin",
        {"holder": "2G11", "ballast": "magnetic", "ballast_watts": (36,)},
        "lighting",
        "over-driven",
        "do not sell",
    ),
    (
        "2G11/36/long-twin",
        {"holder": "2G11", "ballast": "magnetic", "ballast_watts": (24,)},
        "lighting",
        "under-driven",
        "do not sell",
    ),
    (
        "GX24q-3/32/triple",
        {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26,)},
        "lighting",
        "watts-off-same-current",
        "do not sell",
    ),
    ("G13/58/linear", G13, "lighting", "under-driven", "do not sell"),
    ("GX32d-3/28/quad", {"holder": "GX32d-3", "ballast": "magnetic", "ballast_watts": (15,)}, *WATTS_OFF),
    (
        "2G10/18/flat",
        {"holder": "2G10", "ballast": "magnetic", "ballast_watts": (19.5,)},
        "lighting",
        "not-listed",
        "ask first",
    ),
    (
        "GX24d-3/26/triple",
        {"holder": "G24d-3", "ballast": "magnetic", "ballast_watts": (18,)},
        "lighting",
        "under-driven",
        "do not sell",
    ),
    ("G23/11/twin", G23, "lighting", "shared-choke", "ask first"),
    ("G13/36/linear", G13 | {"ballast_watts": (40,)}, "lighting", "shared-choke-tube", "ask first"),
    (
        "G13/30/linear",
        {"holder": "G13", "ballast": "magnetic", "ballast_watts": (30,)},
        "lighting",
        "same-watts-other-tube",
        "ask first",
    ),
    (QUAD, OWN | {"label": "magnetic ballast"}, "lighting", "label-contradicts", "ask first"),
    (QUAD, OWN | {"ballast_counts": (1,), "lamp_count": 2}, "lighting", "too-many-lamps", "do not sell"),
    (QUAD, OWN | {"label": "1x26W / 2x18W", "lamp_count": 2}, "lighting", "too-many-lamps", "do not sell"),
    (QUAD, OWN | {"label": "2 x 18 W"}, "lighting", "label-contradicts", "ask first"),
    (QUAD, OWN | {"label": "LED lamps only"}, "lighting", "label-led", "ask first"),
    (QUAD, OWN | {"label": "DANGER UV radiation"}, "lighting", "label-uv", "ask first"),
    (QUAD, OWN | {"label": "Serial zorbik"}, "lighting", "label-unread", "ask first"),
    (QUAD, OWN | {"label": "26W. Class I Div 2"}, "lighting", "label-hazardous-place", "ask first"),
    (QUAD, OWN | {"label": "26W. Ballast burnt"}, "lighting", "label-fault", "ask first"),
    (QUAD, OWN | {"label": "26W metal halide"}, "lighting", "label-other-lamp", "ask first"),
    (
        QUAD,
        OWN | {"label": "26W, 18W, 13W. Runs 1 lamp", "lamp_count": 2, "ballast_counts": (1, 2)},
        "lighting",
        "label-counts",
        "ask first",
    ),
    (QUAD, OWN | {"label": "26W. Max lamp 18 W"}, "lighting", "label-at-most", "ask first"),
    (QUAD, OWN | {"holder": "G24q-3 zorbik"}, "lighting", "holder-words", "ask first"),
    (QUAD, {"came_out": True}, "lighting", "same-again", "sell"),
    (
        "R17d/110/linear/vho",
        {"holder": "R17d", "ballast": "magnetic", "ballast_watts": (110,)},
        "lighting",
        "same-watts-other-length",
        "ask first",
    ),
    ("G5/28/linear", G5 | {"ballast_watts": (28,)}, "lighting", "same-watts-other-length", "ask first"),
    ("G5/28/linear/t4", G5 | {"ballast_watts": (28,)}, "lighting", "length-not-known", "ask first"),
    (QUAD, OWN | {"ballast_counts": (2,), "lamp_count": 1}, "lighting", "too-few-lamps", "ask first"),
    (QUAD, OWN | {"lamp_count": 2}, "lighting", "several-lamps", "sell"),
    (QUAD_2, OWN_2 | {"dimmer": True}, "lighting", "two-pin-dimmed", "do not sell"),
    (QUAD, OWN | {"dimmer": True}, "lighting", "dimmer-on-electronic", "ask first"),
    (
        "2G11/36/long-twin",
        MAGNETIC_36 | {"dimmer": True},
        "lighting",
        "dimmer-without-dimming-ballast",
        "do not sell",
    ),
    ("GU24/13", {"holder": "GU24", "ballast": "none", "dimmer": True}, "lighting", "mains-lamp-dimmed", "ask first"),
    ("G13/36/linear", G13 | {"shunted": True}, "lighting", "shunted-preheat", "do not sell"),
    ("G13/36/linear", G13 | {"shunted": True, "ballast": "electronic"}, "lighting", "shunted-instant", "ask first"),
    (QUAD, OWN | {"ballast": "magnetic"}, "lighting", "starter-in-fixture", "sell"),
    (QUAD_2, OWN_2, "lighting", "worn-lamp-blinks", "sell"),
    (QUAD, OWN, "lighting", "worn-lamp-thin-tube", "sell"),
    (QUAD, OWN | {"emergency": True}, "lighting", "emergency", "ask first"),
    (GERMICIDAL, G23, "lighting", "uvc-in-lighting", "do not sell"),
    (GERMICIDAL, G23, "blacklight", "uvc-other-unit", "do not sell"),
    (NO_FIGURE, {}, "gel curing", "uvc-other-unit-no-figure", "do not sell"),
    (GERMICIDAL, G23, "unknown", "uvc-use-unknown", "ask first"),
    (GERMICIDAL, G23, "germicidal", "uvc-germicidal", "sell"),
    (NO_FIGURE, {}, "lighting", "uvc-in-lighting-no-figure", "do not sell"),
    (NO_FIGURE, {}, "unknown", "uvc-use-unknown-no-figure", "ask first"),
    (NO_FIGURE, {}, "germicidal", "uvc-germicidal-no-figure", "sell"),
    ("G23/9/twin", G23, "germicidal", "no-disinfection", "do not sell"),
    ("2G11/18/long-twin/uv-a", TRAP, "gel curing", "uva-own-unit-unnamed", "ask first"),
    ("G13/36/linear/uv-a", G13, "germicidal", "no-disinfection", "do not sell"),
    ("G13/36/linear/uv-a", G13, "lighting", "uva-in-lighting", "do not sell"),
    ("G13/36/linear/uv-a", G13, "unknown", "uva-use-unknown", "ask first"),
    ("G13/36/linear/uv-a", G13, "blacklight", "uva-blacklight", "sell"),
    ("G13/36/linear", G13, "blacklight", "white-in-blacklight", "do not sell"),
    ("G13/36/linear", G13, "tanning", "white-in-blacklight", "do not sell"),
    ("G13/100/linear/t12/uv-a", SUNBED, "lighting", "uva-in-lighting", "do not sell"),
    ("G13/100/linear/t12/uv-a", SUNBED, "blacklight", "uva-other-unit", "do not sell"),
    ("G13/100/linear/t12/uv-a", SUNBED, "tanning", "uva-own-unit", "sell"),
    ("2G11/18/long-twin/uv-a", TRAP, "insect trap", "uva-own-unit", "sell"),
    ("2G11/18/long-twin/uv-a", TRAP | {"label": ""}, "insect trap", "uva-own-unit-unnamed", "ask first"),
    (UVB, CABIN, "lighting", "uvb-in-lighting", "do not sell"),
    (UVB, CABIN, "unknown", "uvb-use-unknown", "ask first"),
    (UVB, CABIN, "tanning", "uvb-other-unit", "do not sell"),
    (UVB, CABIN, "medical", "uvb-own-unit", "sell"),
    (UVB, CABIN | {"label": "36 W"}, "medical", "uvb-own-unit-unnamed", "ask first"),
    ("G10q/39/linear/ozone/uv-c", OZONE, "germicidal", "uvc-ozone", "sell"),
    ("G10q/39/linear/ozone/uv-c", OZONE | {"label": ""}, "germicidal", "uvc-ozone-unnamed", "ask first"),
    ("G13/32/linear", T8 | {"ballast": "magnetic"}, "lighting", "magnetic-if-listed", "ask first"),
    ("2G11/40/long-twin", MAGNETIC_36 | {"ballast_watts": (40,)}, "lighting", "magnetic-if-listed", "ask first"),
    (SAVER, T8, "lighting", "saver-unlisted", "ask first"),
    (SAVER, T8 | {"label": "rapid start F28T8"}, "lighting", "saver-start", "do not sell"),
    (SAVER, T8 | {"ballast_watts": (28,), "cold": True}, "lighting", "saver-cold", "do not sell"),
    (SAVER, T8 | {"ballast_watts": (28,), "dimmer": True}, "lighting", "not-dimmed", "do not sell"),
    (SAVER, T8 | {"ballast": "dimming", "ballast_watts": (28,)}, "lighting", "not-dimmed-listed", "ask first"),
    ("G13/40/linear/t12-is", G13 | {"ballast_watts": (40,)}, "lighting", "instant-only", "do not sell"),
    (
        "G13/40/linear/t12-is",
        {"holder": "G13", "label": "F40T12 rapid start"},
        "lighting",
        "instant-only",
        "do not sell",
    ),
    (
        "G13/40/linear/t12-is",
        {"holder": "G13", "ballast_watts": (40,)},
        "lighting",
        "instant-only-unsaid",
        "ask first",
    ),
    (
        QUAD,
        OWN | {"holder": "G24q-1 G24q-2"},
        "lighting",
        "key-differs",
        "do not sell",
    ),
    (QUAD, OWN | {"base_up": True}, "lighting", "base-up", "sell"),
    ("2G11/36/long-twin/uv-c", {"holder": "2G11", "base_up": True}, "germicidal", "base-up", "sell"),
    ("2G11/36/long-twin/uv-c", {"holder": "2G11", "cold": True}, "germicidal", "cold", "sell"),
    ("2G11/40/long-twin", {"ballast": "magnetic", "came_out": True}, "lighting", "magnetic-if-listed", "ask first"),
    ("2G11/40/long-twin", {"ballast": "magnetic"}, "lighting", "electronic-only", "do not sell"),
    (QUAD, OWN | {"room_k": 3000}, "lighting", "colour-unread", "sell"),
    (QUAD, OWN | {"enclosed": True}, "lighting", "enclosed", "sell"),
    (QUAD, OWN | {"damp": True}, "lighting", "damp", "sell"),
    (QUAD, OWN | {"cold": True}, "lighting", "cold", "sell"),
    (QUAD, OWN | {"base_up": True}, "lighting", "base-up", "sell"),
]


@pytest.mark.parametrize(("lamp", "fixture", "use", "rule", "allows"), CASES)
def test_rule(rules, judged, lamp, fixture, use, rule, allows):
    said = rules(lamp, use, **fixture)
    assert rule in said, list(said)
    assert said[rule].verdict == allows
    if allows != "sell":
        assert judged(lamp, use, **fixture).verdict in (allows, "do not sell")


@pytest.mark.parametrize(
    ("lamp", "fixture", "use"),
    [
        (QUAD, OWN, "lighting"),
        (QUAD, OWN, "unknown"),
        (QUAD, OWN | {"ballast": "dimming", "dimmer": True}, "lighting"),
        (QUAD, OWN | {"holder": "G24q-3 / GX24q-3"}, "lighting"),
        (QUAD, OWN | {"ballast_watts": ()}, "lighting"),  # the key -3 of G24q takes 26 W only
        (QUAD_2, OWN_2, "lighting"),
        ("GX24q-3/32/triple", {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26, 32)}, "lighting"),
        ("GU24/13", {"holder": "GU24", "ballast": "none"}, "lighting"),
        (GERMICIDAL, G23, "germicidal"),
        ("G13/30/linear", {"holder": "G13", "label": "electronic F30T8"}, "lighting"),
        ("R17d/60/linear/ho", {"holder": "R17d", "ballast": "magnetic", "ballast_watts": (60,)}, "lighting"),
    ],
)
def test_what_matches_is_sold(judged, lamp, fixture, use):
    said = judged(lamp, use, **fixture)
    assert (said.verdict, [ask.about for ask in said.asks if ask.blocks]) == ("sell", [])


@pytest.mark.parametrize(
    ("fixture", "missing"),
    [
        ({"holder": "G24q-3"}, {"ballast"}),
        ({"holder": "G24q", "ballast": "electronic", "ballast_watts": (26,)}, {"holder"}),
        ({"holder": "no idea", "ballast": "electronic", "ballast_watts": (26,)}, {"holder"}),
        ({"ballast": "electronic"}, {"came_out", "holder", "ballast_watts"}),
        ({}, {"came_out", "holder", "ballast", "ballast_watts"}),
        ({"came_out": False}, {"holder", "ballast", "ballast_watts"}),
    ],
)
def test_what_is_open_is_asked(judged, fixture, missing):
    said = judged(QUAD, **fixture)
    assert said.verdict == "ask first"
    assert {ask.about for ask in said.asks if ask.blocks} == missing


@pytest.mark.parametrize(
    ("lamp", "watts", "ballast", "ratio"),
    [
        ("2G11/18/long-twin", 36, "magnetic", 0.435 / 0.375),
        ("2G11/24/long-twin", 36, "magnetic", 0.435 / 0.345),
        ("2G11/55/long-twin", 40, "electronic", 0.320 / 0.550),
        ("2G11/40/long-twin", 80, "electronic", 0.555 / 0.320),
        ("GX24q-3/32/triple", 26, "electronic", 0.300 / 0.320),
        ("G23/11/twin", 5, "magnetic", 0.180 / 0.155),
    ],
)
def test_drive_is_the_ratio_of_the_currents(judged, catalogue, lamp, watts, ballast, ratio):
    base = catalogue.lamp_by_id[lamp].base
    said = judged(lamp, holder=base, ballast=ballast, ballast_watts=(watts,)).cautions
    assert next(one.figure for one in said if one.unit == "times the lamp's current") == pytest.approx(
        ratio, abs=6e-4
    )


@pytest.mark.parametrize(
    ("own", "room", "rule", "mired"),
    [
        (4000, 4100, "colour-close", 6.1),
        (2700, 3000, "colour-differs", 37.0),
        (4100, 5000, "colour-differs", 43.9),
        (4000, 4000, None, None),
    ],
)
def test_colour_beside_the_room(judged, own, room, rule, mired):
    said = [one for one in judged(QUAD, cct_k=own, room_k=room, **OWN).cautions if one.unit == "mired"]
    assert [(one.rule, one.figure) for one in said] == ([(rule, mired)] if rule else [])


def test_exposure_figure_is_that_of_the_light_folder(rules):
    from counter.light import exposure

    figure = rules("2G11/36/long-twin/uv-c", "germicidal")["uvc-germicidal"]
    assert figure.figure == int(exposure(0.45 * 36, 360, 2.0).time_to_limit_s)
    assert figure.unit == "s"


def test_every_rule_of_the_lamps_has_a_case():
    elsewhere = (
        "label-cut",
        "look-",
        "marks-",
        "print-",
        "labelled-",
        "label-restricts",
        "led-",
        "no-led",
        "broken",
        "colour-",
        "law-",
    )
    here = {rule for rule in texts() if not rule.startswith(elsewhere)}
    covered = {rule for *_, rule, _ in CASES}
    assert here | {"led-driver"} == (covered - {"colour-unread"}) | {"not-listed-close"}


def test_close_currents_that_the_label_does_not_list(catalogue):
    lamp = catalogue.lamp_by_id["2G11/36/long-twin"]
    current = catalogue.lamp_by_id["2G11/40/long-twin"].hf.current_a.model_copy(update={"value": 0.35})
    lamp = lamp.model_copy(update={"hf": lamp.hf.model_copy(update={"current_a": current})})
    said = judge(catalogue, lamp, Fixture(holder="2G11", ballast="electronic", ballast_watts=(40,)), "lighting")
    close = next(one for one in said.cautions if one.rule == "not-listed-close")
    assert (said.verdict, close.figure) == ("ask first", pytest.approx(0.32 / 0.35, abs=6e-4))


def test_report_has_the_fields_of_the_contract(judged):
    report = fit_report(judged(QUAD, holder="G24q-1"))
    assert report["verdict"] == "do not sell"
    wanted = {"signal", "rule", "says", "do", "figure", "unit", "source", "confidence"}
    assert wanted <= report["cautions"][0].keys()
    assert json.loads(json.dumps(report)) == report


FIELDS = {
    "holder": st.one_of(st.none(), st.text(max_size=30), st.sampled_from(["G24q-3", "GX24q", "2G11", "G13", "GU24"])),
    "ballast": st.sampled_from(["magnetic", "electronic", "dimming", "led-driver", "bypassed", "none", "unknown"]),
    "ballast_watts": st.lists(st.floats(0.1, 400) | st.sampled_from([9, 26, 36]), max_size=3).map(tuple),
    "ballast_counts": st.lists(st.integers(1, 4), max_size=2).map(tuple),
    "lamp_count": st.none() | st.integers(1, 4),
    "label": st.text(max_size=60),
    "space_mm": st.none() | st.floats(1, 3000),
    "room_k": st.none() | st.integers(1000, 20000),
} | {
    name: st.none() | st.booleans()
    for name in ("enclosed", "damp", "cold", "base_up", "emergency", "dimmer", "shunted")
}


@settings(max_examples=150, deadline=None)
@given(data=st.data(), fixture=st.fixed_dictionaries({}, optional=FIELDS), cct=st.none() | st.integers(0, 30000))
def test_any_fixture_gets_a_judgement_and_every_answer_keeps_its_promise(catalogue, data, fixture, cct):
    lamp = data.draw(st.sampled_from(catalogue.lamps))
    use = data.draw(st.sampled_from(["lighting", "germicidal", "blacklight", "unknown"]))
    said = judge(catalogue, lamp, Fixture(**fixture), use, cct)
    assert said.verdict == "sell" or said.asks or any(one.verdict != "sell" for one in said.cautions)
    for ask in said.asks:
        assert len({line.rpartition(": ")[2] for line in ask.outcomes}) > 1 or ask.blocks


SENSIBLE = FIELDS | {
    "holder": st.sampled_from(["G24q-3", "G24d-3", "GX24q-3", "2G11", "G23", "G13", "GU24", "G24q", "junk"]),
    "ballast": st.sampled_from(["magnetic", "electronic", "dimming", "none", "unknown"]),
    "label": st.just(""),
}


@settings(max_examples=300, deadline=None)
@given(data=st.data(), fixture=st.fixed_dictionaries({}, optional=SENSIBLE))
def test_whatever_is_sold_was_safe_to_sell(catalogue, data, fixture):
    lamps = [lamp for lamp in catalogue.lamps if lamp.base in ("G24q-3", "G24d-3", "GX24q-3", "2G11", "G23", "GU24")]
    lamp = data.draw(st.sampled_from(lamps))
    use = data.draw(st.sampled_from(["lighting", "germicidal", "blacklight", "unknown"]))
    known = Fixture(**fixture)
    if judge(catalogue, lamp, known, use).verdict != "sell":
        return
    assert known.holder == lamp.base
    assert objections(Row(lamp.id, known.holder, known.ballast, use, known.ballast_watts)) == []
    if known.ballast_watts and known.ballast != "none":
        assert lamp.watts.value in known.ballast_watts
    assert not known.dimmer or known.ballast == "dimming"
    assert not known.emergency


@pytest.mark.parametrize("watts", [(-5,), (0,), (float("nan"),), (float("inf"),)])
def test_watts_that_cannot_be_are_refused_not_overlooked(watts):
    with pytest.raises(ValidationError):
        Fixture(ballast_watts=watts)


def test_a_label_that_splits_watts_by_count_must_say_the_count(judged):
    label = "electronic 1x26W / 2x18W"
    open_ = judged(QUAD, holder="G24q-3", label=label)
    assert (open_.verdict, open_.asks[0].about) == ("ask first", "lamp_count")
    assert judged(QUAD, holder="G24q-3", label=label, lamp_count=1).verdict == "sell"


def test_a_lamp_of_another_kind_counts_as_one_that_needs_a_ballast(catalogue):
    other = catalogue.lamp_by_id[QUAD].model_copy(update={"kind": "other"})
    assert judge(catalogue, other, Fixture(**OWN | {"ballast": "bypassed"}), "lighting").verdict == "do not sell"


def test_a_lamp_that_burned_there_until_it_died_is_sold_again_and_what_stays_open_is_said(judged):
    said = judged(QUAD, came_out=True)
    assert said.verdict == "sell"
    assert "same-again" in {one.rule for one in said.cautions}
    assert judged(QUAD, came_out=True, ballast="led-driver").verdict == "do not sell"
    assert judged(QUAD, came_out=True, ballast_watts=(18,)).verdict == "do not sell"


def test_an_answer_counts_for_its_lamp_and_its_numbers_alone(judged):
    asking = judged(QUAD, emergency=True, **OWN)
    key = next(one.key for one in asking.cautions if one.rule == "emergency")
    assert judged(QUAD, emergency=True, told={key: True}, **OWN).verdict == "sell"
    assert judged(QUAD, emergency=True, told={key: False}, **OWN).verdict == "do not sell"
    other = judged(QUAD_2, emergency=True, told={key: True}, **OWN_2)
    assert other.verdict == "ask first"


def _driven(catalogue, lamp, ballast, listed):
    fixture = Fixture(holder=catalogue.lamp_by_id[lamp].base, ballast=ballast, ballast_watts=(listed,))
    found = judge(catalogue, catalogue.lamp_by_id[lamp], fixture, "lighting")
    return next(one for one in found.cautions if one.rule in ("over-driven", "under-driven", "watts-off"))


def test_currents_of_two_frequencies_are_held_together_where_they_lie_far_apart(catalogue):
    """0.42 A at mains frequency, the least of the 40 W tubes, is no current that a 0.265 A lamp takes at any."""
    found = _driven(catalogue, "G13/32/linear", "magnetic", 40)
    assert (found.rule, found.figure) == ("over-driven", round(0.42 / 0.265, 3))
    assert "the lamp's own at high frequency" in found.why


def test_currents_of_two_frequencies_that_may_be_one_lamps_say_nothing(catalogue):
    """0.17 A at either: what frequency alone moves a lamp's current by is not held against it."""
    assert _driven(catalogue, "G5/4/linear", "electronic", 14).rule == "watts-off"


def test_a_saver_runs_at_the_current_of_the_lamp_whose_place_it_takes(catalogue):
    full, saver = ("G5/54/linear", "G5/49/linear/saver")
    assert catalogue.lamp_by_id[saver].hf is None
    assert [_driven(catalogue, lamp, "electronic", 28).figure for lamp in (full, saver)] == [
        round(0.17 / 0.46, 3)
    ] * 2


def test_a_label_means_the_full_lamp_of_its_watts_before_a_saver(catalogue):
    """49 W on a label is the long lamp of 0.26 A, not the saver that stands in for 54 W."""
    assert _driven(catalogue, "G5/54/linear", "electronic", 49).rule == "under-driven"


ELECTRONIC_T12 = "ELECTRONIC BALLAST RAPID START (2) F40T12 (2) F34T12 120V"
CHOKE_T12 = "INSTANT START BALLAST (2) F40T12"


@pytest.mark.parametrize(
    ("label", "ballast", "verdict"),
    [
        (ELECTRONIC_T12, "electronic", "sell"),
        (ELECTRONIC_T12, "unknown", "sell"),
        (CHOKE_T12, "magnetic", "sell"),
        ("BALASTRO ARRANQUE INSTANTANEO 2 F40T12", "magnetic", "sell"),
        ("ELECTRONIC BALLAST (2) F32T8 120V", "electronic", "do not sell"),
        ("ELECTRONIC BALLAST 2x40W", "electronic", "do not sell"),
    ],
)
def test_a_thick_tube_runs_on_what_names_it_by_its_code(judged, label, ballast, verdict):
    """Electronic ballasts for T12 were common, and chokes start T12 instantly too: common practice, no source."""
    found = judged("G13/40/linear/t12", holder="G13", label=label, ballast=ballast, came_out=True, lamp_count=2)
    assert found.verdict == verdict


def test_a_lamp_of_several_lengths_is_told_with_both(rules):
    told = rules("2G11/40/long-twin", space_mm=475.0)
    assert "535 to 572 mm" in next(one.says for rule, one in told.items() if "long" in rule)
