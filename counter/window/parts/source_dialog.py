"""Where a value comes from, and the way for the shop to confirm it from a lamp on its shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from counter.window.outlines.facts import NOTCH_WORDS
from counter.window.parts.calm import CalmCombo
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.outlines.facts import Fact


class SourceDialog(QDialog):
    """Shows a fact's source; where the fact can be confirmed, asks for what was seen, who looked, and how."""

    confirmed = Signal(str, str, str)  # value as typed or chosen, who, how

    def __init__(self, fact: Fact, title: str, who: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"{title}: {fact.what.lower()}")
        self.setMinimumWidth(420)
        self.source = Words(f"{fact.value} · {fact.confidence or 'not known'}\n{fact.source}".strip(), wraps=True)
        self.problem = Words(wraps=True)
        self.problem.set_role("title")
        self.problem.setVisible(False)
        self.seen = self._seen(fact)
        self.who, self.how = QLineEdit(who), QLineEdit()
        self.how.setPlaceholderText("as: caliper on three lamps from the shelf")
        box = QVBoxLayout(self)
        box.addWidget(self.source)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        if fact.address is not None:
            box.addWidget(Words("Confirm it from a lamp in the shop. Your value then counts here instead of ours."))
            form = QFormLayout()
            form.addRow("What you found", self.seen)
            form.addRow("Who looked", self.who)
            form.addRow("How", self.how)
            box.addLayout(form)
            self.save = buttons.addButton("Confirm", QDialogButtonBox.ButtonRole.ApplyRole)
            self.save.clicked.connect(self._confirm)
        box.addWidget(self.problem)
        box.addWidget(buttons)
        buttons.rejected.connect(self.reject)

    def _seen(self, fact: Fact) -> QLineEdit | QComboBox:
        if fact.address is not None and fact.address[2] == "face.notches":
            combo = CalmCombo()
            for look, words in NOTCH_WORDS.items():
                combo.addItem(words, look)
            return combo
        field = QLineEdit()
        field.setPlaceholderText("A" if fact.what == "Current" else "mm or in")
        return field

    def _confirm(self) -> None:
        value = str(self.seen.currentData()) if isinstance(self.seen, QComboBox) else self.seen.text().strip()
        missing = [
            words
            for words, text in (("what you found", value), ("who looked", self.who.text()), ("how", self.how.text()))
            if not text.strip()
        ]
        if missing:
            self.show_problem(f"Say {', '.join(missing)} too; a value nobody stands behind is no better than ours.")
            return
        self.confirmed.emit(value, self.who.text().strip(), self.how.text().strip())

    def show_problem(self, words: str) -> None:
        """Say what could not be taken; what was typed stays."""
        self.problem.setText(words)
        self.problem.setVisible(bool(words))
