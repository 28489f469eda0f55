"""The light of one lamp in numbers: exposure where it is germicidal, colour where it lights."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pydantic import Field

from counter import fit, light
from counter.catalogue import Confidence, Model
from counter.desk.notes._bands import BandNote, band_note
from counter.desk.notes._uv_row import UvRow
from counter.language import figure, kept_by_language, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.catalogue import Lamp
    from counter.light import Colour
    from counter.marks import Reading

WORKING_DAY_S = 8 * 3600  # what the daily limits are set for
SEVERAL_LAMPS = marked("One lamp only: with several, divide the time by their number.")
AGE = marked("A new lamp; an old one gives less, but never count on it.")
USUALLY = marked("As a rule it gives about {usual} W of UV-C; a time until harm counts the most that it may give.")
ARC_TAKEN = marked("The lamp's length stands in for the length of its arc, which is not known.")


class UvcNote(Model):
    """Exposure in front of one bare germicidal lamp."""

    uvc_watts: float = Field(description="the most that it may give: what the times are computed from")
    arc_mm: float
    near_field_limit_m: float
    limit_j_m2: float
    working_day_s: int = WORKING_DAY_S
    rows: tuple[UvRow, ...]
    curve: tuple[tuple[float, float], ...] = Field(description="distance in metres, time to the limit in seconds")
    notes: tuple[str, ...]
    confidence: Confidence
    sources: tuple[str, ...] = Field((), description="works that the figures are from, by their keys")


class ColourMatch(Model):
    """How one colour goes with the room, or with the lamp in hand."""

    code: str
    cct_k: int
    difference_mired: float
    word: str
    srgb: str


class ColourNote(Model):
    """One white in numbers, and as a screen can show it."""

    name: str
    cct_k: int
    cct_range_k: tuple[int, int]
    mired: float
    cri_min: int | None
    cri_max: int | None
    x: float
    y: float
    srgb: str
    confidence: Confidence
    sources: tuple[str, ...] = Field((), description="works that the figures are from, by their keys")


class LightNotes(Model):
    """What the light of a lamp is like; a part that does not apply is None."""

    lamp: str
    is_doubt: bool = Field(False, description="the exposure is of a germicidal look-alike, not of the lamp named")
    uvc: UvcNote | None = None
    uva: BandNote | None = None
    uvb: BandNote | None = None
    colour: ColourNote | None = None
    room: ColourNote | None = None
    matches: tuple[ColourMatch, ...] = ()
    says: str = Field("", description="what is not known, where something is not")


def light_notes(lamp: Lamp, germicidal: Lamp | None, reading: Reading | None, room_k: int | None) -> LightNotes:
    """Return the light of `lamp`; `germicidal` is the lamp that it may be instead,
    where that or its watts are in doubt.
    """
    exposed = germicidal or (lamp if lamp.kind == "uv-c" else None)
    uvc = _uvc_of(exposed) if exposed is not None else None
    shown = {"lamp": (exposed or lamp).id, "is_doubt": exposed is not None and exposed is not lamp, "uvc": uvc}
    if lamp.kind == "uv-c":
        return LightNotes(**shown, says="" if uvc else tr("Its length is not known: no figure can be given."))
    if lamp.is_ultraviolet:
        return LightNotes(**shown, **{"uvb" if lamp.band == "uv-b" else "uva": band_note(lamp)})
    colour, room = _own_colour(reading), _colour(f"{room_k} K") if room_k else None
    says = "" if colour else tr("The lamp's colour is not read: it stands in the marks, as 840.")
    return LightNotes(**shown, colour=colour, room=room, matches=_matches(room or colour), says=says)


def _uvc_of(lamp: Lamp) -> UvcNote | None:
    arc = lamp.arc_mm or lamp.length_mm
    if arc is None:
        return None
    most_w, confidence = fit.most_uvc(lamp)
    usual_w = lamp.uvc_w.value if lamp.uvc_w else None
    return _uvc(most_w, usual_w, arc.value, lamp.arc_mm is None, fit.weakest((confidence, arc.confidence)))


@kept_by_language(64)
def _uvc(
    uvc_watts: float, usual_w: float | None, arc_mm: float, is_arc_taken: bool, confidence: Confidence
) -> UvcNote | None:
    try:
        placed = light.places(uvc_watts, arc_mm)
        points = light.curve(uvc_watts, arc_mm)
    except ValueError:  # a shop's own figure that no lamp can have
        return None
    first = placed[0][1]
    told = dict.fromkeys(note for _, one in placed for note in one.notes)
    notes = [note for note in told if note != tr(light.NOT_IN_A_DAY)]
    notes += map(tr, (SEVERAL_LAMPS, AGE, *([ARC_TAKEN] if is_arc_taken else [])))
    if usual_w is not None and usual_w < uvc_watts:
        notes.append(tr(USUALLY).format(usual=figure(usual_w)))
    return UvcNote(
        uvc_watts=uvc_watts,
        arc_mm=arc_mm,
        near_field_limit_m=first.near_field_limit_m,
        limit_j_m2=first.limit_j_m2,
        rows=tuple(_row(place, one) for place, one in placed),
        curve=points,
        notes=tuple(notes),
        confidence=confidence,
        sources=(*first.sources, light.germicidal_share().source),
    )


def _row(place: light.Place, found: light.Exposure) -> UvRow:
    return UvRow(
        where=tr(place.name),
        distance_m=found.distance_m,
        irradiance_w_m2=found.irradiance_w_m2,
        effective_w_m2=found.effective_w_m2,
        time_to_limit_s=found.time_to_limit_s,
        says=fit.spoken(fit.about(found.time_to_limit_s)),
        valid=found.valid,
    )


def _own_colour(reading: Reading | None) -> ColourNote | None:
    """Return the colour that the marks give, by its letters or code where they print one."""
    if reading is None or reading.lamp.cct_k is None:
        return None
    letters = next((span.text for span in reading.spans if span.part == "colour" and span.text.isalpha()), None)
    cct_k, cri = reading.lamp.cct_k, reading.lamp.cri_min
    code = f"{cri // 10}{cct_k // 100:02d}" if cri and cct_k % 100 == 0 else None
    names = (letters, code, f"{cct_k} K")
    return next((found for name in names if name and (found := _colour(name))), None)


def _colour(name: str) -> ColourNote | None:
    try:
        found: Colour = light.colour_of(name)
    except ValueError:
        return None
    shared = {key: getattr(found, key) for key in ColourNote.model_fields}
    return ColourNote(**shared)


def _matches(target: ColourNote | None) -> tuple[ColourMatch, ...]:
    return () if target is None else _matching(target.cct_k, fit.white_codes())


@kept_by_language(64)
def _matching(cct_k: int, codes: Iterable[str]) -> tuple[ColourMatch, ...]:
    return tuple(
        ColourMatch(
            code=one.code,
            cct_k=one.cct_k,
            difference_mired=one.difference_mired,
            word=one.word,
            srgb=light.colour_of(one.code).srgb,
        )
        for one in light.matching(codes, cct_k)
    )
