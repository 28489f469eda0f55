"""On the shelf: what answers this case, or what was searched for; chosen items go on the slip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QListView, QPushButton, QSpinBox, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.parts.sizes import high
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words
from counter.window.shelf.shelf_rows import STRUCK, ShelfDelegate, ShelfModel

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from PySide6.QtGui import QResizeEvent, QWheelEvent

    from counter.shelf import ShelfAnswer

LINES_WITH_STATE = 18  # high, from which there is room to say how it stands with the list
NO_LIST = marked("No stock list yet. Menu, “Import stock list …”, or load the demo shop to try it.")
NO_CASE = marked("Once a lamp or a holder is named, what the shelf has for it stands here. Or search.")
NOTHING = marked("Nothing on the shelf fits this. Press “Asked for, not there” to note it.")
NOT_FOUND = marked("Nothing in the list begins like that.")


class Needed(QSpinBox):
    """How many lamps are needed; the wheel only turns it once it has the keyboard."""

    def __init__(self) -> None:
        super().__init__()
        self.setRange(1, 999)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("How many are needed"))
        self.setPrefix(tr("needed "))
        self.setMinimumHeight(TARGET)

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class ShelfPane(QWidget):
    """Emits what was typed, what was chosen for the slip, and what was asked for and is not there."""

    searched = Signal(str)
    chosen = Signal(object, int)  # the answer, how many
    missed = Signal(str)
    matched = Signal(object)
    letters_wanted = Signal(object)  # the answer whose code is to be read
    needed_changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.field, self.needed = QLineEdit(), Needed()
        self.field.setPlaceholderText(tr("code, words, bin, barcode"))
        self.field.setToolTip(tr("Search the shelf by any of these (Ctrl+J)"))
        self.field.setAccessibleName(tr("Search the shelf"))
        self.field.setClearButtonEnabled(True)
        self.field.setMinimumHeight(TARGET)
        self.model, self.list = ShelfModel(), QListView()
        self.list.setModel(self.model)
        self.list.setItemDelegate(ShelfDelegate(self.list))
        self.list.setUniformItemSizes(True)
        self.list.setAccessibleName(tr("On the shelf"))
        self.says, self.state = _quiet(), _quiet()
        self.add, self.miss = QPushButton(tr("On the slip")), QPushButton(tr("Asked for, not there"))
        self.same = QPushButton(tr("It is this lamp"))
        self.same.setToolTip(tr("Match this line to the lamp of this case, in this list and in every later one."))
        self.teach = QPushButton(tr("Say what its letters mean"))
        self.teach.setToolTip(tr("Put this line's code into the marks; below it you can say what its letters mean."))
        for button in (self.add, self.miss, self.same, self.teach):
            button.setMinimumHeight(TARGET)
        self.field.textChanged.connect(self.searched)
        self.field.returnPressed.connect(self._enter)
        self.list.activated.connect(lambda _: self._choose())
        self.list.selectionModel().currentChanged.connect(lambda *_: self._ready())
        self.needed.valueChanged.connect(lambda _: self.needed_changed.emit())
        self.add.clicked.connect(self._choose)
        self.same.clicked.connect(lambda: self.matched.emit(self.current()))
        self.teach.clicked.connect(lambda: self.letters_wanted.emit(self.current()))
        self.miss.clicked.connect(lambda: self.missed.emit(self.field.text().strip()))
        self._lay_out()
        self._ready()

    def _lay_out(self) -> None:
        top, foot, of_line = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        top.addWidget(self.field, 1)
        top.addWidget(self.needed)
        for row, buttons in ((foot, (self.add, self.miss)), (of_line, (self.same, self.teach))):
            for button in buttons:
                row.addWidget(button)
            row.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 8, 8, 0)
        box.setSpacing(6)
        box.addLayout(top)
        box.addWidget(self.says)
        box.addWidget(self.list, 1)
        box.addLayout(foot)
        box.addLayout(of_line)
        box.addWidget(self.state)

    def minimumSizeHint(self) -> QSize:
        """Ask for little: the tabs beside others are as wide as the widest of them."""
        return QSize(160, 160)

    def show_answers(self, answers: Sequence[ShelfAnswer], says: str = "") -> None:
        """Show answers, best first, or say why there are none."""
        at = self.list.currentIndex().row()
        before = self.model.answers[at].item.id if 0 <= at < len(self.model.answers) else None
        self.model.show_answers(answers, self.needed.value())
        same = next((row for row, one in enumerate(answers) if one.item.id == before), 0)
        if answers:
            self.list.setCurrentIndex(self.model.index(same))
        self.say(says)
        self._ready()

    def show_chosen(self, chosen: Iterable[tuple[str, str]]) -> None:
        """Show which items are on the slip, by code and bin; pressed again, one comes off it."""
        self.model.on_slip = frozenset(chosen)
        self.list.viewport().update()
        self._ready()

    def say(self, words: str) -> None:
        """Say something above the list."""
        self.says.setText(words)
        self.says.setVisible(bool(words))

    def show_state(self, words: str) -> None:
        """Say under the list how it stands with list and store; in a low pane only the list's tip does."""
        self.state.setText(words)
        self.list.setToolTip(words)
        self._fit()

    def _fit(self) -> None:
        self.state.setVisible(bool(self.state.text()) and self.height() >= high(self.font(), LINES_WITH_STATE))

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._fit()
        super().resizeEvent(event)

    def take_focus(self) -> None:
        """Let the next letters search."""
        self.field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.field.selectAll()

    def current(self) -> ShelfAnswer | None:
        """Return the answer that is marked."""
        at = self.list.currentIndex().row()
        return self.model.answers[at] if 0 <= at < len(self.model.answers) else None

    def _enter(self) -> None:
        if self.model.answers:
            self.list.setFocus()

    def _choose(self) -> None:
        one = self.current()
        if one is not None and one.rank != STRUCK:
            self.chosen.emit(one, self.needed.value())

    def _ready(self) -> None:
        one = self.current()
        self.add.setEnabled(one is not None and one.rank != STRUCK)
        is_on = one is not None and bool(self.model.slip_words(one))
        self.add.setText(tr("Off the slip") if is_on else tr("On the slip"))
        for button in (self.same, self.teach):
            button.setVisible(one is not None and bool(one.item.reason))


def _quiet() -> Words:
    words = Words(role="quiet", wraps=True)
    words.hide()
    return words
