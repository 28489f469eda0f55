"""Qt's numbers for what the first paint needs, written out.

Naming `Qt` builds over a hundred Python enumerations, about 40 ms on the machines measured, and `QStyle` another 14:
more than all the rest of our own start. What is imported before the first paint therefore takes these numbers and
sets enumerated properties by `setProperty`; tests hold each against Qt's own. Elsewhere `Qt` is fine.
`QPainter.setPen`, `setBrush`, whatever takes a colour for a brush, and most constructors of QPen and QBrush name it
too, by the way their overloads are told apart; `strokePath` and `fillPath` with what `pen` and `brush` make do not.
"""

from __future__ import annotations

from PySide6.QtGui import QBrush, QColor, QPen
from PySide6.QtWidgets import QBoxLayout

LEFT = 0x1
RIGHT = 0x2
TOP = 0x20
VCENTRE = 0x80
CENTRE = 0x84
WRAP = 0x1000

DISPLAY_ROLE = 0
TOOLTIP_ROLE = 3
ACCESSIBLE_TEXT_ROLE = 11
ACCESSIBLE_DESCRIPTION_ROLE = 12
USER_ROLE = 0x100

VERTICAL = 2  # orientation
NO_SCROLL_BAR = 1  # scroll bar policy
ASK_FOR_MENU = 3  # context menu policy
NO_FRAME = 0  # frame shape
NO_FOCUS = 0  # focus policy


def set_upright(box: QBoxLayout, is_upright: bool) -> None:
    """Let a row stand as a column, or lie down again; its direction's numbers are not the window's first need."""
    direction = QBoxLayout.Direction.TopToBottom if is_upright else QBoxLayout.Direction.LeftToRight
    if box.direction() != direction:
        box.setDirection(direction)


def pen(colour: str, width: float = 1.0) -> QPen:
    """Return a solid pen; the constructors that take a colour would look at `Qt.PenStyle` first."""
    made = QPen()
    made.setColor(QColor(colour))
    made.setWidthF(width)
    return made


def brush(colour: str) -> QBrush:
    """Return a solid brush, by way of a pen: the constructors that take a colour look at `Qt.BrushStyle` first."""
    return pen(colour).brush()
