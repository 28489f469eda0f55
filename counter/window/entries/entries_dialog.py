"""What a shop adds: a form, its drawing, and all that was added before, which can be taken out again."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QBoxLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from counter import entries
from counter.language import tr, trn
from counter.outline import face_doubt, face_view, side_view
from counter.window.entries.form import Form
from counter.window.entries.kept_list import KeptList
from counter.window.outlines.drawing_view import DrawingView
from counter.window.parts.calm import CalmCombo
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.sizes import be_large, ems, high
from counter.window.parts.unsaved import UnsavedDialog
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from counter.catalogue import Catalogue
    from counter.shop import OwnRow
    from counter.window.parts.theme import Theme

STILL_MS = 150  # of hands at rest before what was typed is judged
DRAWN = ("bases", "lamps")
FIXED = ("id", "rule", "language")  # what no form changes: of a lamp type that is there, of a caution
LIST_LINES = 10  # of what was added, where it stands below
QWIDGETSIZE_MAX = 16_777_215  # Qt's own word for no limit; PySide6 does not name it
SIDE_BY_SIDE = 165  # letters of width from which list, form and drawing stand beside each other


class Known(NamedTuple):
    """What the dialog rests on: what is shipped, what is in use, the shop's layer, and all that was ever added."""

    shipped: Catalogue
    laid: Catalogue
    layer: dict[str, Any]
    rows: list[OwnRow]


class EntriesDialog(UnsavedDialog):
    """Says what was typed and what is to be taken out; it keeps nothing itself."""

    kept = Signal(str, object, str)  # section, entry, who
    taken_out = Signal(list, str)  # numbers of entries, who
    brought_back = Signal(list)
    undone = Signal()
    patch_wanted = Signal()

    who: QLineEdit

    def __init__(self, known: Known, theme: Theme, who: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("The shop's own entries"))
        self.known, self.section = known, "bases"
        self.form: Form | None = None
        self.entry: dict[str, Any] = {}
        self._begun: dict[str, Any] = {}
        self.fixed: dict[str, Any] = {}
        self._soon = QTimer(self, singleShot=True, interval=STILL_MS)
        self._soon.timeout.connect(self.judge)
        self._make(theme, who)
        self.kind.currentIndexChanged.connect(lambda _: self._new_kind())
        self.of.activated.connect(lambda _: self.begin(str(self.of.currentData() or "")))
        self._new_kind()
        self.list.show_rows(known.rows, known.laid)
        be_large(self, 210, 46)

    def _make(self, theme: Theme, who: str) -> None:
        self.kind, self.of = CalmCombo(tr("What to add or change")), CalmCombo(tr("Begin with"))
        self.of.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        for one in entries.kinds():
            self.kind.addItem(one.name, one.section)
        self.area = ScrollColumn(tr("Form"), spacing=4)
        self.list = KeptList()
        self.list.changed.connect(self.change_row)
        self.list.taken_out.connect(lambda ids: self.taken_out.emit(ids, self.who.text().strip()))
        self.list.brought_back.connect(self.brought_back)
        self.face, self.side = DrawingView(theme, least_width=180), DrawingView(theme, least_width=120)
        self.drawing = QWidget()
        drawn = QVBoxLayout(self.drawing)
        drawn.setContentsMargins(0, 0, 0, 0)
        drawn.addWidget(self.face, 1)
        drawn.addWidget(self.side, 1)
        self.who = QLineEdit(who)
        self.who.setAccessibleName(tr("Who adds it"))
        self.who.setMaxLength(80)
        self.said = Words("", wraps=True)
        self._lay_out()

    def _lay_out(self) -> None:
        whole, top = QVBoxLayout(self), QHBoxLayout()
        for words, box in ((tr("What"), self.kind), (tr("Begin with"), self.of)):
            top.addWidget(Words(words))
            top.addWidget(box, 1)
        whole.addLayout(top)
        self.middle, form = QBoxLayout(QBoxLayout.Direction.LeftToRight), QHBoxLayout()
        form.addWidget(self.area, 7)
        form.addWidget(self.drawing, 3)
        self.middle.addLayout(form, 10)
        self.middle.addWidget(self.list, 3)
        whole.addLayout(self.middle, 1)
        whole.addWidget(self.said)
        whole.addLayout(self._foot())

    def _foot(self) -> QHBoxLayout:
        foot = QHBoxLayout()
        self.keep = QPushButton(tr("Keep it"))
        self.undo = QPushButton(tr("Undo"))
        self.patch = QPushButton(tr("Hand back as a patch …"))
        close = QPushButton(tr("Close"))
        for button, do in (
            (self.keep, self._keep),
            (self.undo, self.undone.emit),
            (self.patch, self.patch_wanted.emit),
            (close, self.reject),
        ):
            button.setAutoDefault(False)
            button.clicked.connect(do)
        self.undo.setEnabled(False)
        foot.addWidget(Words(tr("Who adds it")))
        foot.addWidget(self.who, 1)
        for button in (self.keep, self.undo):
            foot.addWidget(button)
        foot.addStretch(1)
        foot.addWidget(self.patch)
        foot.addWidget(close)
        return foot

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put drawing and list below the form where they have no room beside it."""
        is_wide = self.width() >= ems(self.font(), SIDE_BY_SIDE)
        way = QBoxLayout.Direction.LeftToRight if is_wide else QBoxLayout.Direction.TopToBottom
        if way != self.middle.direction():
            self.middle.setDirection(way)
            self.list.setMaximumHeight(QWIDGETSIZE_MAX if is_wide else high(self.font(), LIST_LINES))
        super().resizeEvent(event)

    # -- what is typed

    def _new_kind(self) -> None:
        self.section = str(self.kind.currentData())
        self.of.clear()
        if entries.can_begin_anew(self.section):
            self.of.addItem(tr("a new one"), "")
        for name, shown in entries.shipped_names(self.section, self.known.shipped).items():
            self.of.addItem(shown, name)
        self.of.setEnabled(self.of.count() > 1)
        self.begin(str(self.of.currentData()))

    def begin(self, of: str) -> None:
        """Fill the form with a thing that is there, or with nothing."""
        self.show_entry(self.section, entries.begin(self.section, self.known.laid, of))

    def change_row(self, row: OwnRow) -> None:
        """Fill the form with an entry that was added before."""
        section, of = row.section, row.key[-1]
        if section == "changed":
            section = {"base": "bases", "lamp": "lamps"}[row.key[1]]
        elif section == "cautions":
            of = row.key[1]
        self.kind.setCurrentIndex(max(self.kind.findData(section), 0))
        shipped = self.of.findData(of)
        self.of.setCurrentIndex(max(shipped, 0))
        entry = row.body if row.section not in ("changed", "cautions") else None
        self.show_entry(section, entry or entries.begin(section, self.known.laid, of))

    def show_entry(self, section: str, entry: dict[str, Any]) -> None:
        """Show an entry in a form made anew."""
        old, self.form = self.form, Form(entries.form_of(section, self.known.laid))
        self.fixed = {name: entry[name] for name in FIXED if name in entry}
        self.form.fill(entry)
        self._begun = self.form.value()
        self.form.changed.connect(self._soon.start)
        if old is not None:
            self.area.column.removeWidget(old)
            old.hide()
            old.deleteLater()
        self.area.column.insertWidget(0, self.form)
        if old is None:
            self.area.column.addStretch(1)
        self.area.to_top()
        self.drawing.setVisible(section in DRAWN)
        self.side.setVisible(section == "lamps")
        self.judge()

    def judge(self) -> None:
        """Say what is wrong with what stands in the form, and draw it."""
        assert self.form is not None
        self._soon.stop()
        typed = self.form.value()
        self.entry = entries.with_derived(self.section, {**self.fixed, **typed})
        found = entries.faults(self.section, self.entry, self.known.shipped, self.known.layer)
        self.form.show_faults(found)
        self.keep.setEnabled(not found and typed != self._begun)
        self.said.setText(self._summary(len(found), typed))
        self._draw()

    def _summary(self, count: int, typed: dict[str, Any]) -> str:
        if count:
            return trn("{count} thing is missing or wrong", "{count} things are missing or wrong", count).format(
                count=count
            )
        return tr("Nothing was changed yet.") if typed == self._begun else tr("It can be kept.")

    def _draw(self) -> None:
        if self.section == "bases":
            base = entries.drawn_base(self.entry)
            self.face.show_drawing(face_view(base, full=True), caption=face_doubt(base))
        elif self.section == "lamps":
            base, lamp = entries.base_under(self.entry, self.known.laid), entries.drawn_lamp(self.entry)
            self.face.show_drawing(face_view(base, full=True), caption=face_doubt(base))
            self.side.show_drawing(side_view(lamp, base, full=True))

    def _keep(self) -> None:
        self.judge()
        who = self.who.text().strip()
        if not who:
            self.said.setText(tr("Say who adds it, so that others know whom to ask."))
            self.who.setFocus()
        elif self.keep.isEnabled():
            section, entry = entries.to_layer(self.section, self.entry, self.known.shipped)
            self.kept.emit(section, entry, who)

    def unsaved(self) -> str:
        """Say that what stands in the form is not kept yet."""
        is_typed = self.form is not None and self.form.value() != self._begun
        return tr("What you typed is not kept yet.") if is_typed else ""

    # -- what became of it

    def show_known(self, known: Known, can_undo: bool, said: str) -> None:
        """Show what is there now; what is typed and not yet kept stays."""
        self.known = known
        self.list.show_rows(known.rows, known.laid)
        self.undo.setEnabled(can_undo)
        if self.form is not None:
            self._begun = self.form.value()
        self.judge()
        self.said.setText(said)

    def show_problem(self, words: str) -> None:
        """Say what could not be kept; what was typed stays."""
        self.said.setText(words)
