"""The head of a round: who, how much of the time has passed, how many right of those asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QWidget

from counter.language import tr
from counter.window.parts.picture import Picture
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme


class TimeLine(Picture):
    """The share of the round that has passed, as a bar of ink; an empty line where there is no end."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.share: float | None = None
        self.setFixedHeight(12)
        self.setMinimumWidth(120)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_share(self, share: float | None) -> None:
        """Show how much has passed, 0 to 1, or None."""
        if share != self.share:
            self.share = share
            self.setAccessibleName(
                tr("no end set") if share is None else tr("{share} of the time").format(share=f"{share:.0%}")
            )
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        box = QRectF(self.rect()).adjusted(0.5, 2.5, -0.5, -2.5)
        painter.setPen(QPen(QColor(self.theme.line), 1))
        painter.setBrush(QColor(self.theme.field))
        if self.share is not None:
            painter.drawRect(box)
            painter.fillRect(
                QRectF(box.left(), box.top(), box.width() * self.share, box.height()), QColor(self.theme.bar)
            )
        painter.end()


class RoundBar(QWidget):
    """Title, time line, count, and the way out."""

    stop_pressed = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.title, self.count = (
            Words(),
            Words(),
        )
        self.title.set_role("title")
        self.count.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.count.setMinimumWidth(
            self.count.fontMetrics().horizontalAdvance(tr("{right} of {asked} right").format(right=888, asked=888))
        )
        self.line = TimeLine(theme)
        self.stop = QPushButton(tr("End the round  Esc"))
        self.stop.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.stop.clicked.connect(self.stop_pressed)
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 0, 0, 0)
        row.setSpacing(16)
        row.addWidget(self.title)
        row.addWidget(self.line, 1)
        row.addWidget(self.count)
        row.addWidget(self.stop)

    def show_round(self, title: str, share: float | None, right: int, asked: int) -> None:
        """Show how far the round is."""
        self.title.setText(title)
        self.line.show_share(share)
        self.count.setText(tr("{right} of {asked} right").format(right=right, asked=asked))

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.line.theme = theme
        self.line.update()
