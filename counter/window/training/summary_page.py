"""The end of a round: how it went, and what to look at again."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.sizes import ems
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.window.training.session import Given

MOST = 12
LINE_LETTERS = 116  # of middling width, margins and all: longer lines are lost on the way back to the next
ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class SummaryPage(QWidget):
    """Emits `closed` when it was read."""

    closed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.title, self.again = Words(), Words(wraps=True)
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.8)
        self.title.setFont(large)
        self.done = QPushButton(tr("Done  Enter"))
        self.done.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.done.clicked.connect(self.closed)
        panel = QFrame()
        panel.setProperty("panel", True)
        panel.setMaximumWidth(ems(self.font(), LINE_LETTERS))
        words = ScrollColumn(tr("What to look at again"), 12)
        words.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        words.column.addWidget(self.again)
        words.column.addStretch(1)
        box = QVBoxLayout(panel)
        box.setContentsMargins(24, 16, 24, 16)
        box.setSpacing(12)
        box.addWidget(self.title)
        box.addWidget(words, 1)
        box.addWidget(self.done, 0, Qt.AlignmentFlag.AlignRight)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addStretch(1)
        row.addWidget(panel, 20)
        row.addStretch(1)

    def show_summary(self, given: list[Given], is_kept: bool, right: int, asked: int) -> None:
        """Show the end of a round; `is_kept` whether the answers are in a record; `asked` counts more than `given`
        where the round was cut off."""
        self.title.setText(tr("{right} of {asked} right").format(right=right, asked=asked))
        notes = [] if is_kept else [tr("Nothing of this was written down: nobody was chosen as learning.")]
        if asked > len(given):
            words = tr("{count} of them came before the round was cut off and are not listed here.")
            notes.append(words.format(count=asked - len(given)))
        self.again.setText("\n\n".join([*notes, again(given)]))
        self.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.closed.emit()
        else:
            super().keyPressEvent(event)


def again(given: Iterable[Given]) -> str:
    """Return what to look at again: each card missed, with the right answer and the reason, a blank line between."""
    missed = [one for one in given if not one.feedback.is_right]
    if not missed:
        return tr("Nothing to look at again.")
    families = Counter(one.card.family for one in missed)
    head = ", ".join(f"{family} ({count})" if count > 1 else family for family, count in families.most_common())
    last = {one.card.id: one for one in missed}  # a card missed twice is told once
    rows = [_row(one) for one in list(last.values())[:MOST]]
    more = [tr("and {count} more").format(count=len(last) - MOST)] if len(last) > MOST else []
    return "\n\n".join([tr("Look at these again: {families}").format(families=head), *rows, *more])


def _row(one: Given) -> str:
    card = one.card
    choice = card.choices[one.choice].rstrip(".") if one.choice is not None else ""
    said = tr("you said: {answer}").format(answer=choice) if one.choice is not None else tr("you did not know")
    right = tr("Right: {answer}").format(answer=card.choices[card.answer].rstrip("."))
    return f"{card.question}\n{right}; {said}.\n{one.feedback.why}"
