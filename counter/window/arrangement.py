"""Where the panes stand: three columns, or four where the screen is wide; what does not fit can be scrolled to.

Before the window is awake there are the answer bar, the outlines and empty panels in the places of the rest.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtWidgets import QScrollArea, QSplitter, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.parts import early
from counter.window.parts.panel import Panel
from counter.window.parts.sizes import ems

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import QSettings
    from PySide6.QtGui import QResizeEvent

    from counter.window.answer_bar import AnswerBar
    from counter.window.fixture.fixture_pane import FixturePane
    from counter.window.looks.looks_pane import LooksPane
    from counter.window.marks.marks_pane import MarksPane
    from counter.window.outlines.detail_pane import DetailPane
    from counter.window.outlines.outline_grid import OutlineGrid
    from counter.window.side.side_tabs import SideTabs

WIDE_FROM_PX = 1800
WIDE_FROM_EMS = 200  # and so many letters: with large ones four columns are too narrow
THREE_EMS, TWO_EMS = 114, 72  # letters across from which three columns, or two, have room beside each other
GAP = 8
LOOKS_PX = 330
NARROW_PX = 1200
MARKS_PX = 252
_NUMBER = re.compile(r"-?[0-9]{1,6}")  # of pixels; a longer one fits no rectangle of Qt
MOST_PX = 20_000  # no splitter is longer; a damaged file may say anything


Widths = dict[str, list[int]]


class Panes(NamedTuple):
    """What stands in the places once the window is awake."""

    looks: LooksPane
    detail: DetailPane
    marks: MarksPane
    fixture: FixturePane
    side: SideTabs


class Arrangement(QWidget):
    """Keeps the panes in their places, and the hand's own sizes of them between two days."""

    def __init__(self, answer: AnswerBar, grid: OutlineGrid) -> None:
        super().__init__()
        self.panes: Panes | None = None
        self.columns = 3
        self._folded: dict[QWidget, QWidget] = {}  # what stands among the tabs on the right, and the page it is on
        self._is_own = False  # whether a hand has set the widths
        self._grid = grid
        left, below, right, lower = (Panel() for _ in range(4))
        left.setMinimumWidth(LOOKS_PX)
        self.middle = _splitter(grid, below, sizes=(340, 356), upright=True)
        # Marks keep their height whatever they say, or everything under them would jump at each character.
        self.column = _splitter(right, lower, sizes=(MARKS_PX, 440), upright=True)
        self.column.setStretchFactor(1, 1)
        self.across = _splitter(left, self.middle, self.column, sizes=(344, 590, 372))
        self.across.setStretchFactor(1, 1)
        self.across.splitterMoved.connect(self._own)
        self._whole = QScrollArea()  # for letters so large that the columns outgrow the screen
        self._whole.setWidgetResizable(True)
        self._whole.setProperty("frameShape", early.NO_FRAME)
        self._whole.setProperty("focusPolicy", early.NO_FOCUS)
        self._whole.setWidget(self.across)
        self._box = box = QVBoxLayout(self)
        box.setContentsMargins(GAP, GAP, GAP, GAP)
        box.setSpacing(GAP)
        box.addWidget(answer)
        box.addWidget(self._whole, 1)

    def add_foot(self, line: QWidget) -> None:
        """Let a line stand below everything."""
        self._box.addWidget(line)

    def fill(self, panes: Panes) -> None:
        """Put the panes in the places kept for them."""
        self.panes = panes
        self._lower = QWidget()  # replaceWidget takes no ownership: a local one would be deleted with its panes
        self._lower_box = QVBoxLayout(self._lower)
        self._lower_box.setContentsMargins(0, 0, 0, 0)
        self._lower_box.setSpacing(GAP)
        self._lower_box.addWidget(panes.fixture)
        self._lower_box.addWidget(panes.side, 1)
        for splitter, at, pane in (
            (self.across, 0, panes.looks),
            (self.middle, 1, panes.detail),
            (self.column, 0, panes.marks),
            (self.column, 1, self._lower),
        ):
            sizes = splitter.sizes()
            frame = splitter.replaceWidget(at, pane)
            splitter.setSizes(sizes)
            if frame is not None:
                frame.deleteLater()
        self.column.setStretchFactor(1, 1)
        panes.fixture.more.toggled.connect(self._make_room)
        self._spread()
        self._arrange()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not self._is_own:
            self._spread()
        self._arrange()

    def _own(self) -> None:
        self._is_own = True

    def _arrange(self) -> None:
        """Take a fourth column where there is room for it: cautions, and instead beside them."""
        if self.panes is None or (columns := self._columns()) == self.columns:
            return
        was_wide, self.columns = self.is_wide, columns
        side = self.panes.side
        if was_wide:
            self._lower_box.takeAt(self._lower_box.count() - 1)  # the stretch
            self._lower_box.addWidget(side, 1)
            side.set_wide(False)
        self._fold(self.panes)
        if self.is_wide:
            self.across.addWidget(side)
            self._lower_box.addStretch(1)
            self.column.setSizes([self.height() // 2, self.height() // 2])
            side.set_wide(True)
        side.setVisible(True)
        self._grid.set_fitting(self.is_wide)
        self._spread()

    @property
    def is_wide(self) -> bool:
        """Whether what may go in instead has a column of its own."""
        return self.columns == 4

    def _columns(self) -> int:
        """Return how many columns there is room for, by the letters in use."""
        letters = self.width() / ems(self.font(), 1)
        if self.width() >= WIDE_FROM_PX and letters >= WIDE_FROM_EMS:
            return 4
        return 3 if letters >= THREE_EMS else 2 if letters >= TWO_EMS else 1

    def _fold(self, panes: Panes) -> None:
        """Let what has no column of its own stand among the tabs on the right, and bring back what has one again."""
        places: tuple[tuple[QWidget, int, str, Callable[[], None]], ...] = (
            (panes.looks, 2, tr("In your hand"), lambda: self.across.insertWidget(0, panes.looks)),
            (self.middle, 3, tr("Outlines"), lambda: self.across.insertWidget(1, self.middle)),
            (panes.fixture, 3, tr("Fixture"), lambda: self._lower_box.insertWidget(0, panes.fixture)),
        )
        for pane, least, name, put_back in places:
            if self.columns < least and pane not in self._folded:
                self._folded[pane] = panes.side.take_in(pane, name, is_first=pane is panes.looks)
            elif self.columns >= least and pane in self._folded:
                put_back()
                pane.show()
                panes.side.take_out(self._folded.pop(pane))

    def _spread(self) -> None:
        width = self.width()
        if self.is_wide:
            looks, column = min(max(width // 6, 344), 420), min(max(width // 5, 380), 440)
            side = min(max(width * 3 // 10, 560), 760)
            self.across.setSizes([looks, width - looks - column - side, column, side])
        elif self.columns == 2:
            self.across.setSizes([width * 2 // 5, width * 3 // 5])
        elif self.columns == 3:
            column = 330 if width < NARROW_PX else 380
            self.across.setSizes([344, width - 344 - column, column])
            marks = min(MARKS_PX, self.height() * 3 // 10)
            self.column.setSizes([marks, self.height() - marks])

    def _make_room(self, is_open: bool) -> None:
        """Let the marks give way to the fixture's further fields, so that the cautions keep theirs."""
        if self.panes is None or self.columns != 3:
            return
        marks, lower = self.column.sizes()
        if is_open:
            self._marks_before = marks
            least = self.panes.marks.minimumSizeHint().height()
            self.column.setSizes([least, marks + lower - least])
        else:
            before = getattr(self, "_marks_before", marks)
            self.column.setSizes([before, marks + lower - before])

    # -- between two languages

    def widths(self) -> Widths:
        """Return the sizes that a hand has set, if one has."""
        return {name: splitter.sizes() for name, splitter in self._splitters()} if self._is_own else {}

    def take_widths(self, widths: Widths) -> None:
        """Stand as before."""
        self._is_own = bool(widths)
        for name, splitter in self._splitters():
            if name in widths:
                splitter.setSizes(widths[name])

    # -- between two days

    def _splitters(self) -> tuple[tuple[str, QSplitter], ...]:
        mode = "wide-" if self.is_wide else "" if self.columns == 3 else f"{self.columns}-"
        named = (("across", self.across), ("middle", self.middle), ("column", self.column))
        return tuple((f"{mode}{name}", splitter) for name, splitter in named)

    def restore(self, settings: QSettings) -> None:
        """Give every pane the size it had; what is not a list of sizes is left out."""
        for name, splitter in self._splitters():
            sizes = numbers(settings.value(f"sizes/{name}"))
            if len(sizes) == splitter.count() and all(0 < size < MOST_PX for size in sizes):
                splitter.setSizes(sizes)
                self._is_own = True

    def save(self, settings: QSettings) -> None:
        """Keep the size of every pane."""
        for name, splitter in self._splitters():
            settings.setValue(f"sizes/{name}", " ".join(map(str, splitter.sizes())))


def numbers(text: object) -> list[int]:
    """Return whole numbers from a line of a settings file; nothing from anything else."""
    if not isinstance(text, str):
        return []
    words = text.split()
    return [int(word) for word in words] if all(_NUMBER.fullmatch(word) for word in words) else []


def _splitter(*widgets: QWidget, sizes: tuple[int, ...], upright: bool = False) -> QSplitter:
    splitter = QSplitter()
    if upright:
        splitter.setProperty("orientation", early.VERTICAL)
    for widget in widgets:
        splitter.addWidget(widget)
    splitter.setHandleWidth(GAP)
    splitter.setChildrenCollapsible(False)
    splitter.setSizes(sizes)
    return splitter
