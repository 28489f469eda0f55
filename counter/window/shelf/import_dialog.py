"""A list before it goes in: its columns, its first lines, what it matches, rejects and changes; then the import."""

from __future__ import annotations

from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QGridLayout,
    QHBoxLayout,
    QPlainTextEdit,
    QProgressBar,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
)

from counter import shelf, shop
from counter.language import marked, tr, trn
from counter.marks.letters import choices
from counter.window.marks.letters_row import LettersRow, Offer
from counter.window.parts.calm import CalmCombo
from counter.window.parts.sizes import be_large
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from counter.marks.letters import LettersMean
    from counter.shelf import Changes, Columns, Plan, Row
    from counter.window.counter_room import Counter
    from counter.window.shelf.store_worker import StoreWorker

FILES = marked("Stock lists (*.csv *.tsv *.txt *.xlsx *.xls *.ods)")
FIELD_WORDS = {
    "code": marked("code"),
    "description": marked("description"),
    "bin": marked("bin"),
    "quantity": marked("quantity"),
    "price": marked("price"),
    "barcode": marked("barcode"),
    "supplier": marked("supplier"),
    "pack": marked("pack"),
    "lead_days": marked("lead days"),
    "life_h": marked("life, h"),
}
NONE = "—"
PREVIEW = 12
MOST_SHOWN = 300
MOST_LETTERS = 8


def choose_and_open(counter: Counter, worker: StoreWorker, done: Callable[[], None]) -> None:
    """Let a file be chosen and open it for a look."""
    chosen, _ = QFileDialog.getOpenFileName(counter.window, tr("Import stock list"), str(Path.home()), tr(FILES))
    if chosen:
        ImportDialog(counter, worker, Path(chosen), done).open()


class ImportDialog(QDialog):
    """Reads and matches beside the window; nothing is replaced before “Import” is pressed."""

    progressed = Signal(int, int)

    def __init__(self, counter: Counter, worker: StoreWorker, path: Path, imported: Callable[[], None]) -> None:
        super().__init__(counter.window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Import {name}").format(name=path.name))
        self.counter, self.worker, self.path, self._imported = counter, worker, path, imported
        self.rows: list[Row] = []
        self.columns: Columns | None = None
        self.plan: Plan | None = None
        self._stopped = Event()
        self.combos = {field: CalmCombo(tr(FIELD_WORDS[field])) for field in shelf.FIELDS}
        self.table, self.report = QTableWidget(), QPlainTextEdit(readOnly=True)
        self.says, self.bar = Words(tr("Reading …"), wraps=True), QProgressBar()
        self.letters = LettersRow()
        self.letters.ordinary.setText(tr("Ordinary lamp of this maker"))
        self.go, self.stop = QPushButton(tr("Import")), QPushButton(tr("Cancel"))
        self.go.setEnabled(False)
        self.go.clicked.connect(self.put)
        self.stop.clicked.connect(self.reject)
        self.progressed.connect(self._show_progress)
        self.letters.taught.connect(self._teach)
        self.finished.connect(lambda _: self._stopped.set())
        self._lay_out()
        self._read()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        for at, (field, combo) in enumerate(self.combos.items()):
            label = Words(tr(FIELD_WORDS[field]))
            label.setBuddy(combo)
            grid.addWidget(label, at // 5 * 2, at % 5)
            grid.addWidget(combo, at // 5 * 2 + 1, at % 5)
            combo.setMinimumHeight(TARGET)
        row = QHBoxLayout()
        row.addWidget(self.bar, 1)
        row.addStretch()
        for button in (self.stop, self.go):
            button.setMinimumHeight(TARGET)
            row.addWidget(button)
        box = QVBoxLayout(self)
        box.addLayout(grid)
        box.addWidget(self.table, 2)
        box.addWidget(self.says)
        box.addWidget(self.report, 2)
        box.addWidget(self.letters)
        box.addLayout(row)
        self.go.setDefault(True)
        self.table.setAccessibleName(tr("The first lines"))
        self.table.horizontalHeader().setStretchLastSection(True)
        self.report.setAccessibleName(tr("What it changes, and lines that are no lamp types"))
        be_large(self, 143, 48)

    # -- reading

    def _read(self) -> None:
        def job() -> tuple[list[Row], Columns]:
            rows = shelf.read_sheet(self.path)
            return rows, shelf.columns_of(rows, shop.open_store(self.counter.data))

        self.worker.ask(job, self._take_rows, self._fail, owner=self)

    def _take_rows(self, found: tuple[list[Row], Columns]) -> None:
        self.rows, self.columns = found
        width = max(len(row.cells) for row in self.rows[:200])
        names = [self._name(at) for at in range(width)]
        for field, combo in self.combos.items():
            combo.addItems([NONE, *names])
            combo.setCurrentIndex(self.columns.at.get(field, -1) + 1)
            combo.currentIndexChanged.connect(lambda _: self._columns_set())
        self._preview(names)
        self._match()

    def _name(self, at: int) -> str:
        assert self.columns is not None
        headings = self.columns.headings
        return headings[at] if at < len(headings) and headings[at] else tr("column {number}").format(number=at + 1)

    def _preview(self, names: list[str]) -> None:
        assert self.columns is not None
        start = 0 if self.columns.heading_row is None else self.columns.heading_row + 1
        body = self.rows[start : start + PREVIEW]
        self.table.setColumnCount(len(names))
        self.table.setHorizontalHeaderLabels(names)
        self.table.setRowCount(len(body))
        self.table.setVerticalHeaderLabels([str(row.line) for row in body])  # as the report below names them
        for at, row in enumerate(body):
            for place, cell in enumerate(row.cells[: len(names)]):
                self.table.setItem(at, place, QTableWidgetItem(cell[:120]))
        self.table.resizeColumnsToContents()

    def _columns_set(self) -> None:
        assert self.columns is not None
        at = {field: combo.currentIndex() - 1 for field, combo in self.combos.items() if combo.currentIndex() > 0}
        self.columns = self.columns.model_copy(update={"at": at})
        self._stopped.set()  # whatever is being matched is matched by other columns
        self._match()

    # -- matching

    def _match(self) -> None:
        stopped = self._stopped = Event()
        rows, columns, counter = self.rows, self.columns, self.counter
        assert columns is not None
        self.go.setEnabled(False)

        catalogue, house = counter.catalogue, counter.letters.house

        def job() -> tuple[Plan, Changes, Mapping[str, int]]:
            store = shop.open_store(counter.data)
            matcher = shelf.Matcher(catalogue, house, shop.hands(store))
            plan = shelf.plan_import(self.path.name, rows, columns, matcher, lambda n, of: self._tell(stopped, n, of))
            unknown = shelf.unknown_letters(catalogue, plan, house)
            return plan, shelf.changes(shop.all_items(store), plan), unknown

        self.worker.ask(job, self._take_plan, self._fail, "plan", self)

    def _tell(self, stopped: Event, done: int, of: int) -> bool:
        if stopped.is_set():
            return False
        self.progressed.emit(done, of)
        return True

    def _show_progress(self, done: int, of: int) -> None:
        self.bar.setMaximum(of)
        self.bar.setValue(done)
        self.bar.show()
        self.says.setText(tr("{done} of {of} lines").format(done=done, of=of))

    def _take_plan(self, found: tuple[Plan, Changes, Mapping[str, int]]) -> None:
        self.plan, changes, unknown = found
        plan = self.plan
        self.bar.hide()
        self.says.setText(
            tr(
                "Lines: {lines}, matched to a lamp type: {matched}, rejected: {rejected}. Against the present list, "
                "new: {added}, gone: {gone}, changed: {changed}, the same: {same}. The present list is kept and can "
                "be brought back."
            ).format(
                lines=len(plan.items),
                matched=plan.matched,
                rejected=len(plan.rejected),
                added=changes.added,
                gone=changes.gone,
                changed=changes.changed,
                same=changes.same,
            )
        )
        faults = [
            tr("rejected, line {line}: {text} ({reason})").format(
                line=one.line, text=one.text, reason=shelf.reason_words(one.reason)
            )
            for one in plan.rejected[:MOST_SHOWN]
        ]
        open_ = [
            tr("line {line}: {text} ({reason})").format(
                line=one.line, text=one.text, reason=shelf.reason_words(one.reason)
            )
            for one in plan.unmatched[:MOST_SHOWN]
        ]
        self.report.setPlainText("\n".join([*changes.shown, *faults, *open_]))
        self._offer_letters(unknown)
        self.go.setEnabled(True)

    def _offer_letters(self, unknown: Mapping[str, int]) -> None:
        """Let letters be told here that stand on lines without a lamp type; those lines are then matched again."""
        offers = tuple(Offer(one, "") for one in unknown)
        self.letters.show_letters(offers, choices(self.counter.catalogue, None) if offers else ())
        listed = [
            trn("{letters} on {count} line", "{letters} on {count} lines", count).format(letters=one, count=count)
            for one, count in unknown.items()
        ]
        said = tr("What do these letters mean in this shop? {listed}")
        self.letters.says.setText(said.format(listed=", ".join(listed[:MOST_LETTERS])))

    def _teach(self, words: list[str], means: LettersMean) -> None:
        self.counter.letters.teach(words, means)
        self._match()

    # -- importing

    def put(self) -> None:
        """Make it the present list."""
        plan, stopped, data = self.plan, self._stopped, self.counter.data
        if plan is None:
            return
        self.go.setEnabled(False)
        of = len(plan.items)
        job = lambda: shelf.put(shop.open_store(data), plan, progress=lambda n: self._tell(stopped, n, of))  # noqa: E731
        self.worker.ask(job, lambda _: self._finish(), self._fail, owner=self)

    def _finish(self) -> None:
        self.accept()
        self._imported()

    def _fail(self, problem: Any) -> None:
        self.says.setText(str(problem))
