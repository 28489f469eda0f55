"""The whole window by the keyboard alone."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel

from counter.desk import Case
from tests.window.hands import CODE, CTRL, LETTERS, key


def marked_letters(window):
    """Every letter that Alt leads somewhere with: captions of fields, and buttons that can be seen."""
    captions = [one.text() for one in window.findChildren(QLabel) if one.isVisible() and one.buddy() is not None]
    buttons = [one.text() for one in window.findChildren(QAbstractButton) if one.isVisible()]
    return [text[text.index("&") + 1].upper() for text in captions + buttons if "&" in text.replace("&&", "")]


def letters_of_all_that_can_stand_there(windows):
    window = windows(case=Case(looks={"pins": "2", "glass": "white"}, marks=CODE))
    window.fixture.more.setChecked(True)
    QApplication.processEvents()
    return marked_letters(window)


def test_every_letter_shown_leads_to_one_place(windows):
    letters = letters_of_all_that_can_stand_there(windows)
    assert len(letters) == len(set(letters))
    assert set(letters) >= {*LETTERS.values(), *"HBIUXQY1234567890", *"EDMKOVF"}


def test_so_it_is_in_spanish(windows, in_spanish):
    letters = letters_of_all_that_can_stand_there(windows)
    assert len(letters) == len(set(letters)) > len(LETTERS) + 20


def test_keys_reach_every_pane(window):
    for letter, target in (("M", window.marks.field), ("F", window.grid.filter), ("G", window.grid.view)):
        key(window, getattr(Qt.Key, f"Key_{letter}"), CTRL)
        assert window.focusWidget() is target


def test_tab_goes_round_the_whole_window(window):
    """Nothing that takes the keyboard is out of Tab's reach, and nothing holds it."""
    window.marks.take_focus()
    seen, most = [], 400
    for _ in range(most):
        key(window, Qt.Key.Key_Tab)
        if window.focusWidget() in seen:
            break
        seen.append(window.focusWidget())
    assert len(seen) < most
    wanted = [window.marks.field, window.grid.filter, window.grid.view, window.fixture.watts, window.answer.next]
    wanted += [row.buttons[0] for row in window.looks.rows.values() if hasattr(row, "buttons")]
    wanted += [row.field for row in window.looks.rows.values() if hasattr(row, "field")]
    assert [widget for widget in wanted if widget not in seen] == []
