"""Pictures side by side, as many in a row as there is room for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QSizePolicy, QWidget

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

GAP_PX = 3


class Tiles(QWidget):
    """Lays out children of one size from left to right and on to the next row; knows its height at a width."""

    def __init__(self, tiles: list[QWidget]) -> None:
        super().__init__()
        self._tiles = tiles
        for tile in tiles:
            tile.setParent(self)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def _across(self, width: int) -> int:
        return max((width + GAP_PX) // (self._tiles[0].width() + GAP_PX), 1)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        rows = -(-len(self._tiles) // self._across(width))
        return rows * (self._tiles[0].height() + GAP_PX) - GAP_PX

    def sizeHint(self) -> QSize:
        """Return one row of all of them, or of as many as a column of looks usually holds."""
        count = min(len(self._tiles), 6)
        width = count * (self._tiles[0].width() + GAP_PX) - GAP_PX
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        count = min(len(self._tiles), 3)
        return QSize(count * (self._tiles[0].width() + GAP_PX) - GAP_PX, self._tiles[0].height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        across = self._across(self.width())
        for at, tile in enumerate(self._tiles):
            tile.move(
                at % across * (tile.width() + GAP_PX),
                at // across * (tile.height() + GAP_PX),
            )
        super().resizeEvent(event)
