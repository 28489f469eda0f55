"""Where you stand: the shelf of families, what is told of one of them, and the mix-ups as pairs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.parts.calm import CalmCombo
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words
from counter.window.training.pairs_view import PairsView
from counter.window.training.shelf_view import ShelfView

if TYPE_CHECKING:
    from counter.outline import Drawing
    from counter.training import Row
    from counter.window.parts.theme import Theme
    from counter.window.training.pairs_view import Pair


class StandingPage(QWidget):
    """Filled by the room; emits a wish for other people's mix-ups, and for a lesson on a family."""

    pairs_wanted = Signal()
    lesson_wanted = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.shelf, self.pairs = ShelfView(theme), PairsView(theme)
        self.title, self.stands, self.told = Words(), Words(wraps=True), Words(wraps=True)
        self.bars = Words(wraps=True)
        self.learn, self.whose = QPushButton(), CalmCombo()
        self.whose.setMinimumHeight(TARGET)
        self.whose.setAccessibleName(tr("Whose answers"))
        self.family = ""
        self._row: Row | None = None
        self.shelf.picked.connect(self._tell)
        self.pairs.lesson_wanted.connect(self.lesson_wanted)
        self.learn.clicked.connect(lambda: self.lesson_wanted.emit(self.family))
        self.whose.activated.connect(self.pairs_wanted)
        self._lay_out()

    def _lay_out(self) -> None:
        self.title.set_role("title")
        for label in (self.stands, self.bars):
            label.set_role("quiet")
        shelf, pairs = ScrollColumn(tr("Shelf of base families")), ScrollColumn(tr("Mixed up"))
        shelf.column.addWidget(self.shelf)
        shelf.column.addStretch(1)
        pairs.column.addWidget(self.pairs)
        pairs.column.addStretch(1)
        foot = QHBoxLayout()
        foot.addWidget(self.told, 1)
        foot.addWidget(self.learn, 0, Qt.AlignmentFlag.AlignBottom)
        mixed = Words(tr("Mixed up"))
        mixed.set_role("title")
        head = QHBoxLayout()
        head.addWidget(mixed)
        head.addStretch(1)
        head.addWidget(self.whose)
        (one, left), (other, right) = _panel(self.title, self.stands), _panel()
        left.addWidget(shelf, 1)
        left.addLayout(foot)
        right.addLayout(head)
        right.addWidget(pairs, 1)
        right.addWidget(self.bars)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(one, 4)
        row.addWidget(other, 3)

    def show_standing(self, row: Row | None, drawings: dict[str, Drawing], bars: str) -> None:
        """Show somebody's shelf, when a family is ready, and whose mix-ups can be asked for; None is nobody."""
        self._row = row
        self.title.setText(tr("{name}'s shelf").format(name=row.name) if row else tr("Nobody is chosen"))
        self.stands.setText(stands_words(row) if row else "")
        self.bars.setText(bars)
        self.shelf.show_shelf(
            row.freshness if row else (), drawings, frozenset(row.ready if row else ()), self.family
        )
        at = self.whose.currentIndex()
        self.whose.clear()
        self.whose.addItems([row.name if row else tr("nobody"), tr("everybody here")])
        self.whose.setCurrentIndex(max(at, 0))
        self._tell(self.family or (row.freshness[0].family if row and row.freshness else ""))

    def _tell(self, family: str) -> None:
        """Tell more of one family, under the shelf."""
        from counter.training import tally_words

        self.family = family
        row = self._row
        standing = next((one for one in row.standings if one.family == family), None) if row else None
        kept = next((one for one in row.freshness if one.family == family), None) if row else None
        self.learn.setVisible(kept is not None)
        if standing is None or kept is None:
            self.told.setText("")
            return
        ready = tr("ready for the counter") if standing.is_ready else tr("not ready yet")
        self.told.setText(
            "\n".join(
                (
                    f"{family}: {kept.said}; {ready}",
                    tr("Bases, codes, looks: {tally}").format(tally=tally_words(standing.plain)),
                    tr("Ultraviolet, what goes together: {tally}").format(tally=tally_words(standing.critical)),
                )
            )
        )
        self.learn.setText(tr("Practise {family}").format(family=family))

    @property
    def is_for_all(self) -> bool:
        """Return whether everybody's mix-ups are asked for."""
        return self.whose.currentIndex() == 1

    def show_pairs(self, pairs: tuple[Pair, ...]) -> None:
        """Show mix-ups."""
        self.pairs.show_pairs(pairs)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for view in (self.shelf, self.pairs):
            view.set_theme(theme)


def stands_words(row: Row) -> str:
    """Say how much of a shelf is fresh, fading and gone, and what is ready for the counter."""
    counts = {state: len(row.families(state)) for state in ("fresh", "fading", "gone", "new")}
    words = tr("Of {all} families: {fresh} fresh, {fading} fading, {gone} gone, {new} not met yet.")
    ready = tr("Ready for the counter: {families}.").format(families=", ".join(row.ready) or tr("none yet"))
    return f"{words.format(all=len(row.freshness), **counts)} {ready}"


def _panel(*parts: QWidget) -> tuple[QFrame, QVBoxLayout]:
    panel = QFrame()
    panel.setProperty("panel", True)
    box = QVBoxLayout(panel)
    box.setContentsMargins(16, 12, 16, 12)
    box.setSpacing(8)
    for part in parts:
        box.addWidget(part, 0, Qt.AlignmentFlag.AlignTop)
    return panel, box
