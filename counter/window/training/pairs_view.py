"""What is mixed up with what: pairs of drawn bases, and what is no base in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.outlines.drawing_view import Sketch
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.outline import Drawing
    from counter.window.parts.theme import Theme

SKETCH_PX = (86, 64)


class Pair(NamedTuple):
    """One mix-up: what was right and what was said, in words and, where they are bases, drawn."""

    words: str
    times: str
    tell: str  # how to tell them apart; "" where the words say it all
    about: str  # what a lesson on it is about; "" for none
    drawings: tuple[Drawing, Drawing] | None = None


class PairRow(QFrame):
    """Two outlines side by side, what was taken for what, how often, and how to tell them apart."""

    lesson_wanted = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._about = ""
        self.sketches = (Sketch(theme, *SKETCH_PX), Sketch(theme, *SKETCH_PX))
        self.words, self.times, self.tell = (Words(wraps=True) for _ in "123")
        self.words.set_role("title")
        self.times.set_role("quiet")
        self.learn = QPushButton(tr("Practise this"))
        self.learn.clicked.connect(lambda: self.lesson_wanted.emit(self._about))
        said = QVBoxLayout()
        said.setSpacing(2)
        for part in (self.words, self.times, self.tell):
            said.addWidget(part)
        said.addWidget(self.learn, 0, Qt.AlignmentFlag.AlignLeft)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 4, 0, 8)
        row.setSpacing(8)
        for sketch in self.sketches:
            row.addWidget(sketch, 0, Qt.AlignmentFlag.AlignTop)
        row.addLayout(said, 1)

    def show_pair(self, pair: Pair) -> None:
        """Show a mix-up."""
        self._about = pair.about
        for sketch, drawing in zip(self.sketches, pair.drawings or (None, None), strict=True):
            sketch.show_drawing(drawing)
            sketch.setVisible(drawing is not None)
        for label, text in ((self.words, pair.words), (self.times, pair.times), (self.tell, pair.tell)):
            label.setText(text)
            label.setVisible(bool(text))
        self.learn.setVisible(bool(pair.about))


class PairsView(QWidget):
    """The mix-ups, most frequent first; rows are kept and filled again."""

    lesson_wanted = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.rows: list[PairRow] = []
        self.none = Words(tr("Nothing was mixed up."))
        self.none.set_role("quiet")
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(4)
        self._box.addWidget(self.none)

    def show_pairs(self, pairs: tuple[Pair, ...]) -> None:
        """Show other mix-ups."""
        while len(self.rows) < len(pairs):
            row = PairRow(self.theme)
            row.lesson_wanted.connect(self.lesson_wanted)
            self.rows.append(row)
            self._box.addWidget(row)
        for at, row in enumerate(self.rows):
            row.setVisible(at < len(pairs))
            if at < len(pairs):
                row.show_pair(pairs[at])
        self.none.setVisible(not pairs)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for row in self.rows:
            for sketch in row.sketches:
                sketch.set_theme(theme)
