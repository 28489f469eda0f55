"""A shop and its makers' codes, as a clerk does it: clicks and keys, over two customers, on both kinds of store."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter import shop
from counter.desk import Case
from counter.shop import open_store
from counter.window.shelf.import_dialog import ImportDialog
from counter.window.slip.log_dialog import LogDialog
from tests.shelf.conftest import MAKERS_HEADINGS, MAKERS_LINES, as_text
from tests.window.hands import CTRL, button, key, press, shop_at_rest, type_into

NAMES = ("XK", "ZN", "ST")
CODE = "F26QV/841/4P"
QUAD, TRIPLE = "G24q-3/26/quad", "GX24q-3/26/triple"


@pytest.fixture
def counter(windows, shop_data):
    window = windows(case=Case())
    window.settings.setValue("who", "Ada")
    return window.counter


def bring_in(counter, tmp_path):
    path = tmp_path / "spring.csv"
    path.write_text(as_text(",", MAKERS_LINES, MAKERS_HEADINGS), "utf-8")
    dialog = ImportDialog(counter, counter.shop.worker, path, counter.shop._imported)
    dialog.show()
    shop_at_rest(counter)
    press(dialog.go)
    shop_at_rest(counter)


def serve(counter):
    """Answer what is asked of this customer until it may be sold, and write the slip."""
    press(button(counter.window, "legs", "4"))
    press(button(counter.window, "pins", "4"))
    press(button(counter.window, "glass", "white"))
    type_into(counter.looks.rows["length_mm"].field, "165")
    fixture = {"holder": "G24q-3", "ballast": "electronic", "ballast_watts": (26,)}
    counter.change_fixture(fixture)
    counter.fixture.use_changed.emit("lighting")
    told = {one.key: True for one in counter.assessment.doubts if one.key}
    counter.change(fixture=counter.case.fixture.model_copy(update={"told": told}))
    assert counter.assessment.verdict == "sell", [one.says for one in counter.assessment.doubts]
    key(counter.window, Qt.Key.Key_P, CTRL)
    dialog = counter.shop.writer.dialog
    press(dialog.buttons["keep"])
    shop_at_rest(counter)


def test_from_a_list_and_one_press_to_the_next_customer_and_back(counter, tmp_path):
    # The list is imported; what it teaches is offered and taken at once.
    bring_in(counter, tmp_path)
    press(counter.desk_cases.line.buttons[0])
    dialog = counter.shop.learner.dialog
    press(dialog.buttons["take_all"])
    shop_at_rest(counter)
    dialog.reject()
    counter.window.activateWindow()
    assert QTest.qWaitForWindowActive(counter.window, 5000)
    assert {one.letters for one in shop.house_codes_of(open_store(counter.data)).letters.letters} == set(NAMES)
    type_into(counter.marks.field, "F26XK/850/4P")
    assert counter.assessment.readings[0].lamps == (QUAD,)

    # A customer with letters nobody knows: one key, the looks, the slip.
    key(counter.window, Qt.Key.Key_F2)
    type_into(counter.marks.field, CODE)
    assert counter.assessment.lamp is None
    key(counter.window, Qt.Key.Key_T, CTRL)
    assert "unread" not in {one.kind for one in counter.assessment.doubts}
    serve(counter)

    # The next one with the same code has the same lamp first.
    key(counter.window, Qt.Key.Key_F2)
    counter.shop.open()
    shop_at_rest(counter)
    shop_at_rest(counter)
    type_into(counter.marks.field, "f26qv 841 4p")
    assert counter.assessment.lamp == QUAD
    assert counter.assessment.sold[0].leads
    assert "Sold here as 26\N{THIN SPACE}W G24q-3 on 20" in counter.marks.sold.text()
    press(button(counter.window, "legs", "6"))  # what is seen goes before what was sold
    assert counter.assessment.lamp == TRIPLE
    assert counter.marks.sold.isVisible()

    # It comes back as the wrong lamp: then it leads nobody any more.
    log = LogDialog(counter, counter.shop.worker, counter.shop.reopener)
    log.show()
    shop_at_rest(counter)
    log.list.setCurrentRow(0)
    log.reason.setCurrentText("wrong base")
    press(log.buttons["came_back"])
    shop_at_rest(counter)
    log.reject()
    counter.shop.open()
    shop_at_rest(counter)
    shop_at_rest(counter)
    counter.change(looks={})
    QApplication.processEvents()
    assert counter.assessment.sold == ()
    assert not counter.marks.sold.isVisible()
