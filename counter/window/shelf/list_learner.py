"""Works out beside the window what the stock list teaches of makers' letters, and offers it once."""

from __future__ import annotations

from threading import Event
from time import monotonic
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from counter import shop
from counter.language import tr, trn
from counter.window.shelf.store_worker import StoreWorker

if TYPE_CHECKING:
    from counter.shelf import Taught
    from counter.window.counter_room import Counter
    from counter.window.marks.letters_dialog import LettersDialog

TOLD_EVERY = 50  # lines
QUIET_S = 0.7  # after each look and key: whoever serves a customer is not slowed down


class ListLearner(QObject):
    """Has a thread of its own: reading thousands of codes takes a while, and slips do not wait for that."""

    changed = Signal()
    _read = Signal(int, int)

    def __init__(self, counter: Counter) -> None:
        super().__init__(counter)
        self.counter = counter
        self.worker = StoreWorker(self)
        self.found: Taught | None = None
        self.is_busy = False
        self.says = ""
        self.dialog: LettersDialog | None = None
        self._stopped = Event()
        self._quiet_from = 0.0
        self._read.connect(self._show_progress)

    def begin(self) -> None:
        """Read the present list; whatever was being read of an older one is dropped."""
        self._stopped.set()
        stopped = self._stopped = Event()
        self.found, self.is_busy, self.says = None, True, tr("Reading the stock list …")
        data, catalogue = self.counter.data, self.counter.catalogue

        def tell(done: int, of: int) -> bool:
            if done % TOLD_EVERY == 0:
                self._read.emit(done, of)
            while (left := self._quiet_from - monotonic()) > 0 and not stopped.wait(left):
                pass
            return not stopped.is_set()

        def job() -> Taught | None:
            from counter import shelf

            return shelf.teaches(shop.open_store(data), catalogue, tell)

        self.worker.ask(job, self._take, self._fail, "learn")
        self.changed.emit()

    def hold(self) -> None:
        """Let the reading rest: something was pressed or typed."""
        self._quiet_from = monotonic() + QUIET_S

    def _take(self, found: Taught | None) -> None:
        self.found, self.is_busy = found, False
        self.says = "" if found is not None else tr("There is no stock list to learn from.")
        self.changed.emit()
        if found is not None and found.learned.letters and self.dialog is None:
            count = len(found.learned.letters)
            words = trn(
                "The stock list says what {count} maker's letters mean.",
                "The stock list says what {count} makers' letters mean.",
                count,
            )
            offer = self.counter.desk_cases.line.offer
            offer(words.format(count=count), (tr("Look at them"), self.open), (tr("Not now"), lambda: None))

    def _fail(self, problem: Exception) -> None:
        self.is_busy, self.says = False, str(problem)
        self.changed.emit()

    def _show_progress(self, done: int, of: int) -> None:
        self.says = tr("{done} of {of} lines read …").format(done=done, of=of)
        if self.dialog is not None:
            self.dialog.says.setText(self.says)

    def open(self) -> None:
        """Show all letters, and what the list would teach."""
        from counter.window.marks.letters_dialog import LettersDialog

        self.dialog = LettersDialog(self.counter.letters, self)
        self.dialog.finished.connect(self._closed)
        self.dialog.open()

    def _closed(self) -> None:
        self.dialog = None

    def close(self) -> None:
        """Stop reading."""
        self._stopped.set()
        self.worker.close()
