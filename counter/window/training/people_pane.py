"""Who is learning: the list of trainees, a new name, and removing one with all records."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QMessageBox,
    QPushButton,
    QVBoxLayout,
)

from counter.language import marked, tr
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.training import Trainee

ID = Qt.ItemDataRole.UserRole
PRIVACY = marked(
    "Names and answers stay in the shop's own store: on this machine, unless the shop keeps it on its server. "
    "Removing someone deletes all of it there; nothing is kept."
)


class PeoplePane(QFrame):
    """Emits the id of who is chosen, "" for nobody; a name to add; an id to remove, after asking once."""

    picked = Signal(str)
    added = Signal(str)
    removed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.list, self.name = QListWidget(), QLineEdit()
        self._was_empty = True
        self.list.setAccessibleName(tr("Who is learning"))
        self.name.setPlaceholderText(tr("a new name"))
        self.name.setMaxLength(60)
        self.add, self.remove = QPushButton(tr("Add")), QPushButton(tr("Remove with all records …"))
        self.problem = Words(wraps=True)
        self.list.currentItemChanged.connect(lambda: self.picked.emit(self.current()))
        self.add.clicked.connect(self._add)
        self.name.returnPressed.connect(self._add)
        self.remove.clicked.connect(self.ask_remove)
        self._lay_out()

    def _lay_out(self) -> None:
        title, privacy = Words(tr("Who is learning")), Words(tr(PRIVACY), wraps=True)
        title.set_role("title")
        privacy.set_role("quiet")
        row = QHBoxLayout()
        row.addWidget(self.name, 1)
        row.addWidget(self.add)
        box = QVBoxLayout(self)
        box.setContentsMargins(16, 12, 16, 12)
        box.setSpacing(8)
        box.addWidget(title)
        box.addWidget(self.list, 1)
        box.addLayout(row)
        box.addWidget(self.problem)
        box.addWidget(self.remove, 0, Qt.AlignmentFlag.AlignLeft)
        box.addWidget(privacy)

    def show_people(self, people: tuple[Trainee, ...], current: str) -> None:
        """Show who has a record and choose one; `current` unknown chooses the first."""
        self._was_empty = not self.list.count()
        self.list.blockSignals(True)
        self.list.clear()
        for one in people:
            item = QListWidgetItem(one.name)
            item.setData(ID, one.id)
            item.setSizeHint(QSize(0, TARGET))
            self.list.addItem(item)
            if one.id == current:
                self.list.setCurrentItem(item)
        if self.list.currentRow() < 0 and people:
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)
        self.remove.setEnabled(bool(people))
        self._turn_to_people()
        self.picked.emit(self.current())

    def _turn_to_people(self) -> None:
        """Let number keys start a round once there are people, and a name be typed at once where there are none."""
        holds = self.window().focusWidget()
        if self.list.count() and self._was_empty and holds is self.name and not self.name.text():
            self.list.setFocus()
        elif not self.list.count() and holds is self.list:
            self.name.setFocus()

    def current(self) -> str:
        """Return the id of who is chosen, "" for nobody."""
        item = self.list.currentItem()
        return str(item.data(ID)) if item is not None else ""

    def show_problem(self, words: str) -> None:
        """Say what could not be done."""
        self.problem.setText(words)

    def _add(self) -> None:
        if self.name.text().strip():
            self.added.emit(self.name.text())
        else:
            self.name.setFocus()

    def show_added(self) -> None:
        """Make way for the next name: this one is kept."""
        self.name.clear()
        self.list.setFocus()

    def ask_remove(self) -> None:
        """Ask once, and say what goes."""
        who, item = self.current(), self.list.currentItem()
        if item is None:
            return
        box = QMessageBox(self)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setText(tr("Remove {name} with all records?").format(name=item.text()))
        box.setInformativeText(tr("Every answer and all that follows from it is deleted. It cannot be brought back."))
        gone = box.addButton(tr("Remove all"), QMessageBox.ButtonRole.DestructiveRole)
        keep = box.addButton(tr("Keep"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(keep)
        box.setEscapeButton(keep)
        box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        gone.clicked.connect(lambda: self.removed.emit(who))
        box.open()
