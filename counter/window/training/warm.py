"""What the first card needs, made in slices while the room is looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

if TYPE_CHECKING:
    from collections.abc import Iterator

    Slices = Iterator[object]

PAUSE_MS = 5  # between slices of a room that is looked at: for keys and paint


class Warmer(QObject):
    """Runs one step of work at a time when nothing else is to be done."""

    def __init__(self, pause_ms: int = PAUSE_MS) -> None:
        super().__init__()
        self._slices: Slices = iter(())
        self._pause_ms = pause_ms
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._step)

    def start(self, slices: Slices) -> None:
        """Work through these from now on instead of whatever was left."""
        self._slices = slices
        self._timer.start(self._pause_ms)

    def hold(self, for_ms: int) -> None:
        """Do nothing for a while: a hand is at work."""
        if self.is_busy:
            self._timer.start(for_ms)

    def stop(self) -> None:
        """Leave the rest: it is made when it is asked for."""
        self._timer.stop()

    @property
    def is_busy(self) -> bool:
        """Return whether something is left."""
        return self._timer.isActive()

    def _step(self) -> None:
        try:
            next(self._slices)
        except StopIteration:
            return
        self._timer.start(self._pause_ms)
