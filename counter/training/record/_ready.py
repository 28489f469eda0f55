"""Ready for the counter: per family, and only when the lower bound of first-try answers passes the bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue import Model
from counter.training._settings import settings
from counter.training.cards._facts import lore
from counter.training.cards._points import card_of, points
from counter.training.record._interval import lower_bound

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue
    from counter.training._models import Point
    from counter.training.record._events import Answer
    from counter.training.record._record import Progress


class Tally(Model):
    """The last first-try answers of one sort, and what they promise at the least."""

    right: int
    asked: int
    low: float
    bar: float

    @property
    def passes(self) -> bool:
        """Whether the lower bound is over the bar."""
        return self.low > self.bar


class Standing(Model):
    """Where a trainee stands with one family; critical cards are about ultraviolet and what does not go together."""

    family: str
    plain: Tally
    critical: Tally
    unseen: int
    is_ready: bool


def standings(catalogue: Catalogue, known: Progress) -> tuple[Standing, ...]:
    """Return the standing with every family, in catalogue order."""
    by_family: dict[str, list[Point]] = {family: [] for family in lore(catalogue).lamps_of}
    for point in points(catalogue):
        by_family[point.family].append(point)
    answers: dict[str, list[Answer]] = {}
    for answer in known.answers:
        answers.setdefault(answer.family, []).append(answer)
    return tuple(_standing(catalogue, found, answers.get(family, [])) for family, found in by_family.items())


def _standing(catalogue: Catalogue, found: Sequence[Point], answers: Sequence[Answer]) -> Standing:
    bars = settings().bars
    plain = tally(answers, is_critical=False, bar=bars.plain)
    critical = tally(answers, is_critical=True, bar=bars.critical)
    asked = {answer.point for answer in answers}
    unseen = [point for point in found if point.id not in asked]
    passes = plain.passes and critical.passes
    if passes:  # only now is it worth while to find out which points have no card that can be proved
        unseen = [point for point in unseen if card_of(catalogue, point) is not None]
    return Standing(
        family=found[0].family,
        plain=plain,
        critical=critical,
        unseen=len(unseen),
        is_ready=passes and not unseen,
    )


def tally(answers: Sequence[Answer], *, is_critical: bool, bar: float) -> Tally:
    """Count the last first-try answers of one sort."""
    bars = settings().bars
    firsts = [answer for answer in answers if answer.is_first and answer.is_critical == is_critical][-bars.last :]
    right = sum(answer.is_right for answer in firsts)
    low = lower_bound(right, len(firsts), bars.confidence)
    return Tally(right=right, asked=len(firsts), low=low, bar=bar)
