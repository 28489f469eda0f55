"""The one label for words: plain text always, whatever the words look like.

Qt's own guesses: a code, a name or a label with an angle bracket in it would be taken for markup, and
`<img src=…>` would read files. A test goes over every widget there is and finds no other label.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QFont, QPalette
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent

# What part words play on the page: their weight, and the palette's colour for them.
ROLES: dict[str, tuple[QFont.Weight, QPalette.ColorRole]] = {
    "": (QFont.Weight.Normal, QPalette.ColorRole.WindowText),
    "title": (QFont.Weight.DemiBold, QPalette.ColorRole.WindowText),
    "quiet": (QFont.Weight.Normal, QPalette.ColorRole.PlaceholderText),
    "look-next": (QFont.Weight.DemiBold, QPalette.ColorRole.Link),
}
PLAIN = 0  # Qt.TextFormat.PlainText; naming Qt costs the first paint, see `early`
REMEMBERED = 40


class Words(QLabel):
    """A label of plain words with a role of ROLES; wrapped ones remember their height.

    Qt's own lays its words out anew at each of some hundred questions that one pass over nested layouts asks.
    """

    def __init__(self, text: str = "", role: str = "", *, wraps: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._heights: dict[tuple[str, int], int] = {}
        self.setProperty("textFormat", PLAIN)
        self.role = ""
        self.set_role(role)
        if wraps:
            self.setWordWrap(True)
            policy = self.sizePolicy()
            policy.setHeightForWidth(True)
            policy.setVerticalPolicy(QSizePolicy.Policy.Minimum)  # never lower than its words at its width
            self.setSizePolicy(policy)
        if text:
            self.setText(text)

    def set_role(self, role: str) -> None:
        """Change the part that the words play."""
        if role == self.role:
            return
        self.role = role
        weight, colour = ROLES[role]
        font = self.font()
        font.setWeight(weight)
        self.setFont(font)
        self.setForegroundRole(colour)

    def scaled(self, by: float, weight: QFont.Weight | None = None) -> Words:
        """Return itself in letters `by` times as large as the window's."""
        font = QFont(self.font())
        font.setPointSizeF(font.pointSizeF() * by)
        if weight is not None:
            font.setWeight(weight)
        self.setFont(font)
        return self

    def heightForWidth(self, width: int) -> int:
        if not self.wordWrap():
            return super().heightForWidth(width)
        key = (self.text(), width)
        if key not in self._heights:
            if len(self._heights) >= REMEMBERED:
                self._heights.clear()
            self._heights[key] = super().heightForWidth(width)
        return self._heights[key]

    def changeEvent(self, event: QEvent) -> None:
        self._heights.clear()  # whatever changed: asking which would name an enumeration before the first paint
        super().changeEvent(event)

    def setToolTip(self, words: str) -> None:
        super().setToolTip(tip(words))


def tip(words: str) -> str:
    """Return words for a tooltip, where Qt guesses too and cannot be told: brackets are written as what they are."""
    if "<" not in words:
        return words
    from html import escape  # 2 ms that the first paint need not pay

    lines = escape(words).replace("\n", "<br>")
    return f"<qt>{lines}</qt>"


def caption(words: str) -> str:
    """Return words for a button or a menu, where an ampersand would mark a letter."""
    return words.replace("&", "&&")
