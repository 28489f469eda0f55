"""Makers' letters and the stock list, by clicks: told while importing, worked out of it, taken and withdrawn."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from counter import shop
from counter.desk import Case
from counter.shop import open_store
from counter.window.marks.letters_dialog import LettersDialog
from counter.window.shelf.import_dialog import ImportDialog
from tests.shelf.conftest import MAKERS_HEADINGS, MAKERS_LINES, as_text
from tests.window.hands import press, shop_at_rest

OPEN = (("F26QV/841", "lamp, box of ten", "B7"), ("F18QV/830", "lamp, box of ten", "B8"))


@pytest.fixture
def counter(windows, shop_data):
    return windows(case=Case()).counter


def opened(counter, tmp_path, lines=MAKERS_LINES, name="spring.csv"):
    path = tmp_path / name
    path.write_text(as_text(",", lines, MAKERS_HEADINGS), "utf-8")
    dialog = ImportDialog(counter, counter.shop.worker, path, counter.shop._imported)
    dialog.show()
    shop_at_rest(counter)
    return dialog


def bring_in(counter, tmp_path, lines=MAKERS_LINES, name="spring.csv"):
    press(opened(counter, tmp_path, lines, name).go)
    shop_at_rest(counter)


def look_at_the_offer(counter):
    line = counter.desk_cases.line
    assert "letters mean" in line.words.text()
    press(line.buttons[0])
    return counter.shop.learner.dialog


def stored(counter):
    shop_at_rest(counter)
    table = shop.house_codes_of(open_store(counter.data)).letters.letters
    return {one.letters: one.source for one in table}


def column(dialog, place):
    return [dialog.table.item(at, place).text() for at in range(dialog.table.rowCount())]


def test_a_list_offers_its_letters_which_are_taken_and_go_with_it(counter, tmp_path):
    bring_in(counter, tmp_path)
    assert stored(counter) == {}  # nothing is taken unasked
    dialog = look_at_the_offer(counter)
    assert isinstance(dialog, LettersDialog)
    assert column(dialog, 0) == ["ST", "XK", "ZN"]
    assert "two bent tubes" in column(dialog, 1)[1]
    assert column(dialog, 3) == ["9", "9", "9"]
    dialog.table.setCurrentCell(1, 0)
    assert "For it: F13XK/827 13W quad 4-pin G24q" in dialog.examples.text()
    dialog.table.item(0, 0).setCheckState(Qt.CheckState.Unchecked)
    press(dialog.buttons["take"])
    assert stored(counter) == {"XK": "list", "ZN": "list"}
    press(dialog.buttons["take_all"])
    assert set(stored(counter)) == {"XK", "ZN", "ST"}
    press(dialog.buttons["undo"])
    assert set(stored(counter)) == {"XK", "ZN"}
    dialog.reject()
    counter.change(marks="F26XK/850/4P")
    assert counter.assessment.readings[0].lamps == ("G24q-3/26/quad",)
    assert "Known in this shop" in counter.marks.letters.says.text()

    bring_in(counter, tmp_path, MAKERS_LINES[:1], "autumn.csv")
    assert stored(counter) == {}  # withdrawn with its list
    counter.shop.open()
    shop_at_rest(counter)
    shop_at_rest(counter)
    assert len(counter.assessment.readings[0].lamps) > 1
    counter.shop.bring_back()
    assert set(stored(counter)) == {"XK", "ZN"}


def test_what_was_taught_by_hand_is_kept_apart_and_stays(counter, tmp_path):
    counter.change(marks="F26XK/841/4P")
    press(counter.marks.letters.ordinary)
    bring_in(counter, tmp_path)
    dialog = look_at_the_offer(counter)
    assert column(dialog, 0) == ["ST", "ZN", "XK"]
    assert column(dialog, 2)[2] == "taught by hand"
    press(dialog.buttons["take_all"])
    assert stored(counter) == {"XK": "taught", "ST": "list", "ZN": "list"}
    at = column(dialog, 0).index("ZN")
    dialog.table.selectRow(at)
    press(dialog.buttons["forget"])
    assert set(stored(counter)) == {"XK", "ST"}
    dialog.reject()
    bring_in(counter, tmp_path, MAKERS_LINES[:1], "autumn.csv")
    assert stored(counter) == {"XK": "taught"}


def test_letters_of_lines_without_a_lamp_are_told_while_importing(counter, tmp_path):
    dialog = opened(counter, tmp_path, OPEN)
    assert "lamp type: 0," in dialog.says.text()
    assert "QV on 2 lines" in dialog.letters.says.text()
    press(dialog.letters.buttons[0])
    (action,) = (one for one in dialog.letters.menu.actions() if "three bent tubes" in one.text())
    action.trigger()
    dialog.letters.menu.close()
    shop_at_rest(counter)
    assert stored(counter) == {"QV": "taught"}
    assert not dialog.letters.offers  # nothing is left to be told
    press(dialog.go)
    shop_at_rest(counter)
    assert shop.current_list(open_store(counter.data)).lines == 2


def test_the_letters_of_a_line_on_the_shelf_are_told_below_its_code(counter, tmp_path):
    bring_in(counter, tmp_path, OPEN)
    counter.shop.pane.field.setText("F26QV")
    shop_at_rest(counter)
    assert counter.shop.pane.teach.isVisible()
    press(counter.shop.pane.teach)
    assert counter.case.marks == "F26QV/841"
    assert [one.letters for one in counter.marks.letters.offers] == ["QV"]


def test_a_list_that_teaches_nothing_offers_nothing(counter, tmp_path):
    bring_in(counter, tmp_path, OPEN)
    assert not counter.desk_cases.line.isVisible()
    counter.shop.learner.open()
    dialog = counter.shop.learner.dialog
    assert "Nothing in it is new here" in dialog.says.text()
    assert not dialog.buttons["take_all"].isEnabled()
    dialog.reject()


def test_reading_a_list_rests_after_each_key(counter):
    before = counter.shop.learner._quiet_from
    counter.change(marks="F")
    assert counter.shop.learner._quiet_from > before
