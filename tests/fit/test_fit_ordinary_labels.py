"""Ordinary labels ask nothing about their words; one that warns holds the sale whatever number stands before it."""

from __future__ import annotations

import pytest

from counter.fit import Fixture, judge, parse_label
from tests.fit.ordinary_labels import LABELS

WORDS = {"label-unread", "label-restricts", "label-led", "label-uv", "label-fault", "label-other-lamp", "label-cut"}
MOST_NEEDLESS = 0.05  # of ordinary labels: what a clerk puts up with
BEFORE = "120V 60Hz 26W"
QUAD = "G24q-3/26/quad"


def test_fewer_than_one_ordinary_label_in_twenty_asks_about_its_words():
    asking = [label for *_, label in LABELS if parse_label(label).unread or parse_label(label).dangers]
    assert len(LABELS) == 60
    assert len(asking) < MOST_NEEDLESS * len(LABELS), asking


@pytest.mark.parametrize(("lamp", "ballast", "label"), LABELS)
def test_an_ordinary_label_speaks_of_nothing_but_its_own_lamps(catalogue, lamp, ballast, label):
    one = catalogue.lamp_by_id[lamp]
    fixture = Fixture(holder=one.base, ballast=ballast, ballast_watts=(one.watts.value,), label=label)
    said = {caution.rule for caution in judge(catalogue, one, fixture, "lighting").cautions}
    assert not said & (WORDS - {"label-unread"} | {"labelled-base", "labelled-tube", "label-contradicts"})


WARNINGS = [
    *("Fluorescent lamps prohibited", "240V present at tombstones", "gear tray removed, direct 230V", "T12 only"),
    *("2-pin lamps only", "Metal halide", "BALLAST BURNT", "UVGI", "253.7", "ozone", "ultra violet", "bactericidal"),
    *("LEDtube only", "LED tubes only", "HID lamps only", "high pressure sodium", "not for fluorescent", "dead"),
    *("prohibido lámparas fluorescentes", "solo LED", "balasto retirado", "230V en los portalámparas", "quemado"),
    *("interdit aux lampes fluorescentes", "ballast supprimé", "uniquement LED", "halogénures métalliques", "grillé"),
    *("nur LED", "Vorschaltgerät entfernt", "230V an der Fassung", "keine Leuchtstofflampen", "durchgebrannt"),
    *(
        "tanning",
        "insect trap",
        "nail gel curing",
        "phototherapy",
        "UV-A 365 nm",
        "blacklight",
        "zorbik",
        "see inside",
    ),
    *("sockets are live", "230V to lamps", "hot wire to lampholders", "do not relamp", "condemned", "out of service"),
]


@pytest.mark.parametrize("words", WARNINGS)
@pytest.mark.parametrize("before", [BEFORE, f"Electronic ballast {BEFORE}, class P,", ""])
def test_a_number_that_is_read_silences_nothing(catalogue, words, before):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,), label=f"{before} {words}")
    assert judge(catalogue, catalogue.lamp_by_id[QUAD], fixture, "lighting").verdict != "sell"


@pytest.mark.parametrize(
    ("label", "pairs"),
    [
        ("one CFTR42W or two CFQ26W", {(1, 42), (2, 26)}),
        ("2x26W or 1x42W", {(2, 26), (1, 42)}),
        ("1-2 lamps F28T5, F21T5", {(1, 28), (2, 28), (1, 21), (2, 21)}),
        ("(1) or (2) CFQ26W/G24q", {(1, 26), (2, 26)}),
        ("26W (2)", {(2, 26)}),
        ("CFTR42W (1), CFQ26W (2)", {(1, 42), (2, 26)}),
        ("26W: 2 lamps; 42W: 1 lamp", {(2, 26), (1, 42)}),
        ("deux lampes 26W ou une lampe 42W", {(2, 26), (1, 42)}),
    ],
)
def test_counts_go_with_the_lamps_behind_them(label, pairs):
    assert set(parse_label(label).pairs) == pairs


@pytest.mark.parametrize(
    ("label", "watts"),
    [
        ("F32T8/25W", (25,)),
        ("18W or 26W. Use 26W only", (26,)),
        ("F28T5 only", (28,)),
        ("input 54W, 26W lamps", (26,)),
        ("14-17W", (14, 15, 16, 17)),
        ("5-11W", (5, 6, 7, 8, 9, 10, 11)),
        ("4-6-8W", (4, 6, 8)),
        ("1-26W lamp", (26,)),
        ("26W, Leistung 32W", (26,)),
        ("36W total input 42 W", (36,)),
        ("28W x 2", (28,)),
        ("max 60 W", ()),
        ("FB31T8", (31,)),
    ],
)
def test_watts_of_a_label(label, watts):
    assert parse_label(label).fields.get("ballast_watts", ()) == watts


@pytest.mark.parametrize(("holder", "lamp"), [("2G13-92", "2G13/32/u-bent"), ("GR10q-4", "GR10q/28/square")])
def test_a_number_behind_a_base_without_keys_is_no_other_base(catalogue, holder, lamp):
    one = next((lamp_ for lamp_ in catalogue.lamps if lamp_.id.startswith(lamp.rpartition("/")[0])), None)
    assert one is not None
    said = {caution.rule for caution in judge(catalogue, one, Fixture(holder=holder), "lighting").cautions}
    assert not said & {"key-differs", "base-differs", "keyed-apart"}


@pytest.mark.parametrize("holder", ["G24q-3 LED only", "G24q-3 bypassed", "G24q-3 UV", "G24q-3 zorbik"])
def test_words_beside_the_mark_of_a_holder_hold_the_sale(catalogue, holder):
    fixture = Fixture(holder=holder, ballast="electronic", ballast_watts=(26,))
    assert judge(catalogue, catalogue.lamp_by_id[QUAD], fixture, "lighting").verdict == "ask first"


def test_words_that_say_nothing_are_pressed_once_and_those_of_danger_never(catalogue):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,), label="26W zorbik LED")
    said = judge(catalogue, catalogue.lamp_by_id[QUAD], fixture, "lighting")
    assert {word for one in said.cautions for word in one.words} == {"zorbik"}
    pressed = fixture.model_copy(update={"explained": ("ZORBIK", "LED")})
    rules = {one.rule for one in judge(catalogue, catalogue.lamp_by_id[QUAD], pressed, "lighting").cautions}
    assert "label-unread" not in rules
    assert "label-led" in rules


@pytest.mark.parametrize(
    "words",
    [
        *(
            "line and neutral to both lamp terminals",
            "lamp runs on line",
            "Netzspannung zur Lampe",
            "tension au tube",
        ),
        *(
            "Netzspannung zur Lampe",
            "tensión en la lámpara",
            "230 V zur Lampe",
            "all power at the tube",
            "1x42W/2x26W",
            "DC12-24V",
        ),
    ],
)
def test_harmless_words_make_no_harmless_sentence(catalogue, words):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,), label=f"{BEFORE} {words}")
    assert judge(catalogue, catalogue.lamp_by_id[QUAD], fixture, "lighting").verdict != "sell"


@pytest.mark.parametrize(
    "holder", ["G24q-3 or G24q-2", "G24d-3 / G24q-3", "used to be G24q-3", "if G24q-3", "G24q-3 13W max"]
)
def test_a_holder_that_somebody_is_not_sure_of_is_asked_about(catalogue, holder):
    fixture = Fixture(holder=holder, ballast="electronic", ballast_watts=(26,))
    assert judge(catalogue, catalogue.lamp_by_id[QUAD], fixture, "lighting").verdict != "sell"


@pytest.mark.parametrize(
    "holder", ["G24q-3 2/500/T130", "G24q-3 75W 250V", "GX24q-3 / G24q-3", "Fassung G24q-3", "Ｇ24q‑3", "G 24 q - 3"]
)
def test_what_holders_bear_beside_their_name_is_no_other_name(catalogue, holder):
    fixture = Fixture(holder=holder, ballast="electronic", ballast_watts=(26,))
    assert judge(catalogue, catalogue.lamp_by_id[QUAD], fixture, "lighting").verdict == "sell"


@pytest.mark.parametrize("label", ["2 F40T12", "F40T12 rapid start", ""])
def test_the_everyday_tube_is_not_stopped_by_one_hardly_met(catalogue, label):
    fixture = Fixture(holder="G13", ballast="magnetic", ballast_watts=(40,), label=label)
    rules = {one.rule for one in judge(catalogue, catalogue.lamp_by_id["G13/40/linear/t12"], fixture).cautions}
    assert not rules & {"same-watts-other-length", "same-watts-other-tube"}


@pytest.mark.parametrize("label", ["26W T12", "T8 26W", "26W. Tubes T12"])
def test_a_tube_on_the_label_is_heard_without_only(catalogue, label):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,), label=label)
    rules = {one.rule for one in judge(catalogue, catalogue.lamp_by_id[QUAD], fixture).cautions}
    assert "labelled-tube" in rules


def test_a_tube_of_another_thickness_is_heard(catalogue):
    fixture = Fixture(holder="G13", ballast="electronic", ballast_watts=(32,), label="32W T12")
    rules = {one.rule for one in judge(catalogue, catalogue.lamp_by_id["G13/32/linear"], fixture).cautions}
    assert "labelled-tube" in rules
