"""Ready for the counter: for each family the lower bound of first-try answers against its bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from counter.window.parts import pen

if TYPE_CHECKING:
    from counter.training import Standing, Tally
    from counter.window.parts.theme import Theme

ROW_PX, HEAD_PX = 24, 24


@dataclass(frozen=True, slots=True)
class Columns:
    """Left edge and width of each column, pixels."""

    name: tuple[float, float]
    plain: tuple[float, float]
    critical: tuple[float, float]
    unseen: tuple[float, float]
    ready: tuple[float, float]


def columns_of(width: float, name_px: float) -> Columns:
    """Return the columns of a width: two equal ones for bars between names and figures."""
    unseen, ready, gap = 52.0, 56.0, 14.0
    bars = (width - name_px - unseen - ready - 4 * gap) / 2
    left = name_px + gap
    second = left + bars + gap
    third = second + bars + gap
    return Columns((0, name_px), (left, bars), (second, bars), (third, unseen), (third + unseen + gap, ready))


class ReadyView(QWidget):
    """A row a family: two bars of the bound, each with its mark, points not seen yet, and the word ready."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.rows: tuple[Standing, ...] = ()
        self.setMinimumWidth(420)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Ready for the counter")

    def show_standings(self, rows: tuple[Standing, ...]) -> None:
        """Show where somebody stands."""
        self.rows = rows
        self.setFixedHeight(HEAD_PX + ROW_PX * len(rows) + 4)
        self.setAccessibleDescription(
            "; ".join(f"{one.family}: {'ready' if one.is_ready else 'not ready'}" for one in rows)
        )
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(560, self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setFont(pen.small_font(self.font(), 0.92))
        metrics = QFontMetricsF(painter.font())
        names = max((metrics.horizontalAdvance(one.family) for one in self.rows), default=60.0)
        columns = columns_of(self.width(), names + 4)
        _paint_head(painter, columns, self.theme)
        for at, one in enumerate(self.rows):
            _paint_row(painter, columns, HEAD_PX + at * ROW_PX, one, self.theme)
        painter.end()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()


def _cell(column: tuple[float, float], top: float, height: float = ROW_PX) -> QRectF:
    return QRectF(column[0], top, column[1], height)


def _paint_head(painter: QPainter, columns: Columns, theme: Theme) -> None:
    painter.setPen(QColor(theme.muted))
    left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    for column, words, flags in (
        (columns.plain, "other cards", left),
        (columns.critical, "UV-C and mismatch", left),
        (columns.unseen, "unseen", right),
        (columns.ready, "ready", left),
    ):
        painter.drawText(_cell(column, 0, HEAD_PX), flags, words)


def _paint_row(painter: QPainter, columns: Columns, top: float, one: Standing, theme: Theme) -> None:
    painter.setPen(QColor(theme.ink))
    left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    painter.drawText(_cell(columns.name, top), left, one.family)
    _paint_tally(painter, _cell(columns.plain, top), one.plain, theme)
    _paint_tally(painter, _cell(columns.critical, top), one.critical, theme)
    right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    painter.setPen(QColor(theme.ink if one.unseen else theme.muted))
    painter.drawText(_cell(columns.unseen, top), right, str(one.unseen))
    font = QFont(painter.font())
    painter.save()
    font.setBold(one.is_ready)
    painter.setFont(font)
    painter.setPen(QColor(theme.ink if one.is_ready else theme.muted))
    painter.drawText(_cell(columns.ready, top), left, "ready" if one.is_ready else "not yet")
    painter.restore()


def _paint_tally(painter: QPainter, cell: QRectF, tally: Tally, theme: Theme) -> None:
    words = f"{tally.right} of {tally.asked}"
    numbers = QFontMetricsF(painter.font()).horizontalAdvance("60 of 60") + 8
    box = QRectF(cell.left(), cell.top() + 5, max(cell.width() - numbers, 20), cell.height() - 10)
    painter.setPen(QPen(QColor(theme.line), 1))
    painter.setBrush(QColor(theme.field))
    painter.drawRect(box)
    inked = QRectF(box.left(), box.top(), box.width() * tally.low, box.height())
    painter.fillRect(inked, QColor(theme.ink if tally.passes else theme.bar))
    mark = box.left() + box.width() * tally.bar
    painter.setPen(QPen(QColor(theme.accent), 2))
    painter.drawLine(QLineF(mark, box.top() - 3, mark, box.bottom() + 3))
    painter.setPen(QColor(theme.ink if tally.asked else theme.muted))
    flags = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    painter.drawText(cell, flags, words if tally.asked else "–")
