"""Letters of a maker's own in the window: told what they mean by mouse or keys, counted at once, taken back."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from counter.desk import Case
from counter.marks import letters

CODE = "F26XK/841/4P"


def chosen(window, words):
    """Choose an entry of the open menu by its words."""
    (action,) = (one for one in window.marks.letters.menu.actions() if words in one.text())
    action.trigger()
    window.marks.letters.menu.close()


def test_an_ordinary_lamp_in_one_press(windows):
    window = windows(case=Case(marks=CODE))
    row = window.marks.letters
    assert [one.letters for one in row.offers] == ["XK"]
    assert any(doubt.kind == "unread" for doubt in window.counter.assessment.doubts)
    row.ordinary.click()
    assert not any(doubt.kind == "unread" for doubt in window.counter.assessment.doubts)
    (kept,) = letters.load_letters(window.data).letters
    assert (kept.letters, kept.means.stated(), kept.source) == ("XK", {}, "taught")
    assert row.offers[0].means
    assert not row.ordinary.isVisible()


def test_a_form_by_the_menu_and_taken_back(windows):
    window = windows(case=Case(marks=CODE))
    row = window.marks.letters
    row.buttons[0].click()
    chosen(window, "two bent tubes")
    assert window.counter.assessment.readings[0].lamps == ("G24q-3/26/quad",)
    window.counter.change(marks="F18XK/827/4P")
    assert window.counter.assessment.readings[0].lamps == ("G24q-2/18/quad",)
    row.buttons[0].click()
    chosen(window, "Forget")
    assert len(window.counter.assessment.readings[0].lamps) > 1
    assert letters.load_letters(window.data).letters == ()


def test_letters_are_reached_in_the_strip_by_keys(windows):
    window = windows(case=Case(marks=CODE))
    strip = window.marks.strip
    strip.setFocus()
    for _ in range(2):
        QTest.keyClick(strip, Qt.Key.Key_Right)
    assert strip.spans[strip.at].text == "XK"
    QTest.keyClick(strip, Qt.Key.Key_Return)
    assert window.marks.letters.menu.isVisible()
    window.marks.letters.menu.close()


def test_a_known_code_asks_for_nothing(windows):
    window = windows(case=Case(marks="CFQ26W/G24q/841"))
    assert not window.marks.letters.isVisible()


def test_what_cannot_be_kept_is_said(windows):
    window = windows(case=Case(marks=CODE))
    window.data.mkdir(exist_ok=True)
    (window.data / letters.LETTERS_FILE).write_text("no table")
    window.marks.letters.ordinary.click()
    assert any(doubt.kind == "unread" for doubt in window.counter.assessment.doubts)
    assert (window.data / letters.LETTERS_FILE).read_text() == "no table"
