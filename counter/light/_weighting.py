"""How strongly each wavelength harms eye and skin: the ICNIRP 2004 weighting."""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import TYPE_CHECKING

from counter.language import marked
from counter.light._bounds import within
from counter.light._tables import tables

if TYPE_CHECKING:
    from counter.light._tables import WeightingRow

MERCURY_LINE_NM = 254.0  # the table's row for the mercury line, which lies at 253.7 nm


def weighting(wavelength_nm: float) -> float:
    """Return the weight S (1 at 270 nm) from the ICNIRP 2004 table, log-linear between rows.

    The table covers 180 to 400 nm without a gap, so its fitted equations are not used: between 315 and
    325 nm they run 16 to 49 % above the rows.

    Raises:
        ValueError: the wavelength is outside 180 to 400 nm.
    """
    way_out = marked("Ultraviolet that the limit covers lies there.")
    nm = within(marked("The wavelength"), wavelength_nm, 180, 400, "nm", way_out)
    rows = tables().weighting
    right = bisect_left(rows, nm, key=lambda row: row.nm)
    if rows[right].nm == nm:
        return rows[right].s
    below, above = rows[right - 1], rows[right]
    share = (nm - below.nm) / (above.nm - below.nm)
    return math.exp((1 - share) * math.log(below.s) + share * math.log(above.s))


def row_at(wavelength_nm: float) -> WeightingRow:
    """Return the table's row nearest to a wavelength."""
    return min(tables().weighting, key=lambda row: abs(row.nm - wavelength_nm))


def effective_w_m2(irradiance_w_m2: float, wavelength_nm: float = MERCURY_LINE_NM) -> float:
    """Return the effective irradiance, W/m², of light of one wavelength."""
    return irradiance_w_m2 * weighting(wavelength_nm)
