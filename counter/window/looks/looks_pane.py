"""In your hand: every look as a row of pictures or a field, the next one worth taking marked with why."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from counter.window.looks.look_row import LookRow
from counter.window.looks.measure_field import MeasureField
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue, Look
    from counter.identify import NextLook
    from counter.window.parts.theme import Theme

# Alt and this letter go to the look: a letter of its name that nothing else in the window uses.
LETTERS = {
    "legs": "G",
    "pins": "P",
    "block": "R",
    "arrangement": "A",
    "notch": "N",
    "glass": "C",
    "watts": "W",
    "pin_spacing_mm": "S",
    "tube_mm": "T",
    "length_mm": "L",
}
SIDE_BY_SIDE = (("legs",), ("pins", "block"), ("arrangement",), ("notch",), ("glass", "watts"))


class LooksPane(QFrame):
    """Shows the looks of a case and asks for changes: key and typed or chosen value."""

    answered = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.rows: dict[str, LookRow | MeasureField] = {}
        self.title = Words("In your hand")
        self.title.set_role("title")
        self.advice = Words("Look at the glass first.")
        self.advice.setWordWrap(True)
        self.advice.setFixedHeight(3 * self.advice.fontMetrics().lineSpacing())  # the longest advice
        self.advice.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.problem = Words(wraps=True)
        self.problem.set_role("title")
        self.problem.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.problem.setFixedHeight(self.advice.height())
        self.problem.setVisible(False)
        self._problems: dict[str, str] = {}
        self.taken = Words()
        self.taken.set_role("quiet")
        self._taken = ""
        self._inside = QWidget()
        self._box = QVBoxLayout(self._inside)
        self._box.setContentsMargins(0, 0, 6, 0)
        self._box.setSpacing(3)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(self._inside)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(8, 8, 4, 8)
        outer.setSpacing(4)
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addStretch(1)
        head.addWidget(self.taken)
        outer.addLayout(head)
        outer.addWidget(self.advice)
        outer.addWidget(self.problem)
        outer.addWidget(scroll, 1)

    def build(self, catalogue: Catalogue, theme: Theme) -> None:
        """Make the rows from the catalogue's looks; a look this pane has no place for gets a row of its own."""
        placed = {key for keys in SIDE_BY_SIDE for key in keys}
        for keys in SIDE_BY_SIDE:
            self._add_line([catalogue.look_by_key[key] for key in keys if key in catalogue.look_by_key], theme)
        for look in catalogue.looks:
            if look.key not in placed and not look.is_measured:
                self._add_line([look], theme)
        self._add_line([look for look in catalogue.looks if look.is_measured], theme)
        self._box.addStretch(1)
        self._order_fields()

    def _order_fields(self) -> None:
        """Let Tab go from field to field, as sizes are typed, and to their buttons after the last."""
        fields = [row for row in self.rows.values() if isinstance(row, MeasureField)]
        order = [*(row.field for row in fields), *(row.cannot for row in fields)]
        for one, other in pairwise(order):
            self.setTabOrder(one, other)

    def _add_line(self, looks: list[Look], theme: Theme) -> None:
        line = QHBoxLayout()
        line.setSpacing(12)
        for look in looks:
            row = self._row(look, theme)
            row.answered.connect(self.answered)
            self.rows[look.key] = row
            line.addWidget(row, 0 if isinstance(row, LookRow) and len(looks) > 1 else 1, Qt.AlignmentFlag.AlignTop)
        if all(isinstance(self.rows[look.key], LookRow) for look in looks):
            line.addStretch(1)
        self._box.addLayout(line)

    def _row(self, look: Look, theme: Theme) -> LookRow | MeasureField:
        letter = LETTERS.get(look.key, "")
        if look.is_measured or look.key == "watts":
            return MeasureField(look, letter)
        return LookRow(look, theme, letter)

    def show_looks(self, looks: Mapping[str, str | float], nexts: tuple[NextLook, ...], advice: str) -> None:
        """Show the case's answers and which look is worth taking next."""
        first = nexts[0].look if nexts else ""
        for key, row in self.rows.items():
            value = looks.get(key)
            if isinstance(row, LookRow):
                row.show_answer(None if value is None else str(value))
            else:
                row.show_answer(value)
            row.mark_next(key == first)
        self.advice.setText(advice)
        self.taken.setText(self._taken)
        self._taken = ""

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
        standing = next(reversed(self._problems.values()), "")
        self.problem.setText(standing)
        self.problem.setToolTip(standing)
        self.problem.setVisible(bool(standing))
        self.advice.setVisible(not standing)

    def say_taken(self, words: str) -> None:
        """Say with the next assessment how a typed size was taken."""
        self._taken = words

    def clear(self) -> None:
        """Empty all fields for the next customer."""
        self._problems.clear()
        self._taken = ""
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
