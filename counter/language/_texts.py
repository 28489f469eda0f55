"""Which texts of the resources are sentences to be translated; where they are shown they go through `tr`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from counter import paths

if TYPE_CHECKING:
    from collections.abc import Iterator

# The values of a lamp type that the window tells with where they are from.
LAMP_VALUES = (
    *("glass", "length_mm", "tube_mm", "ballasts_from", "starts_from", "stands_in_from", "purposes_from", "met"),
    *("mains.current_a", "hf.current_a"),
)
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
        "bases.*.tell_key",
        "bases.*.hold",
        "bases.*.hold_key",
        "bases.*.spacing_means",
        "sources.*.title",
        *(f"bases.*.{value}.note" for value in ("pins", "pin_spacing_mm", "face.notches", "starter")),
        *(f"lamps.*.{value}.note" for value in LAMP_VALUES),
        "looks.*.label",
        "looks.*.ask",
        "looks.*.why",
        "looks.*.values.*.label",
    ),
    "disposal.json": ("check", "broken.*.step", "notes.*.title", "notes.*.text"),
    "light.json": ("sources.*", "uv.places.*.name"),
    "label.json": ("rows.*.means",),
    "law.json": ("check", "places.*.name", "rows.*.what", "rows.*.law", "rows.*.note"),
    "marks.json": (
        "shapes.*.means",
        "nema.prefixes.*.means",
        "nema.shapes.*.means",
        "nema.older_says",
        "nema.older_means",
        "aliases.*.means",
        "asides.*.means",
        "linear.heads.*.means",
        "linear.suffixes.*.means",
        "linear.germicidal_suffixes.*.means",
        "linear.leg_spacing.*.means",
        "ilcos.forms.*.means",
        "ilcos.starts.*.means",
        "lbs.rows.*.means",
        "colour.two_figures.*.means",
        "colour.unknown_number",
        "colour.tints.*.means",
        "colour.letters.*.means",
        "caps.main.*.means",
        "caps.main.*.number",
        "caps.modifiers.*.means",
        "caps.contacts.*.means",
        "words.*.means",
        "slots.maker_means",
        "slots.uv_means",
        "slots.taught_means",
        "slots.nothing_means",
        "slots.number_means",
        "slots.watts_means",
        "slots.key_means",
        "slots.kinds.*",
        "slots.heads.*.means",
        "slots.letters.*.means",
        "house.*.parts.*.means",
        "house.*.parts.*.choices.*.means",
    ),
    "words.json": (
        "topics.uv-c.means",
        "topics.uv-b.means",
        "topics.uv-a.means",
        "topics.newborn.means",
        "topics.coated.means",
        "topics.coloured.means",
        "topics.special.means",
        "topics.print.means",
    ),
    "replacements.json": ("led_types.*.title", "led_types.*.needs"),
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
