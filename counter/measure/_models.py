"""What measuring answers with."""

from __future__ import annotations

from pydantic import Field

from counter.catalogue import Model

PIN_TALL_MM = 7.0  # how high pins stand over the face: about 7 on all plug-in lamps, from memory


class Pin(Model):
    """A pin's middle in the part's own frame, millimetres, its diameter, and in a picture how clearly it is seen."""

    x_mm: float
    y_mm: float
    diameter_mm: float | None = None
    clear: float | None = None


class Pattern(Model):
    """What was measured of a base: face view, pins toward the viewer, origin in the middle of the pins, y up.

    `key_up` says whether the key edge is known to be up; where it is not, the pattern may stand on its head.
    """

    pins: tuple[Pin, ...]
    arrangement: str | None = None
    likely: dict[str, float] = Field(default_factory=dict)  # base to logarithm of how likely pins and outline make it
    block: bool | None = None
    notch: str | None = None
    keys: dict[str, float] = Field(default_factory=dict)  # look of a key to how well the picture goes with it
    key_up: bool = False


class Fit(Model):
    """How well a base's face lies on the measured pattern: mean distance left over, and how it was turned."""

    base: str
    residual_mm: float
    turned_deg: float
    pairs: tuple[tuple[int, int], ...]  # pin of the pattern, pin of the base


class Measured(Model):
    """All that a picture told. Pixel places are those of the picture as `size_px` says it was looked at."""

    size_px: tuple[int, int]
    scale_mm_per_px: float | None = None
    tilt_deg: float | None = None
    card_px: tuple[tuple[float, float], ...] = ()
    pins_px: tuple[tuple[float, float], ...] = ()
    pins_tall_mm: float = Field(PIN_TALL_MM, description="how high the ends of the pins seem to stand over the face")
    pattern: Pattern | None = None
    spacing_mm: float | None = None
    looks: dict[str, str | float] = Field(default_factory=dict)
    tolerances_mm: dict[str, float] = Field(default_factory=dict)
    candidates: tuple[Fit, ...] = ()
    codes: tuple[str, ...] = ()
    problems: tuple[str, ...] = ()
