"""Qt's numbers for what the first paint needs, written out.

Naming `Qt` builds over a hundred Python enumerations, about 40 ms on the machines measured, and `QStyle` another 14:
more than all the rest of our own start. What is imported before the first paint therefore takes these numbers and
sets enumerated properties by `setProperty`; tests hold each against Qt's own. Elsewhere `Qt` is fine.
"""

from __future__ import annotations

from PySide6.QtGui import QBrush, QColor, QPen

LEFT = 0x1
RIGHT = 0x2
TOP = 0x20
VCENTRE = 0x80
CENTRE = 0x84
WRAP = 0x1000

DISPLAY_ROLE = 0
TOOLTIP_ROLE = 3
ACCESSIBLE_TEXT_ROLE = 11
USER_ROLE = 0x100

VERTICAL = 2  # orientation
NO_SCROLL_BAR = 1  # scroll bar policy
ASK_FOR_MENU = 3  # context menu policy


def no_pen() -> QPen:
    """Return a pen that draws nothing."""
    return QPen(QColor(0, 0, 0, 0))


def no_brush() -> QBrush:
    """Return a brush that fills nothing."""
    return QBrush()
