"""Sizes from the letters in use, so that nothing is cut when the system's letters are large."""

from __future__ import annotations

from functools import wraps
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize
from PySide6.QtGui import QFont, QFontMetrics

from counter import language

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QBoxLayout, QWidget

AROUND_PX = 60  # of the screen, beside a dialog and above it
PLAIN_PT = 10.0  # up to here letters may grow freely beside their neighbours


def grown(font: QFont, by: float, weight: QFont.Weight | None = None) -> QFont:
    """Return a font `by` times as large; letters that are large already grow less, or nothing else had room."""
    made = QFont(font)
    size = font.pointSizeF()
    made.setPointSizeF(size * (1 + (by - 1) * min(1.0, (PLAIN_PT / size) ** 2)))
    if weight is not None:
        made.setWeight(weight)
    return made


def wide(font: QFont, words: str) -> int:
    """Return the pixels that words take in one line."""
    return QFontMetrics(font).horizontalAdvance(words)


def high(font: QFont, lines: int = 1) -> int:
    """Return the pixels that lines of words take."""
    return QFontMetrics(font).lineSpacing() * lines


def ems(font: QFont, count: float) -> int:
    """Return the pixels of `count` letters of middling width."""
    return round(QFontMetrics(font).averageCharWidth() * count)


def be_large(dialog: QWidget, letters: float, lines: int) -> None:
    """Give a dialog the size of so many letters across and lines down, as far as the screen has room."""
    room = dialog.screen().availableGeometry()
    wide_px, high_px = ems(dialog.font(), letters), high(dialog.font(), lines)
    dialog.resize(min(wide_px, room.width() - AROUND_PX), min(high_px, room.height() - AROUND_PX))


def kept_by_letters(measure: Callable[[QFont], QSize]) -> Callable[[QFont], QSize]:
    """Keep a size that follows from letters and language alone: layouts ask for it dozens of times."""
    kept: dict[tuple[str, str], QSize] = {}

    @wraps(measure)
    def asked(font: QFont) -> QSize:
        key = (font.key(), language.current())
        if key not in kept:
            kept[key] = measure(font)
        return QSize(kept[key])

    return asked


def upright_least(*rows: QBoxLayout) -> int:
    """Return the least pixels across that rows take once what is in each stands below each other."""
    parts = (row.itemAt(at) for row in rows for at in range(row.count()))
    return max((part.minimumSize().width() for part in parts if part is not None), default=0)
