"""Every dialog of the program, opened as a hand does, painted, used, closed, and gone; printing on a real printer."""

from __future__ import annotations

import gc

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QFileDialog, QLabel, QMessageBox

from counter import __version__
from counter.window.dialogs.about import licences
from counter.window.dialogs.sheet import Sheet
from counter.window.parts.words import Words
from tests.conftest import settle
from tests.window.hands import CTRL, FULL, key, press, said, store_answered

SHIFT = Qt.KeyboardModifier.ShiftModifier


def open_dialog(window, kind=QDialog):
    settle(QApplication.instance())
    (dialog,) = [one for one in QApplication.topLevelWidgets() if isinstance(one, kind) and one.isVisible()]
    assert not dialog.grab().isNull()
    return dialog


def close(dialog):
    above = dialog.parentWidget().window()
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)  # no event loop runs here that would do it
    settle(QApplication.instance())
    above.activateWindow()
    assert QTest.qWaitForWindowActive(above, 5000)


def dialogs():
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, QDialog)]


KEYS = {
    "help": (Qt.Key.Key_F1, Qt.KeyboardModifier.NoModifier, "Marks"),
    "keys": (Qt.Key.Key_F1, SHIFT, "Next customer"),
    "settings": (Qt.Key.Key_Comma, CTRL, "Lengths"),
}


@pytest.mark.parametrize("which", KEYS)
def test_a_sheet_opens_by_its_key_and_is_gone_when_closed(windows, which):
    window = windows(case=FULL)
    code, modifier, words = KEYS[which]
    for _ in range(3):
        key(window, code, modifier)
        dialog = open_dialog(window, Sheet)
        assert words in said(dialog)
        assert all(isinstance(one, Words) for one in dialog.findChildren(QLabel))
        close(dialog)
        gc.collect()
        assert dialogs() == []


def test_help_opens_at_the_pane_in_use(windows):
    window = windows()
    window.fixture.holder.setFocus()
    key(window, Qt.Key.Key_F1)
    dialog = open_dialog(window, Sheet)
    first = next(one for one in dialog.findChildren(Words) if one.role == "title")
    assert first.text() == "In the fixture"
    close(dialog)


def test_about_names_the_version_and_every_licence(windows):
    window = windows()
    window.counter.show_about()
    words = said(open_dialog(window, Sheet))
    assert __version__ in words
    for name, version, _ in licences():
        assert f"{name} {version}" in words
    assert len(licences()) >= 5
    close(open_dialog(window, Sheet))


def test_settings_count_at_once_and_are_kept(windows):
    window = windows("light")
    window.counter.show_settings()
    dialog = open_dialog(window, Sheet)
    for name, value in (("Colours", "dark"), ("Lengths", "in"), ("Shop in", "us-ca")):
        combo = next(one for one in dialog.findChildren(QComboBox) if one.accessibleName() == name)
        combo.setCurrentIndex(combo.findData(value))
        combo.activated.emit(combo.currentIndex())
    dialog.who.setText("Ada")
    dialog.who.editingFinished.emit()
    close(dialog)
    assert (window.theme.name, window.units, window.case.place) == ("dark", "in", "us-ca")
    assert window.settings.value("who") == "Ada"


def test_a_case_is_saved_and_opened_by_the_dialogs(windows, tmp_path):
    window = windows(case=FULL)
    key(window, Qt.Key.Key_S, CTRL)
    dialog = open_dialog(window, QFileDialog)
    dialog.fileSelected.emit(str(tmp_path / "kept.json"))
    close(dialog)
    key(window, Qt.Key.Key_F2)
    key(window, Qt.Key.Key_O, CTRL)
    dialog = open_dialog(window, QFileDialog)
    dialog.fileSelected.emit(str(tmp_path / "kept.json"))
    close(dialog)
    assert window.case.marks == FULL.marks
    assert dialogs() == []


@pytest.fixture
def board(windows):
    from counter.training import add_trainee
    from counter.window.training.session import system_clock

    window = windows()
    add_trainee(window.data, "Ada <b>L</b>", system_clock())
    window.counter.training.enter()
    room = window.counter.training.room
    room._turn_to(2)
    store_answered(window)
    settle(QApplication.instance())
    return room.board


def test_the_results_are_printed_on_a_real_printer(board, tmp_path):
    press(board.results.print)
    dialog = open_dialog(board, QPrintDialog)
    gc.collect()  # a printer that only the call had held would be gone now, and the program with it
    printer = dialog.printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "results.pdf"))
    dialog.accepted.emit(printer)
    settle(QApplication.instance())
    content = (tmp_path / "results.pdf").read_bytes()
    assert content.startswith(b"%PDF")
    assert len(content) > 2000
    assert board.results.said.text() == "sent to the printer"
    close(dialog)


def test_the_results_are_saved_by_the_dialog(board, tmp_path):
    press(board.results.save)
    dialog = open_dialog(board, QFileDialog)
    dialog.fileSelected.emit(str(tmp_path / "results.pdf"))
    close(dialog)
    assert (tmp_path / "results.pdf").read_bytes().startswith(b"%PDF")


def test_removing_somebody_asks_once_and_takes_the_name_as_it_is(board):
    people = board.window().people
    people.ask_remove()
    dialog = open_dialog(board, QMessageBox)
    assert "<b>" in dialog.text()
    assert dialog.textFormat() == Qt.TextFormat.PlainText
    close(dialog)
    assert dialogs() == []
