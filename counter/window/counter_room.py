"""The counter awake: one case, one assessment, and the list of all connections between panes."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any, cast

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication

from counter import desk, shop
from counter.fit import worth_holding_beside
from counter.identify import LookProblem, Typed, parse_look, with_unit
from counter.language import SpokenNumber, current, marked, tr, trn
from counter.marks import letters
from counter.window.answer_bar import STAMP_WORDS
from counter.window.arrangement import Panes
from counter.window.commands import commands_of, menu_of
from counter.window.desk_cases import DeskCases
from counter.window.dialogs.about import about
from counter.window.dialogs.help import help_at
from counter.window.dialogs.keys import keys_sheet
from counter.window.dialogs.settings import Settings
from counter.window.fixture.fixture_pane import FixturePane
from counter.window.looks.looks_pane import LooksPane
from counter.window.marks.letters_desk import LettersDesk
from counter.window.marks.marks_pane import MarksPane
from counter.window.measure.door import MeasureDoor
from counter.window.outlines.cards import cards_of
from counter.window.outlines.detail_pane import DetailPane
from counter.window.outlines.opening import remember
from counter.window.parts.alert import Alert
from counter.window.parts.flash import RingOnFocus
from counter.window.parts.languages import speak
from counter.window.parts.source_dialog import Said, SourceDialog
from counter.window.parts.style import wear
from counter.window.parts.undo_keys import UndoKeys
from counter.window.shelf.shop_desk import ShopDesk
from counter.window.side.side_tabs import SideTabs
from counter.window.training.door import TrainingDoor

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Loaded, Problem
    from counter.desk import Assessment, Case
    from counter.identify import NextLook
    from counter.outline import Drawing
    from counter.window.entries.door import EntriesDoor
    from counter.window.entries.share import Share
    from counter.window.main_window import MainWindow
    from counter.window.outlines.cards import Card
    from counter.window.outlines.facts import Fact
    from counter.window.parts.theme import Theme
    from counter.window.side.ask_row import Answer

MOST_LIKELY = 8
WORTH_COMPARING = 0.01  # below this a candidate is no likelier than the catalogue's order makes it look
LAW_TAB = 3  # by its place from 0
GRAVE = ("DANGER", "WARNING")  # said at once, over whatever is being read
# What holds a pane is laid out after what it holds, one more step outwards at each pass.
SETTLE_PASSES = 4
NO_ANSWER = marked("No answer: something went wrong here")


def wake(window: MainWindow, case: Case | None) -> None:
    """Fill the window's places and give it a counter; a catalogue that cannot be read is said in the window."""
    wear()
    window.follow_system()
    QGuiApplication.styleHints().colorSchemeChanged.connect(window.follow_system)
    speak(str(window.settings.value("language", "")) or current())
    _fill_places(window)
    try:
        loaded = shop.remembered_catalogue(window.data).loaded
    except (OSError, ValidationError) as problem:
        _say_unreadable(window, problem)
        return
    window.counter = Counter(window, loaded, case)
    window.is_awake = True
    window.counter.begin(is_fresh=case is None)


def fill(window: MainWindow, loaded: Loaded, history: desk.History) -> None:
    """Fill the window's places anew and give them a counter that goes on with a case and its history."""
    _fill_places(window)
    window.counter = Counter(window, loaded, history.case)
    window.counter.history = history
    window.counter.begin(is_fresh=False)


def _fill_places(window: MainWindow) -> None:
    window.looks, window.detail, window.marks = LooksPane(), DetailPane(window.theme), MarksPane(window.theme)
    window.fixture, window.side = FixturePane(), SideTabs(window.theme)
    window.cautions = window.side.cautions
    window.places.fill(Panes(window.looks, window.detail, window.marks, window.fixture, window.side))


def _asked_first(found: Assessment) -> tuple[NextLook, ...]:
    """Return the looks left, the one that the stamp asks for first, so that its mark stands where the words say."""
    asked = next((one.about for one in found.doubts if one.kind in ("look", "watts")), None)
    return tuple(sorted(found.next, key=lambda one: one.look != asked))


class Counter(QObject):
    """Holds the case and its history; every pane asks, this answers with a new assessment."""

    def __init__(self, window: MainWindow, loaded: Loaded, case: Case | None) -> None:
        super().__init__(window)
        self.window, self.data, self.settings = window, window.data, window.settings
        self.answer, self.grid, self.looks, self.detail = window.answer, window.grid, window.looks, window.detail
        self.marks, self.fixture, self.side = window.marks, window.fixture, window.side
        self.cautions = window.cautions
        self.catalogue: Catalogue = loaded.catalogue
        self.letters = LettersDesk(self)
        self._drawn: dict[str, Drawing] = {}
        self._take_catalogue(loaded)
        self.looks.build(loaded.catalogue, window.theme)
        if self.letters.problems:
            left_out = tr("Makers' codes are left out: {problem}.")
            self.looks.show_problem("", left_out.format(problem=self.letters.problems[0]))
        self.fixture.build(loaded.catalogue)
        self.history = desk.History(case or self._new_case())
        self.assessment: Assessment = self.assess(self.case)
        self.desk_cases = DeskCases(self)
        self.alert = Alert(self.answer)
        RingOnFocus(self.grid.view)

    def begin(self, *, is_fresh: bool) -> None:
        """Show the case; an empty one's outlines are kept for the next start."""
        self.training = TrainingDoor(self.window)
        self.measuring = MeasureDoor(self.window)
        self.shop = ShopDesk(self)
        self._connect()
        self.show()
        self.marks.take_focus()
        if is_fresh:
            remember(self.data, self.grid.model.cards)
            self.desk_cases.offer_open()

    @property
    def case(self) -> Case:
        """The present case."""
        return self.history.case

    def _take_catalogue(self, loaded: Loaded) -> None:
        """Use a catalogue from now on: everything kept of an older one is dropped."""
        self.loaded = loaded
        self.catalogue = loaded.catalogue
        self._drawn.clear()
        self.grid.delegate.forget()
        self.detail.build(loaded.catalogue)
        self.side.build(loaded.catalogue)
        self.looks.show_problem("", _left_out(loaded.problems))

    def take_loaded(self, loaded: Loaded) -> None:
        """Use what another till has confirmed since."""
        self._take_catalogue(loaded)
        self.show()

    def take_case(self, case: Case) -> None:
        """Show a case that comes from a slip or from those that waited; the one before it comes back by undo."""
        for pane in (self.looks, self.marks, self.fixture):
            pane.clear()
        self.shop.writer.clear()
        self.history.start_over(case)
        self.show()

    def fresh_case(self) -> Case:
        """Return the case of somebody of whom nothing is known yet."""
        return self._new_case()

    def assess(self, case: Case) -> Assessment:
        """Ask the desk about a case, with all that this shop knows of makers' codes."""
        return desk.assess(self.catalogue, case, self.letters.house, self.letters.sold)

    def _connect(self) -> None:
        # looks
        self.looks.answered.connect(self.answer_look)
        # outlines and detail
        self.grid.picked.connect(self.open_outline)
        self.grid.compared.connect(lambda lamp: self.change(beside=lamp))
        self.detail.opened.connect(self.open_outline)
        self.detail.chosen.connect(lambda lamp: self.change(chosen=lamp or None))
        self.detail.beside.connect(lambda lamp: self.change(beside=lamp or None))
        self.detail.source_wanted.connect(self.open_source)
        # marks
        self.marks.typed.connect(self.take_marks)
        self.marks.look_dropped.connect(lambda key: self.answer_look(key, ""))
        self.marks.letters_taught.connect(self.letters.teach)
        self.marks.letters_forgotten.connect(self.letters.forget)
        self.marks.letters.undo_wanted.connect(self.letters.undo)
        self.marks.letters.excepted.connect(lambda word: self._explain("marks", (word,)))
        self.letters.changed.connect(self.show)
        self.letters.kept.connect(self.marks.letters.say_kept)
        # fixture
        self.fixture.changed.connect(self.change_fixture)
        self.fixture.use_changed.connect(lambda use: self.change(use=use))
        self.fixture.label_typed.connect(lambda text: self.change_fixture({"label": text}))
        # cautions, instead, law
        self.cautions.ask_pressed.connect(self.go_to)
        self.cautions.answered.connect(self.take_answer)
        self.side.instead.beside.connect(lambda lamp: self.change(beside=lamp))
        self.side.law.place_chosen.connect(self.set_place)
        self.side.law.broken_toggled.connect(lambda broken: self.change(broken=broken))
        # the whole
        self.answer.next_customer.connect(self.next_customer)
        self.answer.place_wanted.connect(self.ask_for_place)
        self._keys()

    def _keys(self) -> None:
        window = self.window
        self._undo_keys = UndoKeys(window)
        self._undo_keys.watch(window)
        self.commands = commands_of(self)
        self.answer.menu.setMenu(menu_of(self, self.commands))
        QShortcut(QKeySequence("F10"), window.places, self.answer.menu.showMenu)
        # Wherever the keyboard is: a filter is forgotten just because one has gone on to something else.
        QShortcut(QKeySequence("Escape"), window.places, self.grid.filter.clear)
        self.grid.filter.setClearButtonEnabled(True)  # its icon takes time that the first paint has not

    # -- the case and its history

    def change(self, **fields: Any) -> None:
        """Replace fields of the case and show what follows."""
        if "looks" in fields or "typed" in fields:
            looks, typed = fields.get("looks", self.case.looks), fields.get("typed", self.case.typed)
            fields["looks"], _ = desk.sized(self.catalogue, looks, typed)
        if fields.keys() & {"looks", "marks"}:  # what is seen now counts; an outline opened before may be another's
            fields.setdefault("shown", None)
        if self.history.change(**fields):
            self.show()

    def take_marks(self, text: str) -> None:
        """Take what was typed as marks, unless it is the code of a slip, which brings its case back."""
        if not self.shop.is_slip(text):
            self.change(marks=text)

    def answer_look(self, key: str, text: str) -> None:
        """Take an answer to a look as it was pressed or typed; "" takes it back."""
        looks, typed = dict(self.case.looks), dict(self.case.typed)
        looks.pop(key, None)
        typed.pop(key, None)
        is_size = self.catalogue.look_by_key[key].is_measured
        problem = ""
        try:
            said = with_unit(text, self.window.units) if is_size else text
            answer = parse_look(self.catalogue, key, said) if text else None
        except LookProblem as found:
            answer, problem = None, _with_label(self.catalogue, str(found))
        if text and is_size and answer != desk.CANNOT_TELL:
            typed[key] = Typed(text=text, units=self.window.units)
            problem = self._size_problem(key, looks, typed)
        elif answer is not None:
            looks[key] = answer
        if problem:
            typed.pop(key, None)
        self.looks.show_problem(key, problem)
        self.change(looks=looks, typed=typed)
        self.looks.say_taken("" if problem else _taken(text, self.case.looks.get(key)))

    def _size_problem(self, key: str, looks: dict[str, str | float], typed: dict[str, Typed]) -> str:
        """Return why what was typed for a size cannot be taken, or nothing."""
        try:
            desk.sized(self.catalogue, looks, {key: typed[key]})
        except LookProblem as found:
            return _with_label(self.catalogue, str(found))
        return ""

    def change_fixture(self, fields: dict[str, Any]) -> None:
        """Take fields of the fixture as they were chosen or typed."""
        try:
            fixture = desk.changed_fixture(self.catalogue, self.case.fixture, fields, self.window.units)
        except ValueError as problem:
            self.fixture.show_problem(_with_label(self.catalogue, str(problem)))
            return
        self.fixture.show_problem("")
        self.change(fixture=fixture)

    def take_answer(self, answer: Answer) -> None:
        """Take what was pressed beside a question."""
        fixture = self.case.fixture
        match answer.kind:
            case "told":
                told = fixture.told | {answer.about: bool(answer.value)}
                self.change(fixture=fixture.model_copy(update={"told": told}))
            case "field":
                self.change_fixture({answer.about: answer.value})
            case "explained":
                self._explain(answer.about, cast("tuple[str, ...]", answer.value))
            case _:
                self.change(**{answer.about: answer.value})

    def _explain(self, about: str, read: tuple[str, ...]) -> None:
        """Take words as read: they say nothing of the lamp; with Shift never asked about again in this shop."""
        if QApplication.keyboardModifiers() & Qt.KeyboardModifier.ShiftModifier:
            self._keep_words(read)
        if about == "marks":
            self.change(explained=(*self.case.explained, *read))
        else:
            fixture = self.case.fixture
            self.change(fixture=fixture.model_copy(update={"explained": (*fixture.explained, *read)}))

    def _keep_words(self, read: tuple[str, ...]) -> None:
        """Keep words as read for good; one that cannot be kept is said, and counts for this customer all the same."""
        who, today = str(self.settings.value("who", "")), date.today()

        def job() -> Loaded:
            for word in read:
                shop.keep_own(self.data, "words", {"word": word}, who=who, on=today)
            return shop.load_catalogue(self.data)

        def failed(problem: Exception) -> None:
            self.looks.show_problem("", tr("Not kept for the shop: {problem}").format(problem=problem))

        self.shop.worker.ask(job, self.take_loaded, failed)

    def open_outline(self, lamp: str) -> None:
        """Show an outline large; looking at it settles nothing, and takes back an earlier choice of another."""
        self.change(shown=lamp, chosen=self.case.chosen if self.case.chosen == lamp else None)

    def open_source(self, fact: Fact) -> None:
        """Show where a value comes from, and let the shop confirm it."""
        shown, who = self.detail.title.text(), str(self.settings.value("who", ""))
        dialog = SourceDialog(fact, shown, who, None if fact.address else (), self.window)
        dialog.confirmed.connect(lambda value, who, how: self._confirm(dialog, fact, value, who, how))
        dialog.withdrawn.connect(lambda: self._withdraw(dialog, fact))
        self._ask_said_before(dialog, fact)
        dialog.open()

    def _ask_said_before(self, dialog: SourceDialog, fact: Fact) -> None:
        """Ask beside the window what the shop confirmed for a fact; what cannot be read is none, and why is said."""
        if fact.address is None:
            return
        kind, of, part = fact.address

        def job() -> tuple[Said, ...]:
            found = shop.confirmed_before(self.data, kind=kind, of=of, part=part)
            return tuple(
                Said(_plain(one.value, one.plus_minus), one.who, one.on.isoformat(), one.how) for one in found
            )

        def failed(problem: Exception) -> None:
            dialog.show_before(())
            dialog.show_problem(str(problem))

        self.shop.worker.ask(job, dialog.show_before, failed, owner=dialog)

    def _withdraw(self, dialog: SourceDialog, fact: Fact) -> None:
        assert fact.address is not None
        kind, of, part = fact.address

        def job() -> Loaded:
            shop.withdraw(self.data, kind=kind, of=of, part=part)
            return shop.load_catalogue(self.data)

        def done(loaded: Loaded) -> None:
            dialog.accept()
            self.take_loaded(loaded)

        dialog.show_problem(tr("asking the store …"))
        self.shop.worker.ask(job, done, lambda problem: dialog.show_problem(str(problem)), owner=dialog)

    def _confirm(self, dialog: SourceDialog, fact: Fact, value: str, who: str, how: str) -> None:
        assert fact.address is not None
        kind, of, part = fact.address
        today = datetime.now(UTC).astimezone().date()
        try:
            seen = desk.readings(self.catalogue, part, value, self.window.units)
        except ValueError as problem:
            dialog.show_problem(str(problem))
            return

        def job() -> Loaded:
            value, spread = seen
            shop.confirm(
                self.data, kind=kind, of=of, part=part, value=value, plus_minus=spread, who=who, on=today, how=how
            )
            return shop.load_catalogue(self.data)

        def done(loaded: Loaded) -> None:
            self.settings.setValue("who", who)
            dialog.accept()
            self.take_loaded(loaded)

        self.shop.worker.ask(job, done, lambda problem: dialog.show_problem(str(problem)), owner=dialog)

    def _new_case(self) -> Case:
        """Return an empty case for the shop's place and today."""
        place = str(self.settings.value("place", "")) or None
        return desk.Case(place=place, on=date.today())

    def set_place(self, place: str) -> None:
        """Ask for the law of this place from now on; a setting, so undo leaves it alone."""
        self._take_place(place)
        self.shop.keep_place(place)

    def take_shop_place(self, place: str | None) -> None:
        """Take the place that another till of the shop has set; None was never set."""
        if place is not None and place != str(self.settings.value("place", "")):
            self._take_place(place)

    def _take_place(self, place: str) -> None:
        self.window.keep("place", place)
        self.history.everywhere(place=place or None)
        self.show()

    def ask_for_place(self) -> None:
        """Open the law and let the shop's place be chosen."""
        self.side.open(LAW_TAB)
        self.side.law.ask_for_place()

    def toggle_broken(self) -> None:
        """Say that a lamp lies broken, and show the steps; or that it is dealt with, and go on with the marks."""
        self.change(broken=not self.case.broken)
        if self.case.broken:
            self.side.open(LAW_TAB)
        else:
            self.side.open_quietly()
            self.marks.take_focus()

    def next_customer(self) -> None:
        """Start over; the case left behind comes back by undo."""
        self._clear_panes()
        self.shop.next_customer()
        self.desk_cases.leave()
        self.history.start_over(self._new_case())
        self.side.open_quietly()
        self.show()
        self.marks.take_focus()

    def open_case(self, case: Case) -> None:
        """Put a saved case in the place of the present one, which comes back by undo."""
        self._clear_panes()
        self.shop.writer.clear()
        fresh = self._new_case()
        self.history.start_over(case.model_copy(update={"on": fresh.on, "place": case.place or fresh.place}))
        self.show()

    def _clear_panes(self) -> None:
        for pane in (self.looks, self.marks, self.fixture):
            pane.clear()
        self.grid.filter.clear()

    def undo(self) -> None:
        """Go back one step of the case."""
        if self.history.undo():
            self.show()

    def redo(self) -> None:
        """Go forward again."""
        if self.history.redo():
            self.show()

    # -- sheets and the clipboard

    def say_not_kept(self, file: str) -> None:
        """Say that this machine cannot keep a choice, and why that may be."""
        words = tr("Not kept for the next start: {file} cannot be written. Let this account write in its folder.")
        self.desk_cases.line.say(words.format(file=file))

    def copy_answer(self) -> None:
        """Put the answer on the clipboard as lines of text."""
        QGuiApplication.clipboard().setText(desk.told(self.catalogue, self.case, self.assessment))
        self.desk_cases.line.say(tr("The answer is on the clipboard."))

    def show_settings(self) -> None:
        """Open the settings."""
        Settings(self.window).finish()

    def open_entries(self) -> EntriesDoor:
        """Open what the shop adds to the catalogue."""
        from counter.window.entries.door import EntriesDoor  # forms that nobody opened cost a start nothing

        door = EntriesDoor(self)
        door.open()
        return door

    def sharing(self) -> Share:
        """Return what gives this shop's layer away and takes another's in."""
        from counter.window.entries.share import Share

        return Share(self)

    def show_about(self) -> None:
        """Say what this program is."""
        about(self.window, self.catalogue, self.data)

    def show_keys(self) -> None:
        """Open the sheet of keys."""
        keys_sheet(self.window, self.commands)

    def show_help(self) -> None:
        """Open help at the pane that has the keyboard."""
        focus = self.window.focusWidget()
        panes = {
            "looks": self.looks,
            "outlines": self.grid,
            "detail": self.detail,
            "marks": self.marks,
            "fixture": self.fixture,
            "side": self.side,
            "answer": self.answer,
        }
        used = (name for name, pane in panes.items() if focus is not None and pane.isAncestorOf(focus))
        help_at(self.window, next(used, "answer"))

    # -- showing

    def show(self) -> None:
        """Ask the desk about the case and give every pane the answer."""
        case = self.case
        try:
            found = self.assess(case)
        except Exception:
            self._show_no_answer()
            raise
        self.assessment = found
        shown = case.shown or found.lamp or found.nearest
        cards = cards_of(self.catalogue, found.candidates, self._drawn, found.outlines)
        self.grid.show_cards(cards, self._card_of(cards, shown), fresh=not case.looks and not case.marks)
        _, doubts = desk.sized(self.catalogue, case.looks, case.typed)
        self.looks.show_looks(case, () if found.is_settled else _asked_first(found), found.advice, doubts[:1])
        self.looks.show_units(self.window.units)
        meanings = letters.choices(self.catalogue, found.lamp)
        self.marks.show_marks(case.marks, found, meanings, can_undo=self.letters.undoable is not None)
        self.fixture.show_fixture(case.fixture, case.use)
        self.fixture.show_label(found.label)
        self.side.show_assessment(found, case)
        likely = _worth_comparing(self.catalogue, found, shown)
        self.detail.show_lamp(shown, case.beside, likely, self.window.units)
        chosen = case.chosen is not None and case.chosen == shown
        self.detail.show_choice(chosen, _why_open(found) if chosen else "")
        self._show_answer(found)
        self.training.show_case()
        self.shop.show_case()
        self.desk_cases.note_change()
        _settle()

    def _show_no_answer(self) -> None:
        """Leave no old verdict standing beside what was typed since."""
        self.answer.show_answer("", tr(NO_ANSWER), None, None, "")
        self.side.show_nothing()
        self.detail.show_choice(False, "")

    def _card_of(self, cards: tuple[Card, ...], lamp: str | None) -> str | None:
        if lamp is None:
            return None
        one = self.catalogue.lamp_by_id[lamp]
        return next((card.lamp for card in cards if (card.base, card.kind) == (one.base, one.kind)), None)

    def _show_answer(self, found: Assessment) -> None:
        signal, says, ask = _said_first(found)
        self.answer.show_answer(found.headline, found.subline, found.verdict, signal, says, ask)
        self.answer.show_place(self.case.place is not None)
        verdict = tr(STAMP_WORDS[found.verdict]).lower() if found.verdict is not None else tr("no verdict yet")
        words = f"{f'{tr(signal)}: ' if signal else ''}{says} {ask}"
        self.alert.say(f"{found.headline} {found.subline}. {verdict}. {words}".strip(), is_grave=signal in GRAVE)

    def go_to(self, about: str) -> None:
        """Put the keyboard where a question is answered."""
        if about == "marks":
            self.marks.take_focus()
        elif about == desk.OPEN_END:
            self.side.open_instead()
        elif about in self.looks.rows:
            self.looks.go_to(about)
        else:
            self.fixture.go_to(about)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        for pane in (self.looks, self.detail, self.marks, self.side):
            pane.set_theme(theme)
        self.training.set_theme(theme)

    def put_away(self) -> None:
        """Make way for a counter that goes on with this case: the case is not left behind, and nothing is asked."""
        menu = self.answer.menu.menu()
        self.desk_cases.write()
        self.training.put_away()
        self.shop.close()
        for part in (menu, self.measuring, self):
            if part is not None:
                part.deleteLater()

    def close(self) -> None:
        """Leave nothing behind that would keep the program alive."""
        self.desk_cases.close()
        self.training.close()
        self.shop.close()


def _settle() -> None:
    """Lay out what has changed before it is painted: Qt would paint it where it was, and then once more."""
    for _ in range(SETTLE_PASSES):
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)


def _worth_comparing(catalogue: Catalogue, found: Assessment, shown: str | None) -> tuple[str, ...]:
    """Return what to hold beside a lamp: what cautions name beside it, what it could be, its family, the likely."""
    named: list[str] = []
    could_be = [one.lamp for one in found.candidates if one.probability >= WORTH_COMPARING]
    family: list[str] = []
    if shown is not None and shown in catalogue.lamp_by_id:
        name = catalogue.base_of(catalogue.lamp_by_id[shown]).family
        family = [lamp.id for lamp in catalogue.lamps_of_family[name]]
        named = [one.id for one in worth_holding_beside(catalogue, catalogue.lamp_by_id[shown])]
    rest = [one.lamp for one in found.candidates]
    return tuple(dict.fromkeys([*named, *could_be[:MOST_LIKELY], *family, *rest]))[:MOST_LIKELY]


def _said_first(found: Assessment) -> tuple[str | None, str, str]:
    """Return the signal word and the words beside the stamp: all that is grave, and what to ask first."""
    first = found.first_words
    is_grave = any(one.signal in GRAVE for one in first)
    says = " ".join(one.says for one in first)
    signal = first[0].signal if first else None
    if found.verdict == "sell" and not is_grave:
        return signal, says, _worth_asking(found)
    if found.verdict != "ask first" or not found.doubts:
        return signal, says, ""
    doubt = found.doubts[0]
    is_told = doubt.about == desk.OPEN_END or (doubt.kind == "look" and doubt.about != "marks")
    asks = doubt.ask if is_told else tr("Ask: {question}").format(question=doubt.ask)
    return (signal, says, asks) if is_grave else (None, "", asks)


def _worth_asking(found: Assessment) -> str:
    """Return a question whose answer the sale does not wait for."""
    question = next((one.question for one in found.asks if not one.blocks), "")
    return tr("If you can, ask: {question}").format(question=question) if question else ""


def _why_open(found: Assessment) -> str:
    """Say why a chosen lamp is not settled by that, and what would settle it; nothing where it is."""
    first = next((one for one in found.doubts if one.is_about_lamp), None)
    if first is None:
        return ""
    return tr("This button does not settle it. {says} {ask}").format(says=first.says, ask=first.ask)


def _with_label(catalogue: Catalogue, words: str) -> str:
    """Return a problem with the name of the look that the clerk sees, not the one that files use."""
    key, colon, rest = words.partition(":")
    look = catalogue.look_by_key.get(key)
    return f"{tr(look.label)}{colon}{rest}" if look is not None else words


def _taken(text: str, value: str | float | None) -> str:
    """Say how a size was taken that was typed in another way than as millimetres."""
    if not isinstance(value, float) or text.replace(",", ".") == f"{value:g}":
        return ""
    return tr("{text} taken as {length:g}\N{THIN SPACE}mm").format(text=text, length=SpokenNumber(value))


def _plain(value: object, plus_minus: float | None = None) -> str:
    """Return a confirmed value as it would be typed, and how far its readings spread."""
    spread = f" ± {plus_minus:g}" if plus_minus is not None else ""
    return f"{value:g}{spread}" if isinstance(value, float) else str(value)


def _left_out(problems: tuple[Problem, ...]) -> str:
    """Say what of the shop's own file could not be used; nothing where all could."""
    if not problems:
        return ""
    first = f"{problems[0].path} {problems[0].what}"
    return trn(
        "{count} of the shop's own values is left out: {first}. «counter check» lists it.",
        "{count} of the shop's own values are left out, the first: {first}. «counter check» lists them.",
        len(problems),
    ).format(count=len(problems), first=first)


def _say_unreadable(window: MainWindow, problem: Exception) -> None:
    first = str(problem).splitlines()[0]
    window.answer.show_answer("", tr("The catalogue could not be read"), None, None, "")
    window.grid.say_unreadable()
    window.detail.title.setText(tr("Nothing can be looked up"))
    window.detail.tell.setText(
        f"{first}\n" + tr("Run «counter check» in a terminal: it lists every problem with its place.")
    )
