"""UV-A and UV-B in numbers: the daily limits, where they are reached, and what of a lamp is not known."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from pydantic import Field

from counter import fit, light
from counter.catalogue import Confidence, Model
from counter.desk.notes._uv_row import UvRow
from counter.language import figure, kept_by_language, marked, tr

if TYPE_CHECKING:
    from counter.catalogue import Lamp

WORKING_DAY_S = 8 * 3600  # what the daily limits are set for
DAY_S = 24 * 3600
LEVELS_W_M2 = (1.0, 10.0)  # round figures to show what a limit means, no lamp's own
OUTPUT = marked("How much {band} this lamp gives: it must come from its own data.")
FAR = marked("How far it is from eyes and skin, and for how long.")
WHICH = marked("Which band it is made for, where its code does not say: broad-band UV-B harms far sooner.")
NEW = marked("One new lamp, bare: with several, divide the time by their number.")
ARC = marked("The lamp's length stands in for the length of its arc, which is not known.")


class LimitNote(Model):
    """One daily limit, and how soon it is reached; times are never longer than computed."""

    limit_j_m2: float
    weighed_at_nm: float | None = Field(None, description="None: the limit counts all wavelengths alike")
    weight: float | None = None
    rows: tuple[UvRow, ...]
    confidence: Confidence


class BandNote(Model):
    """The limits before a lamp for UV-A or UV-B: of its eyes first, where one is set for eyes alone."""

    band: str
    usual_nm: tuple[float, float] = Field(description="what such lamps usually give; its spectrum is not known")
    watts: float | None = Field(None, description="what it gives of the band; None: not known")
    eye: LimitNote | None = Field(None, description="10 000 J/m² of UV-A, unweighted; None for UV-B")
    weighed: LimitNote = Field(description="30 J/m² for eye and skin, by the weight of each wavelength")
    says: str
    not_known: tuple[str, ...]
    notes: tuple[str, ...] = ()
    sources: tuple[str, ...] = Field((), description="works that the figures are from, by their keys")


def band_note(lamp: Lamp) -> BandNote:
    """Return the limits that hold before a UV-A or UV-B lamp."""
    output, arc = lamp.uvb_w if lamp.band == "uv-b" else lamp.uva_w, lamp.arc_mm or lamp.length_mm
    key = fit.typical_band(lamp)
    if output is None or arc is None:
        return _without_output(key)
    sure = fit.weakest((output.confidence, arc.confidence))
    try:
        return _with_output(key, output.value, arc.value, lamp.arc_mm is None, sure)
    except ValueError:  # a shop's own figure that no lamp can have
        return _without_output(key)


@kept_by_language(8)
def _without_output(key: str) -> BandNote:
    of = light.band(key)
    nm = light.strongest_nm(of)
    weight = light.weighting(nm)
    skin, eye = light.effective_limit(), light.uva_eye_limit()
    name = _name(of.of)
    return BandNote(
        band=of.of,
        usual_nm=of.nm,
        eye=_limit(eye, 1.0, None) if of.of == "uv-a" else None,
        weighed=_limit(skin._replace(confidence=_sure(of, skin.confidence)), weight, nm),
        says=light.spectrum_note(of),
        not_known=(tr(OUTPUT).format(band=name), tr(FAR), *((tr(WHICH),) if key == "uv-b-narrow" else ())),
        sources=(skin.source, eye.source, of.source),
    )


def _limit(limit: light.Limit, weight: float, nm: float | None) -> LimitNote:
    levels = (limit.j_m2 / weight / WORKING_DAY_S, *LEVELS_W_M2)
    is_weighed = nm is not None
    rows = (_level_row(one, limit.j_m2 / weight / one, one * weight if is_weighed else None) for one in levels)
    return LimitNote(
        limit_j_m2=limit.j_m2,
        weighed_at_nm=nm,
        weight=weight if is_weighed else None,
        rows=tuple(rows),
        confidence=limit.confidence,
    )


def _level_row(level_w_m2: float, time_s: float, effective_w_m2: float | None) -> UvRow:
    return UvRow(
        where=tr("at {level}\N{THIN SPACE}W/m²").format(level=figure(level_w_m2, ".2g")),
        irradiance_w_m2=level_w_m2,
        effective_w_m2=effective_w_m2,
        time_to_limit_s=time_s,
        says=_about(time_s),
    )


@kept_by_language(64)
def _with_output(key: str, watts: float, arc_mm: float, is_arc_taken: bool, sure: Confidence) -> BandNote:
    of = light.band(key)
    placed = light.band_places(key, watts, arc_mm)
    eyes = [_row(place, found.eye) for place, found in placed if found.eye is not None]
    skin = [_row(place, found.skin) for place, found in placed]
    nm, eye = light.strongest_nm(of), light.uva_eye_limit()
    sures = _sure(of, sure)
    return BandNote(
        band=of.of,
        usual_nm=of.nm,
        watts=watts,
        eye=LimitNote(limit_j_m2=eye.j_m2, rows=tuple(eyes), confidence=sure) if eyes else None,
        weighed=LimitNote(
            limit_j_m2=light.effective_limit().j_m2,
            weighed_at_nm=nm,
            weight=light.weighting(nm),
            rows=tuple(skin),
            confidence=sures,
        ),
        says=light.spectrum_note(of),
        not_known=(tr(WHICH),) if key == "uv-b-narrow" else (),
        notes=(tr(NEW), *((tr(ARC),) if is_arc_taken else ())),
        sources=(*placed[0][1].skin.sources, eye.source, of.source),
    )


def _row(place: light.Place, found: light.Exposure | light.UvaExposure) -> UvRow:
    return UvRow(
        where=tr(place.name),
        distance_m=found.distance_m,
        irradiance_w_m2=found.irradiance_w_m2,
        effective_w_m2=getattr(found, "effective_w_m2", None),
        time_to_limit_s=found.time_to_limit_s,
        says=_about(found.time_to_limit_s),
        valid=found.valid,
    )


def _about(time_s: float) -> str:
    return tr("not within a day") if time_s > DAY_S else fit.spoken(fit.about(time_s))


def _sure(of: light.Band, other: str) -> Confidence:
    return fit.weakest((cast("Confidence", other), cast("Confidence", of.confidence)))


def _name(of: str) -> str:
    return "UV-A" if of == "uv-a" else "UV-B"
