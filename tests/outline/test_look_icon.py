"""Every answer with a shape has a picture, and no two answers of a look share one."""

from __future__ import annotations

from itertools import combinations

import pytest

from counter.catalogue import load
from counter.outline import look_icon

PICTURED = [look for look in load().looks if look.values and look.key != "watts"]


@pytest.mark.parametrize("look", PICTURED, ids=lambda look: look.key)
def test_every_answer_has_a_picture_of_its_own(look):
    icons = {value.value: look_icon(look.key, value.value) for value in look.values}
    assert all(icon is not None and icon.shapes for icon in icons.values())
    for one, other in combinations(icons, 2):
        assert icons[one] != icons[other], (one, other)


def test_left_and_right_are_mirrored():
    left, right = look_icon("notch", "small-left"), look_icon("notch", "small-right")
    notch = {side: next(s for s in icon.shapes if s.part == "notch") for side, icon in (("l", left), ("r", right))}
    assert all(x < 0 for x, _ in notch["l"].points)
    assert sorted(-x for x, _ in notch["l"].points) == sorted(x for x, _ in notch["r"].points)


def test_an_answer_nobody_drew_has_words_only():
    assert look_icon("colour", "red") is None
