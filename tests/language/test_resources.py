"""Every text of the resources that somebody reads is translated: one walk over all of them, file by file.

A text of two words and more stands in a place that `counter.language.TEXTS` names, or in one that is named here with
the reason why nobody reads it, or why it is not translated. A new field fails until it is in one of the two.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from counter import paths
from counter.language import TEXTS
from tests.language.test_translations import is_sentence

if TYPE_CHECKING:
    from collections.abc import Iterator

NOBODY_READS = {
    "catalogue.json": {
        "sources.*.seen": "for whoever keeps the catalogue",
        "sources.*.kind": "a word for the rules of checking",
        "looks.*.slip_from.note": "for whoever keeps the catalogue",
        "lamps.*.note": "for whoever keeps the catalogue",
        **{
            f"{entry}.*.{value}.note": "beside a value that is drawn or reckoned with, and told without its source"
            for entry, values in {
                "bases": ("sheet", "face.pins", "face.outline", "face.centre", "face.pin_diameter_mm"),
                "lamps": (
                    *("watts", "codes.*", "length_also_mm", "magnetic_if_listed", "starts_above_c", "dims"),
                    *("uvc_w", "uva_w", "uvb_w", "arc_mm", "mains.power_w", "hf.power_w"),
                ),
            }.items()
            for value in values
        },
        "lamps.*.dims.value": "a word of the table",
        "lamps.*.purposes.*": "a word of the table; where it is shown it is one of those that rules fill in",
    },
    "cautions.json": {
        "shared_chokes.*.note": "for whoever keeps the table",
        "rules.*.verdict": "a verdict as data",
    },
    "label.json": {
        "sources.*": "for whoever keeps the table",
        "pieces.*": "a pattern",
        "rows.*.pattern": "a pattern",
        "rows.*.about": "the name of a field",
        "holder.*.pattern": "a pattern",
        "holder.*.means": "for whoever keeps the table",
        "gap": "a pattern",
        "gap_before_only": "a pattern",
        "gap_of_denial": "a pattern",
        "denials.*": "words of labels",
        "sources_denied": "a pattern",
        "starts.*": "a pattern",
        "of_lamps": "a pattern",
        "telling_name": "a pattern",
        "named_model": "a pattern",
        "heading": "a pattern",
        "column": "a pattern",
        "own_watts": "a pattern",
        "counts_lamps": "a pattern",
        "figures": "a pattern",
    },
    "lessons.json": {"rules.*.*.*": "a lamp, and the name of a fixture"},
    "light.json": {
        "colour.letters.*.name": "a name that is looked up; shown by its letters",
        "colour.match_words.*.because": "for whoever keeps the table",
        "colour.match_words.*.word": "one of the words that rules fill in",
    },
    "plain-words.json": {"**": "what people write on labels, for whoever keeps the table"},
    "marks.json": {
        "asides.*.pattern": "a pattern",
        "sources.*": "for whoever keeps the table",
        "systems.*.slots.*": "the name of a slot",
        "systems.*.extras.*": "the name of a slot",
        "systems.*.one of.*.*": "the name of a slot",
        "systems.colour.*.*": "the name of a slot",
        "systems.parts.*.check": "the name of a check",
        "systems.parts.*.note": "made anew from counter/marks/_sentences.py",
        "systems.parts.*.parts.*.*": "made anew from counter/marks/_sentences.py",
        "systems.parts.*.parts.*.*.*": "made anew from counter/marks/_sentences.py",
        "words.*.words.*": "what people write",
        "house.*.maker": "an invented maker, which shows how such a table is written",
        "house.*.example": "an invented code",
    },
    "replacements.json": {"led_caps.*.note": "for whoever keeps the table"},
    "stock.json": {"columns.*.*": "headings of other people's lists"},
    "training.json": {"labels.*": "what stands on an invented label", "marks.*": "what stands on an invented lamp"},
    "words.json": {
        "**": "what people write on lamps and labels, and which topic it speaks of",
    },
}


def texts(node: object, place: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    if isinstance(node, str):
        yield place, node
    elif isinstance(node, dict | list):
        for key, inner in node.items() if isinstance(node, dict) else enumerate(node):
            yield from texts(inner, (*place, str(key)))


def lies_in(place: tuple[str, ...], named: str) -> bool:
    steps = named.split(".")
    return named == "**" or (
        len(steps) == len(place) and all(step in ("*", here) for step, here in zip(steps, place, strict=True))
    )


@pytest.mark.parametrize("file", sorted(paths.resources().glob("*.json")), ids=lambda file: file.name)
def test_every_text_is_translated_or_read_by_nobody(file):
    shown, hidden = TEXTS.get(file.name, ()), NOBODY_READS.get(file.name, {})
    used, left = set(), set()
    for place, text in texts(json.loads(file.read_text(encoding="utf-8"))):
        found = {named for named in (*shown, *hidden) if lies_in(place, named)}
        used |= found
        if not found and is_sentence(text):
            left.add(".".join(place))
    assert left == set()
    assert set(hidden) <= used, "what is no longer in the file need not be excused"
