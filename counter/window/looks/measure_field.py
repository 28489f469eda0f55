"""A field for one measured or printed number; what is typed stays, whatever it is worth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.parts.checked import show_checked
from counter.window.parts.flash import bring
from counter.window.parts.letters import NEXT_MARK, letter_of, widest
from counter.window.parts.sizes import ems
from counter.window.parts.words import Words, tip

if TYPE_CHECKING:
    from counter.catalogue import Look

CANNOT_TELL = "cannot-tell"
FIELD_EMS = 8  # "146.5 mm"
PAUSE_MS = 250  # a number half typed is not yet an answer


class MeasureField(QWidget):
    """Emits the key and the text as typed; the window says whether it could be read."""

    answered = Signal(str, str)

    def __init__(self, look: Look, name: str) -> None:
        super().__init__()
        self.look = look
        self._caption, label = name, tr(look.label)
        self.field = QLineEdit()
        self.title = Words()
        self.title.setBuddy(self.field)
        self.title.setText(self._caption)
        self.title.setMinimumWidth(widest(NEXT_MARK + self._caption, self.title.font()))
        self._hint = _hint(look, letter_of(name))
        self.title.setToolTip(self._hint)
        self.field.setPlaceholderText("mm" if look.is_measured else "W")
        self.field.setAccessibleName(label)
        self.field.setAccessibleDescription(tr(look.ask))
        self.field.setToolTip(tip(self._hint))
        self.field.setMinimumWidth(ems(self.field.font(), FIELD_EMS))
        self.cannot = QPushButton("?")
        self.cannot.setCheckable(True)
        self.cannot.setProperty("flat", True)
        self.cannot.setMinimumWidth(max(24, ems(self.font(), 4)))
        self.cannot.setMaximumWidth(max(24, ems(self.font(), 4)))
        self.cannot.setToolTip(tr("can't tell; or type ? into the field"))
        self.cannot.setAccessibleName(tr("{label}: can't tell").format(label=label))
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self._say)
        self.field.textEdited.connect(lambda _: self._pause.start())
        self.field.editingFinished.connect(self._say_now)
        self._before = ""  # what stood there before "can't tell": a second press brings it back
        self.cannot.toggled.connect(self._say_cannot)
        self._lay_out()

    def _lay_out(self) -> None:
        typed = QHBoxLayout()
        typed.setSpacing(2)
        typed.addWidget(self.field, 1)
        typed.addWidget(self.cannot)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(1)
        box.addWidget(self.title)
        box.addLayout(typed)
        box.addStretch(1)

    def _say_now(self) -> None:
        if self._pause.isActive():
            self._pause.stop()
            self._say()

    def _say(self) -> None:
        self.answered.emit(self.look.key, self.field.text().strip())

    def _say_cannot(self, on: bool) -> None:
        before, self._before = self._before, self.field.text().strip() if on else ""
        self.answered.emit(self.look.key, CANNOT_TELL if on else before)

    def show_units(self, units: str) -> None:
        """Say what a bare number is taken as."""
        if self.look.is_measured:
            self.field.setPlaceholderText(units)

    def show_answer(self, value: str | float | None, typed: str = "") -> None:
        """Show the case's answer, as it was typed if it was, unless the hand is in the field."""
        show_checked(self.cannot, value == CANNOT_TELL)
        if self.field.hasFocus():
            return
        if typed:
            self.field.setText(typed)
        elif value is None or value == CANNOT_TELL:
            if self.field.property("bad") is not True:
                self.field.clear()
        else:
            self.field.setText(f"{value:g} mm" if isinstance(value, float) else str(value))
            self.show_problem("")

    def show_problem(self, words: str) -> None:
        """Mark the field as not understood, or clear the mark; the text itself stays."""
        self.field.setToolTip(tip(words or self._hint))
        if (self.field.property("bad") is True) == bool(words):
            return
        self.field.setProperty("bad", bool(words))
        self.field.update()

    def clear(self) -> None:
        """Empty the field for the next customer."""
        self._pause.stop()
        self._before = ""
        self.field.setText("")
        self.show_problem("")

    def mark_next(self, is_next: bool) -> None:
        """Mark the field as the look most worth taking now."""
        self.title.set_role("look-next" if is_next else "")
        self.title.setText(NEXT_MARK + self._caption if is_next else self._caption)

    def take_focus(self) -> None:
        """Put the keyboard into the field."""
        bring(self)
        self.field.setFocus()
        self.field.selectAll()


def _hint(look: Look, letter: str) -> str:
    """Return what to look at, why, and how to type it."""
    typed = tr("Type ? for can't tell. Alt+{letter}").format(letter=letter)
    if look.is_measured:
        typed = tr('Millimetres, or inches like 5 7/8" or 1/2.') + f" {typed}"
    return f"{tr(look.ask)} {tr(look.why)}\n{typed}"
