"""Looks answered with a word: how likely each answer is on each lamp type, slips and doubts included."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from counter.identify._entropy import entropy
from counter.identify._heard import Heard
from counter.identify._truth import Truth, word_truth, word_values
from counter.language import decimals, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue, Look


@dataclass(frozen=True)
class WordTable:
    """One look at all lamp types; lamp types that look alike share a row."""

    look: Look
    values: tuple[str, ...]
    truths: tuple[Truth, ...]  # by row
    cells: tuple[tuple[float, ...], ...]  # by row: the chance of each answer, in the order of `values`
    row_of: tuple[int, ...]  # by lamp, in catalogue order

    @cached_property
    def bits(self) -> tuple[float, ...]:
        """Entropy of the answer by row, in bits."""
        return tuple(entropy(row) for row in self.cells)

    def hear(self, answer: str | float) -> Heard:
        """Return what an answer says of every lamp; remembered, for there are few answers."""
        text = str(answer)
        if text not in self._heard:
            at = self.values.index(text)
            chances = [row[at] for row in self.cells]
            speaks = [self._speaks(truth, text) for truth in self.truths]
            self._heard[text] = Heard([chances[row] for row in self.row_of], [speaks[row] for row in self.row_of])
        return self._heard[text]

    @cached_property
    def _heard(self) -> dict[str, Heard]:
        return {}

    def _speaks(self, truth: Truth, answer: str) -> bool | None:
        if any(answer == value or answer in self._also.get(value, ()) for value in truth.allowed):
            return True if len(truth.allowed) == 1 else None
        return False if truth.allowed else None

    @cached_property
    def _also(self) -> dict[str, tuple[str, ...]]:
        return {value.value: value.also for value in self.look.values}

    def name(self, row: int) -> str | None:
        """Name what the catalogue says of a row, if it says one thing."""
        allowed = self.truths[row].allowed
        if len(allowed) != 1:
            return None
        only = next(iter(allowed))
        return tr(self._labels[only]) if only in self._labels else f"{decimals(only)} W"

    @cached_property
    def _labels(self) -> dict[str, str]:
        return {value.value: value.label for value in self.look.values}


def slips(look: Look, values: Sequence[str]) -> dict[str, tuple[float, ...]]:
    """Return by true value the chance of each answer: 1 - slip on the truth, slip by the weights of `instead`."""
    told = {value.value: value for value in look.values}
    rows = {}
    for truth in values:
        value = told.get(truth)
        slip = look.slip if value is None or value.slip is None else value.slip
        instead = value.instead if value is not None else {}
        weights = [0.0 if other == truth else instead.get(other, 0.0 if instead else 1.0) for other in values]
        total = sum(weights) or 1.0
        rows[truth] = tuple(
            1 - slip if other == truth else slip * weights[at] / total for at, other in enumerate(values)
        )
    return rows


def word_table(catalogue: Catalogue, look: Look) -> WordTable:
    """Return the table of one word look."""
    values = word_values(catalogue, look)
    rows: dict[Truth, int] = {}
    row_of = tuple(rows.setdefault(word_truth(catalogue, look, lamp, values), len(rows)) for lamp in catalogue.lamps)
    slip = tuple(slips(look, values).values())
    sums = [sum(column) for column in zip(*slip, strict=True)]
    cells = tuple(_reports(truth.chances, slip, sums) for truth in rows)
    return WordTable(look, values, tuple(rows), cells, row_of)


def _reports(truth: Sequence[float], slip: Sequence[Sequence[float]], sums: Sequence[float]) -> tuple[float, ...]:
    """Return the chance of each answer: the product of truth and slips.

    Most true values of a row are equally unlikely, so their slips are summed once for all rows (`sums`): the full
    product over the watts alone takes longer than loading the catalogue.
    """
    least = min(truth)
    cells = [least * total for total in sums]
    for chance, row in zip(truth, slip, strict=True):
        if chance > least:
            cells = [cell + (chance - least) * slipped for cell, slipped in zip(cells, row, strict=True)]
    return tuple(cells)
