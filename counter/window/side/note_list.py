"""A list of short notes: a heading, a sentence, and quietly where it comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from counter.window.parts.where_from import WhereFrom
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Sequence


class Note(NamedTuple):
    """One note; an empty part takes no room. `tip` is the source in full."""

    head: str = ""
    text: str = ""
    quiet: str = ""
    tip: str = ""


class NoteRow(QWidget):
    """One note, shown."""

    def __init__(self) -> None:
        super().__init__()
        self.head, self.text, self.quiet = (words_label() for _ in range(3))
        self.head.set_role("title")
        self.quiet.set_role("quiet")
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(1)
        self.where_from = WhereFrom()
        top = QHBoxLayout()
        top.addWidget(self.head, 1)
        top.addWidget(self.where_from, 0, Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignRight)
        box.addLayout(top)
        for label in (self.text, self.quiet, self.where_from.said):
            box.addWidget(label)

    def show_note(self, note: Note) -> None:
        """Show a note."""
        for label, words in ((self.head, note.head), (self.text, note.text), (self.quiet, note.quiet)):
            label.setText(words)
            label.setVisible(bool(words))
        self.where_from.show_source(note.tip)


def words_label(words: str = "", role: str = "") -> Words:
    """Return a label for plain words that wrap; nothing in them is taken for markup."""
    return Words(words, role, wraps=True)


class NoteList(QWidget):
    """A heading and notes under it, hidden while there are none; rows are kept and filled again."""

    def __init__(self, title: str = "", spacing: int = 6) -> None:
        super().__init__()
        self.title = words_label(title, "title")
        if not title:  # shown before it has a parent, a widget is a window of its own and takes the keyboard
            self.title.hide()
        self.rows: list[NoteRow] = []
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(spacing)
        self._box.addWidget(self.title)
        self.setVisible(False)

    def show_notes(self, notes: Sequence[Note]) -> None:
        """Show these notes, or hide."""
        while len(self.rows) < len(notes):
            row = NoteRow()
            self.rows.append(row)
            self._box.addWidget(row)
        for i, row in enumerate(self.rows):
            row.setVisible(i < len(notes))
            if i < len(notes):
                row.show_note(notes[i])
        self.setVisible(bool(notes))
