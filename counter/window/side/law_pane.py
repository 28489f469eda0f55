"""Law and disposal where the shop is, and the steps for a broken lamp."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import day, marked, tr
from counter.window.outlines.facts import confidence_words
from counter.window.parts.calm import CalmCombo
from counter.window.parts.checked import show_checked
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.words import Words
from counter.window.side.note_list import Note, NoteList, words_label

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.desk.notes import LawNotes
    from counter.fit import LawNote

STEP_WORDS = {"before": marked("Before you touch it"), "during": marked("Clean up"), "after": marked("Afterwards")}
NOT_SET = marked("not set")
NOT_CHECKED = marked("Place not set: law not checked.")


class LawPane(QWidget):
    """The shop's place on top, then what ends when, then what to do with dead lamps."""

    place_chosen = Signal(str)
    broken_toggled = Signal(bool)

    def __init__(self) -> None:
        super().__init__()
        self.place = CalmCombo()
        self.place.setAccessibleName(tr("The shop's place"))
        self.broken = QPushButton(tr("Broken lamp"))
        self.broken.setCheckable(True)
        self.broken.setToolTip(tr("A lamp lies broken: what to do, step by step (Ctrl+B)"))
        self.says, self.check = words_label(), words_label(role="quiet")
        self.steps = NoteList(tr("A lamp lies broken"))
        self.rows = NoteList(tr("Selling it"))
        self.disposal = NoteList(tr("Dead lamps"))
        self.disposal_check = words_label(role="quiet")
        self.area = ScrollColumn(tr("Law"), spacing=8)
        self.place.activated.connect(lambda i: self.place_chosen.emit(self.place.itemData(i)))
        self.broken.toggled.connect(self.broken_toggled)
        self._sources: dict[str, str] = {}
        self._lay_out()

    def _lay_out(self) -> None:
        caption = Words(tr("Shop in"))
        caption.setBuddy(self.place)
        head = QHBoxLayout()
        head.setContentsMargins(0, 0, 6, 0)
        head.addWidget(caption)
        head.addWidget(self.place, 1)
        head.addWidget(self.broken)
        for widget in (self.steps, self.says, self.rows, self.check, self.disposal, self.disposal_check):
            self.area.column.addWidget(widget)
        self.area.column.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 6, 0, 0)
        box.setSpacing(6)
        box.addLayout(head)
        box.addWidget(self.area, 1)

    def build(self, catalogue: Catalogue) -> None:
        """Fill the places from the core."""
        from counter.fit import places  # pydantic comes with it; the first paint must not wait for that

        self._sources = {key: tr(source.title) for key, source in catalogue.source_by_key.items()}
        self.place.clear()
        self.place.addItem(tr(NOT_SET), "")
        for one in places(catalogue):
            self.place.addItem(one.name, one.id)

    def ask_for_place(self) -> None:
        """Put the keyboard on the shop's place and open its list."""
        self.place.setFocus()
        self.place.showPopup()

    def show_law(self, found: LawNotes, broken: bool) -> None:
        """Show law, disposal and, while a lamp lies broken, the steps first."""
        self.place.setCurrentIndex(max(self.place.findData(found.place or ""), 0))
        show_checked(self.broken, broken)
        self.steps.show_notes(tuple(self._steps(found)))
        self.says.setText(found.says if found.place else f"{tr(NOT_CHECKED)}\n{found.says}")
        self.says.setVisible(bool(found.says))
        self.rows.show_notes([self._row(row) for row in found.rows])
        self.check.setText(found.check)
        self.disposal.show_notes(
            [Note(one.title, one.text, tip=self._sources.get(one.source, one.source)) for one in found.disposal]
        )
        self.disposal_check.setText(found.disposal_check)
        self.area.to_top()

    def _row(self, row: LawNote) -> Note:
        note = f" {row.note}" if row.note else ""
        read = ""
        if row.read and row.who:
            read = " · " + tr("read on {day} by {who}").format(day=day(row.read), who=row.who)
        elif row.read:
            read = " · " + tr("read on {day}").format(day=day(row.read))
        quiet = f"{row.law} · {confidence_words(row.confidence)}{read}"
        return Note(row.says, note.strip(), quiet, self._sources.get(row.source, row.source))

    def _steps(self, found: LawNotes) -> Iterator[Note]:
        numbered = [(i + 1, step) for i, step in enumerate(found.broken)]
        for when, words in STEP_WORDS.items():
            steps = [(number, step) for number, step in numbered if step.when == when]
            if steps:
                source = steps[0][1].source
                lines = "\n".join(f"{number}. {step.step}" for number, step in steps)
                yield Note(tr(words), lines, tip=self._sources.get(source, source))
