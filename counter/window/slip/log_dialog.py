"""The log: found by number, name, day, base, bin or code; reopened, taken back, exported; and the month."""

from __future__ import annotations

import secrets
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from counter import shop
from counter.files import write_atomic
from counter.language import marked, tr, trn
from counter.shelf import folded
from counter.slip import log_words
from counter.window.parts.calm import CalmCombo
from counter.window.parts.sizes import be_large
from counter.window.parts.theme import SMALL_TARGET, TARGET
from counter.window.parts.words import Words
from counter.window.slip.happened import REASONS, Happened, lamp_words
from counter.window.slip.month_view import MonthView

if TYPE_CHECKING:
    from counter.shop import LoggedSlip, Month
    from counter.window.counter_room import Counter
    from counter.window.shelf.slip_reopen import SlipReopen
    from counter.window.shelf.store_worker import StoreWorker


class LogDialog(QDialog):
    """Asks the store through the worker; the log itself is never changed here."""

    def __init__(self, counter: Counter, worker: StoreWorker, reopener: SlipReopen) -> None:
        super().__init__(counter.window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Slips"))
        self.counter, self.worker, self.reopener, self.data = counter, worker, reopener, counter.data
        self.found: list[LoggedSlip] = []
        self._is_noting = False  # a return is on its way into the log
        self.field, self.list, self.says = QLineEdit(), QListWidget(), Words(wraps=True)
        self.field.setPlaceholderText(tr("number (#12), name, day (2026-11), base, bin, code"))
        self.field.setMinimumHeight(TARGET)
        self.reason, self.month, self.months = CalmCombo(), MonthView(), CalmCombo()
        for reason in shop.REASONS:
            self.reason.addItem(tr(REASONS[reason]), reason)
        self.buttons = {name: QPushButton(tr(words)) for name, words in BUTTONS}
        for name, button in self.buttons.items():
            button.setMinimumHeight(TARGET)
            button.clicked.connect(lambda _=False, called=name: getattr(self, called)())
        self.field.textChanged.connect(lambda _: self.search())
        self.list.itemActivated.connect(lambda _: self.reopen())
        self.months.currentTextChanged.connect(self._ask_month)
        self.happened = Happened(counter.catalogue)
        self._lay_out()
        self.says.setText(tr("asking the store …"))
        self.search()
        self._ask_happened()
        self._ask(lambda store: shop.months(store), self._take_months, "months")

    def _lay_out(self) -> None:
        slips, row = QWidget(), QHBoxLayout()
        for name in ("reopen", "print_again", "came_back", "export", "forget"):
            if name == "came_back":
                row.addWidget(self.reason)
            row.addWidget(self.buttons[name])
        box = QVBoxLayout(slips)
        box.addWidget(self.field)
        box.addWidget(self.list, 1)
        box.addLayout(row)
        month = QWidget()
        page = QVBoxLayout(month)
        page.addWidget(self.months)
        page.addWidget(self.month, 1)
        tabs = QTabWidget()
        tabs.addTab(slips, tr("Slips"))
        tabs.addTab(month, tr("Month"))
        tabs.addTab(self.happened, tr("Asked for, came back"))
        whole = QVBoxLayout(self)
        whole.addWidget(tabs)
        whole.addWidget(self.says)
        be_large(self, 127, 44)

    def _ask(self, job: Any, then: Any, topic: str = "") -> None:
        data = self.data
        self.worker.ask(lambda: job(shop.open_store(data)), then, self._fail, topic, self)

    def _fail(self, problem: Exception) -> None:
        self.says.setText(str(problem))

    def search(self) -> None:
        """Show what is found."""
        words = log_words(self.field.text())
        self._ask(lambda store: shop.find_slips(store, words), self._take, "log")

    def _take(self, found: list[LoggedSlip]) -> None:
        self.found = found
        self.list.clear()
        for one in found:
            item = QListWidgetItem(_line(one))
            item.setSizeHint(QSize(0, SMALL_TARGET))
            self.list.addItem(item)
        if found:
            self.list.setCurrentRow(0)
        self.says.setText("" if found else tr("No slip matches."))

    def _current(self) -> LoggedSlip | None:
        at = self.list.currentRow()
        return self.found[at] if 0 <= at < len(self.found) else None

    def reopen(self) -> None:
        """Bring the case of the marked slip back to the counter: the same as last time."""
        one = self._current()
        if one is not None:
            self.reopener.reopen(one)
            self.accept()

    def print_again(self) -> None:
        """Show the marked slip to print it once more, as a copy."""
        from pydantic import ValidationError

        one = self._current()
        if one is None:
            return
        try:
            self.counter.shop.writer.open_copy(one, self)
        except ValidationError:
            said = tr("Slip {number} was written by a later version of this program.")
            self.says.setText(said.format(number=one.number))

    def came_back(self) -> None:
        """Note that what this slip sold came back and why; the lamp that the counter names now was right."""
        one = self._current()
        if one is None or self._is_noting:
            return
        self._is_noting = True
        now, right = datetime.now().astimezone(), self.counter.assessment.lamp
        sold = next((item.get("lamp") for item in one.body.get("items", []) if item.get("lamp")), one.lamp)
        row = {"at": now.isoformat(timespec="seconds"), "day": now.date().isoformat(), "number": one.number}
        row |= {"lamp": sold, "right_lamp": right if right != sold else None, "note": ""}
        row |= {"reason": self.reason.currentData()}
        data, key = self.data, secrets.token_hex(16)
        said = tr("Noted: slip {number} came back, {reason}.").format(
            number=one.number, reason=self.reason.currentText()
        )
        self.worker.ask(
            lambda: shop.keep_return(data, key, row),
            lambda _: self._noted(said),
            self._not_noted,
            owner=self,
            keeps=True,
        )

    def _not_noted(self, problem: Exception) -> None:
        self._is_noting = False
        self._fail(problem)

    def _noted(self, said: str) -> None:
        self._is_noting = False
        self.says.setText(said)
        self._ask_happened()
        self._ask_month(self.months.currentText())

    def export(self) -> None:
        """Write the log as CSV, without names."""
        chosen, _ = QFileDialog.getSaveFileName(self, tr("Log as CSV"), str(Path.home() / "slips.csv"), "CSV (*.csv)")
        if chosen:
            self.export_to(Path(chosen))

    def export_to(self, path: Path) -> None:
        """Write the log as CSV into a file."""
        from counter.slip import log_csv

        def job(store: Any) -> None:
            write_atomic(path, log_csv(store, with_names=False).encode("utf-8-sig"))

        self._ask(job, lambda _: self.says.setText(tr("Written: {name}, without names.").format(name=path.name)))

    def forget(self) -> None:
        """Forget the name on the marked slip, everywhere; the slips stay."""
        one = self._current()
        if one is not None and one.customer:
            name = folded(one.customer)
            self._ask(lambda store: shop.forget_name(store, name), self._forgotten)

    def _forgotten(self, count: int) -> None:
        self.search()
        self.says.setText(
            trn("The name is off {count} slip.", "The name is off {count} slips.", count).format(count=count)
        )

    def _ask_happened(self) -> None:
        self._ask(shop.asked_for, self.happened.show_asked, "asked for")
        self._ask(shop.came_back, self.happened.show_back, "came back")

    def _take_months(self, found: list[str]) -> None:
        self.months.addItems(found)

    def _ask_month(self, of: str) -> None:
        if of:
            self._ask(lambda store: shop.month(store, of), self._take_month, "month")

    def _take_month(self, found: Month) -> None:
        self.month.show_month(found, lambda lamp: lamp_words(self.counter.catalogue, lamp))


BUTTONS = (
    ("reopen", marked("Reopen  (Enter)")),
    ("print_again", marked("Print again …")),
    ("came_back", marked("It came back")),
    ("export", "CSV …"),
    ("forget", marked("Forget name")),
)


def _line(one: LoggedSlip) -> str:
    items = ", ".join(f"{item['quantity']} × {item['code']}" for item in one.body.get("items", []))
    parts = (f"{one.number}", one.day, one.body.get("headline", ""), items, one.customer)
    return "   ".join(filter(None, parts))
