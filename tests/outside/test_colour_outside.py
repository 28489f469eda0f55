"""Colour against published figures and colour-science. The source of each check is named beside it."""

from __future__ import annotations

import warnings
from itertools import pairwise

import numpy as np
import pytest

from counter.light import chromaticity, colour_of, daylight, match_word, mired_difference, planckian
from counter.light._tables import tables

with warnings.catch_warnings():
    # Its plotting part says on import that Matplotlib is missing; nothing here plots.
    warnings.filterwarnings("ignore", message='"Matplotlib" related API features')
    import colour as science
    from colour.quality.cfi2017 import sd_reference_illuminant

OBSERVER = "CIE 1931 2 Degree Standard Observer"
CMFS = science.MSDS_CMFS[OBSERVER]
LOCUS_K = [*np.geomspace(1667, 25000, 80), 2222, 2600, 4000, 4500, 5000]
DAYLIGHT_K = [k for k in LOCUS_K if k >= 4000]


def cct_of(xy: tuple[float, float]) -> float:
    """Correlated colour temperature by Ohno 2013, as colour-science computes it."""
    uv = science.UCS_to_uv(science.XYZ_to_UCS(science.xy_to_XYZ(np.array(xy))))
    return float(science.temperature.uv_to_CCT_Ohno2013(uv)[0])


def xyz_of(spectrum: science.SpectralDistribution) -> np.ndarray:
    """By plain summation: the library's other method says aloud that it trims the observer to 780 nm."""
    return np.asarray(science.sd_to_XYZ(spectrum, CMFS, method="Integration"))


def worst(pairs: list[tuple[tuple[float, float], tuple[float, float]]]) -> float:
    return float(max(np.abs(np.subtract(a, b)).max() for a, b in pairs))


# IEC 60081, table of standard colours as republished: name, Tc K, x, y.
IEC60081 = [
    ("F2700", 2720, 0.463, 0.420),
    ("F3000", 2940, 0.440, 0.403),
    ("F3500", 3450, 0.409, 0.394),
    ("F4000", 4040, 0.380, 0.380),
    ("F5000", 5000, 0.346, 0.359),
    ("F6500", 6400, 0.313, 0.337),
]


@pytest.mark.parametrize(("name", "tc_k", "x", "y"), IEC60081)
def test_iec_60081_colours(name: str, tc_k: int, x: float, y: float) -> None:
    colour = colour_of(name)
    assert (colour.standard_cct_k, colour.x, colour.y) == (tc_k, x, y)
    assert cct_of((colour.x, colour.y)) == pytest.approx(tc_k, rel=0.006)  # x, y have three decimals


# ANSI C78.377, nominal colours of LED sources (K, target K, tolerance K, x, y). Temperatures as republished;
# x and y from GOST 34819-2021 Annex K from 2700 K up, as republished below.
C78377 = [
    (2200, 2238, 102, 0.5018, 0.4153),
    (2500, 2460, 120, 0.4806, 0.4141),
    (2700, 2725, 145, 0.4578, 0.4101),
    (3000, 3045, 175, 0.4338, 0.4030),
    (3500, 3465, 245, 0.4073, 0.3917),
    (4000, 3985, 275, 0.3818, 0.3797),
    (4500, 4503, 243, 0.3611, 0.3658),
    (5000, 5029, 283, 0.3447, 0.3553),
    (5700, 5667, 355, 0.3287, 0.3417),
    (6500, 6532, 510, 0.3123, 0.3282),
]


@pytest.mark.parametrize(("nominal_k", "target_k", "tolerance_k", "x", "y"), C78377)
def test_c78377_targets(nominal_k: int, target_k: int, tolerance_k: int, x: float, y: float) -> None:
    assert cct_of((x, y)) == pytest.approx(target_k, abs=2)  # the table and the reference agree
    assert chromaticity(target_k) == pytest.approx((x, y), abs=0.003)
    ours = colour_of(f"{nominal_k} K")
    assert abs(cct_of((ours.x, ours.y)) - target_k) < tolerance_k


# C78.377 again: what is sold under a fluorescent lamp's nominal temperature lies in the LED tolerance too.
@pytest.mark.parametrize(("code", "row"), [("827", 2), ("830", 3), ("835", 4), ("840", 5), ("850", 7), ("865", 9)])
def test_codes_lie_in_the_led_tolerance(code: str, row: int) -> None:
    _, target_k, tolerance_k, _, _ = C78377[row]
    ours = colour_of(code)
    assert abs(cct_of((ours.x, ours.y)) - target_k) < tolerance_k


def test_planckian_locus_against_plancks_law() -> None:
    """colour-science integrates Planck's law; 0.0006 is what the published spline gives away."""

    def law(cct_k: float) -> tuple[float, float]:
        x, y = science.XYZ_to_xy(xyz_of(science.sd_blackbody(cct_k, CMFS.shape)))
        return float(x), float(y)

    assert worst([(planckian(k), law(k)) for k in LOCUS_K]) < 0.0006


def test_planckian_locus_is_the_published_spline() -> None:
    """Kim et al. 2002, as colour-science has it."""
    spline = science.temperature.CCT_to_xy_Kang2002
    assert worst([(planckian(k), tuple(spline(k))) for k in LOCUS_K]) < 1e-9


def test_daylight_locus() -> None:
    """CIE 15, as colour-science has it."""
    locus = science.temperature.CCT_to_xy_CIE_D
    assert worst([(daylight(k), tuple(locus(k))) for k in DAYLIGHT_K]) < 1e-9


# The library says aloud that it samples the observer and the equal-energy light like the mixed spectrum, as
# it should.
@pytest.mark.filterwarnings('ignore:Aligning "(CIE 1931 2 Degree Standard Observer|E)" (cmfs|illuminant) shape')
def test_the_rule_is_the_reference_illuminant_of_cie_224() -> None:
    """colour-science builds the reference illuminant of CIE 224:2017 as a spectrum."""

    def reference(cct_k: float) -> tuple[float, float]:
        spectrum = sd_reference_illuminant(cct_k, CMFS.shape)
        x, y = science.XYZ_to_xy(xyz_of(spectrum))
        return float(x), float(y)

    pairs = [(k, chromaticity(k), reference(k)) for k in LOCUS_K]
    assert worst([(a, b) for _, a, b in pairs]) < 0.0006
    assert worst([(a, b) for k, a, b in pairs if k >= 4000]) < 0.0002


@pytest.mark.parametrize("cct_k", [1700, 2200, 2700, 3000, 3500, 4100, 4500, 4900, 5000, 5700, 6500, 7500, 20000])
def test_the_chromaticity_has_its_temperature(cct_k: int) -> None:
    """colour-science, Ohno 2013."""
    assert cct_of(chromaticity(cct_k)) == pytest.approx(cct_k, rel=0.0035)


# CIE 15 fluorescent illuminants FL1, FL3 and FL4: the IEC 60081 colours are these, to rounding.
@pytest.mark.parametrize(("name", "illuminant"), [("F6500", "FL1"), ("F3500", "FL3"), ("F3000", "FL4")])
def test_standard_colours_are_cie_illuminants(name: str, illuminant: str) -> None:
    ours = colour_of(name)
    x, y = science.CCS_ILLUMINANTS[OBSERVER][illuminant]
    assert (ours.x, ours.y) == pytest.approx((x, y), abs=0.0003)


# CIE 15 three-band illuminants: which code each stands for is common practice, no source. Their Ra is
# computed by colour-science from the spectrum (CIE 13.3).
@pytest.mark.parametrize(("code", "illuminant"), [("830", "FL12"), ("840", "FL11"), ("850", "FL10")])
def test_three_band_codes(code: str, illuminant: str) -> None:
    ours = colour_of(code)
    x, y = science.CCS_ILLUMINANTS[OBSERVER][illuminant]
    assert (ours.x, ours.y) == pytest.approx((x, y), abs=0.0035)
    rendering = science.colour_rendering_index(science.SDS_ILLUMINANTS[illuminant])
    assert ours.cri_min is not None
    assert ours.cri_max is not None
    assert ours.cri_min <= rendering < ours.cri_max + 1


# CIE 15 halophosphate illuminants by the older letters (cool white, white, warm white, daylight): common
# practice, no source. Ra by colour-science; the ranges of the letters come from a textbook and from memory.
@pytest.mark.parametrize(("letters", "illuminant"), [("D", "FL1"), ("CW", "FL2"), ("W", "FL3"), ("WW", "FL4")])
def test_older_letters(letters: str, illuminant: str) -> None:
    ours = colour_of(letters)
    xy = science.CCS_ILLUMINANTS[OBSERVER][illuminant]
    assert mired_difference(ours.cct_k, cct_of(tuple(xy))) < 11
    rendering = science.colour_rendering_index(science.SDS_ILLUMINANTS[illuminant])
    assert ours.cri_min is not None
    assert ours.cri_max is not None
    assert ours.cri_min - 3 < rendering < ours.cri_max + 3


# Three-digit codes: first digit the Ra class, last two hundreds of kelvins (several sources; a textbook has
# RE830). Mired calculated, one decimal.
@pytest.mark.parametrize(
    ("code", "cct_k", "cri_min", "mired"),
    [
        ("827", 2700, 80, 370.4),
        ("830", 3000, 80, 333.3),
        ("835", 3500, 80, 285.7),
        ("840", 4000, 80, 250.0),
        ("841", 4100, 80, 243.9),
        ("850", 5000, 80, 200.0),
        ("865", 6500, 80, 153.8),
        ("730", 3000, 70, 333.3),
        ("735", 3500, 70, 285.7),
        ("741", 4100, 70, 243.9),
        ("765", 6500, 70, 153.8),
        ("927", 2700, 90, 370.4),
        ("930", 3000, 90, 333.3),
        ("940", 4000, 90, 250.0),
        ("950", 5000, 90, 200.0),
        ("965", 6500, 90, 153.8),
    ],
)
def test_three_digit_codes(code: str, cct_k: int, cri_min: int, mired: float) -> None:
    for text in (code, f"RE{code}"):
        ours = colour_of(text)
        assert (ours.cct_k, ours.cri_min) == (cct_k, cri_min)
        assert ours.mired == pytest.approx(mired, abs=0.05)


# Older letters, CCT and Ra ranges: CW and WW from a textbook on interior lighting, the rest from memory
# (medium; C75 low).
@pytest.mark.parametrize(
    ("letters", "cct_range_k", "cri_range"),
    [
        ("CW", (4100, 4200), (60, 62)),
        ("WW", (3000, 3000), (52, 53)),
        ("W", (3450, 3500), (57, 60)),
        ("D", (6250, 6500), (75, 79)),
        ("CWX", (4100, 4200), (87, 90)),
        ("WWX", (2900, 3000), (73, 79)),
        ("N", (3400, 3700), (86, 90)),
        ("LW", (4100, 4200), (48, 51)),
        ("C50", (5000, 5000), (90, 92)),
        ("C75", (7500, 7500), (91, 95)),
    ],
)
def test_older_letters_ranges(letters: str, cct_range_k: tuple[int, int], cri_range: tuple[int, int]) -> None:
    ours = colour_of(letters)
    assert (ours.cct_range_k, (ours.cri_min, ours.cri_max)) == (cct_range_k, cri_range)


# Steps between neighbours, calculated from the IES definition of reciprocal colour temperature, 10⁶ / T.
@pytest.mark.parametrize(
    ("a_k", "b_k", "difference", "word"),
    [
        (2700, 3000, 37.0, "clearly different"),
        (3000, 3500, 47.6, "clearly different"),
        (3500, 4000, 35.7, "clearly different"),
        # The least difference seen is about 5.5 mired (memory, medium): 840 beside 841 is at the threshold.
        (4000, 4100, 6.1, "just noticeable"),
        (4100, 5000, 43.9, "clearly different"),
        (5000, 6500, 46.2, "clearly different"),
    ],
)
def test_mired_steps(a_k: int, b_k: int, difference: float, word: str) -> None:
    assert mired_difference(a_k, b_k) == pytest.approx(difference, abs=0.05)
    assert match_word(mired_difference(a_k, b_k)) == word


def test_mired_against_colour_science() -> None:
    for cct_k in LOCUS_K:
        reference = science.temperature.CCT_to_mired(cct_k)
        assert mired_difference(cct_k, 4000) == pytest.approx(abs(reference - 250))


CODES = ("827", "830", "835", "840", "850", "865")


def card_in_the_shop(code: str) -> np.ndarray:
    """CAM16-UCS a', b' of a white card of 80 % lit by the lamp; shop adapted to 4000 K, card under 500 lx."""
    ours = colour_of(code)
    card = science.xyY_to_XYZ([ours.x, ours.y, 80])
    white = science.xyY_to_XYZ([*planckian(4000), 100])
    return _cam16_ab(card, white)


def card_on_the_screen(code: str) -> np.ndarray:
    """The same of the swatch, on a screen whose white is D65."""
    rgb = np.array(list(bytes.fromhex(colour_of(code).srgb[1:]))) / 255
    return _cam16_ab(science.sRGB_to_XYZ(rgb) * 100, science.xyY_to_XYZ([0.3127, 0.3290, 100]))


def _cam16_ab(xyz: np.ndarray, white: np.ndarray) -> np.ndarray:
    luminance = 0.2 * 500 / np.pi
    seen = science.XYZ_to_CAM16(xyz, white, luminance, 20, science.VIEWING_CONDITIONS_CAM16["Average"])
    return np.asarray(science.JMh_CAM16_to_CAM16UCS(np.array([seen.J, seen.M, seen.h])))[1:]


@pytest.mark.parametrize(("a", "b"), [("827", "865"), *pairwise(CODES)])
def test_swatches_differ_as_much_as_in_the_shop(a: str, b: str) -> None:
    """CAM16 of colour-science, chromatic part: lightness is left out, bright tints are dimmed into gamut."""
    shop = np.linalg.norm(card_in_the_shop(a) - card_in_the_shop(b))
    screen = np.linalg.norm(card_on_the_screen(a) - card_on_the_screen(b))
    assert screen == pytest.approx(shop, rel=0.11)


def test_all_standard_colours_are_checked() -> None:
    assert {row.name for row in tables().standard} == {name for name, *_ in IEC60081}
