"""Entropy and mutual information, in bits, as C. E. Shannon defines them (A Mathematical Theory of Communication)."""

from __future__ import annotations

from math import log2
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

NEGLIGIBLE = 1e-7  # rows below this weight move the gain by less than a millionth of a bit


def entropy(chances: Iterable[float]) -> float:
    """Return the entropy in bits of chances that sum to 1."""
    return -sum(chance * log2(chance) for chance in chances if chance > 0)


def gain(weights: Sequence[float], cells: Sequence[Sequence[float]], bits: Sequence[float]) -> float:
    """Return the mutual information in bits of row and answer: H(answer) - H(answer | row).

    `weights` are the chances of the rows, `cells` the chances of each answer by row, `bits` their entropies.
    """
    mix = [0.0] * len(cells[0])
    kept = within = 0.0
    for weight, row, own in zip(weights, cells, bits, strict=True):
        if weight > NEGLIGIBLE:
            kept += weight
            within += weight * own
            mix = [total + weight * cell for total, cell in zip(mix, row, strict=True)]
    return max(0.0, entropy(total / kept for total in mix) - within / kept) if kept else 0.0
