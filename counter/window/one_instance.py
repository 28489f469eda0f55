"""One window a data folder: the second start raises the first, or says why it cannot.

Two windows would write the same files in turn. The lock is the system's own, free again as soon as its holder is
gone, however it went.
"""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from PySide6.QtCore import QFileSystemWatcher, QLockFile, QObject, Signal

from counter.language import tr

if TYPE_CHECKING:
    from pathlib import Path

LOCK_FILE, CALL_FILE = "window.lock", "raise-window"
WAIT_MS, STEP_MS = 2000, 50


class OneInstance(QObject):
    """Holds a data folder's lock; `called` when somebody started the program again."""

    called = Signal()

    def __init__(self, data: Path) -> None:
        super().__init__()
        self.data = data
        with contextlib.suppress(OSError):  # a folder that cannot be made needs no lock: nothing is written there
            data.mkdir(parents=True, exist_ok=True)
        self._lock = QLockFile(str(data / LOCK_FILE))
        self._lock.setStaleLockTime(0)
        self._watcher: QFileSystemWatcher | None = None

    def take(self) -> bool:
        """Take the folder; False where another window of this program has it."""
        if self._lock.tryLock(0):
            return True
        return self._lock.error() != QLockFile.LockError.LockFailedError

    def listen(self) -> None:
        """Hear of further starts from now on."""
        self._clear()
        if self.data.is_dir():
            self._watcher = QFileSystemWatcher([str(self.data)], self)
            self._watcher.directoryChanged.connect(self._look)

    def _look(self) -> None:
        if (self.data / CALL_FILE).exists():
            self._clear()
            self.called.emit()

    def _clear(self) -> None:
        with contextlib.suppress(OSError):
            (self.data / CALL_FILE).unlink(missing_ok=True)

    def call_first(self) -> str:
        """Ask the window that has the folder to come to the front; return why it did not, or nothing."""
        try:
            (self.data / CALL_FILE).touch()
        except OSError as problem:
            return f"{self._holder()} {problem.strerror or problem}"
        from PySide6.QtCore import QThread  # what the start of a first window need not know

        for _ in range(WAIT_MS // STEP_MS):
            QThread.msleep(STEP_MS)
            if not (self.data / CALL_FILE).exists():
                return ""
        self._clear()
        return " ".join((self._holder(), tr("It does not answer.")))

    def _holder(self) -> str:
        pid, host, _ = self._lock.getLockInfo()
        said = tr("The counter is open already for {folder} (process {pid} on {machine}).")
        return said.format(folder=self.data, pid=pid, machine=host or tr("this machine"))

    def release(self) -> None:
        """Give the folder back."""
        self._lock.unlock()
