"""The counter window: one case, one assessment, and the list of all connections between panes.

It opens in two steps. Before the first paint there are the answer bar, the outlines as they were kept, and empty
frames; `wake` then brings the core and fills the frames. So nothing imported here may import pydantic or name `Qt`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from PySide6.QtCore import QByteArray, QSettings, Signal
from PySide6.QtWidgets import QApplication, QFrame, QMainWindow, QSplitter, QVBoxLayout, QWidget

from counter.window.answer_bar import AnswerBar
from counter.window.outlines.opening import remember, remembered
from counter.window.outlines.outline_grid import OutlineGrid
from counter.window.parts import early
from counter.window.parts import theme as themes

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtGui import QCloseEvent, QPaintEvent

    from counter.catalogue import Catalogue, Loaded, Problem
    from counter.desk import Assessment, Case
    from counter.desk._history import History
    from counter.marks import HouseMaker
    from counter.outline import Drawing, Units
    from counter.window.fixture.fixture_pane import FixturePane
    from counter.window.looks.looks_pane import LooksPane
    from counter.window.marks.marks_pane import MarksPane
    from counter.window.outlines.cards import Card
    from counter.window.outlines.detail_pane import DetailPane
    from counter.window.outlines.facts import Fact
    from counter.window.parts.source_dialog import SourceDialog
    from counter.window.side.cautions_pane import CautionsPane
    from counter.window.side.side_tabs import SideTabs
    from counter.window.training.door import TrainingDoor

SETTINGS_FILE = "window.ini"
MOST_LIKELY = 8
WORTH_COMPARING = 0.01  # below this a candidate is no likelier than the catalogue's order makes it look
LAW_TAB = 3  # by its place from 0
LOOKS_LEAST_PX, COLUMN_LEAST_PX = 330, 350


class MainWindow(QMainWindow):
    """Holds the case and its history; every pane asks, this window answers with a new assessment."""

    painted = Signal()

    looks: LooksPane
    detail: DetailPane
    marks: MarksPane
    fixture: FixturePane
    side: SideTabs
    cautions: CautionsPane

    def __init__(self, data: Path, theme_name: str = "") -> None:
        super().__init__()
        self.setWindowTitle("Lamp counter")
        self.data = data
        self.settings = QSettings(str(data / SETTINGS_FILE), QSettings.Format.IniFormat)
        self.theme_name = theme_name or str(self.settings.value("theme", "system"))
        self.units: Units = "in" if self.settings.value("units") == "in" else "mm"
        self.theme = self._theme()
        self._dress()  # before there are widgets: dressing each again is what costs
        self.catalogue: Catalogue | None = None
        self.house: tuple[HouseMaker, ...] = ()
        self.training: TrainingDoor | None = None
        self.history: History | None = None
        self.assessment: Assessment | None = None
        self._drawn: dict[str, Drawing] = {}
        self._is_painted = False
        self.answer = AnswerBar(self.theme)
        self.grid = OutlineGrid(self.theme)
        self._lay_out()
        self._restore()
        self.grid.show_cards(remembered(data))

    @property
    def case(self) -> Case | None:
        """The present case; None before the window is awake."""
        return self.history.case if self.history is not None else None

    # -- how it looks

    def _lay_out(self) -> None:
        left, below, right, lower = (_empty_frame() for _ in range(4))
        left.setMinimumWidth(LOOKS_LEAST_PX)
        self.middle = _splitter(self.grid, below, sizes=(340, 356), upright=True)
        # Marks keep their height whatever they say, or everything under them would jump at each character.
        self.column = _splitter(right, lower, sizes=(252, 440), upright=True)
        self.column.setStretchFactor(1, 1)
        self.column.setMinimumWidth(COLUMN_LEAST_PX)
        self.across = _splitter(left, self.middle, self.column, sizes=(334, 590, 372))
        self.across.setStretchFactor(1, 1)
        whole = QWidget()
        box = QVBoxLayout(whole)
        box.setContentsMargins(8, 8, 8, 8)
        box.setSpacing(8)
        box.addWidget(self.answer)
        box.addWidget(self.across, 1)
        self.setCentralWidget(whole)
        self.resize(1280, 800)

    def _theme(self) -> themes.Theme:
        return themes.THEMES.get(self.theme_name) or themes.system_theme()

    def _dress(self) -> None:
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setPalette(themes.palette(self.theme))
            application.setStyleSheet(themes.sheet(self.theme))

    def set_theme(self, name: str) -> None:
        """Change to light, dark or the system's palette, and keep the choice."""
        self.theme_name = name
        self.settings.setValue("theme", name)
        self.theme = self._theme()
        self._dress()
        for pane in (self.answer, self.looks, self.grid, self.detail, self.marks, self.side):
            pane.set_theme(self.theme)
        if self.training is not None:
            self.training.set_theme(self.theme)

    def set_units(self, units: str) -> None:
        """Show lengths in millimetres or inches, and keep the choice."""
        self.units = cast("Units", units)
        self.settings.setValue("units", units)
        self._show()

    def _splitters(self) -> tuple[tuple[str, QSplitter], ...]:
        return (("across", self.across), ("middle", self.middle), ("column", self.column))

    def _restore(self) -> None:
        if isinstance(geometry := self.settings.value("geometry"), QByteArray):  # a damaged file holds anything
            self.restoreGeometry(geometry)
        for name, splitter in self._splitters():
            if isinstance(state := self.settings.value(name), QByteArray):
                splitter.restoreState(state)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.settings.setValue("geometry", self.saveGeometry())
        for name, splitter in self._splitters():
            self.settings.setValue(name, splitter.saveState())
        self.settings.sync()
        if self.training is not None:
            self.training.close()
        super().closeEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._is_painted:
            self._is_painted = True
            self.painted.emit()

    # -- waking: what the first paint need not wait for

    def wake(self, case: Case | None = None) -> None:
        """Fill the panes, load the catalogue and the core, take a case; what fails is said in the window."""
        self._fill_frames()
        from pydantic import ValidationError

        from counter import catalogue
        from counter.desk._history import History
        from counter.window.parts.menu import menu_of
        from counter.window.training.door import TrainingDoor

        try:
            loaded = catalogue.load_with_problems(self.data)
        except (OSError, ValidationError) as problem:
            self._say_unreadable(problem)
            return
        self._take_catalogue(loaded)
        self.looks.build(loaded.catalogue, self.theme)
        self._take_house()
        self.fixture.build(loaded.catalogue)
        self._connect()
        self.training = TrainingDoor(self)
        self.answer.menu.setMenu(menu_of(self))
        self.history = History(case or self._new_case())
        self._show()
        self.marks.take_focus()
        if case is None:
            remember(self.data, self.grid.model.cards)

    def _fill_frames(self) -> None:
        from counter.window.fixture.fixture_pane import FixturePane
        from counter.window.looks.looks_pane import LooksPane
        from counter.window.marks.marks_pane import MarksPane
        from counter.window.outlines.detail_pane import DetailPane
        from counter.window.side.side_tabs import SideTabs

        self.looks, self.detail, self.marks = LooksPane(), DetailPane(self.theme), MarksPane(self.theme)
        self.fixture, self.side = FixturePane(), SideTabs(self.theme)
        self.cautions = self.side.cautions
        self.looks.setMinimumWidth(LOOKS_LEAST_PX)
        self._lower = QWidget()  # replaceWidget takes no ownership: a local one would be deleted with its panes
        box = QVBoxLayout(self._lower)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(self.fixture)
        box.addWidget(self.side, 1)
        for splitter, at, pane in (
            (self.across, 0, self.looks),
            (self.middle, 1, self.detail),
            (self.column, 0, self.marks),
            (self.column, 1, self._lower),
        ):
            sizes = splitter.sizes()
            frame = splitter.replaceWidget(at, pane)
            splitter.setSizes(sizes)
            if frame is not None:
                frame.deleteLater()
        self.column.setStretchFactor(1, 1)

    def _take_catalogue(self, loaded: Loaded) -> None:
        """Use a catalogue from now on: everything kept of an older one is dropped."""
        self.catalogue = loaded.catalogue
        self._drawn.clear()
        self.grid.delegate.forget()
        self.detail.build(loaded.catalogue)
        self.side.build(loaded.catalogue)
        self.looks.show_problem("", _left_out(loaded.problems))

    def _take_house(self) -> None:
        """Use the shop's own tables of makers' codes, if it has some that can be read."""
        from counter.marks import load_house

        try:
            self.house = load_house(self.data)
        except (OSError, ValueError) as problem:
            words = str(problem).splitlines()[0]
            self.looks.show_problem("", f"Makers' codes are left out: {words}. Mend that file or take it away.")

    def _say_unreadable(self, problem: Exception) -> None:
        first = str(problem).splitlines()[0]
        self.answer.show_answer("", "The catalogue could not be read", None, None, "")
        self.grid.say_unreadable()
        self.detail.title.setText("Nothing can be looked up")
        self.detail.tell.setText(
            f"{first}\nRun «counter check» in a terminal: it lists every problem with its place."
        )

    def _connect(self) -> None:
        # looks
        self.looks.answered.connect(self._answer_look)
        # outlines and detail
        self.grid.picked.connect(self._open_outline)
        self.grid.compared.connect(lambda lamp: self._change(beside=lamp))
        self.detail.opened.connect(self._open_outline)
        self.detail.chosen.connect(lambda lamp: self._change(chosen=lamp or None))
        self.detail.beside.connect(lambda lamp: self._change(beside=lamp or None))
        self.detail.source_wanted.connect(self._open_source)
        # marks
        self.marks.typed.connect(lambda text: self._change(marks=text))
        self.marks.look_dropped.connect(lambda key: self._answer_look(key, ""))
        # fixture
        self.fixture.changed.connect(self._change_fixture)
        self.fixture.use_changed.connect(lambda use: self._change(use=use))
        self.fixture.label_typed.connect(lambda text: self._change_fixture({"label": text}))
        # cautions, instead, law
        self.cautions.ask_pressed.connect(self._go_to)
        self.side.instead.beside.connect(lambda lamp: self._change(beside=lamp))
        self.side.law.place_chosen.connect(self.set_place)
        self.side.law.broken_toggled.connect(lambda broken: self._change(broken=broken))
        # the whole
        self.answer.next_customer.connect(self.next_customer)
        self.answer.place_wanted.connect(self.ask_for_place)
        self._keys()

    def _keys(self) -> None:
        from PySide6.QtGui import QKeySequence, QShortcut

        from counter.window.parts.undo_keys import UndoKeys
        from counter.window.side.side_tabs import TABS

        self._undo_keys = UndoKeys(self)
        self._undo_keys.watch(self)

        for keys, slot in (
            ("F2", self.next_customer),
            ("Ctrl+Z", self.undo),
            ("Ctrl+Shift+Z", self.redo),
            ("Ctrl+Y", self.redo),
            ("Ctrl+M", self.marks.take_focus),
            ("Ctrl+F", self.grid.filter.setFocus),
            ("Ctrl+G", self.grid.view.setFocus),
            ("Ctrl+H", self.fixture.holder.setFocus),  # closed: letters then choose at once, and Tab goes on
            ("Ctrl+B", self.toggle_broken),
            ("F10", self.answer.menu.showMenu),
        ):
            QShortcut(QKeySequence(keys), self, slot)
        for at in range(len(TABS)):
            QShortcut(QKeySequence(f"Ctrl+{at + 1}"), self, lambda i=at: self.side.open(i))

    # -- the case and its history

    def _change(self, **fields: Any) -> None:
        if fields.keys() & {"looks", "marks"}:  # what is seen now counts; an outline opened before may be another's
            fields.setdefault("shown", None)
        if self.history is not None and self.history.change(**fields):
            self._show()

    def _answer_look(self, key: str, text: str) -> None:
        from counter.identify import LookProblem, parse_look

        assert self.case is not None
        assert self.catalogue is not None
        looks = dict(self.case.looks)
        looks.pop(key, None)
        if text:
            try:
                looks[key] = parse_look(self.catalogue, key, text)
            except LookProblem as problem:
                self.looks.show_problem(key, _with_label(self.catalogue, str(problem)))
                return
        self.looks.show_problem(key, "")
        self.looks.say_taken(_taken(text, looks.get(key)))
        self._change(looks=looks)

    def _change_fixture(self, fields: dict[str, Any]) -> None:
        from counter import desk

        assert self.case is not None
        assert self.catalogue is not None
        try:
            fixture = desk.changed_fixture(self.catalogue, self.case.fixture, fields)
        except ValueError as problem:
            self.fixture.show_problem(_with_label(self.catalogue, str(problem)))
            return
        self.fixture.show_problem("")
        self._change(fixture=fixture)

    def _open_outline(self, lamp: str) -> None:
        """Show an outline large; looking at it settles nothing, and takes back an earlier choice of another."""
        chosen = self.case.chosen if self.case is not None and self.case.chosen == lamp else None
        self._change(shown=lamp, chosen=chosen)

    def _open_source(self, fact: Fact) -> None:
        from counter.window.parts.source_dialog import SourceDialog

        shown = self.detail.title.text()
        dialog = SourceDialog(fact, shown, str(self.settings.value("who", "")), self)
        dialog.confirmed.connect(lambda value, who, how: self._confirm(dialog, fact, value, who, how))
        dialog.open()

    def _confirm(self, dialog: SourceDialog, fact: Fact, value: str, who: str, how: str) -> None:
        from datetime import UTC, datetime

        from counter import catalogue, desk

        assert self.catalogue is not None
        assert fact.address is not None
        kind, of, part = fact.address
        today = datetime.now(UTC).astimezone().date()
        try:
            seen = desk.confirmable(self.catalogue, part, value)
            catalogue.confirm(self.data, kind=kind, of=of, part=part, value=seen, who=who, on=today, how=how)
        except (ValueError, OSError, catalogue.ConfirmError) as problem:
            dialog.show_problem(str(problem))
            return
        self.settings.setValue("who", who)
        dialog.accept()
        self._take_catalogue(catalogue.load_with_problems(self.data))
        self._show()

    def _new_case(self) -> Case:
        """Return an empty case for the shop's place and today."""
        from datetime import date

        from counter import desk

        return desk.Case(place=str(self.settings.value("place", "")) or None, on=date.today())

    def set_place(self, place: str) -> None:
        """Ask for the law of this place from now on; a setting, so undo leaves it alone."""
        self.settings.setValue("place", place)
        if self.history is not None:
            self.history.everywhere(place=place or None)
            self._show()

    def ask_for_place(self) -> None:
        """Open the law and let the shop's place be chosen."""
        self.side.open(LAW_TAB)
        self.side.law.ask_for_place()

    def toggle_broken(self) -> None:
        """Say that a lamp lies broken, or that none does, and show the steps."""
        if self.history is not None:
            self._change(broken=not self.history.case.broken)
            self.side.open(LAW_TAB if self.history.case.broken else 0)

    def next_customer(self) -> None:
        """Start over; the case left behind comes back by undo."""
        for pane in (self.looks, self.marks, self.fixture):
            pane.clear()
        self.grid.filter.clear()
        if self.history is not None:
            self.history.start_over(self._new_case())
        self.side.tabs.setCurrentIndex(0)
        self._show()
        self.marks.take_focus()

    def undo(self) -> None:
        """Go back one step of the case."""
        if self.history is not None and self.history.undo():
            self._show()

    def redo(self) -> None:
        """Go forward again."""
        if self.history is not None and self.history.redo():
            self._show()

    # -- showing

    def _show(self) -> None:
        if self.case is None or self.catalogue is None:
            return
        from counter import desk
        from counter.window.outlines.cards import cards_of

        case, found = self.case, desk.assess(self.catalogue, self.case, self.house)
        self.assessment = found
        shown = case.shown or found.lamp or found.nearest
        cards = cards_of(self.catalogue, found.candidates, self._drawn, found.outlines)
        self.grid.show_cards(cards, self._card_of(cards, shown), fresh=not case.looks and not case.marks)
        self.looks.show_looks(case.looks, () if found.is_settled else found.next, found.advice)
        self.marks.show_marks(case.marks, found.readings, found.conflicts, found.problems)
        self.fixture.show_fixture(case.fixture, case.use)
        self.fixture.show_label(found.label)
        self.side.show_assessment(found, case)
        likely = _worth_comparing(self.catalogue, found, shown)
        self.detail.show_lamp(shown, case.beside, likely, self.units)
        chosen = case.chosen is not None and case.chosen == shown
        self.detail.show_choice(chosen, _why_open(found) if chosen else "")
        self._show_answer(found)
        if self.training is not None:
            self.training.show_case()

    def _card_of(self, cards: tuple[Card, ...], lamp: str | None) -> str | None:
        if lamp is None or self.catalogue is None:
            return None
        one = self.catalogue.lamp_by_id[lamp]
        return next((card.lamp for card in cards if (card.base, card.kind) == (one.base, one.kind)), None)

    def _show_answer(self, found: Assessment) -> None:
        first = found.cautions[0] if found.cautions else None
        self.answer.show_answer(
            found.headline, found.subline, found.verdict, first.signal if first else None, first.says if first else ""
        )

        self.answer.show_place(self.case is None or self.case.place is not None)

    def _go_to(self, about: str) -> None:
        if about == "marks":
            self.marks.take_focus()
        elif about in self.looks.rows:
            self.looks.go_to(about)
        else:
            self.fixture.go_to(about)


def _worth_comparing(catalogue: Catalogue, found: Assessment, shown: str | None) -> tuple[str, ...]:
    """Return what to hold beside a lamp: what it could be instead, then its base's family, then the next likely."""
    could_be = [one.lamp for one in found.candidates if one.probability >= WORTH_COMPARING]
    family: list[str] = []
    if shown is not None and shown in catalogue.lamp_by_id:
        name = catalogue.base_of(catalogue.lamp_by_id[shown]).family
        family = [lamp.id for lamp in catalogue.lamps_of_family[name]]
    rest = [one.lamp for one in found.candidates]
    return tuple(dict.fromkeys([*could_be[:MOST_LIKELY], *family, *rest]))[:MOST_LIKELY]


def _why_open(found: Assessment) -> str:
    """Say why a chosen lamp is not settled by that, and what would settle it; nothing where it is."""
    first = next((one for one in found.doubts if one.is_about_lamp), None)
    return f"Not settled by this button. {first.says} {first.ask}" if first is not None else ""


def _with_label(catalogue: Catalogue, words: str) -> str:
    """Return a problem with the name of the look that the clerk sees, not the one that files use."""
    key, colon, rest = words.partition(":")
    look = catalogue.look_by_key.get(key)
    return f"{look.label}{colon}{rest}" if look is not None else words


def _taken(text: str, value: str | float | None) -> str:
    """Say how a size was taken that was typed in another way than as millimetres."""
    if not isinstance(value, float) or text.replace(",", ".") == f"{value:g}":
        return ""
    return f"{text} taken as {value:g}\N{THIN SPACE}mm"


def _left_out(problems: tuple[Problem, ...]) -> str:
    """Say what of the shop's own file could not be used; nothing where all could."""
    if not problems:
        return ""
    first = problems[0]
    more = f" and {len(problems) - 1} more" if len(problems) > 1 else ""
    return f"Of the shop's own values some are left out: {first.path} {first.what}{more}. «counter check» lists them."


def _empty_frame() -> QFrame:
    """Return a frame that keeps the place of a pane until the window is awake."""
    frame = QFrame()
    frame.setProperty("panel", True)
    return frame


def _splitter(*widgets: QWidget, sizes: tuple[int, ...], upright: bool = False) -> QSplitter:
    splitter = QSplitter()
    if upright:
        splitter.setProperty("orientation", early.VERTICAL)
    for widget in widgets:
        splitter.addWidget(widget)
    splitter.setHandleWidth(8)
    splitter.setChildrenCollapsible(False)
    splitter.setSizes(sizes)
    return splitter
