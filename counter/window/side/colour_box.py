"""The colour of the lamp and of the room side by side, and the colours that go with them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from counter.language import figure, marked, tr
from counter.window.outlines.facts import confidence_words
from counter.window.parts.swatch import Swatch
from counter.window.parts.words import Words
from counter.window.side.note_list import words_label

if TYPE_CHECKING:
    from counter.desk.notes import ColourMatch, ColourNote, LightNotes
    from counter.window.parts.theme import Theme

LARGE, SMALL = QSize(72, 44), QSize(28, 18)
MIRED_TIP = marked(
    "Mired: one million divided by the kelvins. Equal steps look about equally far apart; about 5 is just seen."
)
RA_TIP = marked("Ra: how true colours look under it, at most 100.")
SCREEN_TIP = marked(
    "As a white card in its light looks to an eye used to a shop's 4000 K. A screen can only come near."
)


class ColourCard(QWidget):
    """One white: field, name, and its numbers."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.swatch = Swatch(theme, LARGE)
        self.swatch.setToolTip(tr(SCREEN_TIP))
        self.name, self.numbers = words_label(role="title"), words_label()
        self.numbers.setToolTip(f"{tr(RA_TIP)}\n{tr(MIRED_TIP)}")
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self.name)
        words.addWidget(self.numbers)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.swatch)
        row.addLayout(words, 1)

    def show_colour(self, whose: str, note: ColourNote | None) -> None:
        """Show a white, or hide."""
        self.setVisible(note is not None)
        if note is None:
            return
        self.swatch.show_colour(note.srgb, note.name)
        self.name.setText(f"{whose}: {note.name}")
        self.numbers.setText(numbers_of(note))
        self.setToolTip(f"x {figure(note.x, '.3f')}, y {figure(note.y, '.3f')} · {confidence_words(note.confidence)}")


def numbers_of(note: ColourNote) -> str:
    """Return the numbers of a white in one line."""
    rendering = (
        tr("Ra {least} to {most}").format(least=note.cri_min, most=note.cri_max) if note.cri_min is not None else ""
    )
    kelvin = "" if note.name.endswith("K") else f"{note.cct_k}\N{THIN SPACE}K"
    return " · ".join(one for one in (kelvin, tr("{mired:.0f} mired").format(mired=note.mired), rendering) if one)


class ColourBox(QWidget):
    """Lamp, room, and the usual colours with how far each is from the room (or from the lamp)."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.lamp, self.room = ColourCard(theme), ColourCard(theme)
        self.title = words_label(role="title")
        self.title.setToolTip(tr(MIRED_TIP))
        self.rows: list[tuple[Swatch, tuple[Words, Words, Words]]] = []
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(3, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        for widget in (self.lamp, self.room, self.title):
            box.addWidget(widget)
        box.addLayout(self._grid)

    def show_colours(self, notes: LightNotes) -> None:
        """Show the colours, or hide where there are none."""
        self.setVisible(notes.colour is not None or notes.room is not None)
        self.lamp.show_colour(tr("This lamp"), notes.colour)
        self.room.show_colour(tr("The room"), notes.room)
        self.title.setText(tr("What goes with the room") if notes.room else tr("Close in colour"))
        while len(self.rows) < len(notes.matches):
            self._add_row()
        for i, (swatch, labels) in enumerate(self.rows):
            for widget in (swatch, *labels):
                widget.setVisible(i < len(notes.matches))
            if i < len(notes.matches):
                _show_match(swatch, labels, notes.matches[i])

    def _add_row(self) -> None:
        swatch, labels = Swatch(self.theme, SMALL), (Words(), Words(), Words())
        labels[1].setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        labels[1].setToolTip(tr(MIRED_TIP))
        at = len(self.rows)
        for column, widget in enumerate((swatch, *labels)):
            self._grid.addWidget(widget, at, column)
        self.rows.append((swatch, labels))

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for swatch in (self.lamp.swatch, self.room.swatch, *(row[0] for row in self.rows)):
            swatch.theme = theme
            swatch.update()


def _show_match(swatch: Swatch, labels: tuple[Words, Words, Words], match: ColourMatch) -> None:
    swatch.show_colour(match.srgb, match.code)
    labels[0].setText(match.code)
    labels[1].setText(tr("{mired:.0f} mired").format(mired=match.difference_mired))
    labels[2].setText(tr(match.word))
