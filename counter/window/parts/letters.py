"""Captions: the letter that leads to a field with Alt, shown underlined, and room for the mark of the next look."""

from __future__ import annotations

import re

from PySide6.QtGui import QFont, QFontMetrics

NEXT_MARK = "▸ "


def letter_of(caption: str) -> str:
    """Return the letter that a caption marks for Alt; nothing where it marks none."""
    found = re.search(r"&([^&])", caption.replace("&&", ""))
    return found[1].upper() if found is not None else ""


def widest(caption: str, font: QFont) -> int:
    """Return the pixels that a caption takes in heavy letters, so that marking it as next moves no neighbour."""
    bold = QFont(font)
    bold.setWeight(QFont.Weight.DemiBold)
    return QFontMetrics(bold).horizontalAdvance(caption.replace("&", ""))
