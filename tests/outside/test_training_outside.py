"""Training against the reference library scipy: the interval behind "ready for the counter".

Source of the method: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934), as implemented by
scipy.stats.binomtest(...).proportion_ci(method="exact").
"""

from __future__ import annotations

import pytest

from counter.training import lower_bound

stats = pytest.importorskip("scipy.stats")


@pytest.mark.parametrize("confidence", [0.8, 0.95, 0.99])
@pytest.mark.parametrize("asked", [1, 2, 16, 17, 36, 60])
def test_lower_bound_agrees_with_scipy(asked, confidence):
    for right in range(asked + 1):
        theirs = stats.binomtest(right, asked).proportion_ci(confidence_level=confidence, method="exact").low
        assert lower_bound(right, asked, confidence) == pytest.approx(theirs, abs=1e-9)


@pytest.mark.parametrize("chance", [0.25, 0.5, 0.8, 0.9])
def test_bound_passes_the_true_share_no_oftener_than_promised(chance):
    """Exact coverage: over all outcomes of 40 answers, the bound exceeds the true share at most 2.5 % of the time."""
    asked = 40
    too_high = sum(
        stats.binom.pmf(right, asked, chance)
        for right in range(asked + 1)
        if lower_bound(right, asked, 0.95) > chance
    )
    assert 0 < too_high <= 0.025
