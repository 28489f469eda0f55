"""Small counts of what `python -m tests.soak.storm` runs by the thousand: nothing lost, nothing raised."""

from __future__ import annotations

import os
import random

import pytest

pytest.importorskip("PySide6")
from tests.soak import storm

pytestmark = pytest.mark.slow
COUNTS = {"kills": 60, "mutants": 1200, "codes": 20_000, "labels": 20_000, "cases": 2_000}


@pytest.mark.parametrize("what", COUNTS)
def test_nothing_is_lost_and_nothing_raised(what):
    if what == "kills" and not hasattr(os, "fork"):
        pytest.skip("forks its writers")
    found = list(storm.STORMS[what](COUNTS[what], random.Random(7)))
    assert [(one.kind, one.wrong[:3]) for one in found if one.wrong] == []


def test_a_storm_sees_what_is_wrong():
    def one():
        raise KeyError("lamp")

    assert len(storm._timed("faults", 3, one).wrong) == 3
