"""One look as a row: its name, its answers as pictures, and "can't tell" as the last of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from counter.language import tr
from counter.outline import look_icon
from counter.window.looks.picture_button import PictureButton
from counter.window.looks.tiles import Tiles
from counter.window.parts.checked import show_checked
from counter.window.parts.flash import bring
from counter.window.parts.letters import NEXT_MARK, letter_of, widest
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QFocusEvent, QKeyEvent

    from counter.catalogue import Look
    from counter.window.parts.theme import Theme

CANNOT_TELL = "cannot-tell"
LAST_DIGIT = 9  # answers past it have no key of their own; arrows lead there
STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}


class LookRow(QWidget):
    """Asks for one categorical look; emits the key and the value, "" when taken back."""

    answered = Signal(str, str)

    def __init__(self, look: Look, theme: Theme, name: str) -> None:
        super().__init__()
        self.look = look
        self._caption, label = name, tr(look.label)
        self.title = Words()
        self.title.setBuddy(self)
        self.title.setText(self._caption)
        self.title.setMinimumWidth(widest(NEXT_MARK + self._caption, self.title.font()))
        keys = tr("Alt+{letter}, then a digit; 0 for can't tell").format(letter=letter_of(name))
        self.title.setToolTip(f"{tr(look.ask)} {tr(look.why)}\n{keys}")
        self.setAccessibleName(label)
        self.setAccessibleDescription(tr(look.ask))
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)  # by the caption's letter; Tab goes to the pictures
        self.cannot = PictureButton(CANNOT_TELL, tr("can't tell"), None, theme, "?")
        self.cannot.setToolTip(tr("can't tell  (0)"))
        self.buttons = [
            PictureButton(value.value, tr(value.label), look_icon(look.key, value.value), theme)
            for value in look.values
        ]
        self.tiles = [*self.buttons, self.cannot]
        for i, button in enumerate(self.buttons, 1):
            button.setToolTip(f"{button.words}  ({i})" if i <= LAST_DIGIT else button.words)
        for tile in self.tiles:
            tile.setAccessibleName(f"{label}: {tile.words}")
            tile.toggled.connect(lambda on, one=tile: self._press(one, on))
        self.title.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self._lay_out()
        self._set_stop(self.buttons[0])

    def _lay_out(self) -> None:
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(1)
        box.addWidget(self.title)
        box.addWidget(Tiles(list(self.tiles)))
        box.addStretch(1)

    def set_tile(self, size: QSize) -> None:
        """Make every picture as large as the pane's largest."""
        for tile in self.tiles:
            tile.setFixedSize(size)

    def _press(self, tile: PictureButton, on: bool) -> None:
        self._set_stop(tile)
        self.answered.emit(self.look.key, tile.value if on else "")

    def _set_stop(self, stop: PictureButton) -> None:
        """Let Tab come to this picture alone: one stop a row."""
        for tile in self.tiles:
            tile.setFocusPolicy(Qt.FocusPolicy.StrongFocus if tile is stop else Qt.FocusPolicy.ClickFocus)

    def show_answer(self, value: str | None) -> None:
        """Show which answer the case holds, without telling anybody."""
        for tile in self.tiles:
            show_checked(tile, tile.value == value)

    def mark_next(self, is_next: bool) -> None:
        """Mark the row as the look most worth taking now."""
        self.title.set_role("look-next" if is_next else "")
        self.title.setText(NEXT_MARK + self._caption if is_next else self._caption)

    def set_theme(self, theme: Theme) -> None:
        """Repaint the pictures in another palette."""
        for tile in self.tiles:
            tile.theme = theme
            tile.update()

    def take_focus(self) -> None:
        """Put the keyboard on the chosen answer, or on the first."""
        stop = next((tile for tile in self.tiles if tile.isChecked()), self.buttons[0])
        self._set_stop(stop)
        bring(self)
        stop.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def focusInEvent(self, event: QFocusEvent) -> None:
        self.take_focus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = STEPS.get(Qt.Key(event.key()))
        text = event.text()
        if step is not None:
            self._walk(step)
        elif text.isdecimal() and int(text) <= len(self.buttons):  # a raised two is a digit to Python, but no number
            tile = self.buttons[int(text) - 1] if int(text) else self.cannot
            tile.setFocus(Qt.FocusReason.TabFocusReason)  # the frame goes with the answer
            tile.click()
        else:
            super().keyPressEvent(event)

    def _walk(self, step: int) -> None:
        """Go to the picture before or after the one with the keyboard."""
        at = next((i for i, tile in enumerate(self.tiles) if tile.hasFocus()), 0)
        target = self.tiles[max(0, min(at + step, len(self.tiles) - 1))]
        self._set_stop(target)
        target.setFocus(Qt.FocusReason.TabFocusReason)
