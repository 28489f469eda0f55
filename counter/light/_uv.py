"""Ultraviolet at a distance from a bare tubular lamp, and the time until the daily limit."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counter.language import figure, marked, tr
from counter.light._bounds import within
from counter.light._tables import GermicidalShare, Limit, Place, tables, weakest
from counter.light._weighting import MERCURY_LINE_NM, effective_w_m2, row_at

CURVE_M = (0.3, 10.0)  # from holding the lamp to the far side of a large room
WORKING_DAY_S = 8 * 3600
DAY_S = 24 * 3600
NOT_IN_A_DAY = marked("The time is longer than 24 h: direct light alone does not reach the daily limit here.")


@dataclass(frozen=True, slots=True)
class Exposure:
    """What bare skin or an eye meets at one wavelength, and how soon the daily limit is reached.

    `valid` says that the distance is at least twice the arc length, where the formula may be relied on;
    `confidence` is that of the weakest figure used, the lamp's own output apart: that is the caller's.
    """

    uvc_watts: float
    arc_mm: float
    distance_m: float
    lamps: int
    irradiance_w_m2: float
    effective_w_m2: float
    limit_j_m2: float
    time_to_limit_s: float
    valid: bool
    near_field_limit_m: float
    notes: tuple[str, ...]
    sources: tuple[str, ...]
    confidence: str


@dataclass(frozen=True, slots=True)
class UvaExposure:
    """What an eye meets from a blacklight lamp (315 to 400 nm), and how soon the daily limit is reached."""

    uva_watts: float
    arc_mm: float
    distance_m: float
    lamps: int
    irradiance_w_m2: float
    limit_j_m2: float
    time_to_limit_s: float
    valid: bool
    near_field_limit_m: float
    notes: tuple[str, ...]
    sources: tuple[str, ...]
    confidence: str


def irradiance_w_m2(uvc_watts: float, arc_mm: float, distance_m: float, lamps: int = 1) -> float:
    """Return the irradiance, W/m², facing the middle of a bare tubular lamp.

    Keitz: E = P (2a + sin 2a) / (2 pi² D L), tan a = L / 2D, with P the radiant output in watts, L the arc
    length and D the distance, both in metres here. Several lamps count as their sum at the same distance.
    Reflections are not counted.

    Raises:
        ValueError: a value is no number, not finite, or outside what a lamp and a room can be.
    """
    data, tube = marked("Take it from the lamp's data."), marked("Measure the glowing part of the tube.")
    power_w = within(marked("The ultraviolet output"), uvc_watts, 1e-6, 2000, "W", data)
    arc_m = within(marked("The arc length"), arc_mm, 1, 3000, "mm", tube) / 1000
    middle, lit = marked("Measure from the middle of the lamp."), marked("Count the lamps that are lit.")
    far_m = within(marked("The distance"), distance_m, 0.01, 1000, "m", middle)
    count = within(marked("The number of lamps"), lamps, 1, 1000, marked("lamps"), lit)
    if count != int(count):
        told = tr("The number of lamps is {count}; it must be a whole number.")
        raise ValueError(told.format(count=figure(lamps)))
    angle = math.atan(arc_m / (2 * far_m))
    return count * power_w * (2 * angle + math.sin(2 * angle)) / (2 * math.pi**2 * far_m * arc_m)


def exposure(
    uvc_watts: float, arc_mm: float, distance_m: float, lamps: int = 1, wavelength_nm: float = MERCURY_LINE_NM
) -> Exposure:
    """Return the exposure to 254 nm at a distance, against the ICNIRP daily limit.

    `wavelength_nm` is another line's, as 311 for narrow-band UV-B: its watts count by that wavelength's weight.

    Raises:
        ValueError: as `irradiance_w_m2`.
    """
    irradiance = irradiance_w_m2(uvc_watts, arc_mm, distance_m, lamps)
    effective, limit = effective_w_m2(irradiance, wavelength_nm), tables().effective_limit
    time_s = limit.j_m2 / effective
    return Exposure(
        float(uvc_watts),
        float(arc_mm),
        float(distance_m),
        int(lamps),
        irradiance,
        effective,
        limit.j_m2,
        time_s,
        _far_enough(arc_mm, distance_m),
        near_field_limit_m=2 * arc_mm / 1000,
        notes=_notes(arc_mm, distance_m, lamps, time_s),
        sources=("IOA-2007", "IUVA-PROT", limit.source),
        confidence=weakest(limit.confidence, row_at(wavelength_nm).confidence),
    )


def uva_exposure(uva_watts: float, arc_mm: float, distance_m: float, lamps: int = 1) -> UvaExposure:
    """Return an eye's exposure to UV-A (315 to 400 nm) from a blacklight lamp.

    The UV-A output is the lamp's own, not its electrical watts.

    Raises:
        ValueError: as `irradiance_w_m2`.
    """
    irradiance = irradiance_w_m2(uva_watts, arc_mm, distance_m, lamps)
    limit: Limit = tables().uva_eye_limit
    time_s = limit.j_m2 / irradiance
    return UvaExposure(
        float(uva_watts),
        float(arc_mm),
        float(distance_m),
        int(lamps),
        irradiance,
        limit.j_m2,
        time_s,
        _far_enough(arc_mm, distance_m),
        near_field_limit_m=2 * arc_mm / 1000,
        notes=_notes(arc_mm, distance_m, lamps, time_s),
        sources=("IOA-2007", "IUVA-PROT", limit.source),
        confidence=limit.confidence,
    )


def uva_eye_limit() -> Limit:
    """Return the daily limit for eyes from 315 to 400 nm, unweighted, J/m² within 8 h."""
    return tables().uva_eye_limit


def curve(uvc_watts: float, arc_mm: float, lamps: int = 1, points: int = 49) -> tuple[tuple[float, float], ...]:
    """Return (distance in metres, time to the limit in seconds), evenly spaced on a log axis over `CURVE_M`.

    Below twice the arc length the points are computed all the same: draw them as unsure.

    Raises:
        ValueError: as `irradiance_w_m2`, or fewer than two points.
    """
    if points < 2:
        raise ValueError(tr("A curve of {count} points cannot be drawn; ask for 2 or more.").format(count=points))
    near, far = CURVE_M
    inner = (near * (far / near) ** (i / (points - 1)) for i in range(1, points - 1))
    distances = (near, *inner, far)  # the ends exact, whatever the powers round to
    return tuple((d, exposure(uvc_watts, arc_mm, d, lamps).time_to_limit_s) for d in distances)


def places(uvc_watts: float, arc_mm: float, lamps: int = 1) -> tuple[tuple[Place, Exposure], ...]:
    """Return the exposure at arm's length, across the counter and across a room.

    Raises:
        ValueError: as `irradiance_w_m2`.
    """
    named = tables().places
    return tuple((place, exposure(uvc_watts, arc_mm, place.distance_m, lamps)) for place in named)


def germicidal_share() -> GermicidalShare:
    """Return how much of its watts a germicidal lamp may give at 254 nm; small ones are thought to give less."""
    return tables().germicidal_share


def _far_enough(arc_mm: float, distance_m: float) -> bool:
    # In millimetres and with a hair of slack, so that exactly twice the arc counts as far enough.
    return distance_m * 1000 >= 2 * arc_mm * (1 - 1e-12)


def _notes(arc_mm: float, distance_m: float, lamps: int, time_s: float) -> tuple[str, ...]:
    notes = [tr("Direct light of a bare lamp only: reflections and other lamps add to it.")]
    if not _far_enough(arc_mm, distance_m):
        told = tr("Nearer than twice the arc ({least} m) the figure is not to be relied on.")
        notes.append(told.format(least=figure(2 * arc_mm / 1000)))
    if lamps > 1:
        notes.append(tr("{count} lamps counted as one at the same distance.").format(count=figure(lamps)))
    if time_s > DAY_S:
        notes.append(tr(NOT_IN_A_DAY))
    elif time_s > WORKING_DAY_S:
        notes.append(tr("The time is longer than the 8 h that the limit is set for."))
    return tuple(notes)
