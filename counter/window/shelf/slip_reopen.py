"""A slip's code that is scanned or pasted into the marks brings its case back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from counter import shop, slip
from counter.desk import CaseProblem
from counter.language import tr

if TYPE_CHECKING:
    from counter.desk import Case
    from counter.shop import LoggedSlip, StockItem
    from counter.slip import SlipItem
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
        self.counter.take_case(case_of_today(self.counter, case))
        return True

    def _by_key(self, key: str) -> None:
        data = self.counter.data
        job = lambda: shop.slip_by(shop.open_store(data), key=key)  # noqa: E731
        self.worker.ask(job, self.reopen, self._fail)

    def reopen(self, logged: LoggedSlip | None) -> None:
        """Bring back the case of a slip in the log."""
        from pydantic import ValidationError

        if logged is None:
            self._fail(ValueError(tr("No slip in the log has this code.")))
            return
        try:
            written = slip.slip_of(logged)
        except ValidationError:
            said = tr("Slip {number} was written by a later version of this program.")
            self._fail(ValueError(said.format(number=logged.number)))
            return
        self.counter.take_case(case_of_today(self.counter, written.case))
        codes = [item.code for item in written.items]
        if codes:
            data = self.counter.data
            job = lambda: shop.items_by_code(shop.open_store(data), codes)  # noqa: E731
            self.worker.ask(job, lambda found: self._offer(written.items, found), self._fail)

    def _offer(self, before: tuple[SlipItem, ...], found: list[StockItem]) -> None:
        """Choose what was sold last time, at today's bin and price; what the shelf no longer has is said."""
        now = {item.code: item for item in reversed(found)}  # of two bins the first
        self.counter.shop.writer.take(
            tuple(slip.item_from(now[one.code], one.quantity) for one in before if one.code in now)
        )
        gone = [one.code for one in before if one.code not in now]
        if gone:
            said = tr("Sold last time and no longer in the stock list: {codes}.")
            self.counter.shop.pane.say(said.format(codes=", ".join(gone)))

    def _fail(self, problem: Exception) -> None:
        self.counter.looks.show_problem("", str(problem))


def case_of_today(counter: Counter, case: Case) -> Case:
    """Return a case of another day as it is asked about now: by the law and the catalogue of today."""
    fresh = counter.fresh_case()
    known = slip.without_the_gone(case, counter.catalogue)
    return known.model_copy(update={"place": fresh.place, "on": fresh.on})
