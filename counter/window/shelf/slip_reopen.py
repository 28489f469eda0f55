"""A slip's code that is scanned or pasted into the marks brings its case back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from counter import shop, slip
from counter.desk import CaseProblem

if TYPE_CHECKING:
    from counter.shop import LoggedSlip
    from counter.window.counter_room import Counter
    from counter.window.shelf.store_worker import StoreWorker

KEY_LENGTH = 32


class SlipReopen(QObject):
    """Takes what may be a slip's code; a scanner types it sign by sign, so a part of one only waits."""

    def __init__(self, counter: Counter, worker: StoreWorker) -> None:
        super().__init__(counter)
        self.counter, self.worker = counter, worker

    def take(self, text: str) -> bool:
        """Whether a text is the code of a slip, whole or in part; a whole one brings its case back."""
        if not slip.is_case_text(text):
            return False
        key = slip.key_in(text)
        if key is not None:
            if len(key) == KEY_LENGTH:
                self._by_key(key)
            return True
        try:
            case = slip.case_in(text, self.counter.catalogue)
        except CaseProblem:
            return True
        self.counter.take_case(self._today(case))
        return True

    def _by_key(self, key: str) -> None:
        data = self.counter.data
        job = lambda: shop.slip_by(shop.open_store(data), key=key)  # noqa: E731
        self.worker.ask(job, self.reopen, self._fail)

    def reopen(self, logged: LoggedSlip | None) -> None:
        """Bring back the case of a slip in the log."""
        from pydantic import ValidationError

        if logged is None:
            self._fail(ValueError("No slip in the log has this code."))
            return
        try:
            case = slip.slip_of(logged).case
        except ValidationError:
            self._fail(ValueError(f"Slip {logged.number} was written by a later version of this program."))
            return
        self.counter.take_case(self._today(slip.without_the_gone(case, self.counter.catalogue)))

    def _today(self, case: Any) -> Any:
        """Ask about the law of today and of this shop, not of the slip's day; bring the shop's own words."""
        fresh = self.counter.fresh_case()
        return slip.with_words(case.model_copy(update={"place": fresh.place, "on": fresh.on}), fresh.explained)

    def _fail(self, problem: Exception) -> None:
        self.counter.looks.show_problem("", str(problem))
