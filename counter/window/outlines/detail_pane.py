"""The chosen base large, dimensioned, with how to hold it; beside it a second one with the differences marked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from counter.language import tr
from counter.outline import face_doubt, face_view, hold_view, side_view
from counter.window.outlines.drawing_view import DrawingView, Sketch
from counter.window.outlines.facts import (
    FACE_PARTS,
    SIDE_PARTS,
    Difference,
    Fact,
    differences,
    facts_of,
    lamp_title,
    shown_in,
)
from counter.window.parts import early
from counter.window.parts.calm import CalmCombo
from counter.window.parts.checked import show_checked
from counter.window.parts.row_table import Row, RowTable
from counter.window.parts.sizes import ems, high, upright_least
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.outline import Drawing, Units
    from counter.window.parts.theme import Theme


WORDS_MOST_PX = 480  # a value and its confidence stand near each other, and near their drawing
COMPARED = "compared"  # no part of a drawing
WORDS_EMS = 42
SCROLLED_LINES = 13  # high, so that no dimension prints over another
EDGE_PX = 8
NARROW_EMS, ROW_EMS, ONE_EMS, TWO_EMS = 56, 76, 84, 130  # letters across, under which things stand below each other


class DetailPane(QFrame):
    """Shows one lamp type, or two side by side; asks for another to be chosen or held beside it."""

    opened = Signal(str)
    chosen = Signal(str)
    beside = Signal(str)
    teach = Signal(str)
    source_wanted = Signal(object)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.theme = theme
        self.face, self.side = DrawingView(theme), DrawingView(theme, 2.2, 66)
        self.other_face, self.other_side = DrawingView(theme), DrawingView(theme, 2.2, 66)
        for one, other in ((self.face, self.other_face), (self.side, self.other_side)):
            one.mate, other.mate = other, one
        self.title = Words()
        self.watts = CalmCombo()
        self.watts.setAccessibleName(tr("Lamp type on this base"))
        self.compare = CalmCombo()
        self.compare.setAccessibleName(tr("Compare with"))
        self.compare_words = Words(tr("compare&d with"))
        self.compare_words.setBuddy(self.compare)
        self.choose = QPushButton(tr("This is th&e lamp"))
        self.choose.setCheckable(True)
        self.choose.setToolTip(
            tr("Press it when you are sure, from the print or the box. Only opening an outline decides nothing.")
        )
        self.learn = QPushButton(tr("Teach &me this"))
        self.learn.setFlat(True)
        for combo in (self.watts, self.compare):
            combo.setMinimumContentsLength(12)
            combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            combo.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.facts = RowTable(theme)
        self.facts.setAccessibleName(tr("What is known of it"))
        self.tell = Words(wraps=True)
        self.hold = Words(wraps=True)
        self.why_open = Words(wraps=True)
        self.why_open.set_role("title")
        self.why_open.setVisible(False)
        self.how = Sketch(theme, 120, 52)
        self._facts: tuple[Fact, ...] = ()
        self._catalogue: Catalogue | None = None
        self._filled_for: tuple[str | None, ...] = ()
        self._shown: tuple[object, ...] = ()
        self._is_narrow = self._is_cramped = self._has_two = self._is_upright = False
        self._lay_out()
        self.watts.activated.connect(lambda i: self.opened.emit(self.watts.itemData(i)))
        self.choose.toggled.connect(lambda on: self.chosen.emit(str(self.watts.currentData()) if on else ""))
        self.compare.activated.connect(lambda i: self.beside.emit(self.compare.itemData(i) or ""))
        self.facts.row_pressed.connect(lambda row: self.source_wanted.emit(self._facts[row]))
        self.learn.clicked.connect(lambda: self.teach.emit(self.watts.currentData() or ""))

    def _lay_out(self) -> None:
        self.title.set_role("title")
        self.hold.set_role("quiet")
        box = QVBoxLayout(self)
        box.setContentsMargins(EDGE_PX, 8, EDGE_PX, 6)
        box.setSpacing(4)
        box.addLayout(self._head())
        box.addLayout(self._body(), 1)
        box.addLayout(self._foot())
        self._show_other(False)

    def _head(self) -> QHBoxLayout:
        here, there = QHBoxLayout(), QHBoxLayout()
        here.addWidget(self.title)
        here.addWidget(self.watts, 1)
        there.addWidget(self.compare_words)
        there.addWidget(self.compare, 1)
        self._top = QHBoxLayout()
        self._top.addLayout(here, 1)
        self._top.addLayout(there, 1)
        return self._top

    def _body(self) -> QHBoxLayout:
        words = QVBoxLayout()
        words.setSpacing(4)
        words.addWidget(self.tell)
        words.addWidget(self.facts)
        words.addWidget(self.learn, 0, Qt.AlignmentFlag.AlignRight)
        words.addStretch(1)
        holder = QFrame()
        holder.setLayout(words)
        words.setContentsMargins(0, 0, 4, 0)
        self._words = QScrollArea(widgetResizable=True)
        self._words.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._words.setWidget(holder)
        self._words.setMinimumHeight(high(self.font(), 5))
        self._words.setMaximumWidth(WORDS_MOST_PX)
        self._words.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the facts in it take the keyboard
        self._inside, self._pictures = words, QWidget()
        self._drawings = QHBoxLayout(self._pictures)
        self._drawings.setContentsMargins(0, 0, 0, 0)
        for face, side in ((self.face, self.side), (self.other_face, self.other_side)):
            one = QHBoxLayout()
            one.addWidget(face, 5)
            one.addWidget(side, 3)
            self._drawings.addLayout(one, 1)
        self._middle = QHBoxLayout()
        self._middle.addWidget(self._pictures, 4)
        self._middle.addWidget(self._words, 3)
        self._middle.addStretch()  # without pictures the words stand on the left, below the title
        return self._middle

    def _foot(self) -> QHBoxLayout:
        held = self._held = QHBoxLayout()
        held.addWidget(self.how)
        held.addWidget(self.hold, 1)
        held.addWidget(self.why_open, 1)
        self._below = QHBoxLayout()
        self._below.addLayout(held, 1)
        self._below.addWidget(self.choose)
        return self._below

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._arrange(event.size().width())
        super().resizeEvent(event)

    def minimumSizeHint(self) -> QSize:
        """Return the width of the narrowest form: of a wider one, no column could be made narrow enough for it."""
        least = max(upright_least(self._top, self._drawings, self._below), self._words.minimumWidth())
        return QSize(least + 2 * EDGE_PX, super().minimumSizeHint().height())

    def _arrange(self, width: int) -> None:
        """Let what stands side by side stand below each other where that would cut words."""
        letters = width / ems(self.font(), 1)
        has_two = self._has_two
        is_narrow = letters < NARROW_EMS
        early.set_upright(self._top, letters < ROW_EMS)
        early.set_upright(self._below, is_narrow)
        upright = letters < (TWO_EMS if has_two else ONE_EMS)
        self._is_upright = upright
        self._scroll_pictures(upright)
        early.set_upright(self._drawings, has_two and letters < ROW_EMS)  # one pair below the other
        self._words.setMaximumWidth(16_000 if upright else WORDS_MOST_PX)
        self._is_narrow, self._is_cramped = is_narrow, has_two and letters < ROW_EMS
        self._show_hold()

    def _scroll_pictures(self, on: bool) -> None:
        """Let the drawings stand above the words and scroll with them, or beside: a low pane has no room for both."""
        is_in = self._inside.indexOf(self._pictures) >= 0
        for view in (self.face, self.side, self.other_face, self.other_side):
            view.be_high(high(self.font(), SCROLLED_LINES) if on else 0)
        if on and not is_in:
            self._inside.insertWidget(0, self._pictures, 1)
            self._inside.insertWidget(self._inside.indexOf(self.facts), self.hold)
        elif is_in and not on:
            self._middle.insertWidget(0, self._pictures, 4)
            self._held.insertWidget(1, self.hold, 1)

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
        self.title.setText(here.base)  # before the choices beside it: longer words would widen the window for good
        self._show_choices(True)
        found = differences(catalogue, here, there, units) if there is not None else ()
        marked = frozenset(difference.part for difference in found if difference.part)
        if there is not None:
            marked |= {COMPARED}  # where nothing differs, nothing is to be marked either
        for view in (self.face, self.side, self.other_face, self.other_side):
            view.units = units
        self._show_one(catalogue, here, units, marked)
        if there is not None:
            self._draw(self.other_face, self.other_side, there, units, marked)
            self._facts = ()
            self.facts.show_rows(_difference_rows(here, there, found), even=True)
        else:
            self._facts = facts_of(catalogue, here, units)
            heads = (tr("What"), tr("Value"), tr("How sure"))
            self.facts.show_rows(_fact_rows(self._facts), heads=heads)
        self._show_other(there is not None)

    def show_choice(self, chosen: bool, why_open: str = "") -> None:
        """Show whether the clerk has said that this is the lamp, and why that does not settle it, if it does not."""
        show_checked(self.choose, chosen)
        self.why_open.setText(why_open)
        self.why_open.setToolTip(why_open)
        self.why_open.setVisible(bool(why_open))
        self._show_hold()  # in its place, so that nothing moves

    def _show_hold(self) -> None:
        """Say how to hold the lamp, unless something graver stands there or two lamps take all the room."""
        is_said = self._shown != () and not self.why_open.text() and not self._is_cramped
        self.hold.setVisible(is_said)
        self.how.setVisible(is_said and not (self._is_narrow or self._is_upright))

    def _show_nothing(self) -> None:
        self.title.setText(tr("No base chosen"))
        self.tell.setText(
            tr(
                "Press the pictures on the left for what you see, or type the code on the base. Pick an outline to "
                "see it large, with its sizes and where they come from."
            )
        )
        self.hold.setText("")
        self.facts.show_rows(())
        for view in (self.face, self.side):
            view.show_drawing(None)
            view.describe("", "")
        self._filled_for = self._shown = ()
        self._show_choices(False)
        self._show_other(False)

    def _show_one(self, catalogue: Catalogue, lamp: Lamp, units: Units, marked: frozenset[str]) -> None:
        base = catalogue.base_of(lamp)
        self.title.setText(base.designation)
        self.tell.setText(base.tells)
        self.hold.setText(base.holds)
        self.how.show_drawing(hold_view(base))
        self._draw(self.face, self.side, lamp, units, marked)

    def _draw(self, face: DrawingView, side: DrawingView, lamp: Lamp, units: Units, marked: frozenset[str]) -> None:
        """Draw a lamp's face and side, and say in words what each shows."""
        assert self._catalogue is not None
        base, facts = self._catalogue.base_of(lamp), facts_of(self._catalogue, lamp, units)
        face.show_drawing(_face(lamp, base, units), marked, face_doubt(base))
        side.show_drawing(side_view(lamp, base, full=True, units=units), marked)
        face.describe(tr("Face of {base}, pins toward you").format(base=lamp.base), shown_in(facts, FACE_PARTS))
        side.describe(tr("Side of a lamp on {base}").format(base=lamp.base), shown_in(facts, SIDE_PARTS))

    def _show_other(self, on: bool) -> None:
        self._words.setMinimumWidth(ems(self.font(), WORDS_EMS))
        self._has_two = on
        self.other_face.setVisible(on)
        self.other_side.setVisible(on)
        self._arrange(self.width())

    def _fill_choices(self, catalogue: Catalogue, here: Lamp, there: Lamp | None, likely: tuple[str, ...]) -> None:
        key = (here.id, there.id if there is not None else None, *likely)
        if key == self._filled_for:
            return
        if key[:1] != self._filled_for[:1]:
            self.watts.clear()
            for lamp in catalogue.lamps_on[here.base]:
                self.watts.addItem(lamp_title(lamp), lamp.id)
        self.watts.setCurrentIndex(self.watts.findData(here.id))
        self._filled_for = key
        self.compare.clear()
        self.compare.addItem(tr("nothing"), "")
        offered = [
            *likely,
            *([there.id] if there is not None else []),
        ]  # the chosen one in its place, or arrows stick
        for name in dict.fromkeys(offered):
            if name != here.id:
                lamp = catalogue.lamp_by_id[name]
                self.compare.addItem(f"{lamp.base} · {lamp_title(lamp)}", name)
        self.compare.setCurrentIndex(max(self.compare.findData(there.id), 0) if there is not None else 0)

    def _show_choices(self, on: bool) -> None:
        for widget in (
            self.watts,
            self.compare,
            self.learn,
            self.compare_words,
            self._pictures,
            self.face,
            self.side,
            self.how,
            self.choose,
        ):
            widget.setVisible(on)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.theme = theme
        for view in (self.face, self.side, self.other_face, self.other_side, self.how, self.facts):
            view.set_theme(theme)


def _face(lamp: Lamp, base: Base, units: Units) -> Drawing:
    return face_view(base, full=True, units=units, tube_mm=lamp.tube_mm.value if lamp.tube_mm else None)


def _fact_rows(facts: tuple[Fact, ...]) -> tuple[Row, ...]:
    return tuple(
        Row(fact.what, fact.value, fact.confidence or (tr("confirm") if fact.address else ""), _tip(fact))
        for fact in facts
    )


def _tip(fact: Fact) -> str:
    if fact.source:
        return fact.source
    return tr("Not known here; press to say what you found.") if fact.address else ""


def _difference_rows(here: Lamp, there: Lamp, found: tuple[Difference, ...]) -> tuple[Row, ...]:
    if not found:
        return (Row(tr("No difference is known."), ""),)
    return (Row("", here.base, there.base), *(Row(one.what, one.here, one.there) for one in found))
