"""One card: the question, its picture, the answers by number key, and afterwards the reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.words import Words
from counter.window.training.card_picture import CardPicture
from counter.window.training.card_views import after, before
from counter.window.training.choices import Choices
from counter.window.training.reason_box import ReasonBox

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.training import Card
    from counter.window.parts.theme import Theme
    from counter.window.training.session import Given

SHEET_MOST_PX = (1500, 700)
ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class CardPage(QWidget):
    """Shows a card and then its outcome; emits the choice (-1: does not know) and the wish for the next card."""

    chosen = Signal(int)
    next_wanted = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.is_answered = False
        self.card: Card | None = None
        self._catalogue: Catalogue | None = None
        self.picture, self.choices, self.reason = CardPicture(theme), Choices(theme), ReasonBox(theme)
        self.kind, self.question = Words(), Words(wraps=True)
        self.kind.set_role("quiet")
        self.unknown = QPushButton(tr("0   I do not know"))
        self.next = QPushButton(tr("Next  Enter"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        for button in (self.unknown, self.next):
            button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.choices.chosen.connect(self._choose)
        self.unknown.clicked.connect(lambda: self._choose(-1))
        self.next.clicked.connect(self.next_wanted)
        self._lay_out()

    def _lay_out(self) -> None:
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.5)
        self.question.setFont(large)
        side = QFrame()
        side.setProperty("panel", True)
        self.words = ScrollColumn(tr("Question, answers and reason"), 12)
        self.words.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        hands = QHBoxLayout()  # right under the answers, where the eye is
        hands.addWidget(self.unknown)
        hands.addStretch(1)
        hands.addWidget(self.next)
        for part in (self.kind, self.question, self.choices):
            self.words.column.addWidget(part)
        self.words.column.addLayout(hands)
        self.words.column.addWidget(self.reason)
        self.words.column.addStretch(1)
        column = QVBoxLayout(side)
        column.setContentsMargins(16, 12, 16, 12)
        column.addWidget(self.words, 1)
        self.sheet = QWidget()  # no larger than what it says, with the desk round it
        self.sheet.setMaximumSize(*SHEET_MOST_PX)
        pair = QHBoxLayout(self.sheet)
        pair.setContentsMargins(0, 0, 0, 0)
        pair.setSpacing(8)
        pair.addWidget(self.picture, 5)
        pair.addWidget(side, 6)
        middle = QHBoxLayout()
        middle.addStretch(1)
        middle.addWidget(self.sheet, 20)
        middle.addStretch(1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addLayout(middle, 20)
        whole.addStretch(1)

    def build(self, catalogue: Catalogue) -> None:
        """Take the catalogue that drawings come from."""
        self._catalogue = catalogue

    def show_card(self, card: Card, title: str) -> None:
        """Show an open card."""
        assert self._catalogue is not None
        self.card, self.is_answered = card, False
        self.kind.setText(title)
        self.question.setText(card.question)
        self.picture.show_picture(before(self._catalogue, card))
        self.choices.show_choices(card.choices)
        self.reason.clear()
        self.unknown.setEnabled(True)
        self.next.setEnabled(False)
        self.words.to_top()
        self.setFocus()

    def show_outcome(self, given: Given, signal: str | None) -> None:
        """Show what became of an answer, why, and what decides in the drawing."""
        assert self._catalogue is not None
        card, feedback = given.card, given.feedback
        self.is_answered = True
        self.picture.show_picture(after(self._catalogue, card, given.choice))
        right = frozenset(at for at, worth in enumerate(card.worth) if worth >= 1)
        self.choices.show_outcomes(tuple(_word(given, at) for at in range(len(card.choices))), right, given.choice)
        word = tr("Right.") if feedback.is_right else _wrong_word(given)
        note = tr("comes back in this round") if feedback.comes_back else ""
        self.reason.show_reason(word, feedback.is_right, feedback.why, note, signal)
        self.unknown.setEnabled(False)
        self.next.setEnabled(True)
        self.words.column.activate()
        self.words.ensureWidgetVisible(self.reason, 0, 0)
        self.setFocus()

    def _choose(self, at: int) -> None:
        if self.card is not None and not self.is_answered and at < len(self.card.choices):
            self.chosen.emit(at)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        digit = event.key() - Qt.Key.Key_0
        if event.modifiers() not in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier):
            super().keyPressEvent(event)
        elif 0 <= digit <= 9 and not self.is_answered:
            self._choose(digit - 1)
        elif event.key() in ENTER and self.is_answered and not event.isAutoRepeat():
            self.next_wanted.emit()
        else:
            super().keyPressEvent(event)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for part in (self.picture, self.choices, self.reason):
            part.set_theme(theme)


def _word(given: Given, at: int) -> str:
    """Say what became of one answer."""
    card = given.card
    is_said, is_right = at == given.choice, card.worth[at] >= 1
    if is_said:
        return tr("your answer") if not is_right else tr("the right one")
    if is_right:
        return tr("the right one")
    return (
        tr("{share} as useful").format(share=f"{card.worth[at]:.0%}")
        if card.kind == "next-look" and card.worth[at] > 0
        else ""
    )


def _wrong_word(given: Given) -> str:
    if given.choice is None:
        return tr("Not known yet.")
    return tr("Nearly.") if given.feedback.rating != "again" else tr("Not this one.")
