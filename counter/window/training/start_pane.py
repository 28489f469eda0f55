"""A round to start: how long, and what waits for this trainee."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QCheckBox, QFrame, QVBoxLayout

from counter.language import marked, tr, trn
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.words import Words
from counter.window.training.choices import Choices
from counter.window.training.shelf_view import ShelfView
from counter.window.training.standing_page import stands_words

if TYPE_CHECKING:
    from counter.outline import Drawing
    from counter.training import Row
    from counter.window.parts.theme import Theme

NOBODY = marked(
    "Add a name on the left to begin. Without one, «Teach me this» beside a base and «teach "
    "me» on a caution still ask you; then nothing is kept."
)


class StartPane(QFrame):
    """Emits the place of the length chosen; the lengths come from the core's settings."""

    started = Signal(int)
    at_counter_toggled = Signal(bool)
    lesson_wanted = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.title, self.rounds, self.shelf = Words(), Choices(theme), ShelfView(theme)
        self._lengths: tuple[str, ...] = ()
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.5)
        self.title.setFont(large)
        self.stands = Words(wraps=True)
        self.at_counter = QCheckBox(tr("New hire at the counter: offer to keep cases for training"))
        self.at_counter.toggled.connect(self.at_counter_toggled)
        self.rounds.chosen.connect(self.started)
        self.shelf.picked.connect(self.lesson_wanted)
        self.places = ScrollColumn(tr("Shelf of base families"))
        self.places.column.addWidget(self.shelf)
        self.places.column.addStretch(1)
        self._of_somebody = self.rounds, self.at_counter, self.places
        box = QVBoxLayout(self)
        box.setContentsMargins(24, 16, 24, 16)
        box.setSpacing(12)
        for part in (self.title, self.rounds, self.at_counter, self.stands):
            box.addWidget(part)
        box.addWidget(self.places, 1)
        box.addStretch(0)
        for one in self._of_somebody:
            one.hide()  # until the store has told who there is

    def show_lengths(self, minutes: tuple[int, ...]) -> None:
        """Offer rounds of these lengths, and one without end."""
        each = (trn("{count} minute", "{count} minutes", one).format(count=one) for one in minutes)
        self._lengths = (*each, tr("until I stop"))
        self.rounds.show_choices(self._lengths)

    def show_person(
        self, row: Row | None, is_at_counter: bool, offer: str = "", drawings: dict[str, Drawing] | None = None
    ) -> None:
        """Show a trainee's shelf, None is nobody; `offer` is to go on with a round, as the last choice."""
        self.rounds.show_choices((*self._lengths, offer) if offer else self._lengths)
        self.title.setText(tr("{name}: a round of").format(name=row.name) if row else tr("Training"))
        for part in self._of_somebody:
            part.setVisible(row is not None)
        self.at_counter.blockSignals(True)
        self.at_counter.setChecked(is_at_counter)
        self.at_counter.blockSignals(False)
        self.stands.setText(_stands(row) if row else tr(NOBODY))
        if row is not None:
            self.shelf.show_shelf(row.freshness, drawings or {}, frozenset(row.ready))

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.rounds.set_theme(theme)
        self.shelf.set_theme(theme)


def _stands(row: Row) -> str:
    answers = trn("{count} answer so far.", "{count} answers so far.", row.answers).format(count=row.answers)
    lines = [tr("{name}'s shelf").format(name=row.name) + f". {stands_words(row)} {answers}"]
    if row.assigned:
        lines.append(tr("{name} learns first: {families}.").format(name=row.name, families=", ".join(row.assigned)))
    if row.torn:
        words = trn(
            "{count} line of the record cannot be read and is left out; the file keeps it.",
            "{count} lines of the record cannot be read and are left out; the file keeps them.",
            row.torn,
        )
        lines.append(words.format(count=row.torn))
    return "\n".join(lines)
