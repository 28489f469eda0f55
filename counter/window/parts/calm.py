"""Boxes that change by a hand's intent alone: the wheel goes by, and by a click that missed nothing is chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLocale, QSize, Qt
from PySide6.QtWidgets import QAbstractSpinBox, QComboBox, QDoubleSpinBox, QSpinBox, QWidget

from counter.language import figure
from counter.window.parts.style import paint_combo
from counter.window.parts.words import tip

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent, QValidator, QWheelEvent

MOST_ROWS = 16
FRAME_PX = 12  # above and below the letters of a number box: its frame, and the field's own margins


class CalmCombo(QComboBox):
    """A list of choices; the wheel only turns the list while that is open, where Qt sees to it without us."""

    def __init__(self, name: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMaxVisibleItems(MOST_ROWS)
        if name:
            self.setAccessibleName(name)

    def setAccessibleName(self, name: str) -> None:
        """Give it a name, and say it as the description too: where Qt speaks AT-SPI the value stands as the name."""
        super().setAccessibleName(name)
        self.setAccessibleDescription(name)

    def showPopup(self) -> None:
        self.view().setAccessibleName(self.accessibleName())  # not before: each list that is made costs the start
        super().showPopup()

    def paintEvent(self, event: QPaintEvent) -> None:
        paint_combo(self)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    def setToolTip(self, words: str) -> None:
        super().setToolTip(tip(words))


class CalmSpin(QSpinBox):
    """A number; the wheel goes by it to the column that scrolls. Tall enough for its letters inside the frame."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def sizeHint(self) -> QSize:
        return _tall(self, super().sizeHint())

    def minimumSizeHint(self) -> QSize:
        return _tall(self, super().minimumSizeHint())

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class CalmFigure(QDoubleSpinBox):
    """A number with decimals, as tall; written with the sign of the language spoken, and read with either sign."""

    def __init__(self, parent: QWidget | None = None, **values: object) -> None:
        super().__init__(parent)
        self.setLocale(QLocale.c())  # what is read is written with a point first
        for name, value in values.items():
            self.setProperty(name, value)

    def textFromValue(self, value: float) -> str:
        return figure(value, f".{self.decimals()}f")

    def valueFromText(self, text: str) -> float:
        return super().valueFromText(text.replace(",", "."))

    def validate(self, text: str, at: int) -> tuple[QValidator.State, str, int]:
        state, *_ = super().validate(text.replace(",", "."), at)
        return state, text, at

    def sizeHint(self) -> QSize:
        return _tall(self, super().sizeHint())

    def minimumSizeHint(self) -> QSize:
        return _tall(self, super().minimumSizeHint())


def _tall(box: QAbstractSpinBox, size: QSize) -> QSize:
    """Return a size whose field inside the frame holds a whole line at any size of letters."""
    return size.expandedTo(QSize(0, box.fontMetrics().height() + FRAME_PX))
