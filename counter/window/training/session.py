"""One round or lesson as the room sees it: which card is open, since when, and the next one made ahead of time."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol

from PySide6.QtCore import QObject, QTimer, Signal

from counter.language import tr

if TYPE_CHECKING:
    from counter.training import Card, Feedback, Unfinished
    from counter.window.parts.asking import Asking

Clock = Callable[[], datetime]
AHEAD_MS = 80  # after an answer is painted, while its reason is read, the next card is made


def system_clock() -> datetime:
    """Return the moment it is."""
    return datetime.now(UTC)


class Source(Protocol):
    """What gives cards and takes answers: a round or a lesson of the core."""

    def next_card(self, now: datetime) -> Card | None: ...

    def answer(self, card: Card, choice: int | None, seconds: float, now: datetime) -> Feedback: ...


class Given(NamedTuple):
    """One answer of this session, for the summary."""

    card: Card
    choice: int | None
    feedback: Feedback


class Session(QObject):
    """Asks, times and takes answers; a time away from the room counts neither for the card nor for the round."""

    asked = Signal(object)  # Card
    answered = Signal(object)  # Given
    failed = Signal(str)
    ended = Signal()

    def __init__(self, clock: Clock, asking: Asking) -> None:
        super().__init__()
        self.clock, self.asking = clock, asking
        self.source: Source | None = None
        self.card: Card | None = None
        self.given: list[Given] = []
        self.started: datetime | None = None
        self.ends: datetime | None = None
        self.is_open = False  # a card waits for its answer
        self._before = (0, 0)  # right, asked, of a round before it was cut off
        self._ahead: Card | None = None
        self._shown_at: datetime | None = None
        self._left_at: datetime | None = None
        self._timer = QTimer(self, singleShot=True, interval=AHEAD_MS)
        self._timer.timeout.connect(self._make_ahead)

    def begin(
        self, source: Source, minutes: float | None, first: Card | None = None, so_far: Unfinished | None = None
    ) -> None:
        """Start, or go on after `so_far`; `minutes` None is without end. `first` was made ahead."""
        self.source, self.given, self.card = source, [], None
        self.started = self.clock()
        self.ends = self.started + timedelta(minutes=minutes) if minutes is not None else None
        self._before = (so_far.right, so_far.asked) if so_far is not None else (0, 0)
        if so_far is not None and self.ends is not None and so_far.left is not None:
            passed = self.ends - self.started - so_far.left
            self.started, self.ends = self.started - passed, self.ends - passed
        self._ahead, self._left_at = first, None
        self.next()

    def next(self) -> None:
        """Ask the next card, or end when there is none."""
        if self.source is None or self.is_open:
            return
        self._timer.stop()
        now = self.clock()
        is_over = self.ends is not None and now >= self.ends
        card, self._ahead = None if is_over else self._ahead or self.source.next_card(now), None
        if card is None:
            self.stop()
            return
        self.card, self.is_open, self._shown_at = card, True, now
        self.asked.emit(card)

    def choose(self, choice: int | None) -> None:
        """Take an answer to the open card; None is "I do not know"."""
        if self.source is None or self.card is None or not self.is_open or self._shown_at is None:
            return
        from counter.training import UnknownTraineeError

        source, card, now = self.source, self.card, self.clock()
        seconds = max((now - self._shown_at).total_seconds(), 0.0)

        def job() -> Feedback | None:
            try:
                return source.answer(card, choice, seconds, now)
            except UnknownTraineeError:
                return None

        taken = lambda found: self._take(source, card, choice, found)  # noqa: E731
        self.asking.once("answer", job, taken, self._refuse, keeps=True)

    def _take(self, source: Source, card: Card, choice: int | None, found: Feedback | None) -> None:
        """Show what came of an answer once it is kept; a round that was left meanwhile shows nothing any more."""
        if self.source is not source:
            return
        if found is None:
            self.failed.emit(tr("The record was removed meanwhile. This answer is not kept."))
            self.stop()
            return
        self.is_open = False
        self.given.append(Given(card, choice, found))
        self.answered.emit(self.given[-1])
        self._timer.start()

    def _refuse(self, problem: Exception) -> None:
        words = tr("The answer could not be written: {problem}. Make room on the disk, then answer again.")
        self.failed.emit(words.format(problem=problem))

    def stop(self) -> None:
        """End now; an open card counts as not asked."""
        self._timer.stop()
        self.source, self.card, self.is_open, self._ahead = None, None, False, None
        self.ended.emit()

    def pause(self) -> None:
        """Stop the clocks: the room is out of sight."""
        if self.source is not None and self._left_at is None:
            self._left_at = self.clock()

    def resume(self) -> None:
        """Let the clocks run again."""
        if self._left_at is None:
            return
        away = self.clock() - self._left_at
        self._left_at = None
        if self.ends is not None:
            self.ends += away
            source: Any = self.source
            if hasattr(source, "ends"):  # a lesson has no end of its own
                source.ends += away
        if self._shown_at is not None:
            self._shown_at += away

    @property
    def right(self) -> int:
        """Return how many answers of the round were right."""
        return self._before[0] + sum(one.feedback.is_right for one in self.given)

    @property
    def asked_count(self) -> int:
        """Return how many cards of the round were answered."""
        return self._before[1] + len(self.given)

    def left(self) -> timedelta | None:
        """Return what is left of the time; None without an end."""
        if self.ends is None:
            return None
        return max(self.ends - (self._left_at or self.clock()), timedelta())

    def passed(self) -> float | None:
        """Return the share of the time that has passed, 0 to 1; None without an end."""
        if self.started is None or self.ends is None:
            return None
        now = self._left_at or self.clock()
        return min(max((now - self.started) / (self.ends - self.started), 0.0), 1.0)

    def _make_ahead(self) -> None:
        if self.source is not None and not self.is_open:
            self._ahead = self.source.next_card(self.clock())
