"""One check for every number that comes from outside."""

from __future__ import annotations

import math


def within(what: str, value: float, low: float, high: float, unit: str, way_out: str) -> float:
    """Return `value` as a float.

    Raises:
        ValueError: it is no number, not finite, or outside `low` to `high`; the message says what, the
            range and the way out.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{what} is {value!r}, which is no number. {way_out}")
    if not (math.isfinite(value) and low <= value <= high):
        raise ValueError(f"{what} is {value:g} {unit}; it must be {low:g} to {high:g} {unit}. {way_out}")
    return float(value)
