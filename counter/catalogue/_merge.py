"""Two shops' layers made one: a layer is a set of entries, merging is their union, and what counts is read off it.

So merging is associative, commutative and idempotent, and loses nothing; where entries speak of the same value and
differ, the later one counts and the conflict is told.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.catalogue._own import KEYS, SECTIONS, key_of, without_added

if TYPE_CHECKING:
    from collections.abc import Mapping

FORMAT, VERSION = "lamp-counter/shop", 1

Entry = tuple[str, str]  # its section, and itself as JSON with sorted keys


class Layer(NamedTuple):
    """Everything that shops added or confirmed, each entry once, in no order."""

    entries: frozenset[Entry] = frozenset()


class Conflict(NamedTuple):
    """Entries about the same thing that differ: what it is, the entry that counts, and the others, latest first."""

    about: str
    counts: dict[str, Any]
    others: tuple[dict[str, Any], ...]


def layer_of(content: Mapping[str, Any]) -> Layer:
    """Return the layer in the content of a shop file; entries that are no objects are none."""
    found = set()
    for section in SECTIONS:
        entries = content.get(section, [])
        for entry in entries if isinstance(entries, list | tuple) else ():
            if isinstance(entry, dict):
                found.add((section, _text(entry)))
    return Layer(frozenset(found))


def merged(one: Layer, other: Layer) -> Layer:
    """Return all entries of both."""
    return Layer(one.entries | other.entries)


def content_of(layer: Layer) -> dict[str, Any]:
    """Return a layer as the content of a shop file.

    All confirmations are kept, so ordered that the latest of each value comes last, which is the one that counts. Of
    other entries about one thing a file can hold one only; the others are told by `conflicts` and stay in the layer.
    """
    content: dict[str, Any] = {"format": FORMAT, "version": VERSION}
    content["confirmed"] = _ordered(layer, "confirmed")
    for section in KEYS:
        content[section] = [group[-1] for group in _groups(layer, section).values()]
    return content


def conflicts(layer: Layer) -> tuple[Conflict, ...]:
    """Return what entries do not agree on, by what it is about."""
    found = []
    for section in SECTIONS:
        for about, group in _groups(layer, section).items():
            *others, counts = group
            differing = [entry for entry in others if _said(section, entry) != _said(section, counts)]
            if differing:
                found.append(Conflict(about, counts, tuple(reversed(differing))))
    return tuple(sorted(found, key=lambda conflict: conflict.about))


def _text(entry: Mapping[str, Any]) -> str:
    return json.dumps(entry, sort_keys=True, ensure_ascii=False)


def _ordered(layer: Layer, section: str) -> list[dict[str, Any]]:
    """Return the entries of a section, earliest first; of one day in an order that depends on them alone."""
    entries = [json.loads(text) for kind, text in layer.entries if kind == section]
    return sorted(entries, key=lambda entry: (day_of(entry), _text(entry)))


def day_of(entry: Mapping[str, Any]) -> str:
    """Return the day on which an entry was made, ISO 8601; nothing where it does not say."""
    added = entry.get("added")
    return str(entry.get("on") or (added.get("on", "") if isinstance(added, dict) else ""))


def _groups(layer: Layer, section: str) -> dict[str, list[dict[str, Any]]]:
    groups: dict[str, list[dict[str, Any]]] = {}
    for entry in _ordered(layer, section):
        groups.setdefault(_about(section, entry), []).append(entry)
    return groups


def _about(section: str, entry: Mapping[str, Any]) -> str:
    named = " ".join(key_of(section, entry))
    return named if section in ("confirmed", "changed") else f"{section.removesuffix('s')} {named}"


def _said(section: str, entry: Mapping[str, Any]) -> Any:
    """Return what an entry says of its thing, without who said it and when."""
    return entry.get("value") if section == "confirmed" else without_added(entry)
