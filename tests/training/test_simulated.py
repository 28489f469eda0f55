"""Simulated trainees over simulated weeks end where they should."""

from __future__ import annotations

import random

import pytest

from counter.training import assign, mixes, progress, results_sheet, standings
from tests.training.prove import prove

FAMILY = "G24q"  # has a notch on a side, and no germicidal lamps


def perfect(card):
    return card.answer


def guessing(seed=1):
    rng = random.Random(seed)
    return lambda card: rng.randrange(len(card.choices))


def confusing_left_with_right(card):
    swapped = {"small-left": "small-right", "small-right": "small-left"}
    truth = card.values[card.answer]
    return card.values.index(swapped[truth]) if truth in swapped and card.axis == "notch" else card.answer


def ready(catalogue, data, trainee):
    return [one.family for one in standings(catalogue, progress(data, trainee)) if one.is_ready]


def test_perfect_ends_ready_within_a_week(catalogue, data, trainee, now, play):
    assign(data, trainee, FAMILY, now)
    play(trainee, perfect, days=7, minutes=5)
    assert FAMILY in ready(catalogue, data, trainee)
    assert mixes(progress(data, trainee).answers) == ()


def test_guessing_stays_unready(catalogue, data, trainee, now, play):
    assign(data, trainee, FAMILY, now)
    play(trainee, guessing(), days=7, minutes=5)
    assert ready(catalogue, data, trainee) == []


def test_left_and_right_are_named(catalogue, data, trainee, now, play):
    assign(data, trainee, FAMILY, now)
    play(trainee, confusing_left_with_right, days=7, minutes=5)
    found = mixes(progress(data, trainee).answers)
    assert {mix[:3] for mix in found} == {
        ("notch", "small-left", "small-right"),
        ("notch", "small-right", "small-left"),
    }
    assert FAMILY not in ready(catalogue, data, trainee)
    assert "“left” taken for “right”: " in results_sheet(catalogue, progress(data, trainee), now)


@pytest.mark.slow
def test_perfect_is_ready_for_every_family_in_the_end(catalogue, data, trainee, play):
    """Ten weeks of twenty minutes a day, nothing assigned; every card on the way is proved."""
    for day in range(70):
        for card, _ in play(trainee, perfect, minutes=20, first_day=day):
            assert prove(catalogue, card), card
        if len(ready(catalogue, data, trainee)) == len({base.family for base in catalogue.bases}):
            return
    pytest.fail(f"only {ready(catalogue, data, trainee)}")


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(5))
def test_guessing_is_never_ready(catalogue, data, trainee, play, seed):
    """Four weeks of twenty minutes a day, looked at after every one."""
    choose = guessing(seed)
    for day in range(28):
        play(trainee, choose, minutes=20, first_day=day)
        assert ready(catalogue, data, trainee) == []


@pytest.mark.slow
def test_left_and_right_lead_the_matrix_over_weeks(catalogue, data, trainee, now, play):
    """A trainee who mixes up left and right, and guesses wrong one card in fifty besides."""
    rng = random.Random(3)

    def choose(card):
        return rng.randrange(len(card.choices)) if rng.random() < 0.02 else confusing_left_with_right(card)

    for family in ("G24q", "G24d"):
        assign(data, trainee, family, now)
    play(trainee, choose, days=21, minutes=10)
    first, second = mixes(progress(data, trainee).answers)[:2]
    assert {first[:3], second[:3]} == {
        ("notch", "small-left", "small-right"),
        ("notch", "small-right", "small-left"),
    }
    assert not {"G24q", "G24d"} & set(ready(catalogue, data, trainee))
