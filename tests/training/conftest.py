"""What training tests share: a start of time and answers."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from counter.training import Answer, Round, add_trainee
from counter.training.cards import _facts

if TYPE_CHECKING:
    from collections.abc import Iterator

START = datetime(2031, 3, 3, 8, 0, tzinfo=UTC)


@pytest.fixture(autouse=True, scope="session")
def _remember_all() -> Iterator[None]:
    """Cards of many seeds come from the same cases; a room keeps a thousand answers, these tests ask for more."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(_facts, "REMEMBERED", 100_000)
        yield


@pytest.fixture
def now():
    return START


@pytest.fixture
def answer():
    """Return a maker of answers; `day` counts from the start."""

    def make(point="name-base/G24q", *, day=0.0, worth=1.0, rating="good", said=None, **other):
        kind, family = point.split("/")[:2]
        facts = {
            "at": START + timedelta(days=day),
            "round": f"day {int(day)}",
            "card": f"{point}#1",
            "point": point,
            "kind": kind,
            "family": family,
            "axis": "family",
            "asked": family,
            "said": said or (family if worth >= 1 else "G24d"),
            "worth": worth,
            "seconds": 6.0,
            "rating": rating,
            "is_first": True,
            "is_critical": kind in {"sale", "caution", "uv-or-light"},
        }
        return Answer(**facts | other)

    return make


@pytest.fixture
def trainee(data, now):
    """Return the id of a trainee of whom nothing is known yet."""
    return add_trainee(data, "Ola Nordberg", now).id


@pytest.fixture
def play(catalogue, data, now):
    """Return a player of rounds: `choose(card)` answers each card, a day apart, nine seconds a card."""

    def run(trainee, choose, *, days=1, minutes=10.0, first_day=0):
        played = []
        for day in range(first_day, first_day + days):
            at = now + timedelta(days=day)
            lesson = Round(catalogue, data, trainee, minutes, at)
            while (card := lesson.next_card(at)) is not None:
                played.append((card, lesson.answer(card, choose(card), 5.0, at)))
                at += timedelta(seconds=9)
        return played

    return run
