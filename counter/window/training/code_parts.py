"""A code in large letters; once answered, every part of it with what it says, and the lamp it names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.marks.code_strip import CodeStrip
from counter.window.outlines.drawing_view import DrawingView
from counter.window.parts.row_table import Row, RowTable
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme
    from counter.window.training.card_views import Shown

STRIP_PX, POINTS_MORE = 64, 1.5
LEFT_PX = 6


class CodeParts(QWidget):
    """The code strip with the part asked about in brackets; its explanation appears below in room kept for it."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.strip = CodeStrip(theme)
        self.strip.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)  # its tip would tell the answer
        self.strip.setFixedHeight(STRIP_PX)
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * POINTS_MORE)
        self.strip.setFont(large)
        self.asked = Words()
        self.asked.setContentsMargins(LEFT_PX, 0, 0, 0)  # below the code's first letter
        self.parts = RowTable(theme, mono=True, bold_middle=False)
        self.face, self.side = DrawingView(theme, 6.0), DrawingView(theme, 2.2, 80)
        drawings = QHBoxLayout()
        drawings.addWidget(self.face, 5)
        drawings.addWidget(self.side, 3)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 8, 0, 0)
        box.setSpacing(12)
        box.addWidget(self.strip)
        box.addWidget(self.asked)
        box.addWidget(self.parts)
        box.addStretch(3)
        box.addLayout(drawings, 4)

    def show_code(self, shown: Shown) -> None:
        """Show a code, with its parts once they are no secret any more."""
        self.strip.show_reading(shown.code, shown.spans)
        self.asked.setText(tr("the part asked about: {part}").format(part=shown.bracket) if shown.bracket else "")
        self.parts.show_rows(tuple(Row(span.text, span.means) for span in shown.spans if span.means))
        figure = shown.second
        self.face.show_drawing(figure.face if figure else None, caption=figure.caption if figure else "")
        self.side.show_drawing(figure.side if figure else None)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.strip.theme = theme
        self.strip.update()
        self.parts.set_theme(theme)
        self.face.set_theme(theme)
        self.side.set_theme(theme)
