"""Asks the store beside the window: one thread, questions in order, answers as signals in the window's own thread."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any, NamedTuple

from PySide6.QtCore import QObject, Signal
from shiboken6 import isValid

from counter.catalogue import ConfirmError
from counter.language import tr
from counter.shop import Cancelled, StoreProblem

if TYPE_CHECKING:
    from collections.abc import Callable

    Then = Callable[[Any], None]
    Failed = Callable[[Exception], None]

SAID = (StoreProblem, ConfirmError, ValueError, OSError)  # expected, and shown as they stand; all else is a fault


class Asked(NamedTuple):
    """Who is to be told what became of a job."""

    then: Then
    failed: Failed
    owner: QObject | None
    keeps: bool


class StoreWorker(QObject):
    """Runs what takes time or may wait for a server; the window never does."""

    pending_changed = Signal(int)
    _done = Signal(object, object, object)  # what to call, the answer, the problem

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.pending = 0
        self.is_closed = False
        self._pool = ThreadPoolExecutor(1, thread_name_prefix="store")
        self._latest: dict[str, int] = {}
        self._done.connect(self._deliver)

    def ask(
        self,
        job: Callable[[], Any],
        then: Then,
        failed: Failed,
        topic: str = "",
        owner: QObject | None = None,
        *,
        keeps: bool = False,
    ) -> None:
        """Run a job; of several on one topic only the last is answered, and those not begun yet are not run.

        `owner` is the dialog that wants the answer: once it is closed nobody is told. A job that `keeps` what a hand
        gave is done even where the window closes before its turn.
        """
        if self.is_closed:
            return
        turn = self._latest[topic] = self._latest.get(topic, 0) + 1
        self._count(+1)
        self._pool.submit(self._run, job, Asked(then, failed, owner, keeps), topic, turn)

    def _run(self, job: Callable[[], Any], asked: Asked, topic: str, turn: int) -> None:
        answer: Any = None
        problem: Exception | None = None
        if (asked.keeps or not self.is_closed) and (not topic or self._latest[topic] == turn):
            try:
                answer = job()
            except Exception as error:
                problem = error
        if not self.is_closed:
            is_last = not topic or self._latest[topic] == turn
            self._done.emit(asked if is_last else None, answer, problem)

    def _deliver(self, asked: Asked | None, answer: Any, problem: Any) -> None:
        self._count(-1)
        if asked is None or self.is_closed or isinstance(problem, Cancelled):
            return
        if asked.owner is not None and not isValid(asked.owner):
            return
        if problem is None:
            asked.then(answer)
        elif isinstance(problem, SAID):
            asked.failed(problem)
        else:
            asked.failed(ValueError(tr("something went wrong that should not; it is noted")))
            raise problem

    def _count(self, by: int) -> None:
        self.pending += by
        self.pending_changed.emit(self.pending)

    def close(self) -> None:
        """Take no more questions and drop those not begun, but for what keeps something: that is done to its end."""
        self.is_closed = True
        self._pool.shutdown(wait=True)
