"""One line at the foot of the counter: was this case new to whoever learns here? Hidden while nobody does."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton

from counter.language import tr
from counter.window.parts.words import Words

HEIGHT_PX = 36


class AtCounterLine(QFrame):
    """Keeps its place while somebody learns at the counter; asks only when a lamp is settled, and once a case."""

    kept = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.name = ""
        self.about = ""  # the case asked about; what was answered or put off is not asked again
        self._done: set[str] = set()
        self.words = Words()
        self.words.set_role("quiet")
        self.keep, self.no = QPushButton(tr("Yes, keep it for training")), QPushButton(tr("No"))
        for button in (self.keep, self.no):
            button.setProperty("flat", True)
        self.keep.clicked.connect(self.kept)
        self.no.clicked.connect(lambda: self._finish(""))
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 0, 8, 0)
        row.setSpacing(8)
        row.addStretch(1)
        for part in (self.words, self.keep, self.no):
            row.addWidget(part)
        self.setFixedHeight(HEIGHT_PX)
        self.show_person("")

    def show_person(self, name: str) -> None:
        """Take who learns at the counter, "" for nobody."""
        self.name = name
        self.setVisible(bool(name))
        self.show_case("", "")

    def show_case(self, about: str, lamp: str) -> None:
        """Ask about a settled case; with no lamp only the name stands here."""
        if about and about == self.about:
            return
        self.about = about
        is_open = bool(self.name and lamp) and about not in self._done
        self.words.setText(self._asked(lamp) if is_open else self._here())
        self.keep.setVisible(is_open)
        self.no.setVisible(is_open)

    def show_kept(self, count: int) -> None:
        """Say that the case is kept for training, or that no card asks about it."""
        kept, none = tr("Kept for {name}'s training."), tr("There is no question about this one.")
        self._finish(kept.format(name=self.name) if count else none)

    def show_problem(self, words: str) -> None:
        """Say why it could not be kept."""
        self._finish(words)

    def _asked(self, lamp: str) -> str:
        return tr("{lamp}: was this new to you, {name}?").format(lamp=lamp, name=self.name)

    def _here(self) -> str:
        return tr("{name} learns here.").format(name=self.name)

    def _finish(self, words: str) -> None:
        self._done.add(self.about)
        self.words.setText(words or self._here())
        self.keep.hide()
        self.no.hide()
