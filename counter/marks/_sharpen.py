"""Marks and looks as one posterior: readings weighed by what the looks say of the lamp types."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks._sentences import MAY_BE_UVA, MAY_BE_UVC
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from counter.marks._models import MarkEvidence, Reading

_UNNAMED = 1e-6  # weight of a reading none of whose lamp types the looks leave any probability


def sharpen(evidence: MarkEvidence, posterior: Mapping[str, float]) -> tuple[Reading, ...]:
    """Return the readings weighed again by the looks' posterior over lamp types, best first.

    P(reading | text, looks) is proportional to P(reading | text) times the mean posterior of its lamp types over
    an even prior; a reading that names no lamp type keeps its weight. The sum over all readings stays as it was.
    A reading of a UV lamp is never dropped.
    """
    if not evidence.readings or not posterior:
        return evidence.readings
    even = 1 / len(posterior)
    weights = [reading.probability * _support(reading, posterior, even) for reading in evidence.readings]
    total, before = sum(weights), sum(reading.probability for reading in evidence.readings)
    if total <= 0:
        return evidence.readings
    weighed = [
        reading.model_copy(update={"probability": min(1.0, weight * before / total)})
        for reading, weight in zip(evidence.readings, weights, strict=True)
    ]
    return tuple(sorted(weighed, key=lambda reading: -reading.probability))


def _support(reading: Reading, posterior: Mapping[str, float], even: float) -> float:
    if not reading.lamps:
        return 1.0
    mean = sum(posterior.get(lamp, 0.0) for lamp in reading.lamps) / len(reading.lamps)
    return max(mean / even, _UNNAMED)


def says(reading: Reading) -> Mapping[str, str | float]:
    """Return which looks a reading claims, by look key, as the catalogue's values."""
    return reading.looks


def shortened(readings: Sequence[Reading], limit: int) -> tuple[Reading, ...]:
    """Return the best readings, and of those beyond the limit the probable ones of UV lamps."""
    least = tables()["limits"]["uv_probability"]
    return tuple(
        reading
        for place, reading in enumerate(readings)
        if place < limit or (reading.lamp.kind in ("uv-c", "uv-a") and reading.probability >= least)
    )


def uv_doubt(readings: Sequence[Reading]) -> str | None:
    """Return the sentence that keeps a doubt open: the best reading is a lighting lamp, another is a UV lamp."""
    if not readings or readings[0].lamp.kind in ("uv-c", "uv-a"):
        return None
    least = tables()["limits"]["uv_probability"]
    for kind, says in (("uv-c", MAY_BE_UVC), ("uv-a", MAY_BE_UVA)):
        for reading in readings[1:]:
            if reading.lamp.kind == kind and reading.probability >= least:
                return says.format(code=reading.canonical, share=f"{reading.probability:.0%}")
    return None


def saving_suffix(reading: Reading) -> str:
    """Return the letters of a tube's code that say "fewer watts than the number" ("ES"); "" where there are none."""
    letters = {row["letters"] for row in tables()["linear"]["suffixes"] if row.get("saving")}
    found = (
        span.text for span in reading.spans if span.part == "suffix" and span.text.upper().strip("/ ") in letters
    )
    return next(found, "")
