"""Makers' codes of this shop in the window: what is taught counts at once, the store keeps it beside the window."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from counter import desk, shop
from counter.language import tr
from counter.marks import letters

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counter.desk import SoldCodes
    from counter.marks import HouseMaker
    from counter.marks.letters import KnownLetters, LettersMean, LetterTable
    from counter.shop import Changed, HouseCodes, LettersChange
    from counter.window.counter_room import Counter

    Change = Callable[[LetterTable], LetterTable]


class LettersDesk(QObject):
    """Holds what this shop knows of makers' codes; begins with what this machine saw last."""

    changed = Signal()  # whoever shows codes asks again
    kept = Signal(str)  # said once the store has it, or why it has not

    def __init__(self, counter: Counter) -> None:
        super().__init__(counter)
        self.counter = counter
        found = shop.remembered_house(counter.data)
        self.problems = found.problems
        self.codes: HouseCodes = found.codes
        self.house: tuple[HouseMaker, ...] = found.codes.house
        self.sold: SoldCodes = {}
        self.undoable: int | None = None
        self._pending = 0  # changes on their way into the store

    def take(self, codes: HouseCodes) -> bool:
        """Use what the store says, unless a change is on its way there; whether that is something new."""
        return not self._pending and self._use(codes)

    def _use(self, codes: HouseCodes) -> bool:
        if codes == self.codes:
            return False
        self.codes, self.house = codes, codes.house
        self.changed.emit()
        return True

    def take_sold(self, sold: SoldCodes) -> None:
        """Use what codes were sold as here; a code on the counter is asked about again where it is one of them."""
        before, self.sold = self.sold, sold
        key = desk.code_key(self.counter.case.marks)
        if before.get(key) != sold.get(key):
            self.changed.emit()

    # -- changes

    def teach(self, words: Sequence[str], means: LettersMean) -> None:
        """Take what letters mean in this shop; it counts at once, and for every later code."""
        who, at = self._who(), datetime.now().isoformat(timespec="minutes")

        def change(table: LetterTable) -> LetterTable:
            for word in words:
                table = letters.teach(table, word, means, who=who, at=at)
            return table

        self._keep(change, f"taught {', '.join(words)}", tr("Kept: {letters}.").format(letters=", ".join(words)))

    def forget(self, *words: str) -> None:
        """Take back what letters mean."""
        names = ", ".join(words)

        def change(table: LetterTable) -> LetterTable:
            for word in words:
                table = letters.forget(table, word)
            return table

        self._keep(change, f"forgot {names}", tr("Forgotten: {letters}.").format(letters=names))

    def accept(self, rows: Sequence[KnownLetters]) -> None:
        """Take what the stock list teaches; it goes when that list goes."""
        names = ", ".join(one.letters for one in rows)
        said = tr("Kept from the list: {letters}.").format(letters=names)
        change = lambda table: letters.accept(table, rows, is_whole=False)  # noqa: E731
        self._keep(change, f"accepted {names}", said, of_stock=True)

    def undo(self) -> None:
        """Take the last change that was made in this window back."""
        number, data = self.undoable, self.counter.data
        if number is None:
            return

        def job() -> tuple[LettersChange | None, HouseCodes]:
            store = shop.open_store(data)
            return shop.undo_letters(store, number), shop.house_codes_of(store)

        self.counter.shop.worker.ask(job, self._undone, self._failed)

    def _undone(self, found: tuple[LettersChange | None, HouseCodes]) -> None:
        self.undoable = None
        self.kept.emit(tr("Taken back."))
        if not self.take(found[1]):
            self.changed.emit()

    def _keep(self, change: Change, what: str, said: str, *, of_stock: bool = False) -> None:
        before, data, who = self.codes, self.counter.data, self._who()
        try:
            self._use(before._replace(letters=change(before.letters)))
        except ValueError as problem:
            self.kept.emit(str(problem))
            return

        def job() -> Changed:
            done = shop.change_letters(shop.open_store(data), change, who=who, what=what, of_stock=of_stock)
            shop.keep_house(data, done.codes)
            return done

        def failed(problem: Exception) -> None:
            self._pending -= 1
            self._use(before)
            self._failed(problem)

        self._pending += 1
        self.counter.shop.worker.ask(job, lambda done: self._taken(done, said), failed)

    def _taken(self, done: Changed, said: str) -> None:
        self._pending -= 1
        self.undoable = done.number
        self.kept.emit(said)
        if not self.take(done.codes):
            self.changed.emit()
        if not self.counter.shop.is_open:
            self.counter.shop.open()

    def _failed(self, problem: Exception) -> None:
        self.kept.emit(tr("Not kept: {problem}").format(problem=problem))
        self.changed.emit()

    def _who(self) -> str:
        return str(self.counter.settings.value("who", ""))
