"""Lamps for other than light, and savers: against the ICNIRP guidelines of 2004 and the trade's practice.

ICNIRP, Health Physics 87(2):171-186, 2004, Table 1 (rows as republished; those between from memory, checked against
its equations): weight 0.015 at 310 nm, 0.006 at 313 nm, 0.00011 at 365 nm; 30 J/m² effective in 8 h for eye and skin;
10 000 J/m² of UV-A unweighted for the eye.
"""

from __future__ import annotations

from math import atan, pi, sin

import pytest

from counter.catalogue import load
from counter.fit import Fixture, judge, replacements
from counter.fit.rules._beyond import time_to_limit_s

CATALOGUE = load()


def _irradiance(watts: float, arc_m: float, far_m: float) -> float:
    """Keitz: W/m² facing the middle of a bare tube."""
    a = atan(arc_m / (2 * far_m))
    return watts * (2 * a + sin(2 * a)) / (2 * pi**2 * far_m * arc_m)


def test_narrow_band_uvb_lies_between_the_rows_of_310_and_313_nm() -> None:
    irradiance = _irradiance(6, 0.415, 2.0)
    assert 30 / (irradiance * 0.015) < time_to_limit_s(6, 415, "uv-b-narrow") < 30 / (irradiance * 0.006)


def test_uva_is_limited_by_the_eye_before_the_skin() -> None:
    irradiance = _irradiance(8, 0.415, 2.0)
    assert time_to_limit_s(8, 415, "uv-a") == pytest.approx(10_000 / irradiance, rel=1e-9)
    assert 30 / (irradiance * 0.00011) > 10_000 / irradiance


@pytest.mark.parametrize("lamp", [one for one in CATALOGUE.lamps if one.is_ultraviolet], ids=lambda one: one.id)
def test_no_ultraviolet_lamp_is_ever_sold_to_see_by(lamp) -> None:
    """Common practice, no source: whatever the holder, the ballast and the label are."""
    for ballast in ("magnetic", "electronic", "unknown"):
        fixture = Fixture(holder=lamp.base, ballast=ballast, ballast_watts=(lamp.watts.value,))
        found = judge(CATALOGUE, lamp, fixture, "lighting")
        assert found.verdict == "do not sell"
        assert any(one.rule.startswith("uv") and one.verdict == "do not sell" for one in found.cautions)


def test_a_saver_is_offered_for_its_own_lamp_and_no_other() -> None:
    """From memory: the 25, 28 and 30 W savers of 4 ft stand in for 32 W, never for 17 or 25 W tubes of 2 and 3 ft."""
    electronic = Fixture(holder="G13", ballast="electronic")
    for name, saved in (("G13/32/linear", True), ("G13/17/linear", False), ("G13/25/linear", False)):
        lamps = {one.lamp for one in replacements(CATALOGUE, CATALOGUE.lamp_by_id[name], electronic, "lighting")}
        assert ("G13/28/linear/saver" in lamps) == saved, name


def test_a_three_foot_tube_is_never_offered_for_four_feet() -> None:
    """Common practice, no source: a tube must reach both holders."""
    listed = Fixture(holder="G13", ballast="electronic", ballast_watts=(25, 32))
    found = replacements(CATALOGUE, CATALOGUE.lamp_by_id["G13/32/linear"], listed, "lighting")
    assert "G13/25/linear" not in {one.lamp for one in found}
    seen = replacements(CATALOGUE, CATALOGUE.lamp_by_id["G13/25/linear"], listed, "lighting", seen_mm=1200.0)
    assert {one.lamp for one in seen if one.verdict == "sell"} <= {
        "G13/32/linear",
        "G13/25/linear",
        "G13/25/linear/saver",  # 4 ft, 25 W, and the label lists it
    }
    room = replacements(
        CATALOGUE, CATALOGUE.lamp_by_id["G13/25/linear"], listed.model_copy(update={"space_mm": 1200})
    )
    assert all(one.verdict == "do not sell" for one in room if one.lamp == "G13/25/linear")
