"""Entropy and mutual information, in bits, as C. E. Shannon defines them (A Mathematical Theory of Communication)."""

from __future__ import annotations

from math import log2
from operator import mul
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

NEGLIGIBLE = 1e-7  # rows below this weight move the gain by less than a millionth of a bit


def entropy(chances: Iterable[float]) -> float:
    """Return the entropy in bits of chances that sum to 1."""
    return -sum([chance * log2(chance) for chance in chances if chance > 0])  # a list: summed far faster


def gain(weights: Mapping[int, float], cells: Sequence[Sequence[float]], bits: Sequence[float]) -> float:
    """Return the mutual information in bits of row and answer: H(answer) - H(answer | row).

    `weights` are the chances by row, of those that have any; `cells` the chances of each answer by row, `bits` their
    entropies.
    """
    live = [at for at, weight in weights.items() if weight > NEGLIGIBLE]
    if not live:
        return 0.0
    kept = [weights[at] for at in live]
    total = sum(kept)
    mix = [sum(map(mul, kept, answer)) / total for answer in zip(*[cells[at] for at in live], strict=True)]
    within: float = sum(map(mul, kept, [bits[at] for at in live]))
    return max(0.0, entropy(mix) - within / total)
