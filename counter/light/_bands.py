"""UV-A and UV-B of lamps whose spectrum is not known, by the limits that hold for them.

ICNIRP 2004 and Directive 2006/25/EC, Annex I: for eye and skin 30 J/m² a day, each wavelength by its weight; for the
eye 10 000 J/m² a day of UV-A (315 to 400 nm), unweighted. Where only the typical band of such a lamp is known, all
of its watts count as if they were at the wavelength of that band that harms most: never less than there is.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from counter.language import figure, marked, tr
from counter.light._report import duration_text, uv_report
from counter.light._tables import Band, Limit, Place, tables, weakest
from counter.light._uv import Exposure, UvaExposure, exposure, uva_exposure
from counter.light._weighting import weighting

SPECTRUM = marked("Its spectrum is not known: counted as at {nm} nm, strongest of the usual {low} to {high} nm.")


@dataclass(frozen=True, slots=True)
class BandExposure:
    """What bare skin or an eye meets from a UV-A or UV-B lamp; `eye` is the further limit for UV-A."""

    band: Band
    weighed_at_nm: float
    skin: Exposure
    eye: UvaExposure | None

    @property
    def first_s(self) -> float:
        """The time to the limit that is reached first, in seconds."""
        return self._first.time_to_limit_s

    @property
    def notes(self) -> tuple[str, ...]:
        """What to know of the figures, by the limit that is reached first."""
        return (spectrum_note(self.band), *self._first.notes)

    @property
    def _first(self) -> Exposure | UvaExposure:
        both: tuple[Exposure | UvaExposure, ...] = (self.skin,) if self.eye is None else (self.skin, self.eye)
        return min(both, key=lambda one: one.time_to_limit_s)


def band(key: str) -> Band:
    """Return a typical band: "uv-a", "uv-a-tanning", "uv-b-narrow" or "uv-b-broad".

    Raises:
        KeyError: there is no such band.
    """
    return {one.key: one for one in tables().bands}[key]


def strongest_nm(of: Band) -> float:
    """Return the wavelength of a band that harms most, nm."""
    low, high = of.nm
    inside = (row.nm for row in tables().weighting if low < row.nm < high)
    return max((low, *inside, high), key=weighting)


def band_exposure(key: str, watts: float, arc_mm: float, distance_m: float, lamps: int = 1) -> BandExposure:
    """Return the exposure before lamps of a band, `watts` being what each gives of it.

    Raises:
        KeyError: there is no such band.
        ValueError: as `irradiance_w_m2`.
    """
    of = band(key)
    nm = strongest_nm(of)
    skin = exposure(watts, arc_mm, distance_m, lamps, nm)
    return BandExposure(of, nm, skin, uva_exposure(watts, arc_mm, distance_m, lamps) if of.of == "uv-a" else None)


def band_places(key: str, watts: float, arc_mm: float) -> tuple[tuple[Place, BandExposure], ...]:
    """Return the exposure before one lamp at arm's length, across the counter and across a room.

    Raises:
        KeyError: there is no such band.
        ValueError: as `irradiance_w_m2`.
    """
    return tuple((place, band_exposure(key, watts, arc_mm, place.distance_m)) for place in tables().places)


def effective_limit() -> Limit:
    """Return the daily limit for eye and skin, weighted, J/m² within 8 h."""
    return tables().effective_limit


def spectrum_note(of: Band) -> str:
    """Say at which wavelength a band is counted, and why."""
    low, high = of.nm
    return tr(SPECTRUM).format(nm=figure(strongest_nm(of)), low=figure(low), high=figure(high))


def band_report(found: BandExposure) -> dict[str, object]:
    """Return the exposure as plain JSON values: those of UV-C, by the weight named, and the eye's own limit."""
    eye = found.eye
    return {
        **uv_report(found.skin),
        "band": found.band.key,
        "weighed_at_nm": found.weighed_at_nm,
        "weight": weighting(found.weighed_at_nm),
        "eye_limit_j_m2": eye.limit_j_m2 if eye else None,
        "time_to_eye_limit_s": eye.time_to_limit_s if eye else None,
        "time_to_first_limit_s": found.first_s,
        "notes": list(found.notes),
        "confidence": weakest(found.skin.confidence, found.band.confidence),
    }


def band_text(found: BandExposure) -> str:
    """Return the exposure in a few lines, times rounded down."""
    skin, eye = found.skin, found.eye
    here = tr("At {distance} m: {irradiance} W/m² of {band}, {effective} W/m² effective.").format(
        distance=figure(skin.distance_m),
        irradiance=figure(skin.irradiance_w_m2, ".3g"),
        band="UV-A" if found.band.of == "uv-a" else "UV-B",
        effective=figure(skin.effective_w_m2, ".3g"),
    )
    limit = tr("Daily limit for eye and skin, {limit} J/m² effective, after {time}.")
    lines = [here, limit.format(limit=figure(skin.limit_j_m2), time=_cut(skin.time_to_limit_s))]
    if eye is not None:
        words = tr("Daily limit for the eye, {limit} J/m² of UV-A, after {time}.")
        lines.append(words.format(limit=figure(eye.limit_j_m2), time=_cut(eye.time_to_limit_s)))
    return "\n".join((*lines, *found.notes))


def _cut(seconds: float) -> str:
    """Return a time in words, never longer than it is."""
    return duration_text(floor(seconds) if seconds >= 10 else floor(seconds * 10) / 10)
