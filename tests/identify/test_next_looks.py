"""The next look: which, how many bits, and why."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from counter.identify import CANNOT_TELL, next_looks, rank


def ask(catalogue, looks):
    return next_looks(catalogue, looks, rank(catalogue, looks))


def test_all_looks_are_offered_best_bits_a_second_first(catalogue):
    found = ask(catalogue, {})
    assert {one.look for one in found} == set(catalogue.look_by_key)
    rates = [one.bits / one.seconds for one in found]
    assert rates == sorted(rates, reverse=True)
    assert all(one.seconds == catalogue.look_by_key[one.look].seconds for one in found)


@pytest.mark.parametrize("answer", ["4", CANNOT_TELL])
def test_an_answered_look_is_not_offered_again(catalogue, answer):
    assert "legs" not in {one.look for one in ask(catalogue, {"legs": answer})}


def test_nothing_left_to_ask(catalogue):
    assert ask(catalogue, dict.fromkeys(catalogue.look_by_key, CANNOT_TELL)) == ()


@pytest.mark.parametrize(
    ("looks", "useful", "useless"),
    [
        ({"legs": "2", "pins": "4", "arrangement": "row", "watts": "36"}, "glass", "block"),
        ({"legs": "1", "pins": "2", "arrangement": "ends"}, "tube_mm", "notch"),
        ({"legs": "4", "pins": "4", "arrangement": "rectangle", "glass": "white"}, "watts", "block"),
    ],
)
def test_look_that_splits_the_leaders_tells_more(catalogue, looks, useful, useless):
    bits = {one.look: one.bits for one in ask(catalogue, looks)}
    assert bits[useful] > 3 * bits[useless]


def test_certainty_leaves_nothing_to_gain(catalogue):
    (first, *_) = rank(catalogue, {})
    certain = (replace(first, probability=1.0),)
    assert max(one.bits for one in next_looks(catalogue, {}, certain)) == pytest.approx(0, abs=1e-9)


def test_why_names_what_it_splits(catalogue):
    looks = {"legs": "4", "pins": "4", "arrangement": "rectangle", "glass": "white", "length_mm": 131.0}
    why = {one.look: one.why for one in ask(catalogue, looks)}
    assert why["watts"].startswith(catalogue.look_by_key["watts"].why)
    assert why["watts"].endswith(" Here it tells 13 W from 18 W.")
    assert why["block"] == catalogue.look_by_key["block"].why


@pytest.mark.parametrize(
    ("looks", "first"),
    [
        ({}, "legs"),
        ({"legs": "2"}, "glass"),
        ({"legs": "1"}, "glass"),
        ({"legs": "2", "pins": "2"}, "glass"),
        ({"legs": "2", "glass": "cannot-tell"}, "watts"),
        ({"legs": "4", "pins": "4"}, "watts"),
    ],
)
def test_glass_is_looked_at_first_while_germicidal_lamps_are_in_the_running(catalogue, looks, first):
    assert ask(catalogue, looks)[0].look == first


def test_pattern_of_two_pins_is_asked_last(catalogue):
    assert ask(catalogue, {"legs": "2", "pins": "2"})[-1].look == "arrangement"
    assert ask(catalogue, {"legs": "2", "pins": "4"})[-1].look != "arrangement"


def test_cells_lose_little_against_a_fine_grid(catalogue, monkeypatch):
    from counter.identify import _sizes
    from counter.identify._entropy import gain

    rows = {"length_mm": (range(50, 2501), {}), "tube_mm": ([at / 10 for at in range(50, 451)], {"legs": "1"})}
    for key, (grid, looks) in rows.items():
        table = _sizes.size_table(catalogue, catalogue.look_by_key[key])
        fine = _sizes.size_table(catalogue, catalogue.look_by_key[key])
        monkeypatch.setattr(_sizes.SizeTable, "edges", tuple(map(float, grid)))
        chances = {one.lamp: one.probability for one in rank(catalogue, looks)}
        weights: Counter[int] = Counter()
        for lamp, row in zip(catalogue.lamps, table.row_of, strict=True):
            weights[row] += chances[lamp.id]
        best = gain(weights, fine.cells, fine.bits)
        monkeypatch.undo()
        assert 0.95 * best <= gain(weights, table.cells, table.bits) <= best
