"""Fresh, fading, gone: told in days, and never further than what was asked."""

from __future__ import annotations

from datetime import timedelta

import pytest

from counter.training import Progress, Trainee, freshness, points, settings


@pytest.fixture
def kept(catalogue, now, answer):
    """Return how G24q is kept in mind some days after every point of it was answered twice."""

    def at(day):
        ids = [point.id for point in points(catalogue) if point.family == "G24q"]
        events = [answer(one, day=first) for first in (0.0, 0.01) for one in ids]
        known = Progress(trainee=Trainee(id="0" * 16, name="A", at=now), events=tuple(events))
        rows = freshness(catalogue, known, now + timedelta(days=day))
        return next(row for row in rows if row.family == "G24q"), rows

    return at


def test_what_was_never_asked_is_new(kept):
    _, rows = kept(1)
    others = [row for row in rows if row.family != "G24q"]
    assert {(row.state, row.filled, row.said) for row in others} == {("new", 0.0, "not met yet")}


def test_it_goes_from_fresh_to_fading_to_gone(kept):
    states = [kept(day)[0].state for day in range(1, 60)]
    assert list(dict.fromkeys(states)) == ["fresh", "fading", "gone"]


def test_the_days_told_come_true(kept):
    fresh, _ = kept(1)
    assert fresh.said == f"fresh for {fresh.days} day{'s' if fresh.days != 1 else ''}"
    assert kept(1 + fresh.days)[0].state == "fresh"
    fading, _ = kept(1 + fresh.days + 1)
    assert fading.state == "fading"
    assert kept(1 + fresh.days + 1 + fading.days)[0].state == "fading"
    assert kept(1 + fresh.days + 1 + fading.days + 1)[0].state == "gone"


def test_gone_tells_how_long_ago_it_was_practised(kept):
    assert kept(200)[0].said == "gone, asked 199 days ago"


def test_a_family_fills_and_empties(kept):
    filled = [kept(day)[0].filled for day in (1, 10, 100)]
    assert 1 >= filled[0] > filled[1] > filled[2] > 0
    assert settings().gone_below < settings().retention
