"""Rendered photographs, measured: a few at every run, many by hand with -m slow."""

from __future__ import annotations

import pytest

from tests.simulate_photos import judge, measured_well, report

FEW = ((21, "G24q-3"), (4, "G23"), (12, "2G11"), (18, "GX53"))


@pytest.mark.parametrize(("seed", "base"), FEW)
def test_a_rendered_photograph_is_measured(catalogue, seed, base):
    told = judge(catalogue, seed, base)
    assert told.found, told
    assert told.off_mm is not None, told
    assert told.off_mm <= told.tolerance_mm, told
    assert told.face_rank <= 3, told
    assert told.said_notch in (None, told.notch), told


def test_the_same_seed_gives_the_same_picture(catalogue):
    from tests.simulate_photos import take

    assert take(catalogue, 5).jpeg == take(catalogue, 5).jpeg


@pytest.mark.slow
def test_two_thousand_photographs(catalogue):
    verdicts = [judge(catalogue, seed) for seed in range(10_000, 12_000)]
    print(report(verdicts))
    assert measured_well(verdicts), report(verdicts)
