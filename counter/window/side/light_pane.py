"""The light of the lamp in hand: exposure, the UV-A limit, or its colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from counter.language import marked, tr
from counter.window.outlines.facts import lamp_title
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.where_from import WhereFrom
from counter.window.side.colour_box import ColourBox
from counter.window.side.exposure_box import ExposureBox
from counter.window.side.note_list import words_label

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.desk.notes import LightNotes
    from counter.window.parts.theme import Theme

NO_LAMP = marked("Once a lamp is likely, its light stands here: exposure for UV lamps, colour for others.")


class LightPane(ScrollColumn):
    """What is known of the light, and what is not."""

    def __init__(self, theme: Theme) -> None:
        super().__init__(tr("Light"), spacing=8)
        self.title, self.says = words_label(role="title"), words_label(role="quiet")
        self.exposure, self.colours = ExposureBox(theme), ColourBox(theme)
        self._catalogue: Catalogue | None = None
        self.where_from = WhereFrom()
        for widget in (self.title, self.says, self.colours, self.exposure, self.where_from.said):
            self.column.addWidget(widget)
        self.column.addWidget(self.where_from, 0, Qt.AlignmentFlag.AlignRight)
        self.column.addStretch(1)
        self.show_light(None)

    def build(self, catalogue: Catalogue) -> None:
        """Take the catalogue that lamps are named from."""
        self._catalogue = catalogue

    def show_light(self, notes: LightNotes | None) -> None:
        """Show the light of a lamp, or that there is none yet."""
        from counter.light import titles

        for box in (self.exposure, self.colours, self.title):
            box.setVisible(notes is not None)
        self.says.setText(tr(NO_LAMP) if notes is None else notes.says)
        self.says.setVisible(bool(self.says.text()))
        figures = notes and (notes.uvc or notes.uva or notes.uvb or notes.colour or notes.room)
        self.where_from.show_source("\n".join(titles(figures.sources)) if figures else "")
        if notes is not None:
            self.title.setText(self._title(notes))
            self.exposure.show_light(notes)
            self.colours.show_colours(notes)
        self.to_top()

    def _title(self, notes: LightNotes) -> str:
        assert self._catalogue is not None
        lamp = self._catalogue.lamp_by_id[notes.lamp]
        name = f"{lamp_title(lamp)}, {lamp.base}"
        return tr("Not sure yet. If it is the germicidal one, {name}:").format(name=name) if notes.is_doubt else name

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.exposure.set_theme(theme)
        self.colours.set_theme(theme)
