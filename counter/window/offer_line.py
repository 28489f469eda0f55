"""A line at the foot of the counter: something to say, and presses that answer it. Hidden while there is nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton

from counter.language import tr
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Callable

    Choice = tuple[str, Callable[[], object]]

MOST = 2


class OfferLine(QFrame):
    """Says one thing at a time; a press, or the next thing said, takes it away."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.words = Words(wraps=True)
        self.buttons = [QPushButton() for _ in range(MOST)]
        self.close_button = QPushButton(tr("Close"))
        self._choices: tuple[Choice, ...] = ()
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 4, 8, 4)
        row.addWidget(self.words, 1)
        for at, button in enumerate(self.buttons):
            button.clicked.connect(lambda _=False, i=at: self._press(i))
            row.addWidget(button)
        row.addWidget(self.close_button)
        self.close_button.clicked.connect(self.hide)
        self.hide()

    def say(self, words: str) -> None:
        """Say something."""
        self.offer(words)

    def offer(self, words: str, *choices: Choice) -> None:
        """Say something and offer what can be done about it."""
        self._choices = choices
        self.words.setText(words)
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(choices))
            if at < len(choices):
                button.setText(choices[at][0])
        self.close_button.setVisible(not choices)
        self.show()

    @property
    def is_offering(self) -> bool:
        """Whether something that it offers waits for its answer."""
        return self.isVisible() and bool(self._choices)

    def next_customer(self) -> None:
        """Take away what was only said; what is offered waits for its answer."""
        if not self._choices:
            self.hide()

    def _press(self, at: int) -> None:
        self.hide()
        self._choices[at][1]()
