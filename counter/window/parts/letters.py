"""Captions: the letter that leads to a field with Alt, shown underlined, and room for the mark of the next look."""

from __future__ import annotations

from PySide6.QtGui import QFont, QFontMetrics

NEXT_MARK = "▸ "


def lettered(words: str, letter: str) -> str:
    """Return a caption with its letter marked for Qt, the first that fits; without one the caption as it is."""
    at = words.casefold().find(letter.casefold()) if letter else -1
    if at < 0:
        return words.replace("&", "&&")
    before, after = words[:at].replace("&", "&&"), words[at:].replace("&", "&&")
    return f"{before}&{after}"


def widest(caption: str, font: QFont) -> int:
    """Return the pixels that a caption takes in heavy letters, so that marking it as next moves no neighbour."""
    bold = QFont(font)
    bold.setWeight(QFont.Weight.DemiBold)
    return QFontMetrics(bold).horizontalAdvance(caption.replace("&", ""))
