"""Rendered photographs, measured: a few at every run, many by hand with -m slow."""

from __future__ import annotations

import pytest

from tests.simulate_photos import judge, measured_well, report

FEW = (5001, 5004, 5006, 5010)


@pytest.mark.parametrize("seed", FEW)
def test_a_rendered_photograph_is_measured(catalogue, seed):
    told = judge(catalogue, seed)
    assert told.found, told
    assert told.off_mm is None or told.off_mm < 0.6, told


def test_the_same_seed_gives_the_same_picture(catalogue):
    from tests.simulate_photos import take

    assert take(catalogue, 5).jpeg == take(catalogue, 5).jpeg


@pytest.mark.slow
def test_two_thousand_photographs(catalogue):
    verdicts = [judge(catalogue, seed) for seed in range(10_000, 12_000)]
    print(report(verdicts))
    assert measured_well(verdicts), report(verdicts)
