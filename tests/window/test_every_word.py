"""Every word of the window goes through translation: in a language that marks each word, none is left unmarked."""

from __future__ import annotations

import html
import re
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
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
    QTabBar,
    QToolButton,
    QWidget,
)

from counter import language
from counter.desk import Case
from counter.language import _chosen
from counter.outline import Label
from counter.reports import Report
from counter.window.dialogs.about import SHIPPED, about
from counter.window.dialogs.help import help_at
from counter.window.dialogs.keys import keys_sheet
from counter.window.dialogs.settings import Settings
from counter.window.outlines.drawing_view import DrawingView
from counter.window.outlines.facts import facts_of
from counter.window.parts.row_table import RowTable
from counter.window.rescue import Rescue
from tests.language.test_translations import ENGLISH
from tests.window.hands import FULL

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue

OPENED, CLOSED = "⟦", "⟧"
NAMES = {  # what is written alike in every language
    *("Ctrl", "Alt", "Shift", "Esc", "Tab", "Enter", "Del"),
    *("English", "Español", "Deutsch"),
    *("min", "mired", "PSF"),
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


def listed_in(one: QListView) -> Iterator[str]:
    roles = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole)
    model = one.model()
    for row in range(model.rowCount() if model is not None else 0):
        yield from (str(model.index(row, 0).data(role) or "") for role in roles)


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
    QListView: listed_in,
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


def residue(names: list[str], text: str) -> list[str]:
    """Return the words of a text that went through no translation and are no names of the trade."""
    bare = text
    while (shorter := re.sub(f"{OPENED}[^{OPENED}{CLOSED}]*{CLOSED}", " ", bare)) != bare:
        bare = shorter
    for name in names:
        bare = bare.replace(name, " ")
    return [word for word in re.findall(r"[^\W\d_]{3,}", bare.replace("&", "")) if word not in NAMES]


def names_of(window: QWidget) -> set[str]:
    """Return what is no sentence: bases, families, titles of sources, what was typed."""
    catalogue, case = window.catalogue, window.case
    typed = set(re.findall(r"[\w.]+", f"{case.marks} {case.fixture.label}"))
    names = {base.designation for base in catalogue.bases} | {base.family for base in catalogue.bases}
    return {
        one
        for one in names | where_from(catalogue) | {case.marks, case.fixture.label, str(window.data)} | typed
        if one
    }


def where_from(catalogue: Catalogue) -> set[str]:
    """Return what stands beside a value about where it comes from: titles of documents, and notes from them."""
    notes: set[str] = set()

    def walk(node: object) -> None:
        if isinstance(node, dict):
            notes.add(str(node.get("note") or "").rstrip("."))
        for one in node.values() if isinstance(node, dict) else node if isinstance(node, (list, tuple)) else ():
            walk(one)

    walk(catalogue.model_dump())
    return notes | {source.title for source in catalogue.sources}


def left_out(window: QWidget) -> list[str]:
    names = sorted(names_of(window), key=len, reverse=True)
    return sorted(f"{' '.join(words)}: {text}" for text in texts(window) if (words := residue(names, text)))


REFUSED = Case(marks="CFQ26W/G24d/827", use="lighting", fixture={"holder": "G24q-2", "ballast": "electronic"})
GERMICIDAL = Case(looks={"glass": "clear", "pins": "2", "legs": "2"}, marks="GFT9W/G23", use="lighting", place="eu")
BLACK = Case(
    looks={"glass": "blue-black"}, marks="FQ18W/BLB", chosen=None, fixture={"label": "2 x 18 W T8 emergency"}
)
CASES = {"empty": Case(), "full": FULL, "refused": REFUSED, "uv-c": GERMICIDAL, "uv-a": BLACK}


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
    found = [one for _ in dialogs(window) for one in left_out(window)]
    assert found == [], "\n".join(found)


def english(window: QWidget) -> list[str]:
    names = sorted(names_of(window), key=len, reverse=True)
    found = []
    for text in texts(window):
        bare = text
        for name in names:
            bare = bare.replace(name, " ")
        found += [text] if ENGLISH.search(bare) else []
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
