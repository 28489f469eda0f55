"""A lesson about one thing: the cards on a base, a family or a rule of caution, one after another."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from counter import shop
from counter.language import tr
from counter.training._round import Feedback, Round
from counter.training._settings import settings
from counter.training.cards._points import cards_about
from counter.training.record._record import UnknownTraineeError

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training._models import Card
    from counter.training._settings import Rating

CARDS = 10


class Lesson:
    """At most ten cards on what was asked for. With a trainee the answers go into the record, else nowhere.

    The record is read with the first answer, so that the first card waits for no store.
    """

    def __init__(
        self, catalogue: Catalogue, data: Path, trainee: str | None, about: str, started: datetime, near: str = ""
    ) -> None:
        """Start a lesson; a rule is asked about on the lamps of the family `near` where it comes up there."""
        self._catalogue, self._about, self._near, self._at = catalogue, about, near, 0
        self._open = partial(Round, catalogue, data, trainee, 0, started) if trainee else None
        self._round: Round | None = None

    def next_card(self, now: datetime) -> Card | None:
        """Return the card to ask now; None when there are no more."""
        if self._at >= CARDS:
            return None
        found = cards_about(self._catalogue, self._about, self._at + 1, near=self._near)
        return found[self._at] if len(found) > self._at else None

    def answer(self, card: Card, choice: int | None, seconds: float, now: datetime) -> Feedback:
        """Take an answer (None: does not know) and say how good it was.

        Where the record cannot be read at the first answer, the lesson goes on without one, and that answer says so.

        Raises:
            UnknownTraineeError: the trainee was removed after that.
            OSError: the record cannot be written.
        """
        unkept = self._open_record()
        if self._round is not None:
            found = self._round.answer(card, choice, seconds, now)
            self._at += 1
            return found
        self._at += 1
        worth = 0.0 if choice is None else card.worth[choice]
        rating: Rating = "again" if worth < settings().half_share else "good"
        return Feedback(worth >= 1, worth, rating, card.why, card.answer, comes_back=False, unkept=unkept)

    def _open_record(self) -> str:
        """Read the record, once; returns why it cannot be."""
        opens, self._open = self._open, None
        if opens is None:
            return ""
        try:
            self._round = opens()
        except UnknownTraineeError:
            return tr("The record was removed meanwhile. This answer is not kept.")
        except shop.StoreProblem as problem:
            return tr("Not kept: {problem}").format(problem=problem)
        return ""
