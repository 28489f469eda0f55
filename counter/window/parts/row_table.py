"""Rows of words in aligned columns, painted: laying out rich text anew took longer than all else after a look."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontMetricsF, QPainter, QPen

from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent, QPointF
    from PySide6.QtGui import QFocusEvent, QHelpEvent, QKeyEvent, QMouseEvent, QPaintEvent, QResizeEvent

    from counter.window.parts.theme import Theme

GAP = 10.0
LEADING = 2.0
WRAPS = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap)


class Row(NamedTuple):
    """Three cells; a row with a tip can be pressed."""

    left: str
    middle: str
    right: str = ""
    tip: str = ""


class RowBox(NamedTuple):
    """Where the cells of one row lie, in the widget's pixels."""

    left: QRectF
    middle: QRectF
    right: QRectF


class Columns(NamedTuple):
    """Where the columns begin and how wide they are, in pixels."""

    middle: float
    middle_width: float
    right: float
    right_width: float


def columns_of(left: float, right: float, width: float, *, even: bool) -> Columns:
    """Return the columns: the outer ones as wide as their words, or the last two sharing the rest evenly."""
    middle = left + GAP
    rest = max(width - middle, 40.0)
    if even:
        half = (rest - GAP) / 2
        return Columns(middle, half, middle + half + GAP, half)
    if right <= 0:
        return Columns(middle, rest, width, 0)
    return Columns(middle, max(rest - right - GAP, 40.0), max(width - right, middle + 40), right)


class RowTable(Words):
    """Shows rows; emits the place of a row that is pressed, by mouse or by Up, Down and Enter.

    A label, since bare widgets pass for mere room to whoever listens.
    """

    pressed = Signal(int)

    def __init__(self, theme: Theme, *, mono: bool = False, bold_middle: bool = True) -> None:
        super().__init__()
        self.theme = theme
        self.rows: tuple[Row, ...] = ()
        self.is_even = False
        self.at = -1
        self._boxes: tuple[RowBox, ...] = ()
        self._mono, self._bold_middle = mono, bold_middle
        self.setMouseTracking(True)

    def show_rows(self, rows: tuple[Row, ...], *, even: bool = False) -> None:
        """Show other rows; `even` gives the last two columns the same width, and both wrap."""
        if (rows, even) == (self.rows, self.is_even):
            return
        self.rows, self.is_even, self.at = rows, even, -1
        can_press = any(row.tip for row in rows)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if can_press else Qt.FocusPolicy.NoFocus)
        self.setAccessibleDescription("; ".join(f"{row.left}: {row.middle} {row.right}".strip() for row in rows))
        self._measure()
        self.update()

    def _fonts(self) -> tuple[QFont, QFont, QFont]:
        plain = QFont(self.font())
        bold = QFont(plain)
        bold.setWeight(QFont.Weight.DemiBold)
        left = plain
        if self._mono:
            left = QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)
            left.setPointSizeF(plain.pointSizeF())
            left.setWeight(QFont.Weight.DemiBold)
        return left, bold if self._bold_middle and not self.is_even else plain, plain

    def _measure(self) -> None:
        metrics = [QFontMetricsF(font) for font in self._fonts()]
        left = max((metrics[0].horizontalAdvance(row.left) for row in self.rows), default=0.0)
        right = max((metrics[2].horizontalAdvance(row.right) for row in self.rows), default=0.0)
        columns = columns_of(left, right, self.width(), even=self.is_even)
        top, boxes = 0.0, []
        for row in self.rows:
            middle = _height(metrics[1], row.middle, columns.middle_width)
            last = _height(metrics[2], row.right, columns.right_width) if self.is_even else metrics[2].height()
            height = max(middle, last)
            boxes.append(
                RowBox(
                    QRectF(0, top, left, height),
                    QRectF(columns.middle, top, columns.middle_width, height),
                    QRectF(columns.right, top, columns.right_width, height),
                )
            )
            top += height + LEADING
        self._boxes = tuple(boxes)
        self.setFixedHeight(round(top))

    def resizeEvent(self, event: QResizeEvent) -> None:
        if event.size().width() != event.oldSize().width():
            self._measure()
        super().resizeEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        fonts = self._fonts()
        for i, (row, box) in enumerate(zip(self.rows, self._boxes, strict=True)):
            linked = bool(row.tip)
            for font, colour, area, words in (
                (fonts[0], self.theme.ink, box.left, row.left),
                (fonts[1], self.theme.ink, box.middle, row.middle),
                (fonts[2], self.theme.accent if linked else self.theme.ink, box.right, row.right),
            ):
                painter.setFont(font)
                painter.setPen(QColor(colour))
                painter.drawText(area, WRAPS, words)
            if i == self.at and self.hasFocus():
                painter.setPen(QPen(QColor(self.theme.accent), 2))
                painter.drawRect(box.left.united(box.right).adjusted(1, 0, -1, 0))
        painter.end()

    def row_at(self, at: QPointF) -> int:
        """Return the row under a point that can be pressed, or -1."""
        for i, box in enumerate(self._boxes):
            if box.left.top() <= at.y() < box.left.bottom() + LEADING and self.rows[i].tip:
                return i
        return -1

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self.row_at(event.position())
        if row >= 0:
            self.pressed.emit(row)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        can = self.row_at(event.position()) >= 0
        self.setCursor(Qt.CursorShape.PointingHandCursor if can else Qt.CursorShape.ArrowCursor)

    def event(self, event: QEvent) -> bool:
        if event.type() == event.Type.ToolTip:
            from PySide6.QtWidgets import QToolTip

            asked: QHelpEvent = event  # type: ignore[assignment]
            row = self.row_at(asked.pos().toPointF())
            QToolTip.showText(asked.globalPos(), self.rows[row].tip if row >= 0 else "", self)
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
        can = [i for i, row in enumerate(self.rows) if row.tip]
        if step is not None and can:
            now = can.index(self.at) if self.at in can else -1 if step > 0 else len(can)
            self._go_to(can[max(0, min(now + step, len(can) - 1))])
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.at in can:
            self.pressed.emit(self.at)
        else:
            super().keyPressEvent(event)

    def _go_to(self, at: int) -> None:
        """Go to a row; whoever listens hears it."""
        self.at = at
        row = self.rows[at]
        self.setAccessibleDescription(f"{row.left}: {row.middle}, {row.right}. {row.tip}")
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        can = [i for i, row in enumerate(self.rows) if row.tip]
        if can and self.at not in can:
            self._go_to(can[0])
        super().focusInEvent(event)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()


def _height(metrics: QFontMetricsF, words: str, width: float) -> float:
    if metrics.horizontalAdvance(words) <= width:
        return metrics.height()
    return metrics.boundingRect(QRectF(0, 0, width, 1000), WRAPS, words).height()
