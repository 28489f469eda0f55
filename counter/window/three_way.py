"""A choice between not asked, no and yes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

STATES: tuple[tuple[str, bool | None], ...] = (("not asked", None), ("no", False), ("yes", True))
KEYS = {
    Qt.Key.Key_N: False,
    Qt.Key.Key_Y: True,
    Qt.Key.Key_Question: None,
    Qt.Key.Key_Delete: None,
    Qt.Key.Key_Backspace: None,
}
HOW = "Y yes · N no · Delete not asked"


class ThreeWay(QComboBox):
    """Emits what was chosen; y, n and Delete choose without opening the list."""

    chosen = Signal(object)

    def __init__(self, meaning: str) -> None:
        super().__init__()
        for words, _ in STATES:
            self.addItem(words)
        self.setToolTip(f"{meaning}\n{HOW}")
        self.setAccessibleDescription(meaning)
        self.activated.connect(lambda i: self.chosen.emit(STATES[i][1]))

    @property
    def answer(self) -> bool | None:
        """What is shown."""
        return STATES[self.currentIndex()][1]

    def show_answer(self, answer: bool | None, said: bool | None = None) -> None:
        """Show an answer; where nothing was asked, what the label says in its place."""
        self.setItemText(0, STATES[0][0] if said is None else f"{'yes' if said else 'no'}, label")
        self.setCurrentIndex(next(i for i, (_, state) in enumerate(STATES) if state is answer))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in KEYS and not event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier:
            answer = KEYS[key]
            self.show_answer(answer)
            self.chosen.emit(answer)
            return
        super().keyPressEvent(event)
