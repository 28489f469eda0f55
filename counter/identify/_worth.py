"""What is worth confirming: by how many bits a look would tell more if one value that it rests on were sure."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import Catalogue, Notches
from counter.identify._entropy import gain
from counter.identify._sizes import size_table
from counter.identify._words import word_table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Base, Lamp, Look, Notch

# The look that rests on a value of a base or a lamp, by the value's path as the shop confirms it.
LOOK_OF = {
    "face.notches": "notch",
    "pin_spacing_mm": "pin_spacing_mm",
    "arrangement": "arrangement",
    "block": "block",
    "length_mm": "length_mm",
    "tube_mm": "tube_mm",
    "glass": "glass",
}
BASE_PARTS = ("face.notches", "pin_spacing_mm", "arrangement", "block")
LAMP_PARTS = ("length_mm", "tube_mm", "glass")


class Worth(NamedTuple):
    """A value that is not sure: of which base or lamp, which part, and the bits its look would gain by it."""

    kind: str
    of: str
    part: str
    bits: float


def worth_confirming(catalogue: Catalogue, most: int = 20) -> tuple[Worth, ...]:
    """Return the values worth confirming first, over the lamps as often as they are met.

    A key that is not known is taken to be each of its family's in turn, and the mean counts.
    """
    told = {look.key: _bits(catalogue, look) for look in catalogue.looks if look.key in LOOK_OF.values()}
    found = []
    for kind, of, part, sure in _unsure(catalogue):
        look = catalogue.look_by_key.get(LOOK_OF[part])
        if look is not None and sure:
            bits = sum(_bits(one, look) for one in sure) / len(sure) - told[look.key]
            found.append(Worth(kind, of, part, bits))
    return tuple(sorted(found, key=lambda one: -one.bits)[:most])


def _bits(catalogue: Catalogue, look: Look) -> float:
    """Return what a look tells of the lamp type when nothing else is known, in bits."""
    table = size_table(catalogue, look) if look.is_measured else word_table(catalogue, look)
    weights: dict[int, float] = {}
    total = sum(catalogue.prevalence.get(lamp.id, 1.0) for lamp in catalogue.lamps)
    for lamp, row in zip(catalogue.lamps, table.row_of, strict=True):
        weights[row] = weights.get(row, 0.0) + catalogue.prevalence.get(lamp.id, 1.0) / total
    return gain(weights, table.cells, table.bits)


def _unsure(catalogue: Catalogue) -> Iterator[tuple[str, str, str, list[Catalogue]]]:
    """Yield kind, name and part of each value that is not sure, with the catalogues in which it is."""
    for base in catalogue.bases:
        if not catalogue.lamps_on[base.designation]:
            continue
        for part in BASE_PARTS:
            bases = _sure_bases(catalogue, base, part)
            if bases:
                yield "base", base.designation, part, [_with(catalogue, base, one) for one in bases]
    for lamp in catalogue.lamps:
        for part in LAMP_PARTS:
            value = getattr(lamp, part)
            if value is not None and value.is_unsure:
                sure = lamp.model_copy(update={part: value.model_copy(update={"confidence": "confirmed"})})
                yield "lamp", lamp.id, part, [_with(catalogue, lamp, sure)]


def _sure_bases(catalogue: Catalogue, base: Base, part: str) -> list[Base]:
    if part != "face.notches":
        value = getattr(base, part)
        if value is None or not value.is_unsure:
            return []
        return [base.model_copy(update={part: value.model_copy(update={"confidence": "confirmed"})})]
    notches = base.face.notches
    if notches is not None:
        return [_with_key(base, notches.at)] if notches.is_unsure else []
    drawn = _drawn_keys(catalogue)
    return [_with_key(base, drawn[look]) for look in base.family_notches if look in drawn]


def _with_key(base: Base, at: Sequence[Notch]) -> Base:
    notches = Notches(at=tuple(at), source="shop", confidence="confirmed")
    return base.model_copy(update={"face": base.face.model_copy(update={"notches": notches})})


def _drawn_keys(catalogue: Catalogue) -> dict[str, tuple[Notch, ...]]:
    from counter.catalogue import notch_look

    keys = (base.face.notches.at for base in catalogue.bases if base.face.notches is not None)
    return {notch_look(at): at for at in keys}


def _with(catalogue: Catalogue, old: Base | Lamp, new: Base | Lamp) -> Catalogue:
    """Return a new catalogue with one entry changed; not a copy, which would carry cached tables along."""
    fields = {name: getattr(catalogue, name) for name in Catalogue.model_fields}
    for name in ("bases", "lamps"):
        fields[name] = tuple(new if one is old else one for one in fields[name])
    return Catalogue.model_construct(**fields)
