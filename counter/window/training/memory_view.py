"""The forgetting curve if nothing is practised, and how much falls due on each coming day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from counter.window.parts import pen

if TYPE_CHECKING:
    from counter.training import CurvePoint
    from counter.window.parts.theme import Theme

SHARES = (0.0, 0.5, 1.0)
GAP_PX = 28


class MemoryView(QWidget):
    """Left the curve with the share at which a point comes back, right the bars of the days."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.curve: tuple[CurvePoint, ...] = ()
        self.days: tuple[int, ...] = ()
        self.wanted = 0.9
        self.setFixedHeight(168)
        self.setMinimumWidth(320)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Forgetting curve and days ahead")

    def show_memory(self, curve: tuple[CurvePoint, ...], days: tuple[int, ...], wanted: float) -> None:
        """Show a curve (share known by day), what falls due a day, and the share that brings a point back."""
        self.curve, self.days, self.wanted = curve, days, wanted
        if curve:
            end = curve[-1]
            self.setAccessibleDescription(
                f"{curve[0].recall:.0%} known today, {end.recall:.0%} in {end.day} days without practice; "
                f"due by day: {', '.join(map(str, days))}"
            )
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(pen.small_font(self.font()))
        if not self.curve:
            painter.setPen(QColor(self.theme.muted))
            painter.drawText(
                self.rect(), int(Qt.AlignmentFlag.AlignCenter), "The curve comes with the first answers."
            )
        else:
            metrics = QFontMetricsF(painter.font())
            top, bottom = metrics.height() + 8, self.height() - metrics.height() - 6
            left = metrics.horizontalAdvance("100 %") + 8
            middle = self.width() * 0.55
            self._paint_curve(painter, QRectF(left, top, middle - left - GAP_PX, bottom - top))
            self._paint_days(painter, QRectF(middle, top, self.width() - middle - 8, bottom - top))
        painter.end()

    def _paint_curve(self, painter: QPainter, rect: QRectF) -> None:
        metrics = QFontMetricsF(painter.font())
        _words(painter, QPointF(0, metrics.ascent()), "known if nothing is practised", self.theme.muted)
        for share in SHARES:
            y = rect.bottom() - share * rect.height()
            _rule(painter, QLineF(rect.left(), y, rect.right(), y), self.theme.line)
            box = QRectF(0, y - metrics.height() / 2, rect.left() - 6, metrics.height())
            painter.setPen(QColor(self.theme.muted))
            painter.drawText(box, int(Qt.AlignmentFlag.AlignRight), f"{share * 100:.0f}\N{THIN SPACE}%")
        y = rect.bottom() - self.wanted * rect.height()
        _rule(painter, QLineF(rect.left(), y, rect.right(), y), self.theme.accent)
        last = max(self.curve[-1].day, 1)
        points = [
            QPointF(rect.left() + one.day / last * rect.width(), rect.bottom() - one.recall * rect.height())
            for one in self.curve
        ]
        painter.setPen(QPen(QColor(self.theme.ink), pen.WIDTHS["outline"]))
        painter.drawPolyline(points)
        _under(painter, rect, ("today", f"{last}\N{THIN SPACE}days"), self.theme)

    def _paint_days(self, painter: QPainter, rect: QRectF) -> None:
        metrics = QFontMetricsF(painter.font())
        _words(painter, QPointF(rect.left(), metrics.ascent()), "due on each coming day", self.theme.muted)
        most, step = max(*self.days, 1), rect.width() / max(len(self.days), 1)
        for day, count in enumerate(self.days):
            tall = count / most * (rect.height() - metrics.height())
            bar = QRectF(rect.left() + day * step + 2, rect.bottom() - tall, step - 4, tall)
            painter.fillRect(bar, QColor(self.theme.bar))
            box = QRectF(bar.left() - 2, bar.top() - metrics.height(), step, metrics.height())
            painter.setPen(QColor(self.theme.ink if count else self.theme.muted))
            painter.drawText(box, int(Qt.AlignmentFlag.AlignHCenter), str(count))
        _rule(painter, QLineF(rect.bottomLeft(), rect.bottomRight()), self.theme.line)
        _under(painter, rect, ("today", f"in {len(self.days) - 1}\N{THIN SPACE}days"), self.theme)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        self.update()


def _rule(painter: QPainter, line: QLineF, colour: str) -> None:
    painter.setPen(QPen(QColor(colour), pen.WIDTHS["thin"]))
    painter.drawLine(line)


def _words(painter: QPainter, at: QPointF, words: str, colour: str) -> None:
    painter.setPen(QColor(colour))
    painter.drawText(at, words)


def _under(painter: QPainter, rect: QRectF, ends: tuple[str, str], theme: Theme) -> None:
    painter.setPen(QColor(theme.muted))
    box = QRectF(rect.left(), rect.bottom() + 3, rect.width(), 20)
    painter.drawText(box, int(Qt.AlignmentFlag.AlignLeft), ends[0])
    painter.drawText(box, int(Qt.AlignmentFlag.AlignRight), ends[1])
