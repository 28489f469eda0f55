"""One check for every number that comes from outside."""

from __future__ import annotations

import math

from counter.language import figure, tr


def within(what: str, value: float, low: float, high: float, unit: str, way_out: str) -> float:
    """Return `value` as a float; `what` and `way_out` are put into the language now spoken where it is not taken.

    Raises:
        ValueError: it is no number, not finite, or outside `low` to `high`; the message says what, the
            range and the way out.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        told = tr("{what} is {value}, which is no number. {way_out}")
        raise ValueError(told.format(what=tr(what), value=repr(value), way_out=tr(way_out)))
    if not (math.isfinite(value) and low <= value <= high):
        told = tr("{what} is {value} {unit}; it must be {low} to {high} {unit}. {way_out}")
        figures = {"value": figure(value), "low": figure(low), "high": figure(high), "unit": tr(unit)}
        raise ValueError(told.format(what=tr(what), way_out=tr(way_out), **figures))
    return float(value)
