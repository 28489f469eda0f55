"""How sure a share of right answers is."""

from __future__ import annotations

from functools import lru_cache
from math import comb

_HALVINGS = 60  # 2^-60: below the spacing of floats near 1


def _at_least(right: int, asked: int, chance: float) -> float:
    """Return P(X >= right) for X binomial."""
    return sum(comb(asked, k) * chance**k * (1 - chance) ** (asked - k) for k in range(right, asked + 1))


@lru_cache(maxsize=4096)
def lower_bound(right: int, asked: int, confidence: float = 0.95) -> float:
    """Return the lower bound of the two-sided Clopper-Pearson interval for a share of right answers.

    The exact interval of C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial limits illustrated in
    the case of the binomial", Biometrika 26 (1934): the chance under which `right` or more of `asked` would come
    up with probability (1 - confidence) / 2. Chosen over Wilson's score interval (1927), whose confidence holds
    only on the average of shares: here it must hold for every one.

    Raises:
        ValueError: not 0 <= right <= asked.
    """
    if not 0 <= right <= asked:
        raise ValueError(f"{right} right of {asked} asked")
    if right == 0:
        return 0.0
    tail = (1 - confidence) / 2
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _at_least(right, asked, middle) < tail else (low, middle)
    return low
