"""Which lamps stand near one another: on the same base, with and without a starter, with and without the X."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from counter.catalogue import parse_designation
from counter.fit._texts import counterparts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue, Lamp

OTHER_LETTER = {"d": "q", "q": "d"}


def uvc_twins(catalogue: Catalogue, lamp: Lamp) -> tuple[Lamp, ...]:
    """Return the germicidal lamps on the same base, those of the lamp's own watts first."""
    twins = [other for other in catalogue.lamps_on[lamp.base] if other.kind == "uv-c"]
    return tuple(sorted(twins, key=lambda other: abs(other.watts.value - lamp.watts.value)))


def on_base(catalogue: Catalogue, base: str, kind: str) -> tuple[Lamp, ...]:
    """Return the lamps of one kind on one base."""
    return tuple(lamp for lamp in catalogue.lamps_on.get(base, ()) if lamp.kind == kind)


def watts_on(catalogue: Catalogue, base: str) -> tuple[float, ...]:
    """Return the watts of the plain lamps for light on a base, rising."""
    lamps = [lamp for lamp in catalogue.lamps_on.get(base, ()) if not lamp.is_saver and not lamp.is_ultraviolet]
    return tuple(sorted({lamp.watts.value for lamp in lamps}))


@cache
def pin_counterpart(base: str) -> str | None:
    """Return the base of the same lamp with the starter outside (or inside) it: G24q-3 for G24d-3, 2G7 for G23."""
    for one, other in counterparts():
        if base in (one, other):
            return other if base == one else one
    parts = parse_designation(base)
    if parts is None or parts.contacts not in OTHER_LETTER:
        return None
    return parts._replace(contacts=OTHER_LETTER[parts.contacts]).text


@cache
def keyed_counterpart(base: str) -> str | None:
    """Return the base with the X taken away or put in: GX24q-3 for G24q-3."""
    parts = parse_designation(base)
    if parts is None or parts.modifiers not in ("", "X") or parts.letter != "G":
        return None
    return parts._replace(modifiers="" if parts.modifiers else "X").text


def other_keys(catalogue: Catalogue, base: str) -> Iterator[str]:
    """Return the bases that differ from this one by the key number alone."""
    family = catalogue.base_by_name[base].family
    return (other.designation for other in catalogue.bases if other.family == family and other.designation != base)


def worth_holding_beside(catalogue: Catalogue, lamp: Lamp) -> tuple[Lamp, ...]:
    """Return the lamps that cautions name beside this one: with other pins, with or without the X, germicidal.

    Of each base the lamp whose watts come nearest.
    """
    others = (pin_counterpart(lamp.base), keyed_counterpart(lamp.base))
    pairs = [on_base(catalogue, base, lamp.kind) for base in others if base is not None]
    twins = uvc_twins(catalogue, lamp) if lamp.kind != "uv-c" else on_base(catalogue, lamp.base, "fluorescent")
    return tuple(
        min(found, key=lambda one: abs(one.watts.value - lamp.watts.value)) for found in (*pairs, twins) if found
    )
