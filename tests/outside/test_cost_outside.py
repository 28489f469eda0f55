"""Cost over the years against a sum worked by hand. Common practice of lighting economics, no source."""

from __future__ import annotations

import pytest

from counter.shelf import CostOf, Usage, pay_back, yearly

# A corridor of 40 two-lamp fixtures: 26 W a lamp and its share of the ballast, 30 W; 8760 h a year at 0.12.
OLD = CostOf("26 W", 30, 6.00, 12_000)
LED = CostOf("LED", 12, 18.00, 50_000)
USE = Usage(hours=8760, rate=0.12, lamps=80)


def test_energy_and_lamps_as_worked_by_hand():
    # 0.030 kW x 8760 h = 262.8 kWh; x 0.12 = 31.536; x 80 = 2522.88.
    # Lamps: 8760 / 12000 = 0.73 a year; x 6 = 4.38; x 80 = 350.40.
    found = yearly(OLD, USE)
    assert found.energy == pytest.approx(2522.88)
    assert found.lamps == pytest.approx(350.40)


def test_pay_back_as_worked_by_hand():
    # LED: 0.012 x 8760 x 0.12 x 80 = 1009.152; 8760 / 50000 x 18 x 80 = 252.288. Saving 2873.28 - 1261.44 = 1611.84.
    # Extra at once (18 - 6) x 80 = 960; 960 / 1611.84 = 0.5956 years.
    found = pay_back(OLD, LED, USE)
    assert found.saving == pytest.approx(1611.84)
    assert found.years == pytest.approx(0.5956, abs=1e-4)


def test_what_saves_nothing_never_pays_back():
    assert pay_back(LED, OLD, USE).years is None


@pytest.mark.parametrize("lamp", [CostOf("x", -1, 1, 1), CostOf("x", 1, -1, 1), CostOf("x", 1, 1, 0)])
def test_figures_that_cannot_be_are_refused(lamp):
    with pytest.raises(ValueError, match=": "):
        yearly(lamp, USE)
