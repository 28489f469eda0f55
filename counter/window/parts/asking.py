"""How the room asks the store: beside the window where there is a worker, and what takes long is said."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol

from PySide6.QtCore import QObject, QTimer, Signal

if TYPE_CHECKING:
    from collections.abc import Callable

    Job = Callable[[], Any]
    Then = Callable[[Any], None]
    Failed = Callable[[Exception], None]

SLOW_MS = 200  # what takes longer is said


class Ask(Protocol):
    """Does a job and tells its answer or its problem; one that `keeps` something is done though the window closes."""

    def __call__(self, job: Job, then: Then, failed: Failed, *, keeps: bool = False) -> None: ...


def at_once(job: Job, then: Then, failed: Failed, *, keeps: bool = False) -> None:
    """Do a job here and now, where there is no worker that does it beside the window."""
    try:
        found = job()
    except (OSError, ValueError) as problem:
        failed(problem)
    else:
        then(found)


class Asking(QObject):
    """Questions by topic, so that an old answer never stands over a new one and no press counts twice."""

    pending = Signal(bool)  # whether something has been waited for longer than a moment

    def __init__(self) -> None:
        super().__init__()
        self.ask: Ask = at_once
        self._turn = 0
        self._waits: dict[str, int] = {}
        self._slow = QTimer(self, singleShot=True, interval=SLOW_MS)
        self._slow.timeout.connect(lambda: self.pending.emit(True))

    def waits(self, *topics: str) -> bool:
        """Return whether the answer to one of these is still to come."""
        return any(topic in self._waits for topic in topics)

    def newest(self, topic: str, job: Job, then: Then, failed: Failed) -> None:
        """Read something; of several questions on one topic only the last is answered."""
        self._put(topic, job, then, failed, keeps=False)

    def once(self, topic: str, job: Job, then: Then, failed: Failed, *, keeps: bool = False) -> None:
        """Take a press, unless the one before it on this topic still waits for its answer."""
        if topic not in self._waits:
            self._put(topic, job, then, failed, keeps=keeps)

    def _put(self, topic: str, job: Job, then: Then, failed: Failed, *, keeps: bool) -> None:
        self._turn += 1
        turn = self._waits[topic] = self._turn
        if not self._slow.isActive():
            self._slow.start()

        def told(tell: Callable[[Any], None], what: Any) -> None:
            if self._waits.get(topic) == turn:
                self._end(topic)
                tell(what)

        self.ask(job, lambda found: told(then, found), lambda problem: told(failed, problem), keeps=keeps)

    def _end(self, topic: str) -> None:
        del self._waits[topic]
        if not self._waits:
            self._slow.stop()
            self.pending.emit(False)
