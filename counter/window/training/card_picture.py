"""The picture beside a question: drawings large, or a code, or looks; afterwards what decides is marked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from counter.window.outlines.drawing_view import DrawingView
from counter.window.parts.words import Words
from counter.window.training.code_parts import CodeParts
from counter.window.training.looks_seen import LooksSeen

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme
    from counter.window.training.card_views import Figure, Shown

FACE_MOST, SIDE_MOST = 11.0, 3.0  # pixels a millimetre


class CardPicture(QFrame):
    """Places are kept: what comes after the answer stands in room that says so before."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.face, self.side = DrawingView(theme, FACE_MOST), DrawingView(theme, SIDE_MOST, 80)
        self.other_face, self.other_side = DrawingView(theme, FACE_MOST), DrawingView(theme, SIDE_MOST, 80)
        # To the first one's scale, so that what is wider is drawn wider; the first never changes when a second comes.
        self.other_face.mate, self.other_side.mate = self.face, self.side
        self.words = Words(wraps=True)
        self.words.setMinimumHeight(2 * self.words.fontMetrics().lineSpacing())
        self.waits = Words(wraps=True)
        self.waits.set_role("quiet")
        self.waits.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.below = QStackedWidget()
        both = QWidget()
        both.setLayout(_row(self.other_face, self.other_side))
        for part in (self.waits, both):
            self.below.addWidget(part)
        self.code, self.looks = CodeParts(theme), LooksSeen(theme)
        drawings = QWidget()
        column = QVBoxLayout(drawings)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(_row(self.face, self.side), 1)
        column.addWidget(self.words)
        column.addWidget(self.below, 1)
        self.stack = QStackedWidget()
        for page in (drawings, self.code, self.looks):
            self.stack.addWidget(page)
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 8, 8, 8)
        box.addWidget(self.stack)

    def show_picture(self, shown: Shown) -> None:
        """Show what belongs to a card."""
        self.stack.setCurrentIndex(1 if shown.code else 0 if shown.first is not None else 2)
        if shown.code:
            self.code.show_code(shown)
        elif shown.first is not None:
            self.words.setText(shown.words)
            self.words.setVisible(bool(shown.words))
            self.waits.setText(shown.waits)
            self.below.setCurrentIndex(0 if shown.second is None else 1)
            self.below.setVisible(shown.second is not None or bool(shown.waits))
            _show(self.face, self.side, shown.first)
            _show(self.other_face, self.other_side, shown.second)
        else:
            self.looks.show_looks(shown.looks)
        self.setAccessibleName(
            shown.words or shown.code or "; ".join(f"{one.title}: {one.value}" for one in shown.looks)
        )

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for part in (self.face, self.side, self.other_face, self.other_side, self.code, self.looks):
            part.set_theme(theme)


def _row(face: DrawingView, side: DrawingView) -> QHBoxLayout:
    row = QHBoxLayout()
    row.addWidget(face, 5)
    row.addWidget(side, 3)
    return row


def _show(face: DrawingView, side: DrawingView, figure: Figure | None) -> None:
    if figure is None:
        face.show_drawing(None)
        side.show_drawing(None)
        return
    side.setVisible(figure.side is not None)
    face.show_drawing(figure.face, figure.marked, figure.caption)
    side.show_drawing(figure.side, figure.marked)
