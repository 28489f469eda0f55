"""Rows of words in aligned columns, painted: laying out rich text anew took longer than all else after a look."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import (
    QAbstractTableModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QRectF,
    QSignalBlocker,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontMetricsF, QHelpEvent, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView, QFrame, QSizePolicy, QTableView, QToolTip

from counter.window.parts.words import tip

if TYPE_CHECKING:
    from PySide6.QtCore import QPointF
    from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPaintEvent, QResizeEvent

    from counter.window.parts.theme import Theme

    Index = QModelIndex | QPersistentModelIndex

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


class RowsModel(QAbstractTableModel):
    """Rows as a table has them; the first cell of each tells whoever listens the rest of its row too."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[Row, ...] = ()
        self.heads: tuple[str, ...] = ()

    def show(self, rows: tuple[Row, ...]) -> None:
        """Replace all rows."""
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own signature
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else 3 if any(row.right for row in self.rows) else 2

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        row = self.rows[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return row[index.column()]
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            rest = ". ".join(filter(None, (f"{row.middle}, {row.right}".strip(", "), row.tip)))
            return rest if index.column() == 0 else row.tip
        return None

    def headerData(self, at: int, way: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        heads = self.heads if way == Qt.Orientation.Horizontal else tuple(row.left for row in self.rows)
        return heads[at] if role == Qt.ItemDataRole.DisplayRole and at < len(heads) else None


class RowTable(QTableView):
    """Shows rows; emits the place of a row that is pressed, by mouse or by Up, Down and Enter.

    A real table to whoever listens; what is seen of it is painted here in one go.
    """

    row_pressed = Signal(int)

    def __init__(self, theme: Theme, *, mono: bool = False, bold_middle: bool = True) -> None:
        super().__init__()
        self.theme = theme
        self.is_even = False
        self._boxes: tuple[RowBox, ...] = ()
        self._mono, self._bold_middle = mono, bold_middle
        self._rows = RowsModel()
        self.setModel(self._rows)
        for bars in (self.setHorizontalScrollBarPolicy, self.setVerticalScrollBarPolicy):
            bars(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for heads in (self.horizontalHeader(), self.verticalHeader()):
            heads.hide()
            heads.setMinimumSectionSize(0)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setTabKeyNavigation(False)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.viewport().setAutoFillBackground(False)
        self.viewport().setMouseTracking(True)

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows shown."""
        return self._rows.rows

    def show_rows(self, rows: tuple[Row, ...], *, even: bool = False, heads: tuple[str, ...] = ()) -> None:
        """Show other rows; `even` gives the last two columns the same width, and both wrap."""
        if (rows, even) == (self.rows, self.is_even):
            return
        self.is_even, self._rows.heads = even, heads
        self._rows.show(rows)
        can_press = any(row.tip for row in rows)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if can_press else Qt.FocusPolicy.NoFocus)
        self._measure()
        self.executeDelayedItemsLayout()  # or Qt would do so while it paints, and paint once more
        self.viewport().update()

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
        self._place(columns)
        self.setFixedHeight(round(top))

    def _place(self, columns: Columns) -> None:
        """Let the cells lie where they are painted, for whoever points at them without seeing."""
        # Unheard by Qt's own table, which would paint itself anew later for what is painted here.
        with QSignalBlocker(self.horizontalHeader()), QSignalBlocker(self.verticalHeader()):
            for at, width in enumerate((columns.middle, columns.right - columns.middle, columns.right_width)):
                self.setColumnWidth(at, round(width))
            for at, box in enumerate(self._boxes):
                self.setRowHeight(at, round(box.left.bottom() + LEADING) - round(box.left.top()))

    def sizeHint(self) -> QSize:
        return QSize(200, self.height())

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        if event.size().width() != event.oldSize().width():
            self._measure()
        super().resizeEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        fonts = self._fonts()
        for row, box in zip(self.rows, self._boxes, strict=True):
            colours = (self.theme.ink, self.theme.ink, self.theme.accent if row.tip else self.theme.ink)
            for font, colour, area, words in zip(fonts, colours, box, row[:3], strict=True):
                painter.setFont(font)
                painter.setPen(QColor(colour))
                painter.drawText(area, WRAPS, words)
        at = self.currentIndex().row()
        if self.hasFocus() and at >= 0:
            box = self._boxes[at]
            painter.setPen(QPen(QColor(self.theme.accent), 2))
            painter.drawRect(box.left.united(box.right).adjusted(1, 0, -1, 0))
        painter.end()

    def row_at(self, at: QPointF) -> int:
        """Return the row under a point that can be pressed, or -1."""
        row = self.rowAt(round(at.y()))
        return row if row >= 0 and self.rows[row].tip else -1

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self.row_at(event.position())
        if row >= 0:
            self.row_pressed.emit(row)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        can = self.row_at(event.position()) >= 0
        self.viewport().setCursor(Qt.CursorShape.PointingHandCursor if can else Qt.CursorShape.ArrowCursor)

    def viewportEvent(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            row = self.row_at(event.pos().toPointF())
            QToolTip.showText(event.globalPos(), tip(self.rows[row].tip) if row >= 0 else "", self)
            return True
        return super().viewportEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        row = self.currentIndex().row()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and row >= 0:
            if self.rows[row].tip:
                self.row_pressed.emit(row)
        else:
            super().keyPressEvent(event)
            self.viewport().update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        if not self.currentIndex().isValid():
            first = next((at for at, row in enumerate(self.rows) if row.tip), 0)
            self.setCurrentIndex(self._rows.index(first, 0))
        super().focusInEvent(event)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.viewport().update()


def _height(metrics: QFontMetricsF, words: str, width: float) -> float:
    if metrics.horizontalAdvance(words) <= width:
        return metrics.height()
    return metrics.boundingRect(QRectF(0, 0, width, 1000), WRAPS, words).height()
