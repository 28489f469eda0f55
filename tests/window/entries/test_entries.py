"""A shop's own entries by hand: typed, judged while typing, drawn, kept, withdrawn, undone, handed back."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from counter import shop
from counter.window.commands import CATALOGUE
from tests.window.hands import LEFT, press


@pytest.fixture
def opened(windows, qtbot):
    def make(kind="bases", of=""):
        window = windows()
        door = window.counter.open_entries()
        qtbot.waitUntil(lambda: door.dialog is not None)
        dialog = door.dialog
        dialog.kind.setCurrentIndex(dialog.kind.findData(kind))
        if of:
            dialog.of.setCurrentIndex(dialog.of.findData(of))
            dialog.of.activated.emit(dialog.of.currentIndex())
        dialog.who.setText("Kim")
        return window, door, dialog

    return make


def row(dialog, *path):
    found = dialog.form
    for name in path:
        found = found.inner[name]
    return found


def typed(qtbot, dialog, words, *path):
    line = row(dialog, *path).line
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, words)
    qtbot.waitUntil(lambda: not dialog._soon.isActive())


def choose(dialog, value, *path):
    box = row(dialog, *path).box
    box.setCurrentIndex(box.findData(value))


def wrong(dialog, *path):
    found = row(dialog, *path)
    return found.wrong.text() if found.wrong.isVisible() else ""


def texts(view):
    return {getattr(shape, "text", "") for shape in view.drawing.shapes}


def test_what_is_wrong_stands_at_its_field_while_typing(opened, qtbot):
    _, _, dialog = opened("lamps", "G23/9/twin")
    assert not dialog.keep.isEnabled()
    typed(qtbot, dialog, "9000", "length_mm", "value")
    assert "40" in wrong(dialog, "length_mm") or "3100" in wrong(dialog, "length_mm")
    assert not dialog.keep.isEnabled()
    typed(qtbot, dialog, "161,5", "length_mm", "value")
    assert wrong(dialog, "length_mm") == ""
    assert dialog.keep.isEnabled()


def test_a_value_typed_over_anothers_is_the_shops(opened, qtbot):
    _, _, dialog = opened("lamps", "G23/9/twin")
    assert row(dialog, "tube_mm", "source").value() != "shop"
    typed(qtbot, dialog, "12.4", "tube_mm", "value")
    assert (row(dialog, "tube_mm", "source").value(), row(dialog, "tube_mm", "confidence").value()) == (
        "shop",
        "confirmed",
    )


def test_a_new_base_is_drawn_as_it_is_typed_and_counts_once_kept(opened, qtbot):
    window, _, dialog = opened("bases")
    assert "?" in texts(dialog.face)
    typed(qtbot, dialog, "GZ77", "designation")
    typed(qtbot, dialog, "2", "pins", "value")
    typed(qtbot, dialog, "Pins toward you.", "hold")
    typed(qtbot, dialog, "Two pins.", "tell")
    choose(dialog, "ballast", "supply")
    choose(dialog, "push", "mount")
    dialog.judge()
    assert dialog.keep.isEnabled()
    switch = row(dialog, "face").switch
    QTest.mouseClick(switch, LEFT, pos=QPoint(8, switch.height() // 2))
    for at, x in enumerate(("-9", "9")):
        press(row(dialog, "face", "pins", "at").add)
        for name, mm in (("x_mm", x), ("y_mm", "0")):
            line = row(dialog, "face", "pins", "at").inner[at].inner[name].line
            QTest.keyClicks(line, mm)
    choose(dialog, "circle", "face", "outline", "shape")
    typed(qtbot, dialog, "30", "face", "outline", "width_mm")
    typed(qtbot, dialog, "30", "face", "outline", "height_mm")
    dialog.judge()
    assert {shape.part for shape in dialog.face.drawing.shapes} >= {"pins", "outline"}
    before = dialog.face.drawing
    typed(qtbot, dialog, "34", "face", "outline", "width_mm")
    dialog.judge()
    assert dialog.face.drawing != before
    press(dialog.keep)
    qtbot.waitUntil(lambda: "GZ77" in window.counter.catalogue.base_by_name)
    assert window.counter.catalogue.base_by_name["GZ77"].face.outline.width_mm == 34


def test_kept_withdrawn_brought_back_and_undone(opened, qtbot, data):
    window, _, dialog = opened("words")

    def words():
        return window.counter.catalogue.own_words

    typed(qtbot, dialog, "Nordrau", "word")
    press(dialog.keep)
    qtbot.waitUntil(lambda: words() == ("Nordrau",))
    assert window.settings.value("who") == "Kim"
    dialog.list.list.setCurrentRow(0)
    press(dialog.list.take)
    qtbot.waitUntil(lambda: words() == ())
    press(dialog.undo)
    qtbot.waitUntil(lambda: words() == ("Nordrau",))
    press(dialog.undo)
    qtbot.waitUntil(lambda: words() == () and not dialog.undo.isEnabled())
    dialog.list.list.setCurrentRow(0)
    assert "Kim" in dialog.list.list.item(0).text()
    press(dialog.list.bring)
    qtbot.waitUntil(lambda: words() == ("Nordrau",))


READ = {"law": "Lamp Act, section 9", "read": "2026-03-02", "read_as": "summary"}
LAMP = {"base": "G23", "watts": "8.5", "kind": "fluorescent", "shape": "twin", "glass": "white"}
# What is typed, ticked or chosen in the form of a kind.
BY_FORM = {
    "lamps": LAMP | {"ballasts": "magnetic"},
    "places": {"code": "xx-no", "name": "Nordmark"},
    "law": {"place": "us", "classes": "pin-base", "what": "sale", **READ},
    "disposal": {"place": "us", "title": "Where to", "text": "To the yard.", **READ},
}


def counts(catalogue, kind):
    if kind == "lamps":
        return "G23/8.5/twin" in catalogue.lamp_by_id
    return catalogue.own_law is not None and bool(getattr(catalogue.own_law, kind))


@pytest.mark.parametrize("kind", BY_FORM)
def test_what_is_typed_counts_until_it_is_withdrawn(opened, qtbot, kind):
    window, _, dialog = opened(kind)
    for name, said in BY_FORM[kind].items():
        assert not dialog.keep.isEnabled()
        into = row(dialog, name)
        into = into.inner["value"] if "value" in getattr(into, "inner", {}) else into
        if hasattr(into, "boxes"):
            into.boxes[said].click()
        elif hasattr(into, "box"):
            into.box.setCurrentIndex(into.box.findData(said))
        else:
            into.line.setFocus()
            QTest.keyClicks(into.line, said)
        dialog.judge()
    assert dialog.keep.isEnabled(), dialog.said.text()
    press(dialog.keep)
    qtbot.waitUntil(lambda: counts(window.counter.catalogue, kind))
    dialog.list.list.setCurrentRow(0)
    press(dialog.list.take)
    qtbot.waitUntil(lambda: not counts(window.counter.catalogue, kind))


def test_a_word_of_danger_cannot_be_kept(opened, qtbot):
    _, _, dialog = opened("words")
    typed(qtbot, dialog, "germicidal", "word")
    assert "danger" in wrong(dialog, "word")
    assert not dialog.keep.isEnabled()


def test_nobody_in_particular_adds_nothing(opened, qtbot, data):
    _, _, dialog = opened("words")
    dialog.who.clear()
    typed(qtbot, dialog, "Nordrau", "word")
    press(dialog.keep)
    assert "who" in dialog.said.text()
    assert shop.own_rows(shop.open_store(data)) == []


def test_a_caution_is_said_in_the_shops_words(opened, qtbot):
    window, _, dialog = opened("cautions", "pins-two-in-four")
    typed(qtbot, dialog, "Never {base} into {holder}.", "says")
    assert dialog.keep.isEnabled()
    press(dialog.keep)
    qtbot.waitUntil(lambda: bool(window.counter.catalogue.own_texts))
    window.counter.change(marks="CFQ26W/G24d/841")
    window.counter.change_fixture({"holder": "G24q-3"})
    assert "Never G24d-3 into G24q-3." in {one.says for one in window.counter.assessment.cautions}


def test_what_was_added_is_handed_back_as_a_patch(opened, qtbot, data, tmp_path):
    shop.keep_own(data, "words", {"word": "Nordrau"}, who="Kim", on=date(2026, 3, 2))
    _, door, dialog = opened("words")
    door.write_patch(tmp_path / "shop.patch")
    qtbot.waitUntil(lambda: "shop.patch" in dialog.said.text())
    assert '"Nordrau"' in (tmp_path / "shop.patch").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", ["bases", "lamps", "cautions", "words"])
@pytest.mark.parametrize("points", [8, 10, 18])
def test_no_button_or_label_of_the_form_is_cut(opened, qapp, kind, points):
    font = qapp.font()
    large = qapp.font()
    large.setPointSize(points)
    qapp.setFont(large)
    try:
        _, _, dialog = opened(kind)
        for button in dialog.findChildren(QPushButton):
            if button.isVisible():
                assert button.width() >= button.minimumSizeHint().width()
                assert button.height() >= button.minimumSizeHint().height()
        for one in dialog.form.rows():
            if one.isVisible():
                assert one.name.height() >= one.name.heightForWidth(one.name.width()) - 1
    finally:
        qapp.setFont(font)


def test_it_opens_from_the_menu_and_by_keyboard_closes(windows, qtbot):
    window = windows()
    command = next(one for one in window.counter.commands if one.menu == CATALOGUE)
    door = command.do()
    qtbot.waitUntil(lambda: door.dialog is not None)
    QTest.keyClick(door.dialog, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: door.dialog is None)


def test_nothing_of_it_is_imported_before_it_is_opened(tmp_path):
    code = (
        "import sys, pathlib\n"
        "from counter.app import make_application\n"
        "from counter.window.main_window import MainWindow\n"
        "app = make_application(['x'])\n"
        "window = MainWindow(pathlib.Path(sys.argv[1]), '')\n"
        "window.show(); window.wake(None)\n"
        "import json; print(json.dumps([n for n in sys.modules if 'entries' in n]))\n"
        "window.close()\n"
    )
    run = subprocess.run([sys.executable, "-c", code, str(tmp_path)], capture_output=True, text=True, check=True)
    assert json.loads(run.stdout.strip().splitlines()[-1]) == []
