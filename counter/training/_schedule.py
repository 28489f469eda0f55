"""How well each point is still known, and when it comes back, by the FSRS scheduler of the `fsrs` package."""

from __future__ import annotations

from datetime import UTC, timedelta
from typing import TYPE_CHECKING

from counter.training._settings import settings

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    import fsrs

    from counter.training._models import CardKind
    from counter.training._settings import Rating, Settings
    from counter.training.record._events import Answer

_ORDER: tuple[Rating, ...] = ("again", "hard", "good", "easy")  # fsrs.Rating counts them from 1


def rate(kind: CardKind, worth: float, seconds: float, *, is_new: bool) -> Rating:
    """Return the rating of an answer from how good it was and how long it took: nobody grades themselves."""
    known = settings()
    if worth < known.half_share:
        return "again"
    share = seconds / known.kinds[kind].seconds
    if worth < 1 or share > known.hard_above:
        return "hard"
    rating: Rating = "easy" if share < known.easy_below else "good"
    return min(rating, known.first_sight_at_most, key=_ORDER.index) if is_new else rating


def _scheduler(known: Settings) -> fsrs.Scheduler:
    """Return the scheduler with its default weights; without fuzz, so that the same answers give the same days."""
    import fsrs  # not needed to start the window; 10 ms

    return fsrs.Scheduler(
        desired_retention=known.retention,
        learning_steps=tuple(timedelta(minutes=step) for step in known.first_steps_min),
        relearning_steps=tuple(timedelta(minutes=step) for step in known.again_steps_min),
        enable_fuzzing=False,
    )


class Schedule:
    """What a trainee's answers make of the points: when each fades and how likely it is still known."""

    def __init__(self, answers: Iterable[Answer] = ()) -> None:
        """Replay the answers, oldest first."""
        self._scheduler = _scheduler(settings())
        self._points: dict[str, fsrs.Card] = {}
        for answer in answers:
            self.learn(answer)

    def learn(self, answer: Answer) -> None:
        """Take one more answer."""
        import fsrs

        card = self._points.get(answer.point) or fsrs.Card(card_id=0, due=answer.at)
        rating = fsrs.Rating(_ORDER.index(answer.rating) + 1)
        self._points[answer.point], _ = self._scheduler.review_card(card, rating, answer.at)

    def __contains__(self, point: str) -> bool:
        """Return whether the point was ever asked."""
        return point in self._points

    def fades_at(self, point: str) -> datetime | None:
        """Return when the point comes back, or None when it was never asked."""
        card = self._points.get(point)
        return card.due if card else None

    def faded(self, now: datetime) -> tuple[str, ...]:
        """Return the points to ask again, the one most likely forgotten first."""
        waiting = [point for point, card in self._points.items() if card.due <= now]
        return tuple(sorted(waiting, key=lambda point: (self.recall(point, now), self._points[point].due, point)))

    def recall(self, point: str, at: datetime) -> float:
        """Return the chance of a right answer at that moment by the scheduler's curve; 0 when never asked."""
        card = self._points.get(point)
        return self._scheduler.get_card_retrievability(card, at.astimezone(UTC)) if card else 0.0

    def known(self, points: Iterable[str], at: datetime) -> float:
        """Return the mean recall of those points that were ever asked; 0 where none was."""
        asked = [point for point in points if point in self._points]
        return sum(self.recall(point, at) for point in asked) / len(asked) if asked else 0.0
