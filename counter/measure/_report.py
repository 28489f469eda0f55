"""A measurement as the JSON object and the text that the command line prints."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.language import figure, tr

if TYPE_CHECKING:
    from counter.measure._models import Measured

SHOWN = 6


def measured_report(told: Measured) -> dict[str, Any]:
    """Return the JSON object."""
    pattern = told.pattern
    return {
        "scale_mm_per_px": told.scale_mm_per_px,
        "tilt_deg": told.tilt_deg,
        "pins": [[pin.x_mm, pin.y_mm] for pin in pattern.pins] if pattern is not None else [],
        "notches": pattern.notch if pattern is not None else None,
        "pin_spacing_mm": told.spacing_mm,
        "looks": dict(told.looks),
        "tolerances_mm": dict(told.tolerances_mm),
        "candidates": [{"base": fit.base, "residual_mm": fit.residual_mm} for fit in told.candidates],
        "codes": list(told.codes),
        "problems": list(told.problems),
    }


def measured_text(told: Measured) -> str:
    """Return the same for eyes: looks, the first bases, and what is not certain."""
    looks = {key: figure(value) if isinstance(value, float) else value for key, value in told.looks.items()}
    lines = [f"{key}: {value}" for key, value in looks.items()]
    lines += [f"{figure(fit.residual_mm, '6.2f')} mm  {fit.base}" for fit in told.candidates[:SHOWN]]
    lines += [tr("code: {code}").format(code=code) for code in told.codes]
    return "\n".join([*lines, *told.problems])
