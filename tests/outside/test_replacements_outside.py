"""What is offered in a lamp's place, over the whole catalogue. Common practice, no source: a tube must reach both
holders, and a saver takes the place of the lamp it is made for and of no other.
"""

from __future__ import annotations

from typing import Any

import pytest

from counter.catalogue import Lamp, load
from counter.fit import Fixture, replacements

CATALOGUE = load()
TUBES = [one for one in CATALOGUE.lamps if one.shape == "linear" and one.length_mm and one.kind == "fluorescent"]
APART_MM = 150.0  # half a foot: nearer than any two nominal lengths of one base that are taken for each other


def all_watts(lamp: Lamp) -> tuple[float, ...]:
    return tuple(sorted({one.watts.value for one in CATALOGUE.lamps_on[lamp.base]}))


def sold_for(lamp: Lamp, watts: tuple[float, ...], **told: Any) -> list[Lamp]:
    kind = "electronic" if "electronic" in lamp.ballasts else "magnetic"
    fixture = Fixture(holder=lamp.base, ballast=kind, ballast_watts=watts, **told)
    found = replacements(CATALOGUE, lamp, fixture, "lighting")
    return [CATALOGUE.lamp_by_id[one.lamp] for one in found if one.verdict == "sell" and one.lamp]


@pytest.mark.parametrize("lamp", TUBES, ids=lambda one: one.id)
def test_no_tube_of_another_length_is_offered(lamp: Lamp) -> None:
    own = lamp.lengths_mm
    assert own is not None
    for other in sold_for(lamp, all_watts(lamp)):
        if other.lengths_mm is not None:
            assert other.lengths_mm[0] - APART_MM < own[1], other.id
            assert other.lengths_mm[1] + APART_MM > own[0], other.id


@pytest.mark.parametrize("lamp", [one for one in CATALOGUE.lamps if not one.is_ultraviolet], ids=lambda one: one.id)
def test_a_saver_is_offered_for_what_it_stands_in_for_and_nothing_else(lamp: Lamp) -> None:
    """Where the label lists the lamp alone; a label that lists the saver's own watts asks for it by itself."""
    family = {lamp.id, *lamp.stands_in_for}
    for other in sold_for(lamp, (lamp.watts.value,)):
        assert not other.is_saver or other.id == lamp.id or family & set(other.stands_in_for), other.id


@pytest.mark.parametrize("lamp", TUBES, ids=lambda one: one.id)
def test_a_space_that_was_measured_always_counts(lamp: Lamp) -> None:
    """No tube goes where half of its own length is free."""
    assert lamp.length_mm is not None
    assert sold_for(lamp, all_watts(lamp), space_mm=lamp.length_mm.value / 2) == []
