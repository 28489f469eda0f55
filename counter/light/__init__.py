"""Light as numbers: exposure to ultraviolet, and colour. Pure computation.

Lives here: irradiance from a tubular lamp and the time to the daily limits (`_uv`, and `_bands` where only a
lamp's usual band is known), the weighting table
(`_weighting`), colour names and codes (`_names`), chromaticity (`_chromaticity`), the swatch for the screen
(`_swatch`), mired and matching (`_mired`), and what the command line prints (`_report`). The figures, each
with its source and confidence, are in resources/light.json, read by `_tables` on first use.

May import: the standard library, `counter.paths` and `counter.language`; nothing else.
"""

from __future__ import annotations

from counter.light._bands import (
    BandExposure,
    band,
    band_exposure,
    band_places,
    band_report,
    band_text,
    effective_limit,
    spectrum_note,
    strongest_nm,
)
from counter.light._chromaticity import chromaticity, daylight, planckian
from counter.light._colour import Colour, colour_of
from counter.light._mired import Match, match_word, matching, mired, mired_difference
from counter.light._report import colour_report, colour_text, duration_text, uv_report, uv_text
from counter.light._swatch import swatch
from counter.light._tables import Band, GermicidalShare, Limit, Place, StandardColour, WeightingRow, titles
from counter.light._uv import (
    CURVE_M,
    NOT_IN_A_DAY,
    Exposure,
    UvaExposure,
    curve,
    exposure,
    germicidal_share,
    irradiance_w_m2,
    places,
    uva_exposure,
    uva_eye_limit,
)
from counter.light._weighting import MERCURY_LINE_NM, effective_w_m2, weighting

__all__ = [
    "CURVE_M",
    "MERCURY_LINE_NM",
    "NOT_IN_A_DAY",
    "Band",
    "BandExposure",
    "Colour",
    "Exposure",
    "GermicidalShare",
    "Limit",
    "Match",
    "Place",
    "StandardColour",
    "UvaExposure",
    "WeightingRow",
    "band",
    "band_exposure",
    "band_places",
    "band_report",
    "band_text",
    "chromaticity",
    "colour_of",
    "colour_report",
    "colour_text",
    "curve",
    "daylight",
    "duration_text",
    "effective_limit",
    "effective_w_m2",
    "exposure",
    "germicidal_share",
    "irradiance_w_m2",
    "match_word",
    "matching",
    "mired",
    "mired_difference",
    "places",
    "planckian",
    "spectrum_note",
    "strongest_nm",
    "swatch",
    "titles",
    "uv_report",
    "uv_text",
    "uva_exposure",
    "uva_eye_limit",
    "weighting",
]
