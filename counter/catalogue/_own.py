"""What a shop adds beside confirmed values: entries of its own and changes to shipped ones, as a layer holds them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal, TypeVar

from pydantic import Field, JsonValue

from counter.catalogue._models import Added, Base, Lamp, Model

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

# The sections of a layer beside `confirmed`, and the fields that say what an entry is about: of several entries about
# one thing the last counts.
KEYS: dict[str, tuple[str, ...]] = {
    "bases": ("designation",),
    "lamps": ("id",),
    "changed": ("kind", "of"),
    "cautions": ("rule", "language"),
    "words": ("word",),
    "places": ("code",),
    "law": ("place", "law", "what"),
    "disposal": ("place", "title"),
}
M = TypeVar("M", bound=Model)
SECTIONS = ("confirmed", *KEYS)
ADDED = "added"  # who added an entry and when: it goes along with it and says nothing of the thing itself


class OwnBase(Base):
    """A base that the shop added."""

    added: Added | None = None


class OwnLamp(Lamp):
    """A lamp type that the shop added."""

    added: Added | None = None


class Changed(Model):
    """Fields of a shipped base or lamp type that the shop wrote anew; all others stay as shipped, also later ones."""

    kind: Literal["base", "lamp"]
    of: str = Field(min_length=1, description="designation of the base, or id of the lamp type")
    to: dict[str, JsonValue] = Field(description="a JSON merge patch (RFC 7386): null takes a field away")
    added: Added | None = None


def key_of(section: str, entry: Mapping[str, Any]) -> tuple[str, ...]:
    """Return what an entry of a layer is about; entries with the same key speak of one thing."""
    if section == "confirmed":
        return tuple(str(entry.get(name, "")) for name in ("kind", "of", "part"))
    found = tuple(str(entry.get(name, "")) for name in KEYS[section])
    return (found[0], found[1] or "en") if section == "cautions" else found


def last(section: str, entries: list[tuple[int, M]]) -> Iterable[tuple[int, M]]:
    """Return the last entry about each thing, with its index."""
    return {key_of(section, one.model_dump()): (index, one) for index, one in entries}.values()


def without_added(entry: Mapping[str, Any]) -> dict[str, Any]:
    """Return an entry without who added it and when."""
    return {name: value for name, value in entry.items() if name != ADDED}


def merge_patched(value: Any, patch: Any) -> Any:
    """Return a JSON value with a JSON merge patch applied, by the algorithm of RFC 7386, section 2."""
    if not isinstance(patch, dict):
        return patch
    kept = dict(value) if isinstance(value, dict) else {}
    for name, inner in patch.items():
        if inner is None:
            kept.pop(name, None)
        else:
            kept[name] = merge_patched(kept.get(name), inner)
    return kept


def merge_patch(old: Any, new: Any) -> Any:
    """Return the JSON merge patch that makes `new` of `old`; an object may hold no null, as ours do not."""
    if not isinstance(old, dict) or not isinstance(new, dict):
        return new
    gone = {name: None for name in old if name not in new}
    changed = {name: merge_patch(old.get(name), value) for name, value in new.items() if old.get(name) != value}
    return {**gone, **changed}
