"""All letters that mean something in this shop, and what the stock list would teach: taken, forgotten, taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
)

from counter.language import marked, tr, trn
from counter.marks import spoken
from counter.marks.letters import ORDINARY, letters_say
from counter.window.parts.sizes import be_large
from counter.window.parts.theme import TARGET
from counter.window.parts.unsaved import UnsavedDialog
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.marks import KnownLetters
    from counter.shelf import Taught
    from counter.window.marks.letters_desk import LettersDesk
    from counter.window.shelf.list_learner import ListLearner

HEADS = (
    *(marked("Letters"), marked("What they mean"), marked("Known from")),
    *(marked("Lines that agree"), marked("Lines that disagree")),
)
OFFERED = marked("would be taken from the list")
TAKEN = marked("the list {list}")
BY_HAND = marked("taught by hand")
BY = marked("taught by {who}, {day}")
BUTTONS = (
    ("take", marked("Take those ticked")),
    ("take_all", marked("Take all")),
    ("forget", marked("Forget those marked")),
    ("undo", marked("Take the last change back")),
    ("work_out", marked("Work them out from the stock list")),
)


class Line(NamedTuple):
    """One row: letters, whether they are only offered, and lines of the list that bear them out."""

    row: KnownLetters
    is_offered: bool
    examples: tuple[str, ...] = ()


class LettersDialog(UnsavedDialog):
    """Shows a table; what is pressed goes to the letters' desk, whose answer comes back as a change."""

    def __init__(self, desk: LettersDesk, learner: ListLearner) -> None:
        super().__init__(desk.counter.window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Makers' letters"))
        self.desk, self.learner = desk, learner
        self.lines: tuple[Line, ...] = ()
        self.table = QTableWidget(0, len(HEADS))
        self.table.setHorizontalHeaderLabels([tr(one) for one in HEADS])
        self.table.setAccessibleName(tr("Letters and what they mean"))
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setStretchLastSection(True)
        self.says, self.examples = Words(wraps=True), Words(wraps=True)
        self.says.set_role("quiet")
        self.buttons = {name: QPushButton(tr(words)) for name, words in BUTTONS}
        self._lay_out()
        for name, button in self.buttons.items():
            button.setMinimumHeight(TARGET)
            button.clicked.connect(lambda _=False, called=name: getattr(self, called)())
        self.table.currentCellChanged.connect(lambda *_: self._show_examples())
        for changed in (desk.changed, learner.changed):
            changed.connect(self.show_lines)
        desk.kept.connect(self.says.setText)
        self.show_lines()

    def _lay_out(self) -> None:
        first, second = QHBoxLayout(), QHBoxLayout()
        for row, names in ((first, ("take", "take_all", "work_out")), (second, ("forget", "undo"))):
            for name in names:
                row.addWidget(self.buttons[name])
            row.addStretch(1)
        box = QVBoxLayout(self)
        box.setSpacing(8)
        box.addWidget(self.table, 1)
        box.addWidget(self.examples)
        box.addLayout(first)
        box.addLayout(second)
        box.addWidget(self.says)
        be_large(self, 137, 40)

    def show_lines(self) -> None:
        """Show how it stands: what the list would teach first, then what is known."""
        taught = self.learner.found
        offered = taught.learned.letters if taught is not None else ()
        examples = taught.learned.examples if taught is not None else {}
        known = sorted(self.desk.codes.letters.letters, key=lambda one: (one.source, one.letters))
        self.lines = (
            *(Line(one, True, examples.get(one.letters, ())) for one in offered if one not in known),
            *(Line(one, False) for one in known),
        )
        self.table.setRowCount(len(self.lines))
        for at, line in enumerate(self.lines):
            self._fill(at, line)
        self.table.resizeColumnsToContents()
        self.table.setColumnWidth(1, max(self.table.columnWidth(1), 240))
        self._ready(taught)

    def _fill(self, at: int, line: Line) -> None:
        row = line.row
        count = (str(row.support), str(row.against)) if row.source == "list" else ("", "")
        means = spoken(letters_say(row.means)) or tr(ORDINARY)
        for place, words in enumerate((row.letters, means, _origin(line), *count)):
            cell = QTableWidgetItem(words)
            cell.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            if place == 0 and line.is_offered:
                cell.setFlags(cell.flags() | Qt.ItemFlag.ItemIsUserCheckable)
                cell.setCheckState(Qt.CheckState.Unchecked if row.against else Qt.CheckState.Checked)
            self.table.setItem(at, place, cell)

    def _ready(self, taught: Taught | None) -> None:
        is_offered = any(line.is_offered for line in self.lines)
        for name in ("take", "take_all"):
            self.buttons[name].setEnabled(is_offered)
        self.buttons["forget"].setEnabled(any(not line.is_offered for line in self.lines))
        self.buttons["undo"].setEnabled(self.desk.undoable is not None)
        self.buttons["work_out"].setEnabled(not self.learner.is_busy)
        self.says.setText(self.learner.says if self.learner.is_busy or taught is None else _about(taught, is_offered))
        self._show_examples()

    def _show_examples(self) -> None:
        at = self.table.currentRow()
        line = self.lines[at] if 0 <= at < len(self.lines) else None
        said = []
        if line is not None and line.examples:
            said.append(tr("For it: {lines}").format(lines=" | ".join(line.examples)))
        if line is not None and line.row.examples:
            said.append(tr("Against it: {lines}").format(lines=" | ".join(line.row.examples)))
        self.examples.setText("\n".join(said))
        self.examples.setVisible(bool(said))

    # -- what is pressed

    def take(self) -> None:
        """Take the letters that are ticked."""
        self._accept([at for at, line in enumerate(self.lines) if line.is_offered and self._is_ticked(at)])

    def take_all(self) -> None:
        """Take every letters that the list teaches."""
        self._accept([at for at, line in enumerate(self.lines) if line.is_offered])

    def _accept(self, places: list[int]) -> None:
        if places:
            self.desk.accept([self.lines[at].row for at in places])

    def unsaved(self) -> str:
        """Say that ticks set or taken by hand were not taken yet."""
        offered = ((at, line) for at, line in enumerate(self.lines) if line.is_offered)
        by_hand = any(self._is_ticked(at) == bool(line.row.against) for at, line in offered)
        return tr("What you ticked is not taken yet.") if by_hand else ""

    def _is_ticked(self, at: int) -> bool:
        cell = self.table.item(at, 0)
        return cell is not None and cell.checkState() == Qt.CheckState.Checked

    def forget(self) -> None:
        """Take the meaning of the marked letters away."""
        marked_rows = {index.row() for index in self.table.selectedIndexes()}
        words = [self.lines[at].row.letters for at in sorted(marked_rows) if not self.lines[at].is_offered]
        if words:
            self.desk.forget(*words)

    def undo(self) -> None:
        """Take the last change of this window back."""
        self.desk.undo()

    def work_out(self) -> None:
        """Read the stock list again."""
        self.learner.begin()


def _origin(line: Line) -> str:
    row = line.row
    if line.is_offered:
        return tr(OFFERED)
    if row.source == "list":
        return tr(TAKEN).format(list=row.list_name)
    return tr(BY).format(who=row.who, day=row.at[:10]) if row.who else tr(BY_HAND)


def _about(taught: Taught, is_offered: bool) -> str:
    read = trn("{count} line of {name} was read", "{count} lines of {name} were read", taught.learned.lines)
    said = read.format(count=taught.learned.lines, name=taught.stock.name)
    if taught.learned.lines < taught.of_lines:
        said += tr(", spread evenly over all {count}").format(count=taught.of_lines)
    more = "" if is_offered else " " + tr("Nothing in it is new here.")
    goes = tr("What is taken from a list is dropped when that list is replaced.")
    return f"{said}.{more} {goes}"
