"""In your hand: every look as a row of pictures or a field, the next one worth taking marked with why."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.looks.look_row import LookRow
from counter.window.looks.measure_field import MeasureField
from counter.window.looks.picture_button import tile_size
from counter.window.looks.tiles import GAP_PX
from counter.window.looks.unit_question import UnitQuestion
from counter.window.parts.fitted import WRAPS, FittedWords
from counter.window.parts.sizes import high
from counter.window.parts.words import Words, caption

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtCore import QObject
    from PySide6.QtGui import QResizeEvent

    from counter.catalogue import Catalogue, Look
    from counter.desk import Case
    from counter.identify import NextLook, UnitDoubt
    from counter.window.parts.theme import Theme

# The names of the catalogue's looks with the letter that goes there with Alt; nothing else in the window uses it.
LETTERED = {
    "legs": marked("Le&gs"),
    "pins": marked("&Pins"),
    "block": marked("Cent&re"),
    "body": marked("Base &form"),
    "arrangement": marked("Pin p&attern"),
    "notch": marked("&Notches"),
    "glass": marked("Glass &colour"),
    "watts": marked("&Watts"),
    "pin_spacing_mm": marked("Pin &spacing"),
    "tube_mm": marked("&Tube width"),
    "length_mm": marked("&Length"),
}
ABOVE = (("legs",), ("pins",), ("arrangement",), ("notch",), ("block", "body"))
ALWAYS_IN_REACH = ("glass", "watts")  # below what may have to be scrolled, with the sizes
ADVICE_LINES, ADVICE_LINES_LARGE = 3, 2
ROWS_BESIDE = 1.6  # of pictures that must be in view above glass and sizes, or these go on top and scroll with them
SCROLL_BAR_PX, EDGE_PX, LEAST_PX = 16, 4, 60
ACROSS, ACROSS_LARGE, LARGE_TILE_PX = 6, 3, 64  # pictures in a row, and from which width on they are fewer


class LooksPane(QFrame):
    """Shows the looks of a case and asks for changes: key and typed or chosen value."""

    answered = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.rows: dict[str, LookRow | MeasureField] = {}
        self.title = Words(tr("In your hand"), "title")
        self.advice = FittedWords(ADVICE_LINES, 100)
        self.problem = FittedWords(ADVICE_LINES, 100)
        self.problem.set_role("title")
        for words in (self.advice, self.problem):
            words.most = 1.0
            words.flags = WRAPS
        self.problem.setVisible(False)
        self.question = UnitQuestion()
        self.question.answered.connect(self.answered)
        self._problems: dict[str, str] = {}
        self.taken = Words(role="quiet")
        self._labels: dict[str, str] = {}
        self._tile_px = LARGE_TILE_PX
        self._inside, self._foot = QWidget(), QWidget()
        self._box, self._foot_box = QVBoxLayout(self._inside), QVBoxLayout(self._foot)
        for box in (self._box, self._foot_box):
            box.setContentsMargins(0, 0, 0, 0)
            box.setSpacing(3)
        self._lay_out()

    def _lay_out(self) -> None:
        self._scroll = scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setMinimumHeight(LEAST_PX)
        scroll.setWidget(self._inside)
        self._inside.installEventFilter(self)
        outer = self._outer = QVBoxLayout(self)
        outer.setContentsMargins(8, 6, EDGE_PX, 6)
        outer.setSpacing(3)
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addStretch(1)
        head.addWidget(self.taken)
        outer.addLayout(head)
        for one in (self.advice, self.problem, self.question):
            outer.addWidget(one)
        outer.addWidget(scroll, 1)
        outer.addWidget(self._foot)
        outer.addStretch(0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:  # rows count once shown: after the first size
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        """Let the pictures take no more height than they need: glass and sizes follow them on a high screen too."""
        beside = self.height() - self._scroll.y() - self._foot.sizeHint().height() - 4 * EDGE_PX
        self._pin_foot(beside >= ROWS_BESIDE * self._tile_px)
        across = self.width() - self._scroll.x() - EDGE_PX
        self._scroll.setMaximumHeight(max(self._box.heightForWidth(across), LEAST_PX))

    def _pin_foot(self, on: bool) -> None:
        """Keep glass and sizes in view below the pictures; where that leaves these none, first of what scrolls."""
        is_pinned = self._outer.indexOf(self._foot) >= 0
        if on and not is_pinned:
            self._outer.insertWidget(self._outer.indexOf(self._scroll) + 1, self._foot)
        elif is_pinned and not on:
            self._box.insertWidget(0, self._foot)

    def build(self, catalogue: Catalogue, theme: Theme) -> None:
        """Make the rows from the catalogue's looks; a look this pane has no place for gets a row of its own."""
        self._labels = {look.key: tr(look.label) for look in catalogue.looks}
        tile = _tile(catalogue, self)
        is_large = tile.width() > LARGE_TILE_PX
        placed = {key for keys in (*ABOVE, ALWAYS_IN_REACH) for key in keys}
        others = tuple((look.key,) for look in catalogue.looks if look.key not in placed and not look.is_measured)
        sizes = tuple(look.key for look in catalogue.looks if look.is_measured)
        for keys in (*ABOVE, *others):
            looks = [catalogue.look_by_key[key] for key in keys if key in catalogue.look_by_key]
            for line in [[look] for look in looks] if is_large else [looks]:
                self._add_line(self._box, line, theme, tile)
        glass, watts = ALWAYS_IN_REACH
        reach = ((glass,), (watts, sizes[0]), sizes[1:]) if is_large else (ALWAYS_IN_REACH, sizes)
        for keys in reach:
            self._add_line(self._foot_box, [catalogue.look_by_key[key] for key in keys], theme, tile)
        self._box.addStretch(1)
        across = ACROSS_LARGE if is_large else ACROSS
        least = max(across * (tile.width() + GAP_PX), self._foot.minimumSizeHint().width())
        self._scroll.setMinimumWidth(least + SCROLL_BAR_PX)
        for words in (self.advice, self.problem, self.question):
            words.setFixedHeight(high(self.font(), ADVICE_LINES_LARGE if is_large else ADVICE_LINES))
        self._tile_px = tile.height()
        self._fit()
        self._order_fields()

    def _order_fields(self) -> None:
        """Let Tab go from field to field, as sizes are typed, and to their buttons after the last."""
        fields = [row for row in self.rows.values() if isinstance(row, MeasureField)]
        order = [*(row.field for row in fields), *(row.cannot for row in fields)]
        for one, other in pairwise(order):
            self.setTabOrder(one, other)

    def _add_line(self, box: QVBoxLayout, looks: list[Look], theme: Theme, tile: QSize) -> None:
        line = QHBoxLayout()
        line.setSpacing(3 if all(not look.is_measured for look in looks) else 8)
        for look in looks:
            row = self._row(look, theme)
            row.answered.connect(self.answered)
            self.rows[look.key] = row
            if isinstance(row, LookRow):
                row.set_tile(tile)
            share = len(row.tiles) if isinstance(row, LookRow) else 2
            line.addWidget(row, share, Qt.AlignmentFlag.AlignTop)
        box.addLayout(line)

    def _row(self, look: Look, theme: Theme) -> LookRow | MeasureField:
        name = tr(LETTERED[look.key]) if look.key in LETTERED else caption(tr(look.label))
        if look.is_measured or look.key == "watts":
            return MeasureField(look, name)
        return LookRow(look, theme, name)

    def show_looks(
        self, case: Case, nexts: tuple[NextLook, ...], advice: str, doubts: tuple[UnitDoubt, ...] = ()
    ) -> None:
        """Show the case's answers, which look is worth taking next, and which number wants its unit."""
        first = nexts[0].look if nexts else ""
        for key, row in self.rows.items():
            value = case.looks.get(key)
            if isinstance(row, LookRow):
                row.show_answer(None if value is None else str(value))
            else:
                row.show_answer(value, case.typed[key].text if key in case.typed else "")
            row.mark_next(key == first)
        self.advice.setText(advice)
        self.taken.setText("")
        doubt = doubts[0] if doubts else None
        self.question.show_doubt(doubt, self._labels[doubt.look] if doubt is not None else "")
        self._show_top()

    def show_units(self, units: str) -> None:
        """Say in each field what a bare number is taken as."""
        for row in self.rows.values():
            if isinstance(row, MeasureField):
                row.show_units(units)

    def show_problem(self, key: str, words: str) -> None:
        """Say why the text in a field could not be read; empty words clear it.

        The words take the place of the advice, so that no row moves; what stands in another field stays said.
        """
        row = self.rows.get(key)
        if isinstance(row, MeasureField):
            row.show_problem(words)
        self._problems.pop("", None)
        self._problems.pop(key, None)
        if words:
            self._problems[key] = words
            self.taken.setText("")
        self.problem.setText(next(reversed(self._problems.values()), ""))
        self._show_top()

    def _show_top(self) -> None:
        """Show the gravest of what may stand on top: a number to be asked about, a problem, the advice."""
        is_asked, is_wrong = self.question.doubt is not None, bool(self.problem.text())
        self.question.setVisible(is_asked)
        self.problem.setVisible(is_wrong and not is_asked)
        self.advice.setVisible(not is_wrong and not is_asked)

    def say_taken(self, words: str) -> None:
        """Say how a typed size was taken."""
        self.taken.setText(words)

    def clear(self) -> None:
        """Empty all fields for the next customer."""
        self._problems.clear()
        self._scroll.verticalScrollBar().setValue(0)
        self.show_problem("", "")
        for row in self.rows.values():
            if isinstance(row, MeasureField):
                row.clear()

    def go_to(self, key: str) -> None:
        """Put the keyboard on one look."""
        if key in self.rows:
            self.rows[key].take_focus()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for row in self.rows.values():
            if isinstance(row, LookRow):
                row.set_theme(theme)


def _tile(catalogue: Catalogue, pane: QWidget) -> QSize:
    """Return the size of all pictures: that of the one with the longest words."""
    labels: Iterable[str] = (
        tr(value.label) for look in catalogue.looks if look.key != "watts" for value in look.values
    )
    return tile_size(pane.font(), [*labels, tr("can't tell")])
