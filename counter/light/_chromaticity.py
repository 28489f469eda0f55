"""CIE 1931 chromaticity of white light by colour temperature."""

from __future__ import annotations

from counter.language import marked
from counter.light._bounds import within


def planckian(cct_k: float) -> tuple[float, float]:
    """Return (x, y) of the Planckian locus, 1667 to 25 000 K.

    Cubic spline of Kim et al. (2002), US patent 7024034.

    Raises:
        ValueError: the temperature is outside that range.
    """
    t = within(marked("The colour temperature"), cct_k, 1667, 25000, "K", marked("The locus is known there."))
    if t <= 4000:
        x = -0.2661239e9 / t**3 - 0.2343589e6 / t**2 + 0.8776956e3 / t + 0.179910
    else:
        x = -3.0258469e9 / t**3 + 2.1070379e6 / t**2 + 0.2226347e3 / t + 0.240390
    if t <= 2222:
        y = -1.1063814 * x**3 - 1.34811020 * x**2 + 2.18555832 * x - 0.20219683
    elif t <= 4000:
        y = -0.9549476 * x**3 - 1.37418593 * x**2 + 2.09137015 * x - 0.16748867
    else:
        y = 3.0817580 * x**3 - 5.87338670 * x**2 + 3.75112997 * x - 0.37001483
    return x, y


def daylight(cct_k: float) -> tuple[float, float]:
    """Return (x, y) of the CIE daylight locus, 4000 to 25 000 K (CIE 15).

    Raises:
        ValueError: the temperature is outside that range.
    """
    t = within(
        marked("The colour temperature"), cct_k, 4000, 25000, "K", marked("The daylight locus is defined there.")
    )
    if t <= 7000:
        x = 0.244063 + 0.09911e3 / t + 2.9678e6 / t**2 - 4.6070e9 / t**3
    else:
        x = 0.237040 + 0.24748e3 / t + 1.9018e6 / t**2 - 2.0064e9 / t**3
    return x, -3 * x**2 + 2.870 * x - 0.275


def chromaticity(cct_k: float) -> tuple[float, float]:
    """Return (x, y) of white light that only a colour temperature describes.

    The rule of the reference illuminant in CIE 224:2017 and IES TM-30: Planckian to 4000 K, daylight from
    5000 K, between them a mix of the two at equal luminance in proportion, so that nothing jumps.

    Raises:
        ValueError: the temperature is outside 1667 to 25 000 K.
    """
    if cct_k <= 4000:
        return planckian(cct_k)
    if cct_k >= 5000:
        return daylight(cct_k)
    share = (cct_k - 4000) / 1000
    (px, py), (dx, dy) = planckian(cct_k), daylight(cct_k)
    # At equal luminance a light weighs 1/y in a mix of chromaticities: X + Y + Z = Y / y.
    weight_p, weight_d = (1 - share) / py, share / dy
    total = weight_p + weight_d
    return (px * weight_p + dx * weight_d) / total, (py * weight_p + dy * weight_d) / total
