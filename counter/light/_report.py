"""What the command line prints: the fields of its contract, and a short text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.language import figure, range_of, tr, trn
from counter.light._tables import tables

if TYPE_CHECKING:
    from counter.light._colour import Colour
    from counter.light._uv import Exposure


def uv_report(exposure: Exposure) -> dict[str, Any]:
    """Return the exposure as plain JSON values; the first five names are the contract's."""
    return {
        "irradiance_w_m2": exposure.irradiance_w_m2,
        "effective_w_m2": exposure.effective_w_m2,
        "limit_j_m2": exposure.limit_j_m2,
        "time_to_limit_s": exposure.time_to_limit_s,
        "valid": exposure.valid,
        "near_field_limit_m": exposure.near_field_limit_m,
        "lamps": exposure.lamps,
        "notes": list(exposure.notes),
        "sources": [tables().sources[key] for key in exposure.sources],
        "confidence": exposure.confidence,
    }


def colour_report(colour: Colour) -> dict[str, Any]:
    """Return the colour as plain JSON values; the first six names are the contract's."""
    return {
        "cct_k": colour.cct_k,
        "cri_min": colour.cri_min,
        "mired": colour.mired,
        "x": colour.x,
        "y": colour.y,
        "srgb": colour.srgb,
        "name": colour.name,
        "cct_range_k": list(colour.cct_range_k),
        "cri_max": colour.cri_max,
        "standard": colour.standard,
        "standard_cct_k": colour.standard_cct_k,
        "sources": [tables().sources[key] for key in colour.sources],
        "confidence": colour.confidence,
    }


def uv_text(exposure: Exposure) -> str:
    """Return the exposure in a few lines."""
    here = tr("At {distance} m: {irradiance} W/m² of UV-C, {effective} W/m² effective.").format(
        distance=figure(exposure.distance_m),
        irradiance=figure(exposure.irradiance_w_m2, ".3g"),
        effective=figure(exposure.effective_w_m2, ".3g"),
    )
    limit = tr("Daily limit for eye and skin, {limit} J/m² effective, after {time}.").format(
        limit=figure(exposure.limit_j_m2), time=duration_text(exposure.time_to_limit_s)
    )
    return "\n".join((here, limit, *exposure.notes))


def colour_text(colour: Colour) -> str:
    """Return the colour in a few lines."""
    origin = f"IEC 60081 {colour.standard}" if colour.standard else tr("by colour temperature")
    low, high = colour.cct_range_k
    mired = figure(colour.mired, ".1f")
    place = {"x": figure(colour.x, ".4f"), "y": figure(colour.y, ".4f"), "origin": origin, "srgb": colour.srgb}
    lines = [
        f"{colour.name}: {colour.cct_k} K ({mired} mired), {_rendering(colour)}.",
        tr("x {x}, y {y} ({origin}); on screen {srgb}.").format(**place),
    ]
    if low != high:
        lines.append(tr("Sold as {low} to {high} K.").format(low=low, high=high))
    return "\n".join(lines)


def duration_text(seconds: float) -> str:
    """Return a time in the two units that say enough: "55 s", "4 min 7 s", "2 h 5 min", "3 days 4 h"."""
    if seconds < 10:
        return f"{figure(seconds, '.2g')} s"
    whole = round(seconds)
    days, hours, minutes = whole // 86400, whole % 86400 // 3600, whole % 3600 // 60
    if days:
        return trn("{days} day {hours} h", "{days} days {hours} h", days).format(days=days, hours=hours)
    if hours:
        return f"{hours} h {minutes} min"
    return f"{minutes} min {whole % 60} s" if minutes else f"{whole} s"


def _rendering(colour: Colour) -> str:
    if colour.cri_min is None:
        return tr("colour rendering not said")
    return f"Ra {range_of(str(colour.cri_min), str(colour.cri_max))}"
