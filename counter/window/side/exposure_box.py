"""Exposure in front of a germicidal lamp, or the limits before one for UV-A or UV-B."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from counter.language import SpokenNumber, figure, marked, tr
from counter.window.outlines.facts import confidence_words
from counter.window.parts.words import Words
from counter.window.side.note_list import words_label
from counter.window.side.uv_curve import UvCurve

if TYPE_CHECKING:
    from counter.desk.notes import BandNote, LightNotes, LimitNote, UvcNote, UvRow
    from counter.window.parts.theme import Theme

EYES, EYES_AND_SKIN = marked("Eyes"), marked("Eyes and skin")
EFFECTIVE_TIP = marked(
    "Effective: each wavelength weighted by how much it harms. At 254 nm half of the energy counts."
)


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
        self.notes.setToolTip(tr(EFFECTIVE_TIP))
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.says)
        box.addLayout(self._grid)
        box.addWidget(self.curve)
        box.addWidget(self.notes)

    def show_light(self, notes: LightNotes) -> None:
        """Show UV-C, UV-A or UV-B, or hide."""
        band = notes.uva or notes.uvb
        self.setVisible(notes.uvc is not None or band is not None)
        self.curve.setVisible(notes.uvc is not None)
        if notes.uvc is not None:
            self._show_uvc(notes.uvc)
        elif band is not None:
            self._show_band(band)

    def _show_uvc(self, note: UvcNote) -> None:
        sure = confidence_words(note.confidence)
        self.says.setText(tr("Bare skin and eyes may reach the daily limit in:"))
        self._show_rows(note.rows)
        self.curve.show_curve(note)
        near = tr("Dashed: nearer than {near:.2g}\N{THIN SPACE}m the figure is not to be relied on.")
        is_near = note.near_field_limit_m > note.curve[0][0]
        output = tr(
            "Limit {limit:g}\N{THIN SPACE}J/m² effective; computed from {watts:g}\N{THIN SPACE}W of UV-C "
            "at 254\N{THIN SPACE}nm, the most that it may give ({sure})."
        ).format(limit=note.limit_j_m2, watts=SpokenNumber(note.uvc_watts), sure=sure)
        self.curve.setToolTip(near.format(near=SpokenNumber(note.near_field_limit_m)) if is_near else "")
        self.notes.setText("\n".join([output, *note.notes]))

    def _show_band(self, note: BandNote) -> None:
        name = "UV-A" if note.band == "uv-a" else "UV-B"
        says = tr("{band}: the daily limit is reached:")
        if note.watts is not None:
            says = tr("{band}: the daily limit is reached; computed from {watts:g}\N{THIN SPACE}W of {band}:")
        self.says.setText(says.format(band=name, watts=None if note.watts is None else SpokenNumber(note.watts)))
        limits = [(EYES, note.eye), (EYES_AND_SKIN, note.weighed)]
        found = [(words, limit) for words, limit in limits if limit is not None]
        rows: list[UvRow | str] = []
        for words, limit in found:
            rows += (tr(words), *limit.rows)
        self._show_rows(tuple(rows))
        told = [_limit_words(words, limit) for words, limit in found]
        unknown = [tr("Not known:"), *(f"· {one}" for one in note.not_known)] if note.not_known else []
        self.notes.setText("\n".join((*told, note.says, *note.notes, *unknown)))

    def _show_rows(self, rows: tuple[UvRow | str, ...]) -> None:
        """Show rows; one that is a word alone heads those below it."""
        while len(self.rows) < len(rows):
            self._add_row()
        for i, labels in enumerate(self.rows):
            for label in labels:
                label.setVisible(i < len(rows))
            if i < len(rows):
                for label, said in zip(labels, _columns(rows[i]), strict=True):
                    label.setText(said)

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


def _columns(row: UvRow | str) -> tuple[str, str, str]:
    if isinstance(row, str):
        return row, "", ""
    far = "" if row.distance_m is None else f"{figure(row.distance_m)}\N{THIN SPACE}m"
    says = row.says if row.valid else tr("{time}, rough: too near").format(time=row.says)
    return row.where, far, says


def _limit_words(words: str, limit: LimitNote) -> str:
    most = f"{tr(words)}: {thousands(limit.limit_j_m2)}\N{THIN SPACE}J/m²"
    sure = confidence_words(limit.confidence)
    if limit.weight is None:
        return tr("{most} of UV-A ({sure}).").format(most=most, sure=sure)
    weighed = tr("{most} effective; at {at:g}\N{THIN SPACE}nm {weight:.2g} of it counts ({sure}).")
    return weighed.format(most=most, at=limit.weighed_at_nm, weight=SpokenNumber(limit.weight), sure=sure)


def thousands(number: float) -> str:
    """Return a large number with thin spaces between thousands."""
    return f"{number:,.0f}".replace(",", "\N{THIN SPACE}")
