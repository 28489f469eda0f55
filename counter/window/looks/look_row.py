"""One look as a row: its name, its answers as pictures, and "can't tell"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.outline import look_icon
from counter.window.looks.picture_button import PictureButton
from counter.window.parts.letters import NEXT_MARK, lettered, widest
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent, QKeyEvent

    from counter.catalogue import Look
    from counter.window.parts.theme import Theme

CANNOT_TELL = "cannot-tell"
ACROSS = 5
LAST_DIGIT = 9  # answers past it have no key of their own; arrows lead there


class LookRow(QWidget):
    """Asks for one categorical look; emits the key and the value, "" when taken back."""

    answered = Signal(str, str)

    def __init__(self, look: Look, theme: Theme, letter: str) -> None:
        super().__init__()
        self.look = look
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)  # by the caption's letter; Tab goes to the pictures
        self._caption = lettered(look.label, letter)
        self.title = Words()
        self.title.setBuddy(self)
        self.title.setText(self._caption)
        self.title.setMinimumWidth(widest(NEXT_MARK + self._caption, self.title.font()))
        self.title.setToolTip(f"{look.ask} {look.why}\nAlt+{letter}, then a digit; 0 for can't tell")
        self.cannot = QPushButton("can't tell")
        self.cannot.setCheckable(True)
        self.cannot.setFlat(True)
        self.cannot.setAccessibleName(f"{look.label}: can't tell")
        self.buttons = [
            PictureButton(value.value, value.label, look_icon(look.key, value.value), theme) for value in look.values
        ]
        for i, button in enumerate(self.buttons, 1):
            button.setToolTip(f"{button.words}  ({i})" if i <= LAST_DIGIT else button.words)
            button.setAccessibleName(f"{look.label}: {button.words}")
            button.clicked.connect(lambda on, b=button: self.answered.emit(look.key, b.value if on else ""))
        self.cannot.clicked.connect(lambda on: self.answered.emit(look.key, CANNOT_TELL if on else ""))
        self._lay_out()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addStretch(1)
        head.addWidget(self.cannot)
        pictures = QGridLayout()
        pictures.setSpacing(3)
        pictures.setContentsMargins(0, 0, 0, 0)
        for i, button in enumerate(self.buttons):
            pictures.addWidget(button, i // ACROSS, i % ACROSS)
        pictures.setColumnStretch(ACROSS, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(1)
        box.addLayout(head)
        box.addLayout(pictures)

    def show_answer(self, value: str | None) -> None:
        """Show which answer the case holds, without telling anybody."""
        for button in self.buttons:
            button.setChecked(button.value == value)
        self.cannot.setChecked(value == CANNOT_TELL)

    def mark_next(self, is_next: bool) -> None:
        """Mark the row as the look most worth taking now."""
        self.title.set_role("look-next" if is_next else "")
        self.title.setText(NEXT_MARK + self._caption if is_next else self._caption)

    def set_theme(self, theme: Theme) -> None:
        """Repaint the pictures in another palette."""
        for button in self.buttons:
            button.theme = theme
            button.update()

    def take_focus(self) -> None:
        """Put the keyboard on the chosen answer, or on the first."""
        chosen = next((b for b in self.buttons if b.isChecked()), self.buttons[0])
        chosen.setFocus()

    def focusInEvent(self, event: QFocusEvent) -> None:
        self.take_focus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        text = event.text()
        if text.isdecimal():  # a raised two is a digit to Python, but no number
            target = self.cannot if text == "0" else self._button(int(text))
            if target is not None:
                target.click()
                return
        super().keyPressEvent(event)

    def _button(self, number: int) -> PictureButton | None:
        return self.buttons[number - 1] if number <= len(self.buttons) else None
