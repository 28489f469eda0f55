"""What is wrong with an entry, by the rules of catalogue, cautions and words, with its place in the form."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter.catalogue import Finding as Found
from counter.catalogue import OwnText, OwnWord, Problem, empty_layer, findings_of, key_of, lay_over, problems_from
from counter.entries._begin import to_layer
from counter.fit import wording_faults
from counter.language import tr
from counter.words import danger_in

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from counter.catalogue import Catalogue

    Entry = dict[str, Any]


SPOKEN = ("cautions", "words")
# What else of a layer an entry may speak of.
NEEDED = {"changed": ("bases", "lamps"), "lamps": ("bases",), "law": ("places",), "disposal": ("places",)}


class Fault(NamedTuple):
    """One thing wrong with an entry: the path of its field, what, and the way out."""

    path: tuple[str | int, ...]
    what: str
    way_out: str


def faults(section: str, entry: Entry, shipped: Catalogue, layer: dict[str, Any]) -> tuple[Fault, ...]:
    """Return what keeps an entry from being added to a layer over the shipped catalogue; nothing: it is sound.

    Faults of the whole entry have an empty path.
    """
    kept_in, kept = to_layer(section, entry, shipped)
    others = [one for one in _list(layer, kept_in) if key_of(kept_in, one) != key_of(kept_in, kept)]
    found = _findings(kept_in, {**layer, kept_in: [*others, kept]}, shipped)
    here = (kept_in, len(others))
    skipped = 3 if kept_in == "changed" else 2
    return tuple(_unique(Fault(one.loc[skipped:], one.what, one.way_out) for one in found if one.loc[:2] == here))


def _unique(found: Iterable[Fault]) -> Iterator[Fault]:
    seen = set()
    for one in found:
        if (one.path, one.what) not in seen:
            seen.add((one.path, one.what))
            yield one


def _findings(section: str, layer: dict[str, Any], shipped: Catalogue) -> list[Found]:
    if section in SPOKEN:
        return section_findings(section, layer)
    needed = NEEDED.get(section, ())
    kept = {name: _list(layer, name) for name in (*needed, section)}
    return [one for one in lay_over(shipped, {**empty_layer(), **kept}).findings if one.loc[:1] == (section,)]


def section_findings(section: str, layer: dict[str, Any]) -> list[Found]:
    """Return what is wrong with a layer's cautions or words."""
    return [one for at, entry in enumerate(_list(layer, section)) for one in _spoken(section, at, entry)]


def _spoken(section: str, at: int, entry: Entry) -> Iterator[Found]:
    model = OwnText if section == "cautions" else OwnWord
    broken = findings_of(model, entry)
    yield from (one._replace(loc=(section, at, *one.loc)) for one in broken)
    if broken:
        return
    if section == "cautions":
        for part, what, way_out in wording_faults(OwnText.model_validate(entry, strict=False)):
            yield Found((section, at, part), what, way_out)
    elif said := danger_in(entry["word"]):
        way_out = tr("No word of danger can be made harmless: answer it for each lamp.")
        yield Found((section, at, "word"), tr("“{word}” speaks of danger").format(word=said[:40]), way_out)
    elif not any(map(str.isalnum, entry["word"])):
        way_out = tr("Write the word as it stands on lamp or label.")
        yield Found((section, at, "word"), tr("no word stands here"), way_out)


def layer_problems(layer: dict[str, Any]) -> tuple[Problem, ...]:
    """Return what of a layer's cautions and words cannot be used; laying it over names the rest."""
    found = [one for section in SPOKEN for one in section_findings(section, layer)]
    return problems_from(found, layer)


def _list(layer: dict[str, Any], section: str) -> list[Entry]:
    entries = layer.get(section)
    return [one for one in entries if isinstance(one, dict)] if isinstance(entries, list) else []
