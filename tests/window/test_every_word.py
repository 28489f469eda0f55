"""Every word of the window goes through translation: in a language that marks each word, none is left unmarked."""

from __future__ import annotations

import html
import re
from datetime import date
from functools import cache
from itertools import chain, product
from typing import TYPE_CHECKING, Literal, get_args, get_origin

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QLabel,
    QLineEdit,
    QListView,
    QMainWindow,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QTabBar,
    QToolButton,
    QWidget,
)

from counter import language
from counter.catalogue import SHAPES, LampClass, _models
from counter.desk import Case
from counter.entries._labels import LABELS
from counter.fit import texts as cautions
from counter.language import _chosen
from counter.outline import Label
from counter.reports import Report
from counter.shop import confirm
from counter.window.dialogs.about import SHIPPED, about
from counter.window.dialogs.help import help_at
from counter.window.dialogs.keys import keys_sheet
from counter.window.dialogs.settings import Settings
from counter.window.outlines.drawing_view import DrawingView
from counter.window.outlines.facts import facts_of
from counter.window.parts.row_table import RowTable
from counter.window.rescue import Rescue
from counter.window.shelf.import_dialog import ImportDialog
from counter.window.training.frame import BOARD, STANDING
from tests.language.test_translations import ENGLISH
from tests.shelf.conftest import HEADINGS, LINES, write_xlsx
from tests.window.hands import FULL, store_answered

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

OPENED, CLOSED = "⟦", "⟧"
CODE = re.compile(r"[A-Z]{3,4}")  # letters of printed codes; what is shouted else is wrapped, as another test says
NAMES = {  # what is written alike in every language
    *("Ctrl", "Alt", "Shift", "Esc", "Tab", "Enter", "Del"),
    *("English", "Español", "Deutsch"),
    *("min", "mired", "PSF", "VHO"),
    *(part for name, _ in SHIPPED for part in re.findall(r"[^\W\d_]+", name)),
    *("Python", "LGPL", "later"),
    *("Letter", "Tabloid"),  # sizes of paper
}


class Marking:
    """A language that sets brackets round every sentence that goes through it."""

    def gettext(self, message: str) -> str:
        return f"{OPENED}{message}{CLOSED}"

    def ngettext(self, one: str, many: str, count: int) -> str:
        return self.gettext(one if count == 1 else many)


@pytest.fixture
def marking(monkeypatch):
    monkeypatch.setattr(_chosen, "_words", lambda _: Marking())
    monkeypatch.setattr(language, "use", lambda _: None)  # windows and settings ask for English
    before = list(_chosen._chosen)
    _chosen._chosen[:] = ["xx", "", "xx"]
    yield
    _chosen._chosen[:] = before


def drawn_in(one: DrawingView) -> Iterator[str]:
    yield one.caption
    yield from (shape.text for shape in one.drawing.shapes if isinstance(shape, Label)) if one.drawing else ()


def listed_in(one: QAbstractItemView) -> Iterator[str]:
    roles = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole)
    if (model := one.model()) is None:
        return
    columns = range(1 if isinstance(one, QListView) else model.columnCount())
    for at, row in product(columns, range(model.rowCount())):
        yield from (str(model.index(row, at).data(role) or "") for role in roles)
    if not isinstance(one, QListView):
        yield from (str(model.headerData(at, Qt.Orientation.Horizontal) or "") for at in columns)


SAYS = {
    QLabel: lambda one: [one.text()],
    QAbstractButton: lambda one: [one.text()],
    QLineEdit: lambda one: [one.placeholderText()],
    QComboBox: lambda one: [one.itemText(at) for at in range(one.count())],
    QAbstractSpinBox: lambda one: [one.specialValueText()],
    QTabBar: lambda one: [text for at in range(one.count()) for text in (one.tabText(at), one.tabToolTip(at))],
    QDialog: lambda one: [one.windowTitle()],
    QMainWindow: lambda one: [one.windowTitle()],
    QMenu: lambda one: [one.title(), *(text for act in one.actions() for text in (act.text(), act.toolTip()))],
    DrawingView: drawn_in,
    RowTable: lambda one: [" ".join((row.left, row.middle, row.right, row.tip)) for row in one.rows],
    QAbstractItemView: listed_in,
    QPlainTextEdit: lambda one: [one.toPlainText()] if one.isReadOnly() else [],
}


def shown_by(one: QWidget) -> Iterator[str]:
    """Yield every text that a widget shows, tells or has in store, but what was typed into it."""
    yield from (one.toolTip(), one.accessibleName(), one.accessibleDescription())
    for kind, said in SAYS.items():
        if isinstance(one, kind):
            yield from said(one)


def texts(window: QWidget) -> set[str]:
    """Return every text there is, of the window, its menus and what is open over it."""
    for menu in window.findChildren(QMenu):
        menu.aboutToShow.emit()
    QApplication.processEvents()
    own = {one for bar in window.findChildren(QTabBar) for one in bar.findChildren(QToolButton)}  # Qt's own words
    own |= {
        one
        for box in window.findChildren(QDialogButtonBox)
        for one in box.buttons()
        if box.standardButton(one) != QDialogButtonBox.StandardButton.NoButton
    }
    seen = [one for one in [window, *window.findChildren(QWidget)] if one not in own]
    found = {text for one in seen for text in shown_by(one) if text}
    return {html.unescape(re.sub(r"</?qt>|<br>", " ", text)) for text in found}


@cache
def raw_words() -> set[str]:
    """Return the words of ours for programs, ids of rules among them, but those that are Spanish too."""
    kinds = (*vars(_models).values(), LampClass)
    allowed = {str(word) for kind in kinds if get_origin(kind) is Literal for word in get_args(kind)}
    fields = {name for name in LABELS if "_" in name}
    return (allowed | fields | set(cautions())) - {"no", "triple", "led", "uv-a", "uv-b", "uv-c", "post"}


def residue(names: list[str], text: str) -> list[str]:
    """Return the words of a text that went through no translation and are no names of the trade, or are raw ones."""
    bare = text
    raw = [one for one in re.findall(f"{OPENED}([a-z0-9]+[-_][a-z0-9_-]+){CLOSED}", text) if one in raw_words()]
    while (shorter := re.sub(f"{OPENED}[^{OPENED}{CLOSED}]*{CLOSED}", " ", bare)) != bare:
        bare = shorter
    for name in names:
        bare = bare.replace(name, " ")
    left = [word for word in re.findall(r"[^\W\d_]{3,}", bare.replace("&", "")) if not CODE.fullmatch(word)]
    left = [word for word in left if word not in NAMES]
    return [*left, *(one for one in raw if one not in SHAPES.values())]


BOOK = "Interior Lighting for Designers"


def names_of(window: QWidget) -> set[str]:
    """Return what is no sentence: bases, families, a book, what was typed."""
    catalogue, case = window.catalogue, window.case
    typed = set(re.findall(r"[\w.]+", f"{case.marks} {case.fixture.label}"))
    names = {base.designation for base in catalogue.bases} | {base.family for base in catalogue.bases}
    return {one for one in {*names, *typed, BOOK, case.marks, case.fixture.label, str(window.data)} if one}


def left_out(window: QWidget, typed: Iterable[str] = ()) -> list[str]:
    names = sorted({*names_of(window), *typed}, key=len, reverse=True)
    return sorted(f"{' '.join(words)}: {text}" for text in texts(window) if (words := residue(names, text)))


REFUSED = Case(marks="CFQ26W/G24d/827", use="lighting", fixture={"holder": "G24q-2", "ballast": "electronic"})
GERMICIDAL = Case(looks={"glass": "clear", "pins": "2", "legs": "2"}, marks="GFT9W/G23", use="lighting", place="eu")
BLACK = Case(
    looks={"glass": "blue-black"}, marks="FQ18W/BLB", chosen=None, fixture={"label": "2 x 18 W T8 emergency"}
)
CASES = {"empty": Case(), "full": FULL, "refused": REFUSED, "uv-c": GERMICIDAL, "uv-a": BLACK}


SOLD = Case(marks="CFQ26W/G24q/835", looks={"glass": "white", "pins": "4", "legs": "4"}, fixture={"holder": "G24q-3"})


def show(window, case):
    window.counter.take_case(case)
    window.fixture.more.setChecked(True)
    for at in range(5):
        window.side.open(at)
        QApplication.processEvents()


@pytest.mark.parametrize("which", CASES)
def test_no_word_of_a_case_is_left_out(windows, marking, which):
    window = windows("light")
    show(window, CASES[which])
    found = left_out(window)
    assert found == [], "\n".join(found)


MAIN = {  # what Enter does in a dialog: what it is for, and never what takes something away
    "SourceDialog": "Confirm",
    "CalibrateDialog": "Save",
    "ReportDialog": "Go on",
    "ImportDialog": "Import",
    "SlipDialog": "Print and keep",
    "LogDialog": "Reopen  (Enter)",
    "LettersDialog": "Take those ticked",
    "ShareDialog": "Take it in",
}


def wrong_mains(window):
    """Return the dialogs now open in which Enter does something else than it should."""
    shown = [one for one in window.findChildren(QDialog) if one.isVisible() and type(one).__name__ in MAIN]
    mains = (
        (one, [button.text() for button in one.findChildren(QPushButton) if button.isDefault()]) for one in shown
    )
    return [
        f"{type(one).__name__}: Enter presses {words}"
        for one, words in mains
        if [word.strip(OPENED + CLOSED) for word in words] != [MAIN[type(one).__name__]]
    ]


def dialogs(window):
    """Open each dialog in turn over the window, and give it back."""
    counter = window.counter
    for open_one in (
        lambda: help_at(window, "looks"),
        lambda: keys_sheet(window, counter.commands),
        lambda: about(window, window.catalogue, window.data),
        lambda: Settings(window),
        lambda: counter.open_source(facts_of(window.catalogue, window.catalogue.lamps[0])[1]),
        counter.measuring.open_photo,
        counter.measuring.open_glass,
        counter.measuring.calibrate,
        lambda: Rescue(window).offer("", Report("", None)),
    ):
        open_one()
        QApplication.processEvents()
        yield
        for dialog in window.findChildren(QDialog):
            dialog.close()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def test_no_word_of_a_dialog_is_left_out(windows, marking):
    window = windows("light", FULL)
    found = [one for _ in dialogs(window) for one in (*left_out(window), *wrong_mains(window))]
    assert found == [], "\n".join(found)


def close_all(window):
    for dialog in window.findChildren(QDialog):
        dialog.close()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def shop_dialogs(window, qtbot, tmp_path):
    """Open what the shop has, one after the other: its list, slip, log, costs, letters, entries, another shop's."""
    counter = window.counter
    list_ = tmp_path / "stock.xlsx"
    write_xlsx(list_, [HEADINGS, *LINES])
    dialog = ImportDialog(counter, counter.shop.worker, list_, counter.shop._imported)
    dialog.show()
    store_answered(window)
    yield
    dialog.go.click()
    qtbot.waitUntil(lambda: bool(counter.shop.pane.model.answers))
    yield
    counter.shop.write_slip()
    yield
    counter.shop.writer.dialog.buttons["keep"].click()
    store_answered(window)
    for open_one in (
        counter.shop.open_log,
        counter.shop.open_cost,
        counter.shop.learner.open,
        counter.measuring.open_worth,
    ):
        close_all(window)
        open_one()
        store_answered(window)
        yield
    close_all(window)
    yield from entries(counter, qtbot)
    close_all(window)
    yield from another_shops(counter, qtbot, tmp_path)
    close_all(window)


def entries(counter, qtbot):
    door = counter.open_entries()
    qtbot.waitUntil(lambda: door.dialog is not None)
    for at in range(door.dialog.kind.count()):
        door.dialog.kind.setCurrentIndex(at)
        if door.dialog.of.count() > 1:
            door.dialog.of.setCurrentIndex(1)
            door.dialog.of.activated.emit(1)
        yield


def another_shops(counter, qtbot, tmp_path):
    spacing = {"kind": "base", "of": "G23", "part": "pin_spacing_mm", "on": date(2026, 3, 9)}
    other, file, share = tmp_path / "other", tmp_path / "layer.json", counter.sharing()
    confirm(other, **spacing, value=23.4, who="Ada", how="by eye", plus_minus=0.1)
    confirm(counter.data, **spacing, value=22.9, who="Kim", how="by eye")
    share.data = other
    share.export(file)
    qtbot.waitUntil(file.exists)
    share.data = counter.data
    share.open(file)
    qtbot.waitUntil(lambda: share.dialog is not None)
    yield


def training(window):
    """Go through the room: nobody there, somebody, cards, their answers, the end, and where she stands."""
    window.counter.training.enter()
    room = window.counter.training.room
    yield
    room.people.name.setText("Ada")
    room.people.add.click()
    store_answered(window)
    yield
    room.start_round(5)
    store_answered(window)
    for at in range(6):
        yield
        room.session.choose(0 if at % 2 else None)
        yield
        room.session.next()
    room.session.stop()
    yield
    for page in (STANDING, BOARD):
        room._open(page)
        store_answered(window)
        yield


TYPED = {*("Ada", "Kim", "by eye", "stock.xlsx"), *(cell for line in [HEADINGS, *LINES] for cell in line if cell)}


@pytest.mark.qt_log_ignore("This plugin does not support")
def test_no_word_of_shop_and_training_is_left_out(windows, marking, qtbot, tmp_path):
    """Nor does a word that only programs use stand anywhere, marked or not."""
    window, found = windows("light", SOLD), set()
    for _ in chain(shop_dialogs(window, qtbot, tmp_path), training(window)):
        QApplication.processEvents()
        found |= {*left_out(window, TYPED), *wrong_mains(window)}
    assert found == set(), "\n".join(sorted(found))


def english(window: QWidget) -> list[str]:
    names = sorted(names_of(window), key=len, reverse=True)
    found, raw = [], raw_words()
    for text in texts(window):
        bare = text
        for name in names:
            bare = bare.replace(name, " ")
        is_raw = raw & set(re.findall(r"[\w-]+", bare))
        found += [text] if ENGLISH.search(bare) or is_raw else []
    return sorted(found)


@pytest.mark.parametrize("which", CASES)
def test_no_english_is_left_in_spanish(windows, in_spanish, which):
    window = windows("light")
    show(window, CASES[which])
    found = english(window)
    assert found == [], "\n".join(found)


def test_no_english_is_left_in_a_spanish_dialog(windows, in_spanish):
    window = windows("light", FULL)
    found = [one for _ in dialogs(window) for one in english(window)]
    assert found == [], "\n".join(found)


@pytest.mark.parametrize("which", ["full", "uv-c"])
def test_a_window_switched_says_what_one_started_so_says(windows, in_spanish, which):
    started = windows("light")
    show(started, CASES[which])
    wanted = texts(started.places)
    switched = windows("light")
    switched.set_language("en")
    show(switched, CASES[which])
    before = texts(switched.places)
    switched.set_language("es")
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    for at in range(5):
        switched.side.open(at)
        QApplication.processEvents()
    after = texts(switched.places)
    assert sorted(after ^ wanted) == []
    assert after != before
