"""Looks in the window: both directions of every picture and field, and all of it by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.window.looks.looks_pane import LETTERED
from tests.window.hands import ALT, LETTERS, button, key, press, type_into

ANSWERS = [("legs", "4"), ("pins", "2"), ("arrangement", "row"), ("notch", "small-left"), ("block", "no")]


def test_each_picture_goes_into_the_case_and_a_second_press_takes_it_back(window):
    for look, value in [*ANSWERS, ("glass", "clear")]:
        press(button(window, look, value))
        assert window.case.looks[look] == value
        press(button(window, look, value))
        assert look not in window.case.looks


def test_cannot_tell_is_an_answer(window):
    for look in ("legs", "glass", "length_mm", "watts"):
        press(window.looks.rows[look].cannot)
        assert window.case.looks[look] == "cannot-tell"
        assert window.looks.rows[look].cannot.isChecked()
        press(window.looks.rows[look].cannot)
        assert look not in window.case.looks


def test_cannot_tell_pressed_twice_brings_back_what_was_typed(window):
    row = window.looks.rows["length_mm"]
    type_into(row.field, "165")
    press(row.cannot)
    press(row.cannot)
    assert window.case.looks["length_mm"] == 165.0


def test_typed_sizes_go_into_the_case(window):
    type_into(window.looks.rows["length_mm"].field, '5 7/8"')
    type_into(window.looks.rows["watts"].field, "18")
    assert (window.case.looks["length_mm"], window.case.looks["watts"]) == (149.225, "18")


GARBAGE = ["seven", "-5", "99999", "🙂", "1" * 10_000, '5 7/0"', "nan", "²"]


@pytest.mark.parametrize("text", GARBAGE, ids=lambda text: text[:8])
def test_a_size_that_is_none_stays_in_the_field_and_is_named(window, text):
    row = window.looks.rows["length_mm"]
    row.field.setFocus()
    row.field.setText(text)
    row.answered.emit("length_mm", text)
    window.looks.rows["legs"].buttons[1].setFocus()
    assert "length_mm" not in window.case.looks
    assert (row.field.text(), row.field.property("bad")) == (text, True)
    assert window.looks.problem.text().startswith("Length: ")
    assert len(window.looks.problem.text()) < 250
    press(button(window, "legs", "4"))
    assert row.field.text() == text


def test_sizes_typed_one_after_another_with_tab_between_them_all_count(window):
    key(window, getattr(Qt.Key, f"Key_{LETTERS['pin_spacing_mm']}"), ALT)
    for text in ("24", "1/2", "146"):
        QTest.keyClicks(window.focusWidget(), text)
        key(window, Qt.Key.Key_Tab)
    sizes = {name: window.case.looks.get(name) for name in ("pin_spacing_mm", "tube_mm", "length_mm")}
    assert sizes == {"pin_spacing_mm": 24.0, "tube_mm": 12.7, "length_mm": 146.0}


def test_a_size_in_inches_says_what_it_was_taken_as(window):
    before = [row.geometry() for row in window.looks.rows.values()]
    type_into(window.looks.rows["tube_mm"].field, "1/2")
    assert window.looks.taken.text() == "1/2 taken as 12.7\N{THIN SPACE}mm"
    type_into(window.looks.rows["length_mm"].field, "seven")
    assert [row.geometry() for row in window.looks.rows.values()] == before, "no row moves for words"
    press(button(window, "glass", "white"))
    assert window.looks.taken.text() == ""


def test_a_size_mended_leaves_another_that_is_none_said(window):
    for look, text in (("tube_mm", "x"), ("length_mm", "y"), ("length_mm", "146")):
        type_into(window.looks.rows[look].field, text)
    assert window.looks.problem.text().startswith("Tube width: ")


def test_a_size_mended_takes_the_problem_away(window):
    row = window.looks.rows["length_mm"]
    type_into(row.field, "seven")
    assert window.looks.problem.isVisible()
    type_into(row.field, "146")
    assert not window.looks.problem.isVisible()
    assert row.field.property("bad") is not True
    assert window.case.looks["length_mm"] == 146


@pytest.mark.parametrize("look", ["legs", "pins", "block", "arrangement", "notch", "glass"])
def test_a_letter_and_a_digit_answer_each_look(window, look):
    values = [value.value for value in window.catalogue.look_by_key[look].values]
    for at, value in enumerate(values[:9], 1):
        key(window, getattr(Qt.Key, f"Key_{LETTERS[look]}"), ALT)
        key(window, Qt.Key(Qt.Key.Key_0.value + at))
        assert window.case.looks[look] == value
    key(window, Qt.Key.Key_0)
    assert window.case.looks[look] == "cannot-tell"


def test_answers_past_the_ninth_are_reached_by_arrows(window):
    window.looks.go_to("legs")
    for _ in range(9):
        key(window, Qt.Key.Key_Right)
    key(window, Qt.Key.Key_Space)
    assert window.case.looks["legs"] == window.catalogue.look_by_key["legs"].values[9].value


@pytest.mark.parametrize(
    ("look", "typed", "value"), [("watts", "18", "18"), ("tube_mm", "12", 12.0), ("length_mm", "146", 146.0)]
)
def test_a_letter_leads_to_each_field(window, look, typed, value):
    key(window, getattr(Qt.Key, f"Key_{LETTERS[look]}"), ALT)
    assert window.focusWidget() is window.looks.rows[look].field
    for character in typed:
        key(window, Qt.Key(ord(character)))
    key(window, Qt.Key.Key_Return)
    assert window.case.looks[look] == value


def test_every_look_has_a_letter_of_its_own_in_its_name(catalogue):
    assert {look.key: look.label for look in catalogue.looks} == {
        look: caption.replace("&", "") for look, caption in LETTERED.items()
    }
    assert len(set(LETTERS.values())) == len(LETTERS)


@pytest.mark.parametrize("character", ["²", "٣", "½", "x", "\t"])
def test_odd_digits_on_a_look_do_nothing_bad(window, character):
    window.looks.go_to("legs")
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_unknown, Qt.KeyboardModifier.NoModifier, character)
    QApplication.sendEvent(window.focusWidget(), event)
    assert window.case.looks.get("legs") in (None, "6")
