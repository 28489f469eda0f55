"""Verdicts against what standards, law and the trade say; the source stands beside each table.

- IEC60061-4: guidelines, cl. 3.1.2 (X, Y, Z, U: not, or not fully, interchangeable) and 3.4 (key configuration), as
  reproduced.
- IEC60061-3/G24: gauge sheet for G24, GX24 and GY24 holders (Amend. 29): the holder may have a stop against two-pin
  caps.
- FR-2001-1131: French decree 2001-1131, article 3 (transposes Directive 2000/55/EC): nominal watts at 50 Hz and HF.
- TEXT-ILD: "Interior Lighting for Designers", ch. 7: pins, starters, dimming of six families.
- IOA-2007 (Keitz equation) and ICNIRP-2004 (60 J/m² at 254 nm): times worked from them by hand.
- WIKI-GU24, CA-GLOSS: encyclopaedia and state code glossary on GU24: mains on the pins.
- CA-AB2208, WA-HB1185, IL-HB2363, CO-HB1161, VT-120, EU-RoHS-news, EU-2022-281, WTO-EU813, MC-5/4: acts, bills,
  notifications and decisions, by their numbers.
- IES-GUV: IES committee FAQ on germicidal UV, as republished.
- EPA-CFL: US EPA clean-up guidance, as republished.
- "memory": from memory, no source at hand. "practice": common practice, no source.
"""

from __future__ import annotations

import math
from datetime import date

import pytest

from counter.catalogue import load
from counter.fit import Fixture, broken_steps, judge, law, look_alikes, replacements
from counter.fit.rules._use import time_to_limit_s

CATALOGUE = load()


def _verdict(lamp: str, use: str = "lighting", **fixture: object) -> str:
    return judge(CATALOGUE, CATALOGUE.lamp_by_id[lamp], Fixture.model_validate(fixture), use).verdict  # type: ignore[arg-type]


# What goes where. Mechanical side IEC60061-3/G24 and IEC60061-4; electrical side from memory (high) unless said.
INTERCHANGE = [
    ("G24d-3/26/quad", {"holder": "G24q-3"}, "do not sell", "IEC60061-3/G24"),
    ("GX24d-3/26/triple", {"holder": "GX24q-3"}, "do not sell", "IEC60061-3/G24"),
    ("G24q-3/26/quad", {"holder": "G24d-3"}, "do not sell", "IEC60061-4"),
    ("G24q-1/13/quad", {"holder": "G24q-2"}, "do not sell", "IEC60061-4"),
    ("G24q-3/26/quad", {"holder": "G24q-2"}, "do not sell", "IEC60061-4"),
    ("G24q-3/26/quad", {"holder": "GX24q-3"}, "do not sell", "IEC60061-4"),
    (
        "G24q-3/26/quad",
        {"holder": "G24q-3/GX24q-3", "ballast": "electronic", "ballast_watts": (26,)},
        "sell",
        "memory",
    ),
    (
        "GX24q-3/32/triple",
        {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26,)},
        "do not sell",
        "memory",
    ),
    (
        "GX24q-3/32/triple",
        {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26, 32)},
        "sell",
        "memory",
    ),
    (
        "GX24q-3/26/triple",
        {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26, 32)},
        "sell",
        "memory",
    ),
    (
        "GX24q-4/42/triple",
        {"holder": "GX24q-3", "ballast": "electronic", "ballast_watts": (26, 32, 42)},
        "do not sell",
        "memory",
    ),
    (
        "GX24q-4/42/triple",
        {"holder": "GX24q-4", "ballast": "electronic", "ballast_watts": (26, 32, 42)},
        "sell",
        "memory",
    ),
    ("GX23/13/twin", {"holder": "G23"}, "do not sell", "memory"),
    ("G23/9/twin", {"holder": "GX23"}, "do not sell", "memory"),
    ("2G11/40/long-twin", {"holder": "2G11", "ballast": "magnetic"}, "do not sell", "memory"),
    ("2G11/55/long-twin", {"holder": "2G11", "ballast": "magnetic"}, "do not sell", "memory"),
    ("2G11/80/long-twin", {"holder": "2G11", "ballast": "magnetic"}, "do not sell", "memory"),
    ("GR8/28/square", {"holder": "GR10q"}, "do not sell", "memory"),
    ("GR10q/28/square", {"holder": "GR8"}, "do not sell", "memory"),
    ("GU24/13", {"holder": "GU24", "ballast": "electronic"}, "do not sell", "WIKI-GU24, CA-GLOSS"),
    ("GX53/9", {"holder": "GX53", "ballast": "magnetic"}, "do not sell", "memory"),
    (
        "2G11/36/long-twin/uv-c",
        {"holder": "2G11", "ballast": "electronic", "ballast_watts": (36,)},
        "do not sell",
        "IES-GUV",
    ),
]


@pytest.mark.parametrize(("lamp", "fixture", "verdict", "source"), INTERCHANGE)
def test_interchange(lamp, fixture, verdict, source):
    assert _verdict(lamp, **fixture) == verdict, source


# From memory (medium): one 230 V choke class serves 5, 7, 9 and 11 W, 0.180 to 0.155 A; on 120 V not 11 W. So it is
# a question, but for the two ends of the class, which are 16 % apart.
@pytest.mark.parametrize(
    ("lamp", "listed", "verdict"),
    [
        ("G23/9/twin", 5, "ask first"),
        ("G23/9/twin", 7, "ask first"),
        ("G23/9/twin", 9, "sell"),
        ("G23/11/twin", 7, "ask first"),
        ("G23/11/twin", 9, "ask first"),
        ("G23/11/twin", 5, "do not sell"),
        ("G23/11/twin", 13, "do not sell"),
    ],
)
def test_one_choke_class_of_the_small_twins(lamp, listed, verdict):
    assert _verdict(lamp, holder="G23", ballast="magnetic", ballast_watts=(listed,)) == verdict


# From memory (medium to high): 18, 24 and 36 W of 2G11 and 2G10 draw 0.375, 0.345 and 0.435 A: ballast-specific.
CURRENTS_A = {18: 0.375, 24: 0.345, 36: 0.435}


@pytest.mark.parametrize("base", ["2G11", "2G10"])
@pytest.mark.parametrize("own", CURRENTS_A)
@pytest.mark.parametrize("listed", CURRENTS_A)
def test_same_cap_other_current(base, own, listed):
    lamp = next(one for one in CATALOGUE.lamps if (one.base, one.watts.value, one.kind) == (base, own, "fluorescent"))
    said = judge(CATALOGUE, lamp, Fixture(holder=base, ballast="magnetic", ballast_watts=(listed,)), "lighting")
    if own == listed:
        assert said.verdict == "sell"
        return
    assert said.verdict == "do not sell"
    ratio = next(one.figure for one in said.cautions if one.unit == "times the lamp's current")
    assert ratio == pytest.approx(CURRENTS_A[listed] / CURRENTS_A[own], abs=5e-4)


# FR-2001-1131 art. 3: nominal watts at 50 Hz and lamp power on an HF ballast. Which base is which of the law's
# categories is from memory. A ballast that lists the nominal watts runs the lamp.
LAW_WATTS = [
    ("2G11", 18, 16),
    ("2G11", 24, 22),
    ("2G11", 36, 32),
    ("2G10", 18, 16),
    ("2G10", 24, 22),
    ("2G10", 36, 32),
    ("G24q-1", 10, 9.5),
    ("G24q-1", 13, 12.5),
    ("G24q-2", 18, 16.5),
    ("G24q-3", 26, 24),
    ("GX24q-2", 18, 16),
    ("GX24q-3", 26, 24),
    ("GR10q", 10, 9),
    ("GR10q", 16, 14),
    ("GR10q", 21, 19),
    ("GR10q", 28, 25),
    ("GR10q", 38, 34),
]


@pytest.mark.parametrize(("base", "mains_w", "hf_w"), LAW_WATTS)
@pytest.mark.parametrize("ballast", ["magnetic", "electronic"])
def test_lamps_of_the_law_run_on_both_kinds_of_ballast(base, mains_w, hf_w, ballast):
    lamp = next(
        one for one in CATALOGUE.lamps if (one.base, one.watts.value, one.kind) == (base, mains_w, "fluorescent")
    )
    assert (lamp.mains.power_w.value, lamp.hf.power_w.value) == (mains_w, hf_w)
    assert _verdict(lamp.id, holder=base, ballast=ballast, ballast_watts=(mains_w,)) == "sell"


# TEXT-ILD ch. 7: two pins, starter in the base, magnetic (reactor or autotransformer) only, never dimmed;
# four pins, no starter, electronic or preheat, dimmable.
@pytest.mark.parametrize(
    ("lamp", "pins", "on_electronic", "dims"),
    [
        ("G23/9/twin", 2, False, False),
        ("GX23/13/twin", 2, False, False),
        ("G24d-2/18/quad", 2, False, False),
        ("G24d-3/26/quad", 2, False, False),
        ("G24q-2/18/quad", 4, True, True),
        ("G24q-3/26/quad", 4, True, True),
        ("GX24q-2/18/triple", 4, True, True),
        ("GX24q-4/42/triple", 4, True, True),
        ("2G11/18/long-twin", 4, True, True),
        ("2G11/80/long-twin", 4, True, True),
    ],
)
def test_starter_rule(lamp, pins, on_electronic, dims):
    entry = CATALOGUE.lamp_by_id[lamp]
    base = CATALOGUE.base_of(entry)
    own = {"holder": entry.base, "ballast_watts": (entry.watts.value,)}
    assert base.pins.value == pins
    assert base.starter.value == ("internal" if pins == 2 else "external")
    assert (_verdict(lamp, ballast="electronic", **own) == "sell") is on_electronic
    assert (_verdict(lamp, ballast="dimming", dimmer=True, **own) == "sell") is dims
    # "electronic" alone does not say whether the ballast dims, so a lamp that can be dimmed is asked about.
    assert _verdict(lamp, ballast="electronic", dimmer=True, **own) == ("ask first" if dims else "do not sell")


# Keitz (IOA-2007) with ICNIRP-2004, worked by hand at 2 m; watts of UV-C and arc lengths are assumptions.
@pytest.mark.parametrize(
    ("uvc_w", "arc_mm", "seconds"), [(2.4, 130, 988), (11.0, 360, 216), (4.7, 360, 507), (12.0, 810, 203)]
)
def test_time_to_the_daily_limit_at_two_metres(uvc_w, arc_mm, seconds):
    assert time_to_limit_s(uvc_w, arc_mm)[0] == pytest.approx(seconds, rel=0.005)
    angle = math.atan(arc_mm / 4000)
    irradiance = uvc_w * (2 * angle + math.sin(2 * angle)) / (2 * math.pi**2 * 2.0 * arc_mm / 1000)
    assert 60 / irradiance == pytest.approx(time_to_limit_s(uvc_w, arc_mm)[0], rel=1e-9)


# IES-GUV: about 45 % of the input power leaves a low-pressure lamp at 254 nm. What small lamps give is from memory,
# less, and in no text that could be read: so a time until harm is never longer than by that share.
@pytest.mark.parametrize("lamp", [one for one in CATALOGUE.lamps if one.kind == "uv-c" and one.lengths_mm])
def test_no_time_until_harm_is_longer_than_at_the_share_that_a_text_names(lamp):
    found = judge(CATALOGUE, lamp, Fixture(holder=lamp.base, ballast="magnetic"), "lighting")
    said = next(one for one in found.cautions if one.rule == "uvc-in-lighting")
    arc_mm = (lamp.arc_mm or lamp.length_mm).value
    assert said.figure == int(time_to_limit_s(0.45 * lamp.watts.value, arc_mm)[0])
    assert lamp.uvc_w is None or said.figure <= time_to_limit_s(lamp.uvc_w.value, arc_mm)[0]


# IES-GUV: germicidal lamps match lighting lamps in shape and connection; so each is named for its twin, and no
# lighting use ever gets one.
def test_no_germicidal_lamp_reaches_a_lighting_fixture():
    for lamp in CATALOGUE.lamps:
        if lamp.kind == "uv-c":
            said = judge(CATALOGUE, lamp, Fixture(), "lighting")
            assert (said.verdict, said.cautions[0].signal) == ("do not sell", "DANGER")
            assert look_alikes(CATALOGUE, {lamp.id: 1.0})[0].signal == "WARNING"


# Sale of new lamps ends: place, lamp, date, source.
DATES = [
    ("us-ca", "G24q-3/26/quad", "2025-01-01", "CA-AB2208"),
    ("us-ca", "G13/36/linear", "2025-01-01", "CA-AB2208"),
    ("us-co", "G24q-3/26/quad", "2025-01-01", "CO-HB1161"),
    ("us-il", "G24q-3/26/quad", "2027-01-01", "IL-HB2363"),
    ("us-il", "G13/36/linear", "2027-01-01", "IL-HB2363"),
    ("us-wa", "G24q-3/26/quad", "2029-01-01", "WA-HB1185"),
    ("us-wa", "G13/36/linear", "2029-01-01", "WA-HB1185"),
    ("us-vt", "G13/36/linear", "2024-01-01", "VT-120"),
    ("us-hi", "G24q-3/26/quad", "2026-01-01", "HI-SB2142"),
    ("us-me", "G24q-3/26/quad", "2026-01-01", "ME-1672"),
    ("us-mn", "G24q-3/26/quad", "2026-01-01", "MN-116"),
    ("us-or", "G24q-3/26/quad", "2025-01-01", "OR-459"),
    ("us-ri", "G24q-3/26/quad", "2025-01-01", "RI-23-24.9"),
    ("uk", "G24q-3/26/quad", "2024-02-01", "memory"),
    ("eu", "G24q-3/26/quad", "2023-02-24", "EU-RoHS-news"),
    ("eu", "G13/36/linear", "2023-08-24", "EU-RoHS-news"),
    ("eu", "G23/9/twin/uv-c", "2027-02-24", "EU-2022-281"),
]


@pytest.mark.parametrize(("place", "lamp", "day", "source"), DATES)
def test_law_dates(place, lamp, day, source):
    first = law(CATALOGUE, place, date.fromisoformat(day), CATALOGUE.lamp_by_id[lamp])[0]
    assert (first.ends, first.source, first.has_ended) == (date.fromisoformat(day), source, True)


# WTO-EU813: exemption 1(g) not renewed, 18 months from 24 Feb 2022.
def test_long_life_lamps_under_30_w_had_18_months():
    notes = law(CATALOGUE, "eu", date(2023, 8, 24), CATALOGUE.lamp_by_id["G24q-3/26/quad"])
    assert next(note.ends for note in notes if note.source == "WTO-EU813") == date(2023, 8, 24)


# MC-5/4 (2023): all fluorescent lamps by 2027; single classes 2026 from memory.
@pytest.mark.parametrize(
    ("lamp", "year"), [("G13/36/linear", 2027), ("2GX13/40/circular", 2027), ("G24q-3/26/quad", 2026)]
)
def test_convention(lamp, year):
    note = law(CATALOGUE, "world", None, CATALOGUE.lamp_by_id[lamp])[-1]
    assert note.ends == date(year, 12, 31)


# WA-HB1185: lamps mainly for ultraviolet are exempt.
def test_ultraviolet_is_exempt_in_washington():
    note = law(CATALOGUE, "us-wa", date(2030, 1, 1), CATALOGUE.lamp_by_id["G13/30/linear/uv-c"])[0]
    assert (note.ends, note.what.startswith("exempt")) == (None, True)


# EPA-CFL: before, during, after; air out 5 to 10 minutes; no vacuum cleaner on hard floors; about 15 minutes later.
@pytest.mark.parametrize(
    ("when", "words"),
    [
        ("before", "pets"),
        ("before", "5 to 10 minutes"),
        ("before", "forced-air heating"),
        ("before", "glass jar with a metal lid"),
        ("during", "tape"),
        ("during", "Do not use a vacuum cleaner on a hard floor"),
        ("after", "several hours"),
        ("after", "Wash your hands"),
        ("after", "about 15 minutes"),
    ],
)
def test_clean_up_steps(when, words):
    assert any(step.when == when and words in step.step for step in broken_steps())


# Trade descriptions of LED types (reproduced): A on a listed ballast, B on mains without one, C on its own driver.
@pytest.mark.parametrize(
    ("ballast", "open_to"),
    [("electronic", {"A", "A+B"}), ("bypassed", {"B", "A+B"}), ("led-driver", {"C"})],
)
def test_led_types(ballast, open_to):
    found = replacements(CATALOGUE, CATALOGUE.lamp_by_id["G13/36/linear"], Fixture(holder="G13", ballast=ballast))
    assert {one.led_type for one in found if one.led_type and one.verdict != "do not sell"} == open_to
