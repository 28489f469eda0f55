"""Ratings from correctness and time, when points fade, forgetting."""

from __future__ import annotations

from datetime import UTC, timedelta, timezone
from itertools import pairwise

import pytest

from counter.training import Schedule, rate

POINT = "name-base/G24q"


@pytest.mark.parametrize(
    ("worth", "seconds", "is_new", "rating"),
    [
        (0.0, 1, False, "again"),
        (0.59, 1, False, "again"),
        (0.6, 1, False, "hard"),  # near enough to be no mistake
        (1.0, 3, False, "easy"),
        (1.0, 3, True, "good"),  # may be a guess
        (1.0, 4, False, "good"),
        (1.0, 12, False, "good"),
        (1.0, 12.1, False, "hard"),
        (1.0, 12.1, True, "hard"),
        (0.0, 3, True, "again"),
    ],
)
def test_rating(worth, seconds, is_new, rating):
    assert rate("name-base", worth, seconds, is_new=is_new) == rating


def test_new_point_returns_within_the_round_then_after_days(answer):
    schedule = Schedule([answer()])
    first = schedule.fades_at(POINT)
    assert first - answer().at == timedelta(minutes=10)
    schedule.learn(answer(day=11 / 1440))
    assert timedelta(days=2) <= schedule.fades_at(POINT) - first <= timedelta(days=4)


def test_mistake_is_due_before_a_right_answer(answer):
    wrong, right = answer("sale/G23/right", worth=0, rating="again"), answer()
    schedule = Schedule([right, wrong])
    assert schedule.faded(right.at + timedelta(minutes=5)) == ("sale/G23/right",)
    assert set(schedule.faded(right.at + timedelta(minutes=30))) == {"sale/G23/right", POINT}


def test_most_forgotten_comes_first(answer):
    strong = [answer(), answer(day=0.01), answer(day=3), answer(day=14)]
    weak = [answer("notch-side/G24q", day=13)]
    schedule = Schedule(sorted(strong + weak, key=lambda one: one.at))
    assert schedule.faded(answer(day=400).at) == ("notch-side/G24q", POINT)


def test_same_answers_same_days(answer):
    answers = [
        answer(day=day, rating=rating) for day, rating in [(0, "good"), (1, "again"), (2, "easy"), (9, "hard")]
    ]
    assert Schedule(answers).fades_at(POINT) == Schedule(answers).fades_at(POINT)


def test_recall_falls_and_meets_the_set_retention_when_due(answer):
    schedule = Schedule([answer(), answer(day=0.01), answer(day=3, rating="easy")])
    due = schedule.fades_at(POINT)
    days = range((due - answer(day=3).at).days + 1)
    curve = [schedule.recall(POINT, answer(day=3 + day).at) for day in days]
    assert curve[0] == pytest.approx(1.0)
    assert all(later < sooner for sooner, later in pairwise(curve))
    assert curve[-1] == pytest.approx(0.9, abs=0.005)  # intervals are whole days
    assert schedule.known([POINT, "never asked"], answer(day=3).at) == pytest.approx(1.0)


def test_never_asked_is_not_known(now):
    schedule = Schedule()
    assert schedule.recall(POINT, now) == 0
    assert schedule.known([POINT], now) == 0
    assert schedule.fades_at(POINT) is None


def test_moments_of_any_zone_mean_the_same(answer):
    there = answer(at=answer().at.astimezone(timezone(timedelta(hours=-5))))
    assert there == answer()
    assert there.at.tzinfo == UTC


def test_moment_without_zone_is_refused(answer):
    with pytest.raises(ValueError, match="time zone"):
        answer(at=answer().at.replace(tzinfo=None))
