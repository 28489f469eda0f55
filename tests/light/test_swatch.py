"""The swatch: hue runs from warm to cool, in gamut, neutral where the shop's light is."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.light import chromaticity, colour_of, swatch


def channels(text: str) -> tuple[int, int, int]:
    red, green, blue = bytes.fromhex(text.removeprefix("#"))
    return red, green, blue


@given(st.floats(1667, 25000))
def test_any_white_has_a_swatch(cct_k: float) -> None:
    text = swatch(*chromaticity(cct_k))
    assert re.fullmatch("#[0-9a-f]{6}", text)
    assert max(channels(text)) > 200


@given(st.integers(1667, 24000), st.integers(300, 1000))
def test_cooler_is_bluer(cct_k: int, step_k: int) -> None:
    warm, cool = (channels(colour_of(f"{k}K").srgb) for k in (cct_k, cct_k + step_k))
    assert cool[2] / cool[0] >= warm[2] / warm[0]


def test_the_shops_codes_part_in_order() -> None:
    swatches = [channels(colour_of(code).srgb) for code in ("827", "830", "835", "840", "850", "865")]
    bluer = [blue - red for red, _, blue in swatches]
    assert bluer == sorted(set(bluer))
    assert bluer[0] < -100 < 80 < bluer[-1]
    assert abs(bluer[3]) < 15


@pytest.mark.parametrize("xy", [(0.7, 0.29), (0.17, 0.02), (0.1, 0.8), (0.57, 0.42)])
def test_out_of_gamut_keeps_its_hue(xy: tuple[float, float]) -> None:
    red, green, blue = channels(swatch(*xy))
    order = sorted(zip((red, green, blue), "rgb", strict=True))
    strongest = {(0.7, 0.29): "r", (0.17, 0.02): "b", (0.1, 0.8): "g", (0.57, 0.42): "r"}[xy]
    assert order[-1][1] == strongest
    assert order[0][0] < order[-1][0]
