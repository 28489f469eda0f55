"""A lesson about one thing: the cards on a base, a family or a rule of caution, one after another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.training._round import Feedback, Round
from counter.training._settings import settings
from counter.training.cards._points import cards_about

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training._models import Card
    from counter.training._settings import Rating

CARDS = 10


class Lesson:
    """At most ten cards on what was asked for. With a trainee the answers go into the record, else nowhere."""

    def __init__(
        self, catalogue: Catalogue, data: Path, trainee: str | None, about: str, started: datetime, near: str = ""
    ) -> None:
        """Start a lesson; a rule is asked about on the lamps of the family `near` where it comes up there.

        Raises:
            UnknownTraineeError: there is no such record.
        """
        self._catalogue, self._about, self._near, self._at = catalogue, about, near, 0
        self._round = Round(catalogue, data, trainee, 0, started) if trainee else None

    def next_card(self, now: datetime) -> Card | None:
        """Return the card to ask now; None when there are no more."""
        if self._at >= CARDS:
            return None
        found = cards_about(self._catalogue, self._about, self._at + 1, near=self._near)
        return found[self._at] if len(found) > self._at else None

    def answer(self, card: Card, choice: int | None, seconds: float, now: datetime) -> Feedback:
        """Take an answer (None: does not know) and say how good it was.

        Raises:
            UnknownTraineeError: the trainee was removed meanwhile.
            OSError: the record cannot be written.
        """
        self._at += 1
        if self._round is not None:
            return self._round.answer(card, choice, seconds, now)
        worth = 0.0 if choice is None else card.worth[choice]
        rating: Rating = "again" if worth < settings().half_share else "good"
        return Feedback(worth >= 1, worth, rating, card.why, card.answer, comes_back=False)
