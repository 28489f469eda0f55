"""What can be drawn of an entry while it is being typed: sound fields are used, all others are as not known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.catalogue import Base, Lamp, findings_of

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Model

    Entry = dict[str, Any]

MOST_TRIES = 12  # more faults than this in one face: it is not drawn
PLAIN_BASE: Entry = {
    "designation": "-",
    "family": "-",
    "pins": {"value": 2, "source": "inferred", "confidence": "memory-low"},
    "supply": "ballast",
    "mount": "push",
    "hold": "-",
    "tell": "-",
}
PLAIN_LAMP: Entry = {
    "id": "-",
    "base": "-",
    "watts": {"value": 1, "source": "inferred", "confidence": "memory-low"},
    "kind": "fluorescent",
    "ballasts": [],
    "ballasts_from": {"source": "inferred", "confidence": "memory-low"},
}


def drawn_base(entry: Entry) -> Base:
    """Return a base with what is sound of an entry; without a sound face it is drawn as not known."""
    return Base.model_validate(_sound(Base, entry, PLAIN_BASE), strict=False)


def drawn_lamp(entry: Entry) -> Lamp:
    """Return a lamp type with what is sound of an entry."""
    return Lamp.model_validate(_sound(Lamp, entry, PLAIN_LAMP), strict=False)


def base_under(entry: Entry, catalogue: Catalogue) -> Base:
    """Return the base that a lamp type being typed stands on; one that is not known where it names none."""
    return catalogue.base_by_name.get(str(entry.get("base")), drawn_base({}))


def _sound(model: type[Model], entry: Entry, plain: Entry) -> Entry:
    """Take faults out, the smallest part around each, until none is left."""
    data = {**plain, **{name: value for name, value in entry.items() if name in model.model_fields}}
    for _ in range(MOST_TRIES):
        found = findings_of(model, data)
        if not found:
            return data
        data = _without(data, found[0].loc)
        data = {**plain, **data}
    return plain


def _without(data: Entry, loc: tuple[str | int, ...]) -> Entry:
    """Return data without the optional part of its face, or the field, that a fault lies in."""
    head = str(loc[0])
    face = data.get(head)
    if head == "face" and isinstance(face, dict) and len(loc) > 1 and loc[1] not in ("pins", "outline"):
        return {**data, head: {name: one for name, one in face.items() if name != loc[1]}}
    return {name: one for name, one in data.items() if name != head}
