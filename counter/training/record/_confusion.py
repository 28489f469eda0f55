"""What is confused with what."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import Model
from counter.training._models import Axis
from counter.training.record._names import DO_NOT_KNOW

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.training.record._events import Answer


class Mix(NamedTuple):
    """One confusion: `said` was answered `times` times where `asked` was right, `share` of all answers to it."""

    axis: Axis
    asked: str
    said: str
    times: int
    share: float


class Confusion(Model):
    """All answers over one axis: `counts[i][j]` is how often label j was said where label i was right.

    Repeats within a round count too: what is said again after the explanation is confused all the more.
    """

    axis: Axis
    labels: tuple[str, ...]
    counts: tuple[tuple[int, ...], ...]

    def mixes(self) -> tuple[Mix, ...]:
        """Return all confusions, most frequent first; what was not known was not taken for anything."""
        found = [
            Mix(self.axis, asked, said, count, count / sum(row))
            for asked, row in zip(self.labels, self.counts, strict=True)
            for said, count in zip(self.labels, row, strict=True)
            if count and said not in (asked, DO_NOT_KNOW)
        ]
        return tuple(sorted(found, key=lambda mix: (-mix.times, -mix.share, mix.asked, mix.said)))


def confusion(answers: Iterable[Answer], axis: Axis) -> Confusion:
    """Return the matrix of one trainee's answers, or of everybody's.

    An answer that counts as right though another would be a little better stands on the diagonal.
    """
    pairs = Counter(
        (answer.asked, answer.asked if answer.is_right else answer.said) for answer in answers if answer.axis == axis
    )
    labels = tuple(sorted({label for pair in pairs for label in pair}))
    counts = tuple(tuple(pairs[asked, said] for said in labels) for asked in labels)
    return Confusion(axis=axis, labels=labels, counts=counts)


def mixes(answers: Iterable[Answer]) -> tuple[Mix, ...]:
    """Return all confusions over all axes, most frequent first."""
    kept = tuple(answers)
    axes = sorted({answer.axis for answer in kept})
    found = [mix for axis in axes for mix in confusion(kept, axis).mixes()]
    return tuple(sorted(found, key=lambda mix: (-mix.times, -mix.share, mix.axis, mix.asked, mix.said)))
