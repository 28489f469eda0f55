"""Letters of a maker's own in the window: told what they mean by mouse or keys, counted at once, taken back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter import shop
from counter.desk import Case, SoldCode, code_key
from tests.window.hands import CTRL, button, key, press, shop_at_rest

CODE = "F26XK/841/4P"


@pytest.fixture
def counter(windows, shop_data):
    """Return the counter of a window on each kind of store in turn, with a maker's code on it."""
    window = windows(case=Case(marks=CODE))
    window.settings.setValue("who", "Ada")
    return window.counter


def chosen(counter, words):
    """Choose an entry of the open menu by its words."""
    row = counter.marks.letters
    (action,) = (one for one in row.menu.actions() if words in one.text())
    action.trigger()
    row.menu.close()


def kinds(counter):
    return [doubt.kind for doubt in counter.assessment.doubts]


def stored(counter):
    shop_at_rest(counter)
    return shop.house_codes_of(shop.open_store(counter.data)).letters.letters


def test_an_ordinary_lamp_in_one_press(counter):
    row = counter.marks.letters
    assert [one.letters for one in row.offers] == ["XK"]
    assert "unread" in kinds(counter)
    press(row.ordinary)
    assert "unread" not in kinds(counter)  # before the store has answered
    (kept,) = stored(counter)
    assert (kept.letters, kept.means.stated(), kept.source, kept.who) == ("XK", {}, "taught", "Ada")
    assert not row.ordinary.isVisible()
    assert row.kept.text() == "Kept: XK."
    press(row.undo)
    assert stored(counter) == ()
    assert "unread" in kinds(counter)
    assert not row.undo.isVisible()


def test_an_ordinary_lamp_by_one_key_from_the_marks(counter):
    counter.marks.take_focus()
    key(counter.window, Qt.Key.Key_T, CTRL)
    assert "unread" not in kinds(counter)
    key(counter.window, Qt.Key.Key_T, CTRL)  # nothing is left to be told
    assert len(stored(counter)) == 1


def test_a_form_by_the_menu_and_taken_back(counter):
    row = counter.marks.letters
    press(row.buttons[0])
    chosen(counter, "two bent tubes")
    assert counter.assessment.readings[0].lamps == ("G24q-3/26/quad",)
    counter.change(marks="F18XK/827/4P")
    assert counter.assessment.readings[0].lamps == ("G24q-2/18/quad",)
    press(row.buttons[0])
    chosen(counter, "Forget")
    assert len(counter.assessment.readings[0].lamps) > 1
    assert stored(counter) == ()


def test_letters_are_reached_in_the_strip_by_keys(counter):
    strip = counter.marks.strip
    strip.setFocus()
    for _ in range(2):
        QTest.keyClick(strip, Qt.Key.Key_Right)
    assert strip.spans[strip.at].text == "XK"
    QTest.keyClick(strip, Qt.Key.Key_Return)
    assert counter.marks.letters.menu.isVisible()
    counter.marks.letters.menu.close()


def test_a_known_code_asks_for_nothing(windows):
    window = windows(case=Case(marks="CFQ26W/G24q/841"))
    assert not window.marks.letters.isVisible()


def test_what_cannot_be_kept_is_said_and_does_not_count(counter, monkeypatch):
    def refuse(*_, **__):
        raise shop.StoreProblem("full", "The disk is full", "Make room.")

    monkeypatch.setattr("counter.shop.change_letters", refuse, raising=False)
    press(counter.marks.letters.ordinary)
    shop_at_rest(counter)
    assert "unread" in kinds(counter)
    assert "Not kept: The disk is full" in counter.marks.letters.kept.text()


def test_what_another_till_taught_counts_here(counter):
    from counter.marks import letters

    press(counter.marks.letters.ordinary)
    shop_at_rest(counter)
    means = letters.LettersMean(shape="quad", legs=4)
    teach = lambda table: letters.teach(table, "XK", means, who="Ola", at="2026-11-02T10:00")  # noqa: E731
    shop.change_letters(shop.open_store(counter.data), teach, who="Ola", what="taught XK")
    counter.shop.open()
    shop_at_rest(counter)
    shop_at_rest(counter)
    assert counter.assessment.readings[0].lamps == ("G24q-3/26/quad",)


def test_a_contradiction_is_asked_with_both_sides(counter):
    row = counter.marks.letters
    press(row.buttons[0])
    chosen(counter, "two bent tubes")
    assert not row.asks.isVisible()
    press(button(counter.window, "legs", "6"))
    assert "letters" in kinds(counter)
    assert "XK means two bent tubes" in row.asks.text()
    assert "taught by Ada on 20" in row.asks.text()
    assert "You saw 3 bent tubes (legs)" in row.asks.text()
    (kept,) = stored(counter)
    press(row.exception)  # on this lamp they mean nothing
    assert not {"letters", "dispute"} & set(kinds(counter))
    assert counter.assessment.lamp == "GX24q-3/26/triple"
    assert stored(counter) == (kept,)  # and in the shop they go on meaning what they did
    counter.undo()
    press(row.buttons[0])
    chosen(counter, "three bent tubes")
    assert "letters" not in kinds(counter)
    assert [one.means.shape for one in stored(counter)] == ["triple"]


def test_a_code_sold_before_leads_and_says_so(counter):
    counter.change(marks="F26XK/4P")
    assert counter.assessment.lamp is None
    sold = (SoldCode("G24q-3/26/quad", 2, "2026-11-02", 7, "TV100"),)
    counter.letters.take_sold({code_key("f26xk 4p"): sold})
    assert counter.assessment.lamp == "G24q-3/26/quad"
    assert counter.marks.sold.text() == (
        "Sold here as 26\N{THIN SPACE}W G24q-3 on 2026-11-02, slip 7 (TV100), 2 times."
    )
    QApplication.processEvents()
    press(button(counter.window, "legs", "6"))
    assert counter.assessment.lamp != "G24q-3/26/quad"
    assert counter.marks.sold.isVisible()
