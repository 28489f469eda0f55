"""What the log holds beside slips: what was asked for and not there, and what came back with its reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QSplitter, QVBoxLayout, QWidget

from counter.language import figure, marked, tr
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Catalogue
    from counter.shop import Return, Wish

REASONS = {
    "wrong base": marked("wrong base"),
    "wrong watts": marked("wrong watts"),
    "wrong colour": marked("wrong colour"),
    "wrong length": marked("wrong length"),
    "does not light": marked("does not light"),
    "arrived broken": marked("arrived broken"),
    "not needed": marked("not needed"),
    "other": marked("another reason"),
}


def lamp_words(catalogue: Catalogue, lamp: str | None) -> str:
    """Return how a lamp type is called at the counter; one that the catalogue no longer has, as it was kept."""
    known = catalogue.lamp_by_id.get(lamp or "")
    if known is None:
        return lamp or ""
    kind = "" if known.kind == "fluorescent" else f" {known.kind.upper()}"
    return f"{known.base} {figure(known.watts.value)}\N{THIN SPACE}W{kind}"


class Happened(QSplitter):
    """Two lists, newest first."""

    def __init__(self, catalogue: Catalogue) -> None:
        super().__init__(Qt.Orientation.Vertical)
        self.catalogue = catalogue
        self.asked, self.back = QListWidget(), QListWidget()
        for title, rows in ((tr("Wanted, out of stock"), self.asked), (tr("Came back"), self.back)):
            rows.setAccessibleName(title)
            rows.setWordWrap(True)
            part = QWidget()
            box = QVBoxLayout(part)
            box.addWidget(Words(title, "title"))
            box.addWidget(rows, 1)
            self.addWidget(part)

    def show_asked(self, found: Sequence[Wish]) -> None:
        """Show what was asked for and not there."""
        words = tr("{day}   {count} × {text}")
        _fill(self.asked, (words.format(day=one.day, count=one.quantity, text=one.text) for one in found))

    def show_back(self, found: Sequence[Return]) -> None:
        """Show what came back, and which lamp it should have been."""
        _fill(self.back, map(self._returned, found))

    def _returned(self, one: Return) -> str:
        slip = tr("slip {number}").format(number=one.number) if one.number is not None else ""
        lamp, right = (lamp_words(self.catalogue, which) for which in (one.lamp, one.right_lamp))
        should = tr("should have been {lamp}").format(lamp=right) if right else ""
        return "   ".join(filter(None, (one.day, slip, lamp, tr(REASONS[one.reason]), should)))


def _fill(rows: QListWidget, lines: Iterable[str]) -> None:
    rows.clear()
    rows.addItems(list(lines) or [tr("nothing yet")])
