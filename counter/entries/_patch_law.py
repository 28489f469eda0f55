"""A shop's places, law and disposal as rows of the shipped tables, each with the text it rests on as a source."""

from __future__ import annotations

import json
from itertools import count
from typing import TYPE_CHECKING, Any

from counter import paths
from counter.catalogue import OwnDisposal, OwnLaw, empty_layer, key_of, lay_over, load_file

if TYPE_CHECKING:
    from counter.catalogue import Model

    Table = dict[str, Any]

SECTIONS = ("places", "law", "disposal")


def law_with(text: str, layer: dict[str, Any]) -> str:
    """Return the text of law.json with a layer's places and law in it; as it was where that adds nothing."""
    table = json.loads(text)
    known = {place["id"] for place in table["places"]}
    places = [one for one in _counting("places", layer) if one["code"] not in known]
    table["places"] += [{"id": one["code"], "name": one["name"]} for one in places]
    for one in _counting("law", layer):
        _add(table, "rows", _row(OwnLaw, one), one, ("place", "law", "what"))
    return _text(text, table)


def disposal_with(text: str, layer: dict[str, Any]) -> str:
    """Return the text of disposal.json with what a layer says of used lamps; as it was where that is nothing."""
    table = json.loads(text)
    for one in _counting("disposal", layer):
        _add(table, "notes", _row(OwnDisposal, one), one, ("places", "title"))
    return _text(text, table)


def _text(before: str, table: Table) -> str:
    return before if table == json.loads(before) else json.dumps(table, ensure_ascii=False, indent=1) + "\n"


def _counting(section: str, layer: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the entries of a section that are sound, the last about each thing."""
    kept = {**empty_layer(), **{name: layer.get(name, []) for name in SECTIONS}}
    bad = {one.loc[:2] for one in lay_over(load_file(paths.resources() / "catalogue.json"), kept).findings}
    sound = [one for at, one in enumerate(kept[section]) if (section, at) not in bad]
    return list({key_of(section, one): one for one in sound}.values())


def _row(model: type[Model], entry: dict[str, Any]) -> dict[str, Any]:
    """Return a row as the shop's own layer lays it over the table."""
    own = model.model_validate(entry, strict=False)
    assert isinstance(own, OwnLaw | OwnDisposal)
    return own.row().model_dump(mode="json", exclude_defaults=True, exclude={"who"})  # names stay in the shop


def _add(table: Table, rows: str, row: dict[str, Any], entry: dict[str, Any], about: tuple[str, ...]) -> None:
    """Add a row with a source of its own, unless the table says it already."""
    if any(all(one.get(name) == row[name] for name in about) for one in table[rows]):
        return
    sources = table.setdefault("sources", [])
    taken = {one["key"] for one in sources}
    key = next(name for at in count(1) if (name := f"own-{rows}-{at}") not in taken)
    seen = f"{entry['read_as']}, {entry['read']}"  # data of the table, in the words of the layer
    sources.append({"key": key, "title": entry["law"], "kind": "law", "seen": seen})
    table[rows].append({**row, "source": key})
