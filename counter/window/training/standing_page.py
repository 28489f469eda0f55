"""Where you stand: ready for the counter, what is taken for what, and the memory ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from counter.window.parts.calm import CalmCombo
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words
from counter.window.training.confusion_view import ConfusionView
from counter.window.training.memory_view import MemoryView
from counter.window.training.ready_view import ReadyView

if TYPE_CHECKING:
    from counter.training import Answer, Bars, CurvePoint, Standing
    from counter.window.parts.theme import Theme

AXES = {
    "family": "bases",
    "notch": "left and right",
    "kind": "UV-C and lighting",
    "verdict": "may it be sold",
    "caution": "cautions",
    "look": "where to look next",
}
WORST = 3


class StandingPage(QWidget):
    """Filled by the room; the combo boxes only change which matrix is shown."""

    matrix_wanted = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.ready, self.matrix, self.memory = ReadyView(theme), ConfusionView(theme), MemoryView(theme)
        self.title, self.bars, self.worst = Words(), Words(wraps=True), Words(wraps=True)
        self.axis, self.whose = CalmCombo(), CalmCombo()
        for key, words in AXES.items():
            self.axis.addItem(words, key)
        for combo in (self.axis, self.whose):
            combo.setMinimumHeight(TARGET)
        self.axis.setAccessibleName("What is confused")
        self.whose.setAccessibleName("Whose answers")
        self.axis.activated.connect(self.matrix_wanted)
        self.whose.activated.connect(self.matrix_wanted)
        self._words: dict[str, str] = {}
        self._lay_out()

    def _lay_out(self) -> None:
        self.title.set_role("title")
        self.bars.set_role("quiet")
        rows = ScrollColumn("Ready for the counter")
        rows.column.addWidget(self.ready)
        rows.column.addStretch(1)
        head = QHBoxLayout()
        taken = Words("What is taken for what")
        taken.set_role("title")
        head.addWidget(taken)
        head.addStretch(1)
        head.addWidget(self.axis)
        head.addWidget(self.whose)
        (one, left), (other, right) = _panel(self.title, self.bars), _panel()
        left.addWidget(rows, 1)
        right.addLayout(head)
        right.addWidget(self.matrix, 1)
        right.addWidget(self.worst)
        right.addWidget(self.memory)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(one, 1)
        row.addWidget(other, 1)

    def show_standing(self, name: str, rows: tuple[Standing, ...], bars: Bars, words: dict[str, str]) -> None:
        """Show who is ready for what, the bars by name, and whose matrices can be asked for."""
        self._words = words
        self.title.setText(f"{name}: ready for the counter" if name else "Ready for the counter")
        self.bars.setText(
            f"The bar is the lower {bars.confidence * 100:.0f}\N{THIN SPACE}% bound ({bars.interval}) of the last "
            f"{bars.last} first-try answers. It must pass the mark: {bars.plain * 100:.0f}\N{THIN SPACE}%; for UV-C "
            f"and mismatch cautions {bars.critical * 100:.0f}\N{THIN SPACE}%. Every point must have been seen once."
        )
        self.ready.show_standings(rows)
        at = self.whose.currentIndex()
        self.whose.clear()
        self.whose.addItems([name or "nobody", "everybody here"])
        self.whose.setCurrentIndex(max(at, 0))

    @property
    def is_for_all(self) -> bool:
        """Return whether everybody's matrix is asked for."""
        return self.whose.currentIndex() == 1

    def show_answers(self, answers: tuple[Answer, ...]) -> None:
        """Show the matrix of these answers over the axis chosen."""
        from counter.training import confusion

        axis = self.axis.currentData()
        found = confusion(answers, axis)
        names = {one: _name(axis, one, self._words) for one in found.labels}
        self.matrix.show_confusion(found, names)
        said = [f"{names[mix.asked]} taken for {names[mix.said]}: {mix.times}" for mix in found.mixes()[:WORST]]
        self.worst.setText("Most often: " + "; ".join(said) if said else "Nothing was confused.")

    def show_memory(self, curve: tuple[CurvePoint, ...], days: tuple[int, ...], wanted: float) -> None:
        """Show the forgetting curve and the days ahead."""
        self.memory.show_memory(curve, days, wanted)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for view in (self.ready, self.matrix, self.memory):
            view.set_theme(theme)


def _name(axis: str, label: str, words: dict[str, str]) -> str:
    """Return the words for a label; cautions go by the names of their rules."""
    return words.get(label, label.replace("-", " ") if axis == "caution" else label)


def _panel(*parts: QWidget) -> tuple[QFrame, QVBoxLayout]:
    panel = QFrame()
    panel.setProperty("panel", True)
    box = QVBoxLayout(panel)
    box.setContentsMargins(16, 12, 16, 12)
    box.setSpacing(8)
    for part in parts:
        box.addWidget(part, 0, Qt.AlignmentFlag.AlignTop)
    return panel, box
