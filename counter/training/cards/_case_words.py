"""A case in one or two sentences, for the question on a card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk import CANNOT_TELL
from counter.fit import places
from counter.language import SpokenNumber, figure, tr
from counter.training._settings import words

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp
    from counter.desk import Case
    from counter.fit import Fixture
    from counter.training.cards._facts import Setting

YES = ("enclosed", "damp", "cold", "base_up", "emergency", "dimmer", "shunted")  # told only where it is so


def lamp_words(catalogue: Catalogue, lamp: Lamp, *, is_glass_told: bool = True) -> str:
    """Name a lamp type as it lies on the counter: watts, base, glass, and its size where those are shared."""
    looks = catalogue.look_by_key
    legs = catalogue.legs_by_shape.get(lamp.shape or "none") or str(lamp.legs)
    glass = next((one.label for one in looks["legs"].values if one.value == legs), legs)
    white = tr(", white glass") if lamp.glass and lamp.glass.value == "white" else tr(", clear glass")
    if lamp.glass and lamp.glass.value not in ("white", "clear"):
        white = tr(", blue-black glass")
    colour = white if lamp.glass and is_glass_told else ""
    named = tr("{watts} W, base {base}, ").format(watts=figure(lamp.watts.value), base=lamp.base)
    return named + tr(glass) + colour + _size_words(catalogue, lamp) + _made_words(lamp)


def _made_words(lamp: Lamp) -> str:
    """Return what its print says of a lamp type that looks like another: a saver, instant start, ozone, its use."""
    saver = tr(", a saver") if lamp.is_saver else ""
    instant = tr(", marked IS") if "instant" in lamp.starts and lamp.id.endswith("-is") else ""
    special = [words()[f"for {one}"] for one in lamp.purposes if one not in ("germicidal", "blacklight")]
    return saver + instant + (tr(", made for {use}").format(use=tr(" or ").join(special)) if special else "")


def _size_words(catalogue: Catalogue, lamp: Lamp) -> str:
    """Return the size where another lamp type has the same base, watts and kind: a short and a long 110 W tube."""
    same = (lamp.base, lamp.watts.value, lamp.kind)
    if sum((one.base, one.watts.value, one.kind) == same for one in catalogue.lamps) < 2:
        return ""
    length = tr(", {length:g} mm long").format(length=SpokenNumber(lamp.length_mm.value)) if lamp.length_mm else ""
    length += tr(", {inches:g} in by its code").format(inches=SpokenNumber(lamp.inches)) if lamp.inches else ""
    tube = tr(", tube {tube:g} mm thick").format(tube=SpokenNumber(lamp.tube_mm.value)) if lamp.tube_mm else ""
    return length + tube


def case_words(catalogue: Catalogue, setting: Setting, instead: str = "") -> str:
    """Tell a case: lamp, fixture as far as known, use, what is asked for instead; or only what is seen."""
    said, case = words(), setting.case
    if case.chosen is None:
        return seen_words(catalogue, case.looks)
    lamp = catalogue.lamp_by_id[case.chosen]
    if case.looks.get("glass") == CANNOT_TELL:
        parts = [said["glass unseen"].format(lamp=lamp_words(catalogue, lamp, is_glass_told=False))]
    else:
        kind = "other" if case.marks else lamp.band or lamp.kind  # then the print is what tells
        parts = [f"{said[f'kind {kind}']}: {lamp_words(catalogue, lamp)}."]
    parts += [said["marks"].format(marks=case.marks)] if case.marks else []
    parts += [said["broken"]] if case.broken else []
    parts += [fixture_words(case.fixture), said[f"use {case.use}"], *_law_words(catalogue, case)]
    parts += [said["instead"].format(title=instead)] if instead else []
    return " ".join(parts)


def fixture_words(fixture: Fixture) -> str:
    """Tell all that is known of a fixture."""
    said = words()
    holder = tr("holder {base}").format(base=fixture.holder) if fixture.holder else tr("holder not known")
    ballast = said[f"ballast {fixture.ballast}"]
    watts = tr(" or ").join(map(figure, fixture.ballast_watts))
    listed = tr(", its label lists {watts} W").format(watts=watts) if watts else ""
    told = [tr("The fixture: {holder}, {ballast}{listed}.").format(holder=holder, ballast=ballast, listed=listed)]
    told += [said[f"fixture {key}"] for key in YES if getattr(fixture, key)]
    figures = {
        "lamp_count": fixture.lamp_count,
        "ballast_counts": tr(" or ").join(map(str, fixture.ballast_counts)),
        "tube_room_mm": fixture.tube_room_mm,
        "room_k": fixture.room_k,
        "label": fixture.label,
    }
    told += [said[f"fixture {key}"].format(value) for key, value in figures.items() if value]
    return " ".join(told)


def _law_words(catalogue: Catalogue, case: Case) -> list[str]:
    if case.place is None or case.on is None:
        return []
    place = next(one.name for one in places(catalogue) if one.id == case.place)
    return [words()["law"].format(place=place, day=f"{case.on:%Y-%m-%d}")]


def seen_words(catalogue: Catalogue, looks: dict[str, str | float]) -> str:
    """Tell the looks taken so far."""
    parts, said = [], words()
    for key, value in looks.items():
        look = catalogue.look_by_key[key]
        label = tr(next((one.label for one in look.values if one.value == value), f"{value} mm"))
        parts.append(said.get(f"seen {key}", f"{tr(look.label).lower()}: {{}}").format(label))
    if not parts:
        return tr("A lamp lies on the counter and nothing is known yet.")
    return tr("You see: {looks}.").format(looks="; ".join(parts))
