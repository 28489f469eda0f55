"""What training tests share: a start of time and answers."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from counter.training import Answer

START = datetime(2031, 3, 3, 8, 0, tzinfo=UTC)


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
