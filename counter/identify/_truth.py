"""What a word look would show on a lamp type if nobody slipped, as chances over the look's values."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import TRUST, notch_look

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counter.catalogue import Base, Catalogue, Lamp, Look, Word

# Glass shape is what makes a lamp type that type, so it carries no confidence of its own; the best trust short
# of certainty keeps a chance for every other value, and with it every lamp in the running.
SHAPE_TRUST = TRUST["published"]
FAMILY_TRUST = TRUST["practice"]  # family_notches are common practice by the catalogue's own description
DISC_FROM_MM = 60.0  # a covered lamp on a wider base is a disc: a hand does not close round it
SLIM_FROM = 1.5  # width over height from which a base's body is called slim
STRAY = 0.1  # share of a doubt about a key that lies outside the notches met in its family


class Truth(NamedTuple):
    """What the catalogue says of one lamp type: the values it allows, and the chance that each value is true."""

    allowed: frozenset[str]  # one value: known; several: one of these, not known which; none: not known
    chances: tuple[float, ...]  # in the order of the look's values, all above zero, summing to 1


def word_values(catalogue: Catalogue, look: Look) -> tuple[str, ...]:
    """Return the answers to a look; for watts also those of lamps which the look's own list forgot."""
    values = [value.value for value in look.values]
    if look.key == "watts":
        own = frozenset(values)
        values += [text for watts in catalogue.watts if (text := watts_text(watts)) not in own]
    return tuple(values)


def watts_text(watts: float) -> str:
    """Write watts as a lamp prints them: 26, not 26.0."""
    return f"{watts:g}"


def word_truth(catalogue: Catalogue, look: Look, lamp: Lamp, values: Sequence[str]) -> Truth:
    """Return what the catalogue says of one look at one lamp type; a look it knows nothing of is open."""
    teller = _TELLERS.get(look.key)
    return teller(catalogue, lamp, values) if teller else _open(values)


def _open(values: Sequence[str]) -> Truth:
    return Truth(frozenset(), (1 / len(values),) * len(values))


def _known(values: Sequence[str], value: str, trust: float, doubt: Sequence[str] = ()) -> Truth:
    """Put `trust` on one value; most of the rest on the others of `doubt`, if any, the remainder on all others."""
    if value not in values:
        return _open(values)
    near = [other for other in doubt if other != value and other in values]
    strays = len(values) - 1
    share = STRAY if near else 1.0
    chances = [(1 - trust) * share / strays] * len(values)
    for other in near:
        chances[values.index(other)] += (1 - trust) * (1 - share) / len(near)
    chances[values.index(value)] = trust
    return Truth(frozenset({value}), tuple(chances))


def _one_of(values: Sequence[str], family: Sequence[str], trust: float) -> Truth:
    """Spread `trust` evenly over the family's values and the rest over the others."""
    inside = frozenset(family) & frozenset(values)
    if not inside or len(inside) == len(values):
        return _open(values)
    if len(inside) == 1:
        return _known(values, next(iter(inside)), trust)
    outside = (1 - trust) / (len(values) - len(inside))
    return Truth(inside, tuple(trust / len(inside) if value in inside else outside for value in values))


def _word(values: Sequence[str], told: Word | None) -> Truth:
    return _open(values) if told is None else _known(values, told.value, TRUST[told.confidence])


def _legs(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    if lamp.shape is None and catalogue.base_of(lamp).face.outline.width_mm >= DISC_FROM_MM:
        return _known(values, "disc", SHAPE_TRUST)
    named = catalogue.legs_by_shape.get(lamp.shape or "none")
    counted = str(lamp.legs) if lamp.legs is not None else None
    value = counted if lamp.shape is None and counted else named or counted
    return _known(values, value, SHAPE_TRUST) if value else _open(values)


def _pins(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    pins = catalogue.base_of(lamp).pins
    return _known(values, f"{pins.value:g}", TRUST[pins.confidence])


def _arrangement(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    return _word(values, catalogue.base_of(lamp).arrangement)


def _block(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    return _word(values, catalogue.base_of(lamp).block)


def _notch(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    return _notch_of(catalogue.base_of(lamp), values)


def _notch_of(base: Base, values: Sequence[str]) -> Truth:
    """Return the key of a base: its own if known, else its family's, else none where there is no block to cut."""
    notches = base.face.notches
    if notches is not None:
        return _known(values, notch_look(notches.at), TRUST[notches.confidence], base.family_notches)
    if base.family_notches:
        return _one_of(values, base.family_notches, FAMILY_TRUST)
    if base.block is not None and base.block.value == "no":
        return _known(values, "none", TRUST[base.block.confidence])
    return _open(values)


def _glass(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    if lamp.glass is None and lamp.kind == "uv-a":
        return _one_of(values, ("dark", "white"), FAMILY_TRUST)  # filter glass, or a white coating without a filter
    return _word(values, lamp.glass)


def _body(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    """Return slim or square by the outline's proportions; a round base, or one at each end, is neither."""
    base = catalogue.base_of(lamp)
    outline = base.face.outline
    if outline.shape == "circle" or base.mount == "two-ends":
        return _open(values)
    is_slim = outline.width_mm >= SLIM_FROM * outline.height_mm
    return _known(values, "slim" if is_slim else "square", FAMILY_TRUST)


def _watts(catalogue: Catalogue, lamp: Lamp, values: Sequence[str]) -> Truth:
    return _known(values, watts_text(lamp.watts.value), TRUST[lamp.watts.confidence])


_TELLERS: dict[str, Callable[[Catalogue, Lamp, Sequence[str]], Truth]] = {
    "legs": _legs,
    "pins": _pins,
    "arrangement": _arrangement,
    "block": _block,
    "body": _body,
    "notch": _notch,
    "glass": _glass,
    "watts": _watts,
}
