"""Exposure in front of a germicidal lamp, or the limit before a blacklight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from counter.window.outlines.facts import CONFIDENCE_WORDS
from counter.window.parts.words import Words
from counter.window.side.note_list import words_label
from counter.window.side.uv_curve import UvCurve

if TYPE_CHECKING:
    from counter.desk.notes import LightNotes, UvaNote, UvcNote, UvRow
    from counter.window.parts.theme import Theme

EFFECTIVE_TIP = "Effective: each wavelength weighted by how much it harms. At 254 nm half of the energy counts."


class ExposureBox(QWidget):
    """A sentence, a row for each place, the curve, and what the figures leave out."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.says, self.notes = words_label(), words_label(role="quiet")
        self.curve = UvCurve(theme)
        self.rows: list[tuple[Words, Words, Words]] = []
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(2, 1)
        box = QVBoxLayout(self)
        self.notes.setToolTip(EFFECTIVE_TIP)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.says)
        box.addLayout(self._grid)
        box.addWidget(self.curve)
        box.addWidget(self.notes)

    def show_light(self, notes: LightNotes) -> None:
        """Show UV-C or UV-A, or hide."""
        self.setVisible(notes.uvc is not None or notes.uva is not None)
        self.curve.setVisible(notes.uvc is not None)
        if notes.uvc is not None:
            self._show_uvc(notes.uvc)
        elif notes.uva is not None:
            self._show_uva(notes.uva)

    def _show_uvc(self, note: UvcNote) -> None:
        sure = CONFIDENCE_WORDS.get(note.confidence, note.confidence)
        self.says.setText("Bare skin and eyes reach the daily limit in:")
        self._show_rows(note.rows)
        self.curve.show_curve(note)
        near = f"Dashed: nearer than {note.near_field_limit_m:.2g}\N{THIN SPACE}m the figure is not to be relied on."
        is_near = note.near_field_limit_m > note.curve[0][0]
        output = (
            f"Limit {note.limit_j_m2:g}\N{THIN SPACE}J/m² effective; "
            f"computed from {note.uvc_watts:g}\N{THIN SPACE}W of UV-C at 254\N{THIN SPACE}nm ({sure})."
        )
        said = (one for one in note.notes if "twice the arc" not in one)
        self.notes.setText("\n".join([output, *([near] if is_near else []), *said]))

    def _show_uva(self, note: UvaNote) -> None:
        sure = CONFIDENCE_WORDS.get(note.confidence, note.confidence)
        limit = f"{thousands(note.limit_j_m2)}\N{THIN SPACE}J/m²"
        self.says.setText(f"UV-A, for eyes: at most {limit} in a day ({sure}). It is reached:")
        self._show_rows(note.rows)
        self.notes.setText("\n".join(["Not known:", *(f"· {one}" for one in note.not_known)]))

    def _show_rows(self, rows: tuple[UvRow, ...]) -> None:
        while len(self.rows) < len(rows):
            self._add_row()
        for i, labels in enumerate(self.rows):
            for label in labels:
                label.setVisible(i < len(rows))
            if i < len(rows):
                row = rows[i]
                labels[0].setText(row.where)
                labels[1].setText("" if row.distance_m is None else f"{row.distance_m:g}\N{THIN SPACE}m")
                labels[2].setText(row.says + ("" if row.valid else ", rough: too near"))

    def _add_row(self) -> None:
        labels = (Words(), Words(), Words(role="title"))
        labels[1].setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        for column, label in enumerate(labels):
            self._grid.addWidget(label, len(self.rows), column)
        self.rows.append(labels)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.curve.theme = theme
        self.curve.update()


def thousands(number: float) -> str:
    """Return a large number with thin spaces between thousands."""
    return f"{number:,.0f}".replace(",", "\N{THIN SPACE}")
