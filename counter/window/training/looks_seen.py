"""The looks that a card tells, as pictures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QFrame, QGridLayout, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.outlines.drawing_view import Sketch
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.parts.theme import Theme
    from counter.window.training.card_views import Seen

ACROSS = 2
ICON_PX = (150, 96)


class SeenBox(QFrame):
    """One look: its name, its picture, and what was seen."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.setFixedHeight(176)
        self.title, self.value = Words(), Words(wraps=True)
        self.icon = Sketch(theme, *ICON_PX)
        large = QFont(self.font())
        large.setPointSizeF(large.pointSizeF() * 1.15)
        self.value.setFont(large)
        self.value.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter)
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 6, 8, 6)
        box.setSpacing(4)
        box.addWidget(self.title)
        box.addWidget(self.icon, 0, Qt.AlignmentFlag.AlignHCenter)
        box.addWidget(self.value, 1)

    def show_seen(self, seen: Seen) -> None:
        """Show a look; one that decides the card is said so and set in bold."""
        self.title.setText(tr("{look}: this decides").format(look=seen.title) if seen.decides else seen.title)
        font = QFont(self.font())
        font.setBold(seen.decides)
        self.title.setFont(font)
        self.value.setText(seen.value)
        self.icon.show_drawing(seen.icon)
        self.icon.setVisible(seen.icon is not None)


class LooksSeen(QWidget):
    """Up to as many boxes as a card tells looks; kept and filled again."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.boxes: list[SeenBox] = []
        self.none = Words(tr("Nothing is known yet."))
        self.none.set_role("quiet")
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(8)
        self._grid.addWidget(self.none, 0, 0)
        self._grid.setRowStretch(9, 1)
        for column in range(ACROSS):
            self._grid.setColumnStretch(column, 1)

    def show_looks(self, looks: tuple[Seen, ...]) -> None:
        """Show other looks."""
        while len(self.boxes) < len(looks):
            at = len(self.boxes)
            self.boxes.append(SeenBox(self.theme))
            self._grid.addWidget(self.boxes[at], at // ACROSS, at % ACROSS)
        for at, box in enumerate(self.boxes):
            box.setVisible(at < len(looks))
            if at < len(looks):
                box.show_seen(looks[at])
        self.none.setVisible(not looks)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for box in self.boxes:
            box.icon.set_theme(theme)
