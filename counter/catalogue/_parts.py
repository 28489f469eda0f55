"""The sound entries of a file under check, and the names its rules may refer to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from counter.catalogue._models import Base, Catalogue, Lamp, Look, Source
from counter.catalogue._own import OwnBase, OwnLamp
from counter.catalogue._validate import sound

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue._problems import Finding


@dataclass(frozen=True)
class Parts:
    """Entries that are valid by themselves, with their index in the file, and what they may refer to.

    `known` holds the names that exist, also of entries with faults of their own, so that one fault is
    told once and not again at everything that refers to it.
    """

    data: Mapping[str, Any]
    bases: tuple[tuple[int, Base], ...]
    lamps: tuple[tuple[int, Lamp], ...]
    looks: tuple[tuple[int, Look], ...]
    base_by_name: Mapping[str, Base]
    base_names: frozenset[str]
    source_kinds: Mapping[str, str]
    legs_by_shape: Mapping[str, str]
    is_shop: bool = False

    def answers(self, look: str) -> frozenset[str] | None:
        """Return the answers that a look has, None where there is no such look to hold against."""
        found = next((one for _, one in self.looks if one.key == look), None)
        return frozenset(value.value for value in found.values) if found else None


def shipped_parts(data: dict[str, Any], findings: list[Finding]) -> Parts:
    """Return the parts of a whole catalogue."""
    bases = sound(Base, data, "bases", findings)
    sources = sound(Source, data, "sources", findings)
    legs = data.get("legs_by_shape")
    return Parts(
        data=data,
        bases=tuple(bases),
        lamps=tuple(sound(Lamp, data, "lamps", findings)),
        looks=tuple(sound(Look, data, "looks", findings)),
        base_by_name={base.designation: base for _, base in bases},
        base_names=_names(data, "bases", "designation"),
        source_kinds={**dict.fromkeys(_names(data, "sources", "key"), "?"), **{s.key: s.kind for _, s in sources}},
        legs_by_shape={k: v for k, v in legs.items() if isinstance(v, str)} if isinstance(legs, dict) else {},
    )


def shop_parts(data: dict[str, Any], findings: list[Finding], below: Catalogue) -> Parts:
    """Return the parts of a shop's layer over the catalogue `below`."""
    bases = sound(OwnBase, data, "bases", findings)
    return Parts(
        data=data,
        bases=tuple(bases),
        lamps=tuple(sound(OwnLamp, data, "lamps", findings)),
        looks=tuple((-1, look) for look in below.looks),
        base_by_name={**below.base_by_name, **{base.designation: base for _, base in bases}},
        base_names=_names(data, "bases", "designation") | frozenset(below.base_by_name),
        source_kinds={**{source.key: source.kind for source in below.sources}, "shop": "shop"},
        legs_by_shape=below.legs_by_shape,
        is_shop=True,
    )


def _names(data: dict[str, Any], section: str, key: str) -> frozenset[str]:
    entries = data.get(section)
    found = (entry.get(key) for entry in entries if isinstance(entry, dict)) if isinstance(entries, list) else ()
    return frozenset(name for name in found if isinstance(name, str))
