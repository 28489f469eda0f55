"""The typed code with its parts marked where they stand: a bracket under each part, doubtful characters set off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from counter.marks import Span
    from counter.window.parts.theme import Theme

HEIGHT = 46
SIDE = 6.0


@dataclass(frozen=True, slots=True)
class Part:
    """One bracketed part: its box in pixels and which span it is."""

    box: QRectF
    span: int


def parts_of(spans: tuple[Span, ...], character_px: float) -> tuple[Part, ...]:
    """Return where each span lies when every character is `character_px` wide."""
    return tuple(
        Part(QRectF(SIDE + span.start * character_px, 4, (span.end - span.start) * character_px, HEIGHT - 8), i)
        for i, span in enumerate(spans)
    )


class CodeStrip(QWidget):
    """Shows one reading over the text as typed; a press on a doubtful part asks to choose its character."""

    pressed = Signal(int)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.text = ""
        self.spans: tuple[Span, ...] = ()
        self.at = 0  # the part that the keys are on
        self.setMinimumHeight(HEIGHT)
        self.setMouseTracking(True)
        self.setAccessibleName("The code, part by part")

    def sizeHint(self) -> QSize:
        return QSize(280, HEIGHT)

    def show_reading(self, text: str, spans: tuple[Span, ...]) -> None:
        """Show a text with its parts."""
        self.text, self.spans = text, spans
        self.at = min(self.at, max(len(spans) - 1, 0))
        self.setVisible(bool(text))
        self.update()

    def _font(self) -> QFont:
        font = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)
        font.setPointSizeF(self.font().pointSizeF() * 1.35)
        font.setWeight(QFont.Weight.DemiBold)
        wide = QFontMetricsF(font).horizontalAdvance("0") * max(len(self.text), 1)
        if wide > self.width() - 2 * SIDE:
            font.setPointSizeF(max(font.pointSizeF() * (self.width() - 2 * SIDE) / wide, 6.0))
        return font

    def _parts(self) -> tuple[Part, ...]:
        return parts_of(self.spans, QFontMetricsF(self._font()).horizontalAdvance("0"))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = self._font()
        painter.setFont(font)
        step = QFontMetricsF(font).horizontalAdvance("0")
        for part in self._parts():
            self._bracket(painter, part)
            if self.hasFocus() and part.span == self.at:
                painter.setPen(QPen(QColor(self.theme.ink), 1.0, Qt.PenStyle.DotLine))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(part.box.adjusted(0, -2, 0, 3))
        painter.setPen(QColor(self.theme.ink))
        for i, character in enumerate(self.text):
            box = QRectF(SIDE + i * step, 4, step, HEIGHT - 18)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, character)
        painter.end()

    def _bracket(self, painter: QPainter, part: Part) -> None:
        span, box = self.spans[part.span], part.box.adjusted(1, 0, -1, 0)
        doubtful = bool(span.assumed or span.choices) or span.part == "maker"
        if doubtful:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(self.theme.accent_soft))
            painter.drawRect(box)
        pen = QPen(QColor(self.theme.accent), 1.6)
        if doubtful:
            pen.setDashPattern([2.5, 2])
        painter.setPen(pen)
        bottom = box.bottom() - 2
        painter.drawPolyline(
            [
                QPointF(box.left(), bottom - 5),
                QPointF(box.left(), bottom),
                QPointF(box.right(), bottom),
                QPointF(box.right(), bottom - 5),
            ]
        )

    def part_at(self, at: QPointF) -> int | None:
        """Return the index of the span under a point."""
        return next((part.span for part in self._parts() if part.box.contains(at)), None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        key = Qt.Key(event.key())
        if key in steps and self.spans:
            self.at = max(0, min(len(self.spans) - 1, self.at + steps[key]))
            self.setAccessibleDescription(f"{self.spans[self.at].text}: {self.spans[self.at].means}")
            self.update()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self.spans:
            self.pressed.emit(self.at)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        span = self.part_at(event.position())
        if span is not None:
            self.pressed.emit(span)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        span = self.part_at(event.position())
        self.setToolTip(self.spans[span].means if span is not None else "")
