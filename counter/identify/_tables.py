"""All looks at all lamp types, worked out once for each catalogue."""

from __future__ import annotations

import weakref
from typing import TYPE_CHECKING

from counter.identify._sizes import SizeTable, size_table
from counter.identify._words import WordTable, word_table

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue

Tables = dict[str, WordTable | SizeTable]

_made: dict[int, Tables] = {}  # by id: a catalogue is frozen and cannot be hashed


def tables_of(catalogue: Catalogue) -> Tables:
    """Return the table of every look by key, remembered as long as the catalogue lives."""
    key = id(catalogue)
    if key not in _made:
        _made[key] = {
            look.key: size_table(catalogue, look) if look.is_measured else word_table(catalogue, look)
            for look in catalogue.looks
        }
        weakref.finalize(catalogue, _made.pop, key, None)
    return _made[key]


def word_chances(catalogue: Catalogue, key: str) -> Mapping[str, Mapping[str, float]]:
    """Return by lamp id the chance of each answer to a word look, slips and doubts included.

    Raises:
        KeyError: there is no such word look.
    """
    table = tables_of(catalogue)[key]
    if not isinstance(table, WordTable):
        raise KeyError(key)
    rows = [dict(zip(table.values, row, strict=True)) for row in table.cells]
    return {lamp.id: rows[row] for lamp, row in zip(catalogue.lamps, table.row_of, strict=True)}
