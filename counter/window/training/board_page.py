"""The trainer's view: who stands where, families to learn first, and a sheet of results."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from counter.language import marked, tr
from counter.window.parts.calm import CalmCombo
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words
from counter.window.training.results_pane import ResultsPane

if TYPE_CHECKING:
    from counter.training import Row

HEADS = (
    marked("Name"),
    marked("Answers"),
    marked("Fresh"),
    marked("Fading"),
    marked("Gone"),
    marked("Ready for"),
    marked("Learns first"),
    marked("Last practised"),
)
NUMBERS, WIDE = (1, 2, 3, 4), 5
GAP = "\N{EN SPACE}"  # behind a number, before words that begin beside it
STATES: tuple[Literal["fresh", "fading", "gone"], ...] = ("fresh", "fading", "gone")
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
ID = Qt.ItemDataRole.UserRole


class BoardPage(QWidget):
    """Emits who is picked, and a family assigned to or taken off whoever is picked."""

    picked = Signal(str)
    assigned = Signal(str, bool)

    def __init__(self) -> None:
        super().__init__()
        self.table, self.results = QTableWidget(0, len(HEADS)), ResultsPane()
        self.family, self.give = CalmCombo(), QPushButton(tr("Learn this first"))
        self.given = Words(wraps=True)
        self._rows: tuple[Row, ...] = ()
        self.family.setMinimumHeight(TARGET)
        self.family.setAccessibleName(tr("Family to learn first"))
        self.family.currentIndexChanged.connect(self._name_button)
        self.give.clicked.connect(self._assign)
        self._dress_table()
        self._lay_out()

    def _dress_table(self) -> None:
        table = self.table
        for column, words in enumerate(HEADS):
            item = QTableWidgetItem(tr(words) + GAP * (column in NUMBERS))
            item.setTextAlignment(RIGHT if column in NUMBERS else LEFT)
            table.setHorizontalHeaderItem(column, item)
        table.verticalHeader().hide()
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setTabKeyNavigation(False)
        table.setShowGrid(False)
        table.verticalHeader().setDefaultSectionSize(TARGET)
        table.setFrameShape(QFrame.Shape.NoFrame)
        table.setBackgroundRole(QPalette.ColorRole.AlternateBase)
        table.setAccessibleName(tr("Who stands where"))
        head = table.horizontalHeader()
        head.setHighlightSections(False)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(WIDE, QHeaderView.ResizeMode.Stretch)
        table.itemSelectionChanged.connect(self._pick)

    def _lay_out(self) -> None:
        top, assign = QFrame(), QFrame()
        for panel in (top, assign):
            panel.setProperty("panel", True)
        title, learn = Words(tr("Who stands where")), Words(tr("Learn first"))
        for label in (title, learn):
            label.set_role("title")
        self.given.set_role("quiet")
        box = QVBoxLayout(top)
        box.setContentsMargins(16, 12, 16, 12)
        box.addWidget(title)
        box.addWidget(self.table, 1)
        column = QVBoxLayout(assign)
        column.setContentsMargins(16, 12, 16, 12)
        column.setSpacing(8)
        for part in (learn, self.family, self.give, self.given):
            column.addWidget(part)
        column.addStretch(1)
        assign.setFixedWidth(300)
        below = QHBoxLayout()
        below.setSpacing(8)
        below.addWidget(assign)
        below.addWidget(self.results, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(8)
        whole.addWidget(top, 2)
        whole.addLayout(below, 3)

    def show_board(self, rows: tuple[Row, ...], current: str) -> None:
        """Show everybody and pick one."""
        self._rows = rows
        if rows and not self.family.count():
            self.family.addItems([one.family for one in rows[0].standings])
        self.table.blockSignals(True)
        self.table.setRowCount(len(rows))
        for at, row in enumerate(rows):
            for column, words in enumerate(_cells(row)):
                item = QTableWidgetItem(words + GAP * (column in NUMBERS))
                item.setData(ID, row.trainee)
                item.setTextAlignment(RIGHT if column in NUMBERS else LEFT)
                self.table.setItem(at, column, item)
            if row.trainee == current:
                self.table.selectRow(at)
        self.table.blockSignals(False)
        self._show_assigned()

    def _row(self) -> Row | None:
        found = self.table.selectionModel().selectedRows()
        return self._rows[found[0].row()] if found and found[0].row() < len(self._rows) else None

    def _pick(self) -> None:
        row = self._row()
        self._show_assigned()
        if row is not None:
            self.picked.emit(row.trainee)

    def _show_assigned(self) -> None:
        row = self._row()
        for widget in (self.family, self.give):
            widget.setEnabled(row is not None)
        families = (", ".join(row.assigned) if row else "") or tr("the next families in order")
        words = tr("{name} learns first: {families}.").format(name=row.name if row else "", families=families)
        self.given.setText(words if row else tr("Nobody is chosen."))
        self._name_button()

    def _name_button(self) -> None:
        row = self._row()
        is_on = row is not None and self.family.currentText() in row.assigned
        self.give.setText(tr("Take it off") if is_on else tr("Learn this first"))

    def _assign(self) -> None:
        row = self._row()
        if row is not None:
            family = self.family.currentText()
            self.assigned.emit(family, family not in row.assigned)


def _cells(row: Row) -> tuple[str, ...]:
    last = f"{row.last_at.astimezone():%Y-%m-%d %H:%M}" if row.last_at else tr("never")
    ready = tr("{count} of {all}").format(count=len(row.ready), all=len(row.standings))
    ready += f": {', '.join(row.ready)}" if row.ready else ""
    return (
        row.name,
        str(row.answers),
        *(str(len(row.families(state))) for state in STATES),
        ready,
        ", ".join(row.assigned) or "–",
        last,
    )
