"""A white card in the light of a lamp, as a shop's customer sees it, for an sRGB screen."""

from __future__ import annotations

import math

from counter.light._chromaticity import planckian

# The eye in the shop is adapted to general light of 4000 K, as far as CIECAM16 says for an average surround
# and a white card under 500 lx: D = 1 - exp(-(L + 42) / 92) / 3.6 with L = 0.2 x 500 / pi = 31.8 cd/m².
# The shop's light is our choice: then 840 looks white, 827 warm and 865 cool, as customers say.
SHOP_LIGHT_K = 4000
ADAPTING_CD_M2 = 0.2 * 500 / math.pi
DEGREE = 1 - math.exp(-(ADAPTING_CD_M2 + 42) / 92) / 3.6
CARD_LUMINANCE = 0.8  # of the screen's white, which leaves room for the tint of a neutral card

Triple = tuple[float, float, float]
Matrix = tuple[Triple, Triple, Triple]

_D65 = (0.3127, 0.3290)
# CAT16, Li et al. 2017.
_CAT16: Matrix = (
    (0.401288, 0.650173, -0.051461),
    (-0.250268, 1.204414, 0.045854),
    (-0.002079, 0.048952, 0.953127),
)
_TO_SRGB: Matrix = (  # IEC 61966-2-1, XYZ to linear
    (3.2406, -1.5372, -0.4986),
    (-0.9689, 1.8758, 0.0415),
    (0.0557, -0.2040, 1.0570),
)


def swatch(x: float, y: float) -> str:
    """Return "#rrggbb" for a white card lit by light of CIE 1931 chromaticity (x, y)."""
    return "#" + "".join(f"{round(255 * _companded(v)):02x}" for v in _fitted(_linear(x, y)))


def _linear(x: float, y: float) -> Triple:
    shop, screen = _times(_CAT16, _xyz(*planckian(SHOP_LIGHT_K))), _times(_CAT16, _xyz(*_D65))
    card = _times(_CAT16, _xyz(x, y, CARD_LUMINANCE))
    adapted = [c * (DEGREE * b / a + 1 - DEGREE) for c, a, b in zip(card, shop, screen, strict=True)]
    return _times(_TO_SRGB, _times(_inverse(_CAT16), (adapted[0], adapted[1], adapted[2])))


def _fitted(rgb: Triple) -> Triple:
    """Bring into gamut without turning the hue: first toward grey of the same luminance, then dimmer."""
    red, green, blue = rgb
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    least = min(rgb)
    keep = 1.0 if least >= 0 else luminance / (luminance - least)
    red, green, blue = (luminance + keep * (v - luminance) for v in rgb)
    dim = max(1.0, red, green, blue)
    return red / dim, green / dim, blue / dim


def _companded(value: float) -> float:
    value = max(value, 0.0)  # what rounding left below zero
    return 12.92 * value if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055


def _xyz(x: float, y: float, luminance: float = 1.0) -> Triple:
    return x / y * luminance, luminance, (1 - x - y) / y * luminance


def _times(matrix: Matrix, vector: Triple) -> Triple:
    a, b, c = (sum(m * v for m, v in zip(row, vector, strict=True)) for row in matrix)
    return a, b, c


def _inverse(matrix: Matrix) -> Matrix:
    (a, b, c), (d, e, f), (g, h, i) = matrix
    det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    return (
        ((e * i - f * h) / det, (c * h - b * i) / det, (b * f - c * e) / det),
        ((f * g - d * i) / det, (a * i - c * g) / det, (c * d - a * f) / det),
        ((d * h - e * g) / det, (b * g - a * h) / det, (a * e - b * d) / det),
    )
