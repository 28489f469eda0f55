"""All that a shop ever added, with who and when, and what of it no longer counts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QListWidget, QListWidgetItem, QPushButton, QWidget

from counter import entries
from counter.language import tr
from counter.window.entries.leaves import column
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.shop import OwnRow


class KeptList(QWidget):
    """The latest first; one that is chosen can be changed, taken out, or brought back."""

    changed = Signal(object)
    taken_out = Signal(list)
    brought_back = Signal(list)

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[OwnRow] = []
        self.list = QListWidget()
        self.list.setAccessibleName(tr("What this shop added"))
        self.list.setWordWrap(True)
        self.list.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.change, self.take, self.bring = (
            QPushButton(tr("Change")),
            QPushButton(tr("Withdraw")),
            QPushButton(tr("Bring back")),
        )
        box, line = column(self), QHBoxLayout()
        box.addWidget(Words(tr("What this shop added"), "title"))
        box.addWidget(self.list, 1)
        for button in (self.change, self.take, self.bring):
            button.setAutoDefault(False)
            line.addWidget(button)
        box.addLayout(line)
        self.list.currentRowChanged.connect(lambda _: self._say_what_can_be_done())
        self.list.itemActivated.connect(lambda _: self._change())
        self.change.clicked.connect(self._change)
        self.take.clicked.connect(lambda: self.taken_out.emit([self.rows[self.list.currentRow()].id]))
        self.bring.clicked.connect(lambda: self.brought_back.emit([self.rows[self.list.currentRow()].id]))
        self._say_what_can_be_done()

    def show_rows(self, rows: list[OwnRow], catalogue: Catalogue) -> None:
        """Show entries, keeping the place."""
        at = self.list.currentRow()
        counting = {row.key: row.id for row in rows if row.gone is None}
        self.rows = list(reversed(rows))
        self.list.clear()
        for row in self.rows:
            self.list.addItem(QListWidgetItem(_words(row, catalogue, counts=counting.get(row.key) == row.id)))
        self.list.setCurrentRow(min(at, len(rows) - 1))
        self._say_what_can_be_done()

    def _change(self) -> None:
        at = self.list.currentRow()
        if 0 <= at < len(self.rows):
            self.changed.emit(self.rows[at])

    def _say_what_can_be_done(self) -> None:
        at = self.list.currentRow()
        row = self.rows[at] if 0 <= at < len(self.rows) else None
        self.change.setEnabled(row is not None)
        self.take.setEnabled(row is not None and row.gone is None)
        self.bring.setEnabled(row is not None and row.gone is not None)


def _words(row: OwnRow, catalogue: Catalogue, *, counts: bool) -> str:
    kind = tr("changed") if row.section == "changed" else entries.label_of(row.section)
    added = row.body.get("added")
    by = f"{added.get('who', '')}, {added.get('on', '')}" if isinstance(added, dict) else tr("by nobody named")
    state = "" if counts else tr("a later one counts")
    if row.gone is not None:
        state = tr("withdrawn by {who}, {day}").format(who=row.gone_by or "?", day=row.gone[:10])
    name = entries.thing_words(row.section, row.key[1:], catalogue)
    return "\n".join(filter(None, (f"{kind}: {name}", by, state)))
