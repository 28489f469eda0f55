"""A round of training: which card comes next, and what an answer does."""

from __future__ import annotations

import random
from collections import Counter
from datetime import UTC, timedelta
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from counter import shop
from counter.training._schedule import Schedule, rate
from counter.training._settings import settings
from counter.training.cards._outline_cards import pair_point
from counter.training.cards._points import card_of, points
from counter.training.cards._rule_cards import taught
from counter.training.record._confusion import mixes
from counter.training.record._events import Answer
from counter.training.record._names import DO_NOT_KNOW
from counter.training.record._ready import standings
from counter.training.record._record import progress, write_record

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training._models import Card, CardKind, Point
    from counter.training._settings import Rating
    from counter.training.record._record import Progress

CONFUSED_PAIRS = 5
MOST_OF_A_PAIR = 10  # one pair that came back very often is not to crowd out all else
WITHIN_FAMILY: tuple[CardKind, ...] = ("read-code", "worn-code", "makers-code", "notch-side", "sale")
Pair: TypeAlias = tuple[str, str]


class Feedback(NamedTuple):
    """What is shown after an answer; the drawing and the choices are the card's."""

    is_right: bool
    worth: float
    rating: Rating
    why: str
    answer: int
    comes_back: bool  # in other clothes, within this round
    unkept: str = ""  # why the answer is in no record, though somebody learns


class Round:
    """One round of one trainee. All it knows follows from the record, so that a killed round goes on where it was."""

    def __init__(
        self,
        catalogue: Catalogue,
        data: Path,
        trainee: str,
        minutes: float,
        started: datetime,
        ends: datetime | None = None,
    ) -> None:
        """Start a round, or go on with the one that this trainee started at that moment; then `ends` says until when.

        Raises:
            UnknownTraineeError: there is no such record.
        """
        self._catalogue, self._data, self._trainee = catalogue, data, trainee
        self.ends = ends or started + timedelta(minutes=minutes)
        self.id = started.astimezone(UTC).isoformat()
        self._new_left = max(1, round(minutes * settings().new_per_minute))
        self._known = progress(data, trainee)
        self._answers = list(self._known.answers)
        self._from_cases = self._known.from_cases
        self._own = [answer for answer in self._answers if answer.round == self.id]
        self._new_left -= len({answer.point for answer in self._own} - {answer.point for answer in self._before()})
        self._barren: set[str] = set()  # points without a card that can be proved
        self._shop = shop_mix_ups(catalogue, data)

    # What only a next card or an answer needs: a lesson, which has cards of its own, shows its first one without.

    @cached_property
    def _schedule(self) -> Schedule:
        return Schedule(self._answers)

    @cached_property
    def _points(self) -> dict[str, Point]:
        return {point.id: point for point in _points(self._catalogue, self._answers, self._from_cases, self._shop)}

    @cached_property
    def _open(self) -> tuple[str, ...]:
        return open_families(self._catalogue, self._known)

    def _before(self) -> list[Answer]:
        return [answer for answer in self._answers if answer.round != self.id]

    @property
    def trainee(self) -> str:
        """Return the id of whoever learns."""
        return self._trainee

    @property
    def name(self) -> str:
        """Return the name of whoever learns."""
        return self._known.trainee.name

    @property
    def answers(self) -> tuple[Answer, ...]:
        """Return this round's answers so far."""
        return tuple(self._own)

    def next_card(self, now: datetime) -> Card | None:
        """Return the card to ask now; None when the time is over or nothing is left to ask."""
        if now >= self.ends:
            return None
        for point in self._queue(now):
            if point.id in self._barren:
                continue
            asked = [answer.card for answer in self._answers if answer.point == point.id]
            card = card_of(self._catalogue, point, len(asked), avoid=asked[-3:])
            if card is not None:
                return card
            self._barren.add(point.id)
        return None

    def answer(self, card: Card, choice: int | None, seconds: float, now: datetime) -> Feedback:
        """Take an answer (None: does not know), write it down durably, and say how good it was.

        Raises:
            UnknownTraineeError: the trainee was removed meanwhile.
            OSError: the record cannot be written.
        """
        worth = 0.0 if choice is None else card.worth[choice]
        rating = rate(card.kind, worth, seconds, is_new=card.point not in self._schedule)
        given = Answer(
            at=now,
            round=self.id,
            card=card.id,
            point=card.point,
            kind=card.kind,
            family=card.family,
            axis=card.axis,
            asked=card.values[card.answer],
            said=DO_NOT_KNOW if choice is None else card.values[choice],
            worth=worth,
            seconds=seconds,
            rating=rating,
            is_first=all(answer.point != card.point for answer in self._own),
            is_critical=card.is_critical,
        )
        write_record(self._data, self._trainee, given)
        self._new_left -= given.point not in self._schedule
        for kept in (self._answers, self._own):
            kept.append(given)
        self._schedule.learn(given)
        return Feedback(given.is_right, worth, rating, card.why, card.answer, rating == "again")

    def _queue(self, now: datetime) -> Iterator[Point]:
        """Yield points in the order of their claim.

        Mistakes, what is fading, what a case brought, some new points; then practice of what is known, and when
        that is used up more new ones: always of the open families first.
        """
        ripe, unripe = self._mistakes()
        yield from ripe
        asked = {answer.point for answer in self._own}
        left = [point for point in self._points.values() if point.id not in asked]
        yield from (
            self._points[one] for one in self._schedule.faded(now) if one in self._points and one not in asked
        )
        fresh = [point for point in left if point.id not in self._schedule]
        known = [point for point in left if point.id in self._schedule]
        yield from (point for point in fresh if point.id in self._from_cases)
        groups = (known, fresh) if self._new_left <= 0 else (fresh, known)
        for group in groups:
            yield from self._drawn([point for point in group if point.family in self._open])
        for group in groups:
            yield from self._drawn(group)
        yield from unripe

    def _mistakes(self) -> tuple[list[Point], list[Point]]:
        """Return the points missed and not made good in this round: those to ask again now, and those too fresh."""
        last = {answer.point: (at, answer) for at, answer in enumerate(self._own)}
        open_ones = [(at, answer.point) for at, answer in last.values() if answer.rating == "again"]
        ripe: list[Point] = []
        fresh: list[Point] = []
        for at, one in sorted(open_ones):
            if one in self._points:
                (ripe if len(self._own) - at > settings().mistake_gap else fresh).append(self._points[one])
        return ripe, fresh

    def _drawn(self, found: Sequence[Point]) -> list[Point]:
        """Return points in an order drawn by weight, those that were confused with something weighing more."""
        weights = confusion_weights(self._answers) + shop_weights(self._shop, found)
        rng = random.Random(f"{self.id} {len(self._own)}")
        return sorted(found, key=lambda point: rng.random() ** (1 / (1 + weights[point.id])), reverse=True)


def _points(
    catalogue: Catalogue, answers: Sequence[Answer], from_cases: Sequence[str], mixed: Counter[Pair]
) -> Iterator[Point]:
    """Yield all points, pairs that trainee or shop confuse though they are not alike, and cautions once taught."""
    yield from points(catalogue)
    yield from (pair_point(right, sold) for (sold, right), _ in mixed.most_common(CONFUSED_PAIRS) if sold != right)
    yield from taught(answers, from_cases)
    families = [mix for mix in mixes(answers) if mix.axis == "family"]
    yield from (pair_point(mix.asked, mix.said) for mix in families[:CONFUSED_PAIRS])


def confusion_weights(answers: Sequence[Answer]) -> Counter[str]:
    """Return by point how often it, or the pair of families it is about, was confused among the last answers."""
    weights: Counter[str] = Counter()
    for answer in answers[-settings().bars.last :]:
        if not answer.is_right:
            weights[answer.point] += 1
            if answer.axis == "family":
                weights[f"which-of-two/{answer.asked}/{answer.said}"] += 1
                weights[f"which-of-two/{answer.said}/{answer.asked}"] += 1
    return weights


def shop_mix_ups(catalogue: Catalogue, data: Path) -> Counter[Pair]:
    """Return the pairs of families, sold and right, that came back to this shop as one for the other, how often.

    Two lamps of one family mixed up, by their key or watts, are a pair of that family with itself.
    """
    if not shop.has_store(data):
        return Counter()
    found: Counter[Pair] = Counter()
    try:
        pairs = shop.mixed_up(shop.open_store(data))
    except shop.StoreProblem:
        return found
    for sold, right, count in pairs:
        if sold in catalogue.lamp_by_id and right in catalogue.lamp_by_id:
            here, there = (catalogue.base_of(catalogue.lamp_by_id[one]).family for one in (sold, right))
            found[here, there] += min(count, MOST_OF_A_PAIR)
    return found


def shop_weights(mixed: Counter[Pair], found: Iterable[Point]) -> Counter[str]:
    """Return by point how often the shop mixed up what it is about: two families, or lamps of its own family."""
    weights: Counter[str] = Counter()
    for (sold, right), count in mixed.items():
        if sold != right:
            weights[f"which-of-two/{sold}/{right}"] += count
            weights[f"which-of-two/{right}/{sold}"] += count
    for point in found:
        weights[point.id] += mixed[point.family, point.family] if point.kind in WITHIN_FAMILY else 0
    return weights


def open_families(catalogue: Catalogue, known: Progress) -> tuple[str, ...]:
    """Return the families to learn now: those assigned and not ready yet, else the first ones not ready."""
    behind = [one.family for one in standings(catalogue, known) if not one.is_ready]
    assigned = tuple(family for family in known.assigned if family in behind)
    return assigned or tuple(behind[: settings().open_families])
