"""Which values of the catalogue the rules read: every lamp type judged in a few cases, every reading noted."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from counter.catalogue import Base, Catalogue, Lamp, Sourced
from counter.fit import Fixture, judge, law, replacements

if TYPE_CHECKING:
    from collections.abc import Iterator

# Lists without a source of their own: it stands beside them.
BESIDE = {"ballasts": "ballasts_from", "starts": "starts_from", "purposes": "purposes_from"}
LABEL = "RAPID START BALLAST FOR"


def read_by_rules(catalogue: Catalogue) -> set[tuple[str, str]]:
    """Return (base or lamp id, path of a value) for every value with a source that a rule read."""
    noted: set[int] = set()
    cases = [(lamp, *case) for lamp in catalogue.lamps for case in _cases(catalogue, lamp)]
    with _noting(noted):
        for lamp, fixture, use in cases:
            judge(catalogue, lamp, fixture, use)
        for lamp in catalogue.lamps:
            law(catalogue, "us-vt", None, lamp)
        for lamp in catalogue.lamps[::9]:  # costly, and a lamp's length and watts are all that is read beside
            replacements(catalogue, lamp, Fixture(holder=lamp.base, ballast="electronic"), "lighting")
    entries = [*((one.designation, one) for one in catalogue.bases), *((one.id, one) for one in catalogue.lamps)]
    return {(name, path) for name, entry in entries for path, value in _values(entry) if id(value) in noted}


def _cases(catalogue: Catalogue, lamp: Lamp) -> Iterator[tuple[Fixture, Any]]:
    base = catalogue.base_of(lamp)
    others = {one.watts.value for one in catalogue.lamps_of_family[base.family]} - {lamp.watts.value}
    own = {"holder": lamp.base, "ballast_watts": (lamp.watts.value,)}
    for use in lamp.purposes or ("lighting",):
        yield Fixture(**own, ballast="magnetic", label=LABEL), use
    tight = {"space_mm": 100.0, "tube_room_mm": 5.0, "cold": True, "dimmer": True}
    for ballast in ("magnetic", "electronic", "dimming"):
        yield Fixture(**own, **tight, ballast=ballast), "lighting"
        if others:
            yield Fixture(holder=lamp.base, ballast=ballast, ballast_watts=tuple(others)), "lighting"
    yield Fixture(holder="G23" if base.pins.value == 4 else "G24q-1"), "lighting"


@contextmanager
def _noting(noted: set[int]) -> Iterator[None]:
    def of_value(self: Sourced, name: str) -> Any:
        if name in ("value", "confidence"):
            noted.add(id(self))
        return object.__getattribute__(self, name)

    def of_lamp(self: Lamp, name: str) -> Any:
        if name in BESIDE:
            noted.add(id(object.__getattribute__(self, BESIDE[name])))
        return object.__getattribute__(self, name)

    Sourced.__getattribute__, Lamp.__getattribute__ = of_value, of_lamp  # type: ignore[method-assign]
    try:
        yield
    finally:
        del Sourced.__getattribute__, Lamp.__getattribute__


def _values(entry: Base | Lamp) -> Iterator[tuple[str, Sourced]]:
    for name in type(entry).model_fields:
        value = getattr(entry, name)
        if isinstance(value, Sourced):
            yield name, value
        elif name in ("mains", "hf") and value is not None:
            yield from ((f"{name}.{part}", one) for part, one in value if one is not None)
        elif name == "codes":
            yield from ((f"codes.{at}", one) for at, one in enumerate(value))
