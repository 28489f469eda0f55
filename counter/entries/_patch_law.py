"""A shop's places and law as rows of the shipped table, each with the text it rests on as a source of its own."""

from __future__ import annotations

import json
from typing import Any

READ_AS = {"text": "published", "summary": "reproduced"}
COPIED = ("place", "classes", "what", "law", "last_day", "lengths_mm", "note", "read")


def law_with(text: str, layer: dict[str, Any]) -> str:
    """Return the text of law.json with a layer's places and law in it; as it was where the layer has none."""
    table = json.loads(text)
    known = {place["id"] for place in table["places"]}
    places = [{"id": one["code"], "name": one["name"]} for one in layer.get("places", []) if one["code"] not in known]
    rows = layer.get("law", [])
    if not places and not rows:
        return text
    table["places"] += places
    for at, one in enumerate(rows, 1):
        key = f"own-law-{at}"
        seen = f"{one['read_as']}, {one['read']}"  # data of the table, in the words of the layer
        source = {"key": key, "title": one["law"], "kind": "law", "seen": seen}
        table.setdefault("sources", []).append(source)
        copied = {name: one[name] for name in COPIED if name in one}
        table["rows"].append(
            {**copied, "ends": one.get("ends"), "source": key, "confidence": READ_AS[one["read_as"]]}
        )
    return json.dumps(table, ensure_ascii=False, indent=1) + "\n"
