"""The base families as a shelf that fills: each stands in its place as clearly as it is still in mind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QSizePolicy, QWidget

from counter.language import tr
from counter.window.parts import pen

if TYPE_CHECKING:
    from counter.outline import Drawing
    from counter.training import Freshness
    from counter.window.parts.theme import Theme

OUTLINE_PX, PAD_PX, BOARD_PX = 56, 6, 3
CLEARNESS = {"fresh": 1.0, "fading": 0.5, "gone": 0.22, "new": 0.0}  # of the ink, by state
CENTRE = int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop) | int(Qt.TextFlag.TextWordWrap)


class ShelfPlace(QAbstractButton):
    """One family: its outline on the board, a ground that rises with what is known of it, name and days below."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent, checkable=True)  # without a parent it would be shown as a window of its own first
        self.theme = theme
        self.kept: Freshness | None = None
        self.is_ready = False
        self._drawing: Drawing | None = None
        self._picture: tuple[object, QPixmap] | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setFont(pen.small_font(self.font(), 0.92))

    def show_kept(self, kept: Freshness, drawing: Drawing | None, is_ready: bool) -> None:
        """Show how a family is kept in mind."""
        self.kept, self._drawing, self.is_ready = kept, drawing, is_ready
        ready = tr("ready for the counter") if is_ready else tr("not ready yet")
        self.setAccessibleName(f"{kept.family}: {kept.said}; {ready}")
        self.setToolTip(tr("{met} of {points} things asked so far").format(met=kept.met, points=kept.points))
        self.update()

    def sizeHint(self) -> QSize:
        metrics = QFontMetrics(self.font())
        wide = max(metrics.horizontalAdvance(tr("not met yet")), metrics.horizontalAdvance("W4.3x8.5d")) + 3 * PAD_PX
        return QSize(max(wide, 92), OUTLINE_PX + BOARD_PX + 2 * PAD_PX + 3 * metrics.height() + PAD_PX)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.kept is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        board = OUTLINE_PX + 2 * PAD_PX
        self._paint_ground(painter, QRectF(PAD_PX / 2, 0, self.width() - PAD_PX, board))
        self._paint_outline(painter, QRectF(PAD_PX, PAD_PX, self.width() - 2 * PAD_PX, OUTLINE_PX))
        painter.fillRect(QRectF(0, board, self.width(), BOARD_PX), QColor(self.theme.ink))
        self._paint_plate(painter, board + BOARD_PX + PAD_PX / 2)
        painter.end()

    def _paint_ground(self, painter: QPainter, box: QRectF) -> None:
        assert self.kept is not None
        tall = box.height() * self.kept.filled
        painter.fillRect(QRectF(box.left(), box.bottom() - tall, box.width(), tall), QColor(self.theme.tint))
        if tall:
            painter.setPen(QPen(QColor(self.theme.bar), 1))
            painter.drawLine(QLineF(box.left(), box.bottom() - tall, box.right(), box.bottom() - tall))
        if self.isChecked() or self.hasFocus() or self.underMouse():
            painter.setPen(QPen(QColor(self.theme.accent), 2 if self.isChecked() else 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box.adjusted(1, 1, -1, -1))

    def _paint_outline(self, painter: QPainter, box: QRectF) -> None:
        assert self.kept is not None
        if self.kept.state == "new" or self._drawing is None:
            painter.setPen(QPen(QColor(self.theme.line), 1))
            painter.drawRect(box.adjusted(box.width() * 0.3, 10, -box.width() * 0.3, 0))
            return
        ratio = self.devicePixelRatioF()
        key = (self.kept.family, self.theme.name, ratio, box.width())
        if self._picture is None or self._picture[0] != key:
            self._picture = (key, pen.pixmap(self._drawing, box, 4.0, ratio, self.theme))
        painter.setOpacity(CLEARNESS[self.kept.state])
        painter.drawPixmap(box.topLeft(), self._picture[1])
        painter.setOpacity(1.0)

    def _paint_plate(self, painter: QPainter, top: float) -> None:
        """Write the name, on solid ink where the family is ready for the counter, and the days under it."""
        assert self.kept is not None
        metrics = QFontMetrics(self.font())
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.Bold)
        name = QRectF(0, top, self.width(), metrics.height() + 2)
        painter.setFont(bold)
        painter.setPen(QColor(self.theme.ink))
        if self.is_ready:
            wide = QFontMetrics(bold).horizontalAdvance(self.kept.family) + 3 * PAD_PX
            painter.setBrush(QColor(self.theme.ink))
            painter.drawRoundedRect(QRectF((self.width() - wide) / 2, top, wide, name.height()), 3, 3)
            painter.setPen(QColor(self.theme.paper))
        painter.drawText(name, Qt.AlignmentFlag.AlignCenter, self.kept.family)
        painter.setFont(self.font())
        painter.setPen(QColor(self.theme.muted if self.kept.state == "new" else self.theme.ink))
        days = QRectF(1, name.bottom() + 1, self.width() - 2, 2 * metrics.height() + 2)
        painter.drawText(days, CENTRE, self.kept.said)


class ShelfView(QWidget):
    """As many places in a row as fit; emits the family whose place was pressed."""

    picked = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.places: list[ShelfPlace] = []
        self._across = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(0)
        self._grid.setVerticalSpacing(PAD_PX)
        self.setAccessibleName(tr("Shelf of base families"))

    def show_shelf(
        self, rows: tuple[Freshness, ...], drawings: dict[str, Drawing], ready: frozenset[str], picked: str = ""
    ) -> None:
        """Show how every family is kept in mind; `picked` is the one that more is told of."""
        while len(self.places) < len(rows):
            place, at = ShelfPlace(self.theme, self), len(self.places)
            place.clicked.connect(lambda _=False, at=at: self._pick(at))
            self.places.append(place)
            self._across = 0
        for at, place in enumerate(self.places):
            place.setVisible(at < len(rows))
            if at < len(rows):
                place.show_kept(rows[at], drawings.get(rows[at].family), rows[at].family in ready)
                place.setChecked(rows[at].family == picked)
        self._arrange()

    def _pick(self, at: int) -> None:
        kept = self.places[at].kept
        for place in self.places:
            place.setChecked(place is self.places[at])
        if kept is not None:
            self.picked.emit(kept.family)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """Lay the places out anew where another number of them fits in a row."""
        if not self.places:
            return
        across = max(self.width() // self.places[0].sizeHint().width(), 1)
        if across == self._across:
            return
        for column in range(max(self._across, across)):
            self._grid.setColumnStretch(column, 1 if column < across else 0)
        self._across = across
        for at, place in enumerate(self.places):
            self._grid.addWidget(place, at // across, at % across)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, super().minimumSizeHint().height())

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for place in self.places:
            place.theme = theme
            place.update()
