"""Single fields of a form: text, number, choice, choices to tick, yes or no; each says what is wrong with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLineEdit, QPlainTextEdit, QSizePolicy, QVBoxLayout, QWidget

from counter.language import figure, tr
from counter.window.parts.calm import CalmCombo
from counter.window.parts.form_rows import LEAST_HIGH_PX
from counter.window.parts.sizes import ems, high
from counter.window.parts.words import Words, tip

if TYPE_CHECKING:
    from counter.entries import Fault, Field

LONG = frozenset({"hold", "tell", "says", "why", "do"})  # sentences: a line is too short for them
LABEL_LETTERS = 30
INDENT_PX = 14
ACROSS = 2  # choices to tick beside each other
NOT_KNOWN = "–"


class FieldRow(QWidget):
    """One field under its name; below it one line for each thing that is wrong."""

    changed = Signal()

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__()
        self.field = field
        self.grid = QGridLayout(self)
        self.grid.setContentsMargins(depth * INDENT_PX, 0, 0, 0)
        self.grid.setHorizontalSpacing(8)
        self.grid.setVerticalSpacing(2)
        self.grid.setColumnStretch(1, 1)
        self.name = Words(field.label, wraps=True)
        self.name.setFixedWidth(ems(self.font(), LABEL_LETTERS) - depth * INDENT_PX)
        self.name.setMinimumHeight(LEAST_HIGH_PX)
        if field.about:
            self.name.setToolTip(tip(field.about))
        self.wrong = Words("", "title", wraps=True)
        self.wrong.setVisible(False)

    def place(self, inside: QWidget, unit: str = "") -> None:
        """Put the field's own widget beside its name."""
        inside.setAccessibleName(self.field.label)
        if self.field.about:
            inside.setToolTip(tip(self.field.about))
        self.grid.addWidget(self.name, 0, 0, Qt.AlignmentFlag.AlignTop)
        self.grid.addWidget(inside, 0, 1)
        if unit:
            self.grid.addWidget(Words(unit, "quiet"), 0, 2)
        self.grid.addWidget(self.wrong, 1, 1, 1, 2)

    def value(self) -> Any:
        """Return what the field holds as JSON, None where it holds nothing."""
        raise NotImplementedError

    def fill(self, value: Any) -> None:
        """Show a value, None for none."""
        raise NotImplementedError

    def row_at(self, path: tuple[str | int, ...]) -> FieldRow:
        """Return the row that a place in the entry is shown by."""
        return self

    def rows(self) -> list[FieldRow]:
        """Return this row and all within it."""
        return [self]

    def say_wrong(self, faults: list[Fault]) -> None:
        """Show what is wrong, a line each; nothing where all is right."""
        self.wrong.setText("\n".join(f"✕ {one.what}. {one.way_out}" for one in faults))
        self.wrong.setVisible(bool(faults))


class TextRow(FieldRow):
    """A line of text, or a few lines for sentences."""

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__(field, depth)
        self.line: QLineEdit | QPlainTextEdit = QPlainTextEdit() if field.name in LONG else QLineEdit()
        if isinstance(self.line, QPlainTextEdit):
            self.line.setTabChangesFocus(True)
            self.line.setFixedHeight(high(self.font(), 3) + 14)
        self.line.textChanged.connect(lambda *_: self.changed.emit())
        if isinstance(self.line, QLineEdit):
            self.line.setPlaceholderText(_range(field))
        self.place(self.line, field.unit)

    def text(self) -> str:
        """Return what was typed, without blanks around it."""
        line = self.line
        return (line.toPlainText() if isinstance(line, QPlainTextEdit) else line.text()).strip()

    def value(self) -> Any:
        text = self.text()
        if self.field.kind == "number" and text:
            return _number(text)
        return text or None

    def fill(self, value: Any) -> None:
        text = "" if value is None else f"{value:g}" if isinstance(value, (int, float)) else str(value)
        if isinstance(self.line, QPlainTextEdit):
            self.line.setPlainText(text)
        else:
            self.line.setText(text)


def _number(text: str) -> Any:
    """Return a number with either decimal sign; what is none stays as it was typed, and is said to be none."""
    try:
        found = float(text.replace(",", "."))
    except ValueError:
        return text
    return int(found) if found.is_integer() and abs(found) < 1e9 else found


def _range(field: Field) -> str:
    low = figure(field.low) if field.low is not None else ""
    high = figure(field.high) if field.high is not None else ""
    if low and high:
        return tr("{low} to {high}").format(low=low, high=high)
    if low:
        return tr("from {low}").format(low=low)
    return tr("up to {high}").format(high=high) if high else ""


class ChoiceRow(FieldRow):
    """One of a few words."""

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__(field, depth)
        self.box = CalmCombo(field.label)
        self.box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.box.addItem(NOT_KNOWN, None)
        for choice, words in zip(field.choices, field.words, strict=True):
            self.box.addItem(words, choice)
        self.box.currentIndexChanged.connect(lambda _: self.changed.emit())
        self.place(self.box)

    def value(self) -> Any:
        return self.box.currentData()

    def fill(self, value: Any) -> None:
        at = self.box.findData(value)
        if at < 0 and value is not None:  # a word of the entry that is not allowed: shown, and said to be wrong
            self.box.addItem(str(value), value)
            at = self.box.count() - 1
        self.box.setCurrentIndex(max(at, 0))


class ManyRow(FieldRow):
    """Words to tick."""

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__(field, depth)
        inside = QWidget()
        grid = QGridLayout(inside)
        grid.setContentsMargins(0, 0, 0, 0)
        self.boxes = {one: QCheckBox(words) for one, words in zip(field.choices, field.words, strict=True)}
        for at, box in enumerate(self.boxes.values()):
            box.toggled.connect(lambda _: self.changed.emit())
            grid.addWidget(box, at // ACROSS, at % ACROSS)
        self.place(inside)

    def value(self) -> Any:
        return [choice for choice, box in self.boxes.items() if box.isChecked()] or (
            [] if self.field.is_needed else None
        )

    def fill(self, value: Any) -> None:
        ticked = value if isinstance(value, list) else []
        for choice, box in self.boxes.items():
            box.setChecked(choice in ticked)


class YesRow(FieldRow):
    """Yes, or nothing said."""

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__(field, depth)
        self.box = QCheckBox(tr("yes"))
        self.box.toggled.connect(lambda _: self.changed.emit())
        self.place(self.box)

    def value(self) -> Any:
        return True if self.box.isChecked() else None

    def fill(self, value: Any) -> None:
        self.box.setChecked(value is True)


def column(inside: QWidget, spacing: int = 4) -> QVBoxLayout:
    """Return a column without margins for a widget."""
    made = QVBoxLayout(inside)
    made.setContentsMargins(0, 0, 0, 0)
    made.setSpacing(spacing)
    return made
