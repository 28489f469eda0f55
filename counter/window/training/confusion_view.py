"""The matrix of what is taken for what: numerals, and the weight of ink behind them, never a hue."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from counter.window.parts import pen

if TYPE_CHECKING:
    from counter.training import Confusion
    from counter.window.parts.theme import Theme

CELL_MOST, CELL_LEAST, LABEL_MOST_PX = 56.0, 16.0, 130.0
PALEST = 0.12  # of the ink, for the smallest count


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the cells lie: the corner of the first, their size, and the room of the row labels."""

    left: float
    top: float
    cell: float

    def box(self, row: int, column: int) -> QRectF:
        """Return the cell of a row (asked) and a column (said)."""
        return QRectF(self.left + column * self.cell, self.top + row * self.cell, self.cell, self.cell)


def grid_of(count: int, label_px: float, size: QSize) -> Grid:
    """Return the largest square cells that fit, with room for labels at the left and, turned, above."""
    label = min(label_px, LABEL_MOST_PX) + 8
    room = min(size.width() - label - 4, size.height() - label - 4)
    return Grid(label, label, max(min(room / max(count, 1), CELL_MOST), CELL_LEAST))


class ConfusionView(QWidget):
    """Rows are what was right, columns what was said; the diagonal is outlined, confusions carry ink."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.found: Confusion | None = None
        self.words: dict[str, str] = {}
        self.setMinimumSize(320, 240)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("What is taken for what")

    def show_confusion(self, found: Confusion, words: dict[str, str]) -> None:
        """Show a matrix; `words` are the names of its labels where they need one."""
        self.found, self.words = found, words
        said = (
            f"{words.get(m.asked, m.asked)} taken for {words.get(m.said, m.said)}: {m.times}" for m in found.mixes()
        )
        self.setAccessibleDescription("; ".join(said))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(pen.small_font(self.font()))
        if self.found is None or not self.found.labels:
            painter.setPen(QColor(self.theme.muted))
            painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignCenter), "No answers of this sort yet.")
        else:
            labels = tuple(self.words.get(label, label) for label in self.found.labels)
            metrics = QFontMetricsF(painter.font())
            grid = grid_of(len(labels), max(map(metrics.horizontalAdvance, labels)), self.size())
            _paint_cells(painter, grid, self.found, self.theme)
            _paint_labels(painter, grid, labels, self.theme)
        painter.end()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()


def _paint_cells(painter: QPainter, grid: Grid, found: Confusion, theme: Theme) -> None:
    most = max((mix.times for mix in found.mixes()), default=1)
    for row, counts in enumerate(found.counts):
        for column, count in enumerate(counts):
            box = grid.box(row, column).adjusted(1, 1, -1, -1)
            on_diagonal = row == column
            ink = QColor(theme.ink)
            share = 0.0 if on_diagonal or not count else PALEST + (1 - PALEST) * count / most
            ink.setAlphaF(share)
            painter.setBrush(ink)
            painter.setPen(QPen(QColor(theme.ink if on_diagonal else theme.line), 1))
            painter.drawRect(box)
            if count:
                _numeral(painter, box, count, QColor(theme.paper if share > 0.5 else theme.ink), not on_diagonal)


def _numeral(painter: QPainter, box: QRectF, count: int, colour: QColor, is_bold: bool) -> None:
    painter.save()
    font = QFont(painter.font())
    font.setBold(is_bold)
    painter.setFont(font)
    painter.setPen(colour)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(count))
    painter.restore()


def _paint_labels(painter: QPainter, grid: Grid, labels: tuple[str, ...], theme: Theme) -> None:
    metrics = QFontMetricsF(painter.font())
    painter.setPen(QColor(theme.ink))
    for at, label in enumerate(labels):
        short = metrics.elidedText(label, Qt.TextElideMode.ElideRight, grid.left - 8)
        row = grid.box(at, 0)
        box = QRectF(0, row.top(), grid.left - 6, row.height())
        painter.drawText(box, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter), short)
        painter.save()
        column = grid.box(0, at)
        painter.translate(QPointF(column.center().x(), grid.top - 6))
        painter.rotate(-90)
        painter.drawText(QPointF(0, metrics.capHeight() / 2), short)
        painter.restore()
    painter.setPen(QColor(theme.muted))
    corner = QRectF(0, 0, grid.left - 6, grid.top - 6)
    painter.drawText(corner, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop), "said →\nright ↓")
