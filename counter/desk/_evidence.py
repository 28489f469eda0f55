"""What looks and marks together say of the lamp, before anything is asked of the fixture.

May import counter.identify, counter.desk._lead and counter.marks; counter.desk is its only reader.
"""

from __future__ import annotations

import weakref
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from counter import identify, marks
from counter.desk._lead import Leading, leading, read_lamps
from counter.marks import MarkEvidence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue
    from counter.identify import Candidate, NextLook
    from counter.marks import HouseMaker, Reading

MOST_KEPT = 16  # as far as a clerk goes back and forth with undo

House: TypeAlias = "tuple[HouseMaker, ...]"
Key = tuple[tuple[tuple[str, str | float], ...], str, int]  # the last is the id of the house tables


class Evidence(NamedTuple):
    """The candidates, the readings of the marks, and the looks still worth taking."""

    marks: MarkEvidence
    candidates: tuple[Candidate, ...]
    readings: tuple[Reading, ...]
    next: tuple[NextLook, ...]
    house: House  # held here, so that its id in the key names no other
    lead: Leading
    by_looks: tuple[Candidate, ...]  # what the looks say alone


_kept: dict[int, dict[Key, Evidence]] = {}  # by id: a catalogue is frozen and cannot be hashed


def evidence_of(catalogue: Catalogue, looks: Mapping[str, str | float], text: str, house: House = ()) -> Evidence:
    """Return what looks and marks say; kept, since most of what a clerk changes next is in the fixture.

    The looks weigh the readings of the marks and the marks weigh the candidates; both come from the one posterior
    over lamp types. `house` holds the shop's own tables of makers' codes.
    """
    kept = _kept_of(catalogue)
    key = (tuple(looks.items()), text, id(house))
    if key not in kept:
        while len(kept) >= MOST_KEPT:
            kept.pop(next(iter(kept)))
        alone = next((one.by_looks for old, one in kept.items() if old[0] == key[0]), None)
        kept[key] = _weigh(catalogue, looks, text, house, alone or identify.rank(catalogue, looks))
    return kept[key]


def _kept_of(catalogue: Catalogue) -> dict[Key, Evidence]:
    if id(catalogue) not in _kept:
        _kept[id(catalogue)] = {}
        weakref.finalize(catalogue, _kept.pop, id(catalogue), None)
    return _kept[id(catalogue)]


def _weigh(
    catalogue: Catalogue,
    looks: Mapping[str, str | float],
    text: str,
    house: House,
    by_looks: tuple[Candidate, ...],
) -> Evidence:
    said = marks.read(catalogue, text, house) if text.strip() else MarkEvidence(text=text)
    candidates = identify.rank(catalogue, looks, said.likelihood, said.floor) if said.likelihood else by_looks
    readings = marks.sharpen(said, {one.lamp: one.probability for one in by_looks})
    nexts = identify.next_looks(catalogue, looks, candidates)
    lead = leading(catalogue, candidates, read_lamps(catalogue, candidates, readings))
    return Evidence(said, candidates, readings, nexts, house, lead, by_looks)
