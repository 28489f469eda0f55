"""A round to start: how long, and what waits for this trainee."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QCheckBox, QFrame, QVBoxLayout

from counter.window.parts.words import Words
from counter.window.training.choices import Choices

if TYPE_CHECKING:
    from counter.training import Row
    from counter.window.parts.theme import Theme

NOBODY = (
    "Add a name on the left to begin. Without one, «Teach me this» beside a base and «teach me» on a caution "
    "still ask cards; then nothing is kept."
)


class StartPane(QFrame):
    """Emits the place of the length chosen; the lengths come from the core's settings."""

    started = Signal(int)
    at_counter_toggled = Signal(bool)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.title, self.rounds = Words(), Choices(theme)
        self._lengths: tuple[str, ...] = ()
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.5)
        self.title.setFont(large)
        self.stands = Words(wraps=True)
        self.at_counter = QCheckBox("Learns at the counter now: offer to keep each new case for training")
        self.at_counter.toggled.connect(self.at_counter_toggled)
        self.rounds.chosen.connect(self.started)
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 16, 24, 16)
        box.setSpacing(16)
        for part in (self.title, self.rounds, self.stands, self.at_counter):
            box.addWidget(part)
        box.addStretch(1)

    def show_lengths(self, minutes: tuple[int, ...]) -> None:
        """Offer rounds of these lengths, and one without end."""
        self._lengths = (*(f"{one} minutes" for one in minutes), "until I stop")
        self.rounds.show_choices(self._lengths)

    def show_person(self, row: Row | None, is_at_counter: bool, offer: str = "") -> None:
        """Show what waits for a trainee, None is nobody; `offer` is to go on with a round, as the last choice."""
        self.rounds.show_choices((*self._lengths, offer) if offer else self._lengths)
        self.title.setText(f"{row.name}: a round of" if row else "Training")
        self.rounds.setVisible(row is not None)
        self.at_counter.setVisible(row is not None)
        self.at_counter.blockSignals(True)
        self.at_counter.setChecked(is_at_counter)
        self.at_counter.blockSignals(False)
        self.stands.setText(_stands(row) if row else NOBODY)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.rounds.set_theme(theme)


def _stands(row: Row) -> str:
    ready = ", ".join(row.ready) or "no family yet"
    due = "Nothing is due for repeating" if not row.due_now else f"{row.due_now} due for repeating now"
    lines = [f"{due}; {sum(row.forecast)} within {len(row.forecast)} days. {row.answers} answers so far."]
    lines.append(f"Ready for the counter: {ready}.")
    if row.assigned:
        lines.append(f"Learns first: {', '.join(row.assigned)}.")
    if row.torn:
        lines.append(f"{row.torn} lines of the record cannot be read and are left out; the file keeps them.")
    return "\n".join(lines)
