"""The typed code with its parts marked where they stand: a bracket under each part, doubtful characters set off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFont,
    QFontDatabase,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)

from counter.language import tr
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.marks import Span
    from counter.window.parts.theme import Theme

LEAST_PX, BRACKET_PX = 46, 18  # its height; of that, what the brackets take below the letters
SIDE = 6.0


@dataclass(frozen=True, slots=True)
class Part:
    """One bracketed part: its box in pixels and which span it is."""

    box: QRectF
    span: int


def parts_of(spans: tuple[Span, ...], character_px: float, high_px: float = LEAST_PX) -> tuple[Part, ...]:
    """Return where each span lies when every character is `character_px` wide and the strip `high_px` high."""
    return tuple(
        Part(QRectF(SIDE + span.start * character_px, 4, (span.end - span.start) * character_px, high_px - 8), i)
        for i, span in enumerate(spans)
    )


class CodeStrip(Words):
    """Shows one reading over the text as typed; a press on a doubtful part asks to choose its character.

    A label, since bare widgets pass for mere room to whoever listens.
    """

    pressed = Signal(int)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.code = ""
        self.spans: tuple[Span, ...] = ()
        self._high = max(LEAST_PX, round(QFontMetricsF(self._full_font()).height()) + BRACKET_PX + 4)
        self.setMinimumHeight(self._high)
        self.setMouseTracking(True)
        self.at = -1  # the part that the keys are on
        self.setAccessibleName(tr("The marks, part by part"))

    def sizeHint(self) -> QSize:
        return QSize(280, self._high)

    def show_reading(self, text: str, spans: tuple[Span, ...]) -> None:
        """Show a text with its parts."""
        self.code, self.spans = text, spans
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus if spans else Qt.FocusPolicy.NoFocus)
        self.at = -1
        self.setAccessibleDescription("; ".join(f"{span.text}: {span.means}" for span in spans))
        self.setVisible(bool(text))
        self.update()

    def go_to(self, at: int) -> None:
        """Go to a part; whoever listens hears what it means."""
        self.at = max(0, min(at, len(self.spans) - 1))
        span = self.spans[self.at]
        said, how = f"{span.text}: {span.means}.", tr("Enter to choose what it was.")
        self.setAccessibleDescription(f"{said} {how}" if span.choices else said)
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        if self.spans:
            self.go_to(max(self.at, 0))
        super().focusInEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if step is not None and self.spans:
            self.go_to(self.at + step)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self.at >= 0:
            self.pressed.emit(self.at)
        else:
            super().keyPressEvent(event)

    def _full_font(self) -> QFont:
        font = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)
        font.setPointSizeF(self.font().pointSizeF() * 1.35)
        font.setWeight(QFont.Weight.DemiBold)
        return font

    def _font(self) -> QFont:
        font = self._full_font()
        wide = QFontMetricsF(font).horizontalAdvance("0") * max(len(self.code), 1)
        if wide > self.width() - 2 * SIDE:
            font.setPointSizeF(max(font.pointSizeF() * (self.width() - 2 * SIDE) / wide, 6.0))
        return font

    def _parts(self, font: QFont) -> tuple[Part, ...]:
        return parts_of(self.spans, QFontMetricsF(font).horizontalAdvance("0"), self._high)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = self._font()
        painter.setFont(font)
        step = QFontMetricsF(font).horizontalAdvance("0")
        for part in self._parts(font):
            self._bracket(painter, part)
            if self.hasFocus() and part.span == self.at:
                painter.setPen(QPen(QColor(self.theme.accent), 2))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRoundedRect(part.box.adjusted(-2, -3, 2, 3), 2, 2)
        painter.setPen(QColor(self.theme.ink))
        for i, character in enumerate(self.code):
            box = QRectF(SIDE + i * step, 4, step, self._high - BRACKET_PX)
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
        return next((part.span for part in self._parts(self._font()) if part.box.contains(at)), None)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        span = self.part_at(event.position())
        if span is not None:
            self.pressed.emit(span)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        span = self.part_at(event.position())
        self.setToolTip(self.spans[span].means if span is not None else "")
