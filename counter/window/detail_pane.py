"""The chosen base large, dimensioned, with how to hold it; beside it a second one with the differences marked."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QComboBox, QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QToolTip, QVBoxLayout

from counter.outline import face_doubt, face_view, hold_view, side_view
from counter.window.drawing_view import DrawingView, Sketch
from counter.window.facts import Difference, Fact, differences, facts_of, lamp_title

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp
    from counter.outline import Units
    from counter.window.theme import Theme


SHORT = 17  # characters that still leave room for the other columns


class DetailPane(QFrame):
    """Shows one lamp type, or two side by side; asks for another to be chosen or held beside it."""

    chosen = Signal(str)
    beside = Signal(str)
    teach = Signal(str)
    source_wanted = Signal(object)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.theme = theme
        self.face, self.side = DrawingView(theme), DrawingView(theme, 2.2, 80)
        self.other_face, self.other_side = DrawingView(theme), DrawingView(theme, 2.2, 80)
        for one, other in ((self.face, self.other_face), (self.side, self.other_side)):
            one.mate, other.mate = other, one
        self.title = QLabel()
        self.watts = QComboBox()
        self.watts.setAccessibleName("Lamp type on this base")
        self.compare = QComboBox()
        self.compare.setAccessibleName("Hold beside it")
        self.compare_words = QLabel("beside it")
        self.learn = QPushButton("Teach me this")
        self.learn.setFlat(True)
        for combo in (self.watts, self.compare):
            combo.setMinimumContentsLength(12)
            combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.facts = QLabel(textFormat=Qt.TextFormat.RichText, wordWrap=True)
        self.tell = QLabel(wordWrap=True)
        self.hold = QLabel(wordWrap=True)
        self.how = Sketch(theme, 92, 40)
        self._facts: tuple[Fact, ...] = ()
        self._catalogue: Catalogue | None = None
        self._filled_for: tuple[str | None, ...] = ()
        self._shown: tuple[object, ...] = ()
        self._lay_out()
        self.watts.activated.connect(lambda i: self.chosen.emit(self.watts.itemData(i)))
        self.compare.activated.connect(lambda i: self.beside.emit(self.compare.itemData(i) or ""))
        self.facts.linkActivated.connect(self._open_source)
        self.facts.linkHovered.connect(self._show_source)
        self.learn.clicked.connect(lambda: self.teach.emit(self.watts.currentData() or ""))

    def _lay_out(self) -> None:
        self.title.setProperty("role", "title")
        self.hold.setProperty("role", "quiet")
        self.facts.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.facts.setTextInteractionFlags(
            Qt.TextInteractionFlag.LinksAccessibleByMouse | Qt.TextInteractionFlag.LinksAccessibleByKeyboard
        )
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addWidget(self.watts)
        head.addStretch(1)
        head.addWidget(self.learn)
        head.addWidget(self.compare_words)
        head.addWidget(self.compare)
        words = QVBoxLayout()
        words.setSpacing(4)
        words.addWidget(self.tell)
        words.addWidget(self.facts)
        words.addStretch(1)
        holder = QFrame()
        holder.setLayout(words)
        words.setContentsMargins(0, 0, 4, 0)
        scroll = QScrollArea(widgetResizable=True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(holder)
        self._words = scroll
        body = QHBoxLayout()
        body.addWidget(self.face, 5)
        body.addWidget(self.side, 3)
        body.addWidget(scroll, 6)
        body.addWidget(self.other_face, 5)
        body.addWidget(self.other_side, 3)
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 8, 8, 6)
        box.setSpacing(2)
        box.addLayout(head)
        box.addLayout(body, 1)
        held = QHBoxLayout()
        held.addWidget(self.how)
        held.addWidget(self.hold, 1)
        box.addLayout(held)
        self._show_other(False)

    def build(self, catalogue: Catalogue) -> None:
        """Take the catalogue the lamps come from."""
        self._catalogue = catalogue
        self._filled_for = self._shown = ()

    def show_lamp(self, lamp: str | None, beside: str | None, likely: tuple[str, ...], units: Units) -> None:
        """Show a lamp type, another beside it, and offer `likely` ones for holding beside."""
        catalogue = self._catalogue
        if catalogue is None or lamp is None or lamp not in catalogue.lamp_by_id:
            self._show_nothing()
            return
        here = catalogue.lamp_by_id[lamp]
        there = catalogue.lamp_by_id.get(beside) if beside and beside != lamp else None
        self._fill_choices(catalogue, here, there, likely)
        if self._shown == (here, there, units):
            return
        self._shown = (here, there, units)
        found = differences(catalogue, here, there, units) if there is not None else ()
        marked = frozenset(difference.part for difference in found if difference.part)
        self._show_one(catalogue, here, units, marked)
        if there is not None:
            self._show_second(catalogue, there, units, marked)
            self._show_rows(_difference_rows(here, there, found))
        else:
            self._facts = facts_of(catalogue, here, units)
            self._show_rows(_fact_rows(self._facts))
        self._show_other(there is not None)

    def _show_nothing(self) -> None:
        self.title.setText("No base chosen")
        self.tell.setText(
            "Press the pictures on the left for what you see, or type the code on the base. "
            "Pick an outline to see it large, dimensioned and with its source."
        )
        self.hold.setText("")
        self.facts.setText("")
        for view in (self.face, self.side):
            view.show_drawing(None)
        self._filled_for = self._shown = ()
        self._show_choices(False)
        self._show_other(False)

    def _show_one(self, catalogue: Catalogue, lamp: Lamp, units: Units, marked: frozenset[str]) -> None:
        base = catalogue.base_of(lamp)
        self.title.setText(base.designation)
        self.tell.setText(base.tell)
        self.hold.setText(base.hold)
        self.how.show_drawing(hold_view(base))
        self.face.show_drawing(face_view(base, full=True, units=units), marked, face_doubt(base))
        self.side.show_drawing(side_view(lamp, base, full=True, units=units), marked)

    def _show_second(self, catalogue: Catalogue, lamp: Lamp, units: Units, marked: frozenset[str]) -> None:
        base = catalogue.base_of(lamp)
        self.other_face.show_drawing(face_view(base, full=True, units=units), marked, face_doubt(base))
        self.other_side.show_drawing(side_view(lamp, base, full=True, units=units), marked)

    def _show_other(self, on: bool) -> None:
        self._words.setMinimumWidth(160 if on else 256)
        self.other_face.setVisible(on)
        self.other_side.setVisible(on)

    def _fill_choices(self, catalogue: Catalogue, here: Lamp, there: Lamp | None, likely: tuple[str, ...]) -> None:
        key = (here.id, there.id if there is not None else None, *likely)
        if key == self._filled_for:
            return
        self._filled_for = key
        self.watts.clear()
        for lamp in catalogue.lamps:
            if lamp.base == here.base:
                self.watts.addItem(lamp_title(lamp), lamp.id)
        self.watts.setCurrentIndex(self.watts.findData(here.id))
        self.compare.clear()
        self.compare.addItem("nothing", "")
        offered = [*([there.id] if there is not None else []), *likely]
        for name in dict.fromkeys(offered):
            if name != here.id:
                lamp = catalogue.lamp_by_id[name]
                self.compare.addItem(f"{lamp.base} · {lamp_title(lamp)}", name)
        self.compare.setCurrentIndex(max(self.compare.findData(there.id), 0) if there is not None else 0)
        self._show_choices(True)

    def _show_choices(self, on: bool) -> None:
        for widget in (self.watts, self.compare, self.learn, self.compare_words, self.face, self.side, self.how):
            widget.setVisible(on)

    def _show_rows(self, html: str) -> None:
        self.facts.setText(html)

    def _show_source(self, link: str) -> None:
        if link.isdigit() and int(link) < len(self._facts):
            QToolTip.showText(QCursor.pos(), self._facts[int(link)].source, self.facts)

    def _open_source(self, link: str) -> None:
        if link.isdigit() and int(link) < len(self._facts):
            self.source_wanted.emit(self._facts[int(link)])

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for view in (self.face, self.side, self.other_face, self.other_side, self.how):
            view.set_theme(theme)


def _fact_rows(facts: tuple[Fact, ...]) -> str:
    rows = "".join(
        f'<tr><td style="padding-right:8px; white-space:nowrap">{escape(fact.what)}</td>'
        f'<td style="padding-right:8px"><b>{_unbroken(fact.value)}</b></td>'
        f'<td><a href="{i}" style="text-decoration:none">{escape(fact.confidence or "confirm")}</a></td></tr>'
        for i, fact in enumerate(facts)
    )
    return f'<table cellspacing="0" cellpadding="1">{rows}</table>'


def _unbroken(value: str) -> str:
    """Keep a short value on one line, or the columns wander."""
    words = escape(value)
    return words.replace(" ", "&nbsp;") if len(value) <= SHORT else words


def _difference_rows(here: Lamp, there: Lamp, found: tuple[Difference, ...]) -> str:
    head = f"<tr><td></td><td><b>{escape(here.base)}</b></td><td><b>{escape(there.base)}</b></td></tr>"
    rows = "".join(
        f'<tr><td style="padding-right:8px">{escape(one.what)}</td>'
        f'<td style="padding-right:8px">{escape(one.here)}</td><td>{escape(one.there)}</td></tr>'
        for one in found
    )
    same = "" if found else "<tr><td>Nothing known differs.</td></tr>"
    return f'<table cellspacing="0" cellpadding="1">{head}{rows}{same}</table>'
