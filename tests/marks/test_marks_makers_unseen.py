"""Makers' codes that were written down, with what they say, before the reader was made ready for them."""

from __future__ import annotations

import random

import pytest

from counter import marks
from tests.simulate_makers import maker, worn

# code: watts, colour temperature, colour rendering, pins and base where they are printed, letters that are the
# maker's own (None: either way), and the kind: "uv?" where lighting and germicidal lamps must both stay.
# "A" of the last but one is a maker's too, but a word by itself says nothing of a lamp and is not offered.
CODES = [
    ("F18YK/830/ECO", 18, 3000, 80, None, None, ("YK",), None),
    ("WZ-11W-G23-827", 11, 2700, 80, 2, "G23", ("WZ",), None),
    ("26BVD/4P/ZQ35", 26, 3500, None, 4, None, ("BVD", "ZQ"), None),
    ("JX 13 W/41K/E", 13, 4100, None, 4, None, ("JX",), None),
    ("VRL40/2G11/841/IS", 40, 4100, 80, 4, "2G11", ("VRL",), None),
    ("CF26HN/840/4P/LL", 26, 4000, 80, 4, None, ("HN",), None),
    ("835-18NVD-G24q-2", 18, 3500, 80, 4, "G24q-2", ("NVD",), None),
    ("G24D-1 13JB 27K", 13, 2700, None, 2, "G24d-1", ("JB",), None),
    ("F13JB/ZQ27/GX23", 13, 2700, None, 2, "GX23", ("JB", "ZQ"), None),
    ("JB7W/830/2P", 7, 3000, 80, 2, None, ("JB",), None),
    ("YTR42W-GX24q-4-841", 42, 4100, 80, 4, "GX24q-4", ("YTR",), None),
    ("YTR/57/835/4P", 57, 3500, 80, 4, None, ("YTR",), None),
    ("32 YTR 4P 30K", 32, 3000, None, 4, None, ("YTR",), None),
    ("F55LV/2G11/4000K/RS", 55, 4000, None, 4, "2G11", ("LV",), None),
    ("LV-18/2G11/RE830", 18, 3000, 80, 4, "2G11", ("LV",), None),
    ("38DSQ/GR10q/835", 38, 3500, 80, 4, "GR10q", ("DSQ",), None),
    ("DSQ16W/2P/827/GR8", 16, 2700, 80, 2, "GR8", ("DSQ",), None),
    ("KZF24/2G10/830", 24, 3000, 80, 4, "2G10", ("KZF",), None),
    ("F17T8/VY/841/ECO", 17, 4100, 80, 2, None, ("VY",), None),
    ("F54T5/XZ/835/HO", 54, 3500, 80, 2, None, ("XZ",), None),
    ("VY F32T8/835", 32, 3500, 80, 2, None, ("VY",), None),
    ("CFTR26W/GX24q/ZQ41", 26, 4100, None, 4, "GX24q", ("ZQ",), None),
    ("F9WK/827/2P", 9, 2700, 80, 2, None, None, None),
    ("BXD18E/35K", 18, 3500, None, 4, None, ("BXD",), None),
    ("BXD-26-HF-840", 26, 4000, 80, 4, None, ("BXD",), None),
    ("PNL36W/840/4PIN", 36, 4000, 80, 4, None, ("PNL",), None),
    ("TKQ5/827", 5, 2700, 80, None, None, ("TKQ",), None),
    ("CF9DK/841/G23/ECO", 9, 4100, 80, 2, "G23", ("DK",), None),
    ("HQ70/GX24q-6/ZQ30/XL", 70, 3000, None, 4, "GX24q-6", ("HQ", "ZQ"), None),
    ("NRX 10W G24d-1 2700K", 10, 2700, None, 2, "G24d-1", ("NRX",), None),
    ("13W-VJ-G24Q-1-950", 13, 5000, 90, 4, "G24q-1", ("VJ",), None),
    ("F26VJ/CW/4P", 26, 4100, 60, 4, None, ("VJ",), None),
    ("VJ.18.840.4P", 18, 4000, 80, 4, None, ("VJ",), None),
    ("VJ_26_830", 26, 3000, 80, None, None, ("VJ",), None),
    ("VJ(26W)841", 26, 4100, 80, None, None, ("VJ",), None),
    ("GVX36W/2G11", 36, None, None, 4, "2G11", ("GVX",), "uv?"),
    ("BUV9/G23", 9, None, None, 2, "G23", (), "uv-c"),
    ("KP11W/G23/UVC", 11, None, None, 2, "G23", ("KP",), "uv-c"),
    ("F11YK/835 0923", 11, 3500, 80, None, None, ("YK",), None),
    ("26BVD/841 #40213", 26, 4100, 80, None, None, ("BVD",), None),
    ("HN26/840/12-04", 26, 4000, 80, None, None, ("HN",), None),
    ("MD 26 W 4000 K 4 PIN", 26, 4000, None, 4, None, ("MD",), None),
    ("F42TBX/835/A/ECO", 42, 3500, 80, None, None, ("TBX",), None),
    ("Q18NVD/E/ZQ65", 18, 6500, None, 4, None, None, None),
    ("T-R 42W/840/4P", 42, 4000, 80, 4, None, ("T", "R"), None),  # a ring of 42 W there is not
    ("F13TBX/827", 13, 2700, 80, None, None, ("TBX",), None),
    ("FR10W-5000K", 10, 5000, None, None, None, ("FR",), None),
    ("F11XK/846", 11, 4000, 80, None, None, ("XK",), None),  # no lamp is made in 4600 K: a worn 840
    ("RX26W-890-YS", 26, 4000, 80, None, None, ("RX", "YS"), None),
]


@pytest.mark.parametrize(("code", "watts", "cct_k", "cri_min", "pins", "base", "own", "kind"), CODES)
def test_code(shipped, code, watts, cct_k, cri_min, pins, base, own, kind):
    found = marks.read(shipped, code)
    best = found.readings[0]
    assert (best.lamp.watts, best.lamp.cct_k, best.lamp.cri_min, best.lamp.base) == (watts, cct_k, cri_min, base)
    assert pins in (None, best.lamp.pins)
    assert own in (None, found.makers)
    kinds = {shipped.lamp_by_id[lamp].kind for lamp in best.lamps}
    assert kinds, "some lamp type of the catalogue is meant"
    assert kind in (None, "uv?", best.lamp.kind)
    assert kind != "uv?" or {"uv-c", "fluorescent"} <= kinds


@pytest.mark.parametrize("number", range(12))
def test_a_germicidal_lamp_stays_in_the_running(shipped, number):
    """Whatever a maker's letters are: while nothing in the code says white, its own germicidal lamp is not lost."""
    rng = random.Random(9000 + number)
    made = maker(rng, number)
    codes = [one for one in (made.code(rng) for _ in range(80)) if one.lamp.kind == "uv-c"]
    for code in codes:
        found = marks.read(shipped, code.text)
        assert found.likelihood.get(code.lamp.id, found.floor) >= 0.01, code.text
    for text, code in worn(codes, rng):
        found = marks.read(shipped, text)
        of_uv = [one for lamp, one in found.likelihood.items() if shipped.lamp_by_id[lamp].kind == "uv-c"]
        is_held = bool(found.unread) or not found.readings
        assert is_held or max(of_uv, default=found.floor) >= 0.01, (text, code.text)
