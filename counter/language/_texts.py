"""Which texts of the resources are sentences to be translated; where they are shown they go through `tr`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from counter import paths

if TYPE_CHECKING:
    from collections.abc import Iterator

# By file: the places of texts in it, "*" for every key or every item.
TEXTS: dict[str, tuple[str, ...]] = {
    "cautions.json": (
        "questions.*.question",
        "questions.*.why",
        "rules.*.says",
        "rules.*.why",
        "rules.*.do",
        "rules.*.ask",
    ),
    "catalogue.json": (
        "bases.*.tell",
        "bases.*.hold",
        "bases.*.spacing_means",
        "looks.*.label",
        "looks.*.why",
        "looks.*.values.*.label",
    ),
    "training.json": (
        "kinds.*.title",
        "kinds.*.question",
        "kinds.*.why",
        "aspects.*.question",
        "aspects.*.why",
        "words.*",
        "rule_names.*",
    ),
}


def texts_of(name: str) -> Iterator[tuple[str, str]]:
    """Yield each text of a resource with its place: ("rules.damp.says", "…")."""
    document = json.loads((paths.resources() / name).read_text(encoding="utf-8"))
    for place in TEXTS[name]:
        yield from _found(document, place.split("."), "")


def _found(node: Any, place: list[str], so_far: str) -> Iterator[tuple[str, str]]:
    if not place:
        if isinstance(node, str) and node:
            yield so_far.lstrip("."), node
        return
    keys = (list(node) if isinstance(node, dict) else range(len(node))) if place[0] == "*" else [place[0]]
    for key in keys:
        if not isinstance(node, dict) or key in node:
            yield from _found(node[key], place[1:], f"{so_far}.{key}")
