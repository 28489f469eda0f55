"""A case in one or two sentences, for the question on a card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.training._settings import settings

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp
    from counter.desk import Case


def lamp_words(catalogue: Catalogue, lamp: Lamp) -> str:
    """Name a lamp type as it lies on the counter: watts, base, glass, and its size where those are shared."""
    looks = catalogue.look_by_key
    legs = catalogue.legs_by_shape.get(lamp.shape or "none") or str(lamp.legs)
    glass = next((one.label for one in looks["legs"].values if one.value == legs), legs)
    colour = f", {lamp.glass.value} glass" if lamp.glass else ""
    return f"{lamp.watts.value:g} W, base {lamp.base}, {glass}{colour}{_size_words(catalogue, lamp)}"


def _size_words(catalogue: Catalogue, lamp: Lamp) -> str:
    """Return the size where another lamp type has the same base, watts and kind: a short and a long 110 W tube."""
    same = (lamp.base, lamp.watts.value, lamp.kind)
    if sum((one.base, one.watts.value, one.kind) == same for one in catalogue.lamps) < 2:
        return ""
    length = f", {lamp.length_mm.value:g} mm long" if lamp.length_mm else ""
    tube = f", tube {lamp.tube_mm.value:g} mm thick" if lamp.tube_mm else ""
    return length + tube


def case_words(catalogue: Catalogue, case: Case) -> str:
    """Tell a case whose lamp is chosen: the lamp, the fixture as far as known, the use."""
    words = settings().words
    lamp = catalogue.lamp_by_id[case.chosen or ""]
    fixture = case.fixture
    holder = f"holder {fixture.holder}" if fixture.holder else "holder not known"
    ballast = words[f"ballast {fixture.ballast}"]
    watts = " or ".join(f"{one:g}" for one in fixture.ballast_watts)
    listed = f", its label lists {watts} W" if watts else ""
    kind = words[f"kind {lamp.kind}"]
    return (
        f"{kind}: {lamp_words(catalogue, lamp)}. The fixture: {holder}, {ballast}{listed}. {words[f'use {case.use}']}"
    )


def seen_words(catalogue: Catalogue, looks: dict[str, str | float]) -> str:
    """Tell the looks taken so far."""
    parts = []
    for key, value in looks.items():
        look = catalogue.look_by_key[key]
        label = next((one.label for one in look.values if one.value == value), f"{value} mm")
        parts.append(f"{look.label.lower()}: {label}")
    return f"You see {'; '.join(parts)}." if parts else "A lamp lies on the counter and nothing is known yet."
