"""Every key of the counter on one sheet, as the menu has them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QGridLayout

from counter.language import marked, tr
from counter.window.dialogs.sheet import ABOVE_TITLE_PX, Sheet
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtWidgets import QWidget

    from counter.window.commands import Command

OTHERS = (
    (marked("Alt and a letter"), marked("the look or field with that letter underlined")),
    (marked("1 to 9, 0"), marked("a picture of that look, can't tell")),
    (marked("Arrows"), marked("from picture to picture, outline to outline, part to part")),
    (marked("Esc"), marked("clears the filter; closes a sheet")),
    (marked("Tab"), marked("the next row or field")),
    (marked("Y, N, Delete"), marked("yes, no, not asked, in the fixture")),
)


def keys_sheet(parent: QWidget, commands: Iterable[Command]) -> Sheet:
    """Show all keys by menu."""
    sheet = Sheet(tr("Keys"), parent)
    rows: dict[str, list[tuple[str, str]]] = {}
    for one in commands:
        if one.keys:
            rows.setdefault(one.menu, []).append((tr(" or ").join(one.keys), one.words.rstrip(" …")))
    rows[marked("Everywhere")] = [(tr(keys), tr(what)) for keys, what in OTHERS]
    grid = QGridLayout()
    grid.setHorizontalSpacing(16)
    for title, lines in rows.items():
        head = Words(tr(title).replace("&", ""), "title")
        head.setContentsMargins(0, ABOVE_TITLE_PX, 0, 0)
        grid.addWidget(head, grid.rowCount(), 0, 1, 2)
        for at, (keys, what) in enumerate(lines, grid.rowCount()):
            grid.addWidget(Words(keys), at, 0)
            grid.addWidget(Words(what, wraps=True), at, 1)
    grid.setColumnStretch(1, 1)
    sheet.area.column.addLayout(grid)
    sheet.finish()
    return sheet
