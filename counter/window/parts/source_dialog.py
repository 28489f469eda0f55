"""Where a value comes from, and the way for the shop to confirm it from a lamp on its shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QLineEdit, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.outlines.facts import NOT_KNOWN, NOTCH_WORDS
from counter.window.parts.calm import CalmCombo
from counter.window.parts.form_rows import form_of
from counter.window.parts.sizes import ems
from counter.window.parts.unsaved import UnsavedDialog
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.outlines.facts import Fact


class Said(NamedTuple):
    """One confirmation as it stands in the shop's layer: what was found, by whom, when, how."""

    value: str
    who: str
    on: str
    how: str


class SourceDialog(UnsavedDialog):
    """Shows a fact's source and what the shop said of it; asks for what was seen, who looked, and how.

    It begins with what the shop said last, and can take all of that back; None as `before` is still being asked for.
    """

    confirmed = Signal(str, str, str)  # value as typed or chosen, who, how
    withdrawn = Signal()

    def __init__(
        self, fact: Fact, title: str, who: str, before: tuple[Said, ...] | None = (), parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(f"{title}: {fact.what.lower()}")
        self.setMinimumWidth(ems(self.font(), 80))
        self.source = Words(f"{fact.value} · {fact.confidence or tr(NOT_KNOWN)}\n{fact.source}".strip(), wraps=True)
        self._begun: tuple[str, str] = ("", "")
        self.problem = Words(role="title", wraps=True)
        self.problem.setVisible(False)
        self.seen = self._seen(fact)
        self.who, self.how = QLineEdit(who), QLineEdit()
        self.how.setPlaceholderText(tr("like: caliper on three lamps from the shelf"))
        box = QVBoxLayout(self)
        box.addWidget(self.source)
        self.said_title, self.history = Words(tr("This shop found"), "title"), Words(wraps=True)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        box.addWidget(self.said_title)
        box.addWidget(self.history)
        if fact.address is not None:
            self._ask(box)
        box.addWidget(self.problem)
        box.addStretch(1)
        box.addWidget(self.buttons)
        if fact.address is not None:
            self.save.setDefault(True)
        self.buttons.rejected.connect(self.reject)
        if before is None:
            self.history.setText(tr("asking the store …"))
        else:
            self.show_before(before)

    def show_before(self, before: tuple[Said, ...]) -> None:
        """Show what the shop said before, and begin with the last of it what nobody has typed into yet."""
        self.history.setText("\n".join(f"{one.value} · {one.who}, {one.on}: {one.how}" for one in before))
        for part in (self.said_title, self.history):
            part.setVisible(bool(before))
        if before:
            self._begin_with(before[-1])
            words = tr("Withdraw it") if len(before) == 1 else tr("Withdraw all {count}").format(count=len(before))
            self.withdraw = self.buttons.addButton(words, QDialogButtonBox.ButtonRole.DestructiveRole)
            self.withdraw.setToolTip(tr("Our value counts again; the shop's own is taken out."))
            self.withdraw.clicked.connect(self.withdrawn)

    def _ask(self, box: QVBoxLayout) -> None:
        intro = tr("Confirm it from a lamp in the shop. Your value then counts here instead of ours.")
        box.addWidget(Words(intro, wraps=True))
        names = tr("What you &found"), tr("Who &looked"), tr("&How")
        box.addLayout(form_of(*zip(names, (self.seen, self.who, self.how), strict=True)))
        self.save = self.buttons.addButton(tr("Confirm"), QDialogButtonBox.ButtonRole.ApplyRole)
        self.save.clicked.connect(self._confirm)

    def _begin_with(self, last: Said) -> None:
        self.who.setText(self.who.text() or last.who)
        if self.how.text():  # somebody was quicker than the store
            return
        self.how.setText(last.how)
        if isinstance(self.seen, CalmCombo):
            self.seen.setCurrentIndex(max(self.seen.findData(last.value), 0))
        else:
            self.seen.setText(last.value.partition(" ±")[0])
        self._begun = self._said()

    def _said(self) -> tuple[str, str]:
        """Return what was found and how, as it stands here."""
        seen = str(self.seen.currentData() or "") if isinstance(self.seen, CalmCombo) else self.seen.text().strip()
        return seen, self.how.text().strip()

    def unsaved(self) -> str:
        """Say that what was found is not confirmed yet."""
        return "" if self._said() == self._begun else tr("What you found is not confirmed yet.")

    def _seen(self, fact: Fact) -> QLineEdit | CalmCombo:
        if fact.address is not None and fact.address[2] == "face.notches":
            combo = CalmCombo()
            for look, words in NOTCH_WORDS.items():
                combo.addItem(tr(words), look)
            combo.setCurrentIndex(-1)  # nobody has found anything yet: a first entry would be confirmed unread
            return combo
        field = QLineEdit()
        is_current = fact.part == "current"
        field.setPlaceholderText("A" if is_current else tr("mm or in; several readings as 23.1; 23.0; 23.2"))
        return field

    def _confirm(self) -> None:
        value, how = self._said()
        missing = [
            words
            for words, text in (
                (tr("what you found"), value),
                (tr("who looked"), self.who.text()),
                (tr("how"), how),
            )
            if not text.strip()
        ]
        if missing:
            self.show_problem(
                tr("Still missing: {what}. Without it nobody can check the value later.").format(
                    what=", ".join(missing)
                )
            )
            return
        self.confirmed.emit(value, self.who.text().strip(), how)

    def show_problem(self, words: str) -> None:
        """Say what could not be taken; what was typed stays."""
        self.problem.setText(words)
        self.problem.setVisible(bool(words))
