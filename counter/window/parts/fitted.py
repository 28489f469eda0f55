"""Words that fit their place: as large as they can be, smaller where they are many, and never cut unsaid."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy

from counter.window.parts import early
from counter.window.parts.sizes import grown, high
from counter.window.parts.words import Words

STEPS = (1.3, 1.15, 1.0, 0.9, 0.75)
LEAST_PT = 8.0
WRAPS = early.LEFT | early.WRAP


class FittedWords(Words):
    """A wrapped label that takes what room it is given; where even its smallest letters do not fit, it says so."""

    def __init__(self, lines: int, least_px: int) -> None:
        super().__init__()
        self._end = ""
        self.most = STEPS[0]  # times the window's letters
        self.flags = WRAPS | early.VCENTRE
        self._least = QSize(least_px, high(self.font(), lines))
        self._fitted: tuple[tuple[object, ...], tuple[QFont, str]] | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return self._least

    def minimumSizeHint(self) -> QSize:
        return self._least

    def fitting(self, rect: QRect) -> tuple[QFont, bool]:
        """Return the largest letters in which the words fit, and whether they fit at all."""
        for step in (step for step in STEPS if step <= self.most):
            font = grown(self.font(), step) if step >= 1 else smaller(self.font(), step)
            box = QFontMetrics(font).boundingRect(rect, self.flags, self.text())
            if box.height() <= rect.height() and box.width() <= rect.width():
                return font, True
        return font, False

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        rect = self.contentsRect()
        font, words = self._fit(rect)
        painter.setFont(font)
        painter.drawText(rect, self.flags, words)
        painter.end()

    def _fit(self, rect: QRect) -> tuple[QFont, str]:
        """Return the letters and what is written in them; laid out again only where something about them changed."""
        key = (self.text(), rect.size().toTuple(), self.font().key(), self.most, self.flags)
        if self._fitted is None or self._fitted[0] != key:
            font, fits = self.fitting(rect)
            self._fitted = key, (font, self.text() if fits else self._shortened(rect, QFontMetrics(font)))
        return self._fitted[1]

    def _shortened(self, rect: QRect, metrics: QFontMetrics) -> str:
        """Return as many whole words as there is room for, a mark that there is more, and how it ends.

        Where there is no room for the end alone either, its beginning.
        """
        words = self.text().removesuffix(self._end).split()
        text = self.text()
        while words and not self._has_room(rect, metrics, text):
            words.pop()
            text = f"{' '.join(words)} … {self._end}".strip()
        while len(text) > 1 and not self._has_room(rect, metrics, text):
            text = f"{text.removesuffix('…')[:-1].rstrip()}…"
        return text

    def _has_room(self, rect: QRect, metrics: QFontMetrics, text: str) -> bool:
        return metrics.boundingRect(rect, self.flags, text).height() <= rect.height()

    def setText(self, text: str, end: str = "") -> None:
        """Show words, and at their end some that are never left out where there is room for them at all."""
        words = f"{text} {end}".strip()
        if (words, end) != (self.text(), self._end):
            self._end, self._fitted = end, None
            super().setText(words)
            self.setToolTip(words)


def smaller(font: QFont, by: float) -> QFont:
    """Return letters smaller by that, but never too small to read."""
    made = QFont(font)
    made.setPointSizeF(max(font.pointSizeF() * by, min(LEAST_PT, font.pointSizeF())))
    return made
