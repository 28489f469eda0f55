"""The window: both directions of every binding, history, memory, what is broken, and all of it by the keyboard."""

from __future__ import annotations

import json

import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget

from counter import paths
from counter.desk import Case
from counter.window.looks.looks_pane import LETTERS
from counter.window.outlines.opening import FILE_NAME, _plain, fingerprint
from counter.window.parts.theme import DARK, LIGHT

LEFT = Qt.MouseButton.LeftButton
FIXTURE_FIELDS = (
    *("holder", "ballast", "ballast_watts", "use", "lamp_count", "space_mm", "tube_room_mm", "room_k", "label"),
    *("enclosed", "damp", "cold", "base_up", "emergency", "dimmer", "shunted"),
)
ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
CODE = "CFQ18W/G24q/841"
FULL = Case(
    looks={"legs": "4", "pins": "4", "notch": "small-left", "glass": "white", "length_mm": 146.0, "watts": "18"},
    marks=CODE,
    fixture={"holder": "G24q-2", "ballast": "electronic", "ballast_watts": (18, 26), "space_mm": 160.0, "damp": True},
    use="lighting",
)


def button(window, key, value):
    return next(one for one in window.looks.rows[key].buttons if one.value == value)


def press(widget):
    QTest.mouseClick(widget, LEFT)
    QApplication.processEvents()


def type_into(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()


def key(window, which, modifier=Qt.KeyboardModifier.NoModifier):
    """Press a key where the keyboard is, as a hand does."""
    QTest.keyClick(window.focusWidget() or window, which, modifier)
    QApplication.processEvents()


def said(widget):
    return " ".join(label.text() for label in widget.findChildren(QLabel) if label.isVisible())


# -- no window but this one


def test_nothing_shows_as_a_window_of_its_own(qapp, windows):
    """A widget shown before it has a parent flashes up beside the window and takes the keyboard from it."""

    class Watch(QObject):
        seen: list[str] = []  # noqa: RUF012 - one watch a test

        def eventFilter(self, watched, event):
            if event.type() == QEvent.Type.Show and watched.isWidgetType() and watched.isWindow():
                self.seen.append(type(watched).__name__)
            return False

    watch = Watch()
    qapp.installEventFilter(watch)
    window = windows()
    for fields in ({"marks": CODE}, {"looks": FULL.looks}, {"looks": {"pins": "2"}}, {"broken": True}):
        window._change(**fields)
        qapp.processEvents()
    window._change(chosen="G24q-2/18/quad", beside="G24q-3/26/quad")
    window.next_customer()
    window.set_theme("dark")
    qapp.processEvents()
    qapp.removeEventFilter(watch)
    assert Watch.seen == ["MainWindow"]


# -- pictures


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
@pytest.mark.parametrize(
    "case", [None, FULL, Case(looks={"glass": "clear", "pins": "2"})], ids=["empty", "full", "uv"]
)
def test_the_whole_window_is_painted_in_its_palette(windows, theme, case):
    picture = windows(theme.name, case).grab().toImage()
    assert (picture.width(), picture.height()) == (1280, 800)
    assert picture.pixelColor(2, 2).name().upper() == theme.desk
    assert len({picture.pixel(x, y) for x in range(0, 1280, 7) for y in range(0, 800, 7)}) > 20


def test_two_beside_each_other_are_painted(windows):
    window = windows(case=Case(chosen="G24q-2/18/quad", beside="G24q-3/26/quad", looks={"glass": "white"}))
    assert window.detail.other_face.isVisible()
    assert not window.grab().isNull()


@pytest.mark.parametrize("units", ["mm", "in"])
def test_units_change_every_length(window, units):
    window.set_units("in" if units == "mm" else "mm")
    window._change(chosen="G24q-2/18/quad")
    window.set_units(units)
    words = {shape.text for shape in window.detail.face.drawing.shapes if hasattr(shape, "text")}
    assert any(text.endswith(units) for text in words)
    assert not any(text.endswith({"mm": "in", "in": "mm"}[units]) for text in words)


def test_the_palette_can_change_while_open(window):
    window.set_theme("dark")
    assert window.grab().toImage().pixelColor(2, 2).name().upper() == DARK.desk
    window.set_theme("light")
    assert window.grab().toImage().pixelColor(2, 2).name().upper() == LIGHT.desk


# -- both directions


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


def test_a_case_is_shown_in_every_pane(windows):
    window = windows(case=FULL)
    for look, value in FULL.looks.items():
        row = window.looks.rows[look]
        if hasattr(row, "buttons"):
            assert [one.value for one in row.buttons if one.isChecked()] == [value]
        else:
            assert row.field.text() == (f"{value:g}" if isinstance(value, float) else value)
    assert window.marks.field.text() == CODE
    fixture = window.fixture
    assert fixture.holder.currentData() == "G24q-2"
    assert fixture.ballast.currentData() == "electronic"
    assert fixture.use.currentData() == "lighting"
    assert fixture.watts.text() == "18, 26"
    assert fixture.space.text() == "160"
    assert (fixture.choices["damp"].currentText(), fixture.choices["cold"].currentText()) == ("yes", "not asked")
    assert window.answer.base.text() == "G24q-2"
    assert window.grid.model.cards[0].base == "G24q-2"


def test_typed_sizes_go_into_the_case(window):
    type_into(window.looks.rows["length_mm"].field, '5 7/8"')
    type_into(window.looks.rows["watts"].field, "18")
    assert (window.case.looks["length_mm"], window.case.looks["watts"]) == (149.225, "18")


def test_marks_typed_go_into_the_case_after_a_moment(window, qtbot):
    QTest.keyClicks(window.marks.field, CODE)
    qtbot.waitUntil(lambda: window.case.marks == CODE, timeout=2000)
    assert window.assessment.readings[0].canonical == CODE


def test_a_holder_chosen_goes_into_the_case(window):
    fixture = window.fixture
    for combo, value in ((fixture.holder, "G24q-3"), (fixture.ballast, "magnetic"), (fixture.use, "lighting")):
        combo.setFocus()
        at = combo.findData(value)
        combo.setCurrentIndex(at)
        combo.activated.emit(at)
    assert (window.case.fixture.holder, window.case.fixture.ballast, window.case.use) == (
        "G24q-3",
        "magnetic",
        "lighting",
    )


def test_an_outline_pressed_is_opened_and_settles_nothing(window):
    view = window.grid.view
    at = view.visualRect(window.grid.model.index(3)).center()
    QTest.mouseClick(view.viewport(), LEFT, pos=at)
    assert (window.case.shown, window.case.chosen) == (window.grid.model.cards[3].lamp, None)
    assert window.assessment.verdict is None
    assert view.currentIndex().row() == 3
    assert window.detail.title.text() == window.grid.model.cards[3].base


def test_enter_opens_an_outline_too(window):
    window.grid.view.setFocus()
    window.grid.view.setCurrentIndex(window.grid.model.index(2))
    key(window, Qt.Key.Key_Return)
    assert window.case.shown == window.grid.model.cards[2].lamp


def test_the_clerk_says_which_lamp_it_is_by_the_button(window):
    window._open_outline("G24q-3/26/quad")
    window.detail.choose.click()
    assert (window.case.chosen, window.assessment.is_settled) == ("G24q-3/26/quad", True)
    window._open_outline("G24q-2/18/quad")
    assert (window.case.chosen, window.detail.choose.isChecked()) == (None, False)


def test_a_new_look_closes_the_outline_opened_before(window):
    window._open_outline("G13/36/linear")
    window._answer_look("legs", "4")
    assert window.case.shown is None


def test_a_filter_keeps_the_chosen_outline_marked(window):
    window._change(chosen="G24q-2/18/quad")
    window.grid.filter.setText("g24q")
    chosen = window.grid.view.currentIndex()
    assert chosen.isValid()
    assert window.grid.model.cards[chosen.row()].base == "G24q-2"
    assert window.grid.view.selectionModel().isSelected(chosen)


@pytest.mark.parametrize("text", ["nothing like it", "🙂", "(", "*" * 500])
def test_a_filter_without_a_match_says_so(window, text):
    window.grid.filter.setText(text)
    assert window.grid.model.rowCount() == 0
    assert "Clear the filter" in window.grid.count.text()
    window.grid.filter.clear()
    assert window.grid.model.rowCount() > 30


def test_a_contradiction_offers_both_ways_out(window):
    press(button(window, "pins", "2"))
    type_into(window.marks.field, CODE)
    assert window.marks.conflict.isVisible()
    assert window.marks.conflict_words.text().startswith("These marks say 4 pins, you saw 2")
    press(window.marks.drop_look)
    assert ("pins" in window.case.looks, window.marks.conflict.isVisible()) == (False, False)
    assert window.case.marks == CODE


def test_the_other_way_out_drops_the_marks(window):
    press(button(window, "pins", "2"))
    type_into(window.marks.field, CODE)
    press(window.marks.drop_marks)
    assert (window.case.marks, window.case.looks) == ("", {"pins": "2"})


def test_an_ask_leads_to_its_field(windows):
    window = windows(case=Case(marks=CODE, looks={"legs": "4"}))
    assert window.assessment.asks
    window._go_to("ballast_watts")
    assert window.focusWidget() is window.fixture.watts
    window._go_to("glass")
    assert window.focusWidget() in window.looks.rows["glass"].buttons


# -- what is typed is not lost


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


def test_watts_that_are_none_stay_in_the_fixture_and_are_named(window, qtbot):
    field = window.fixture.watts
    field.setFocus()
    QTest.keyClicks(field, "eighteen")
    qtbot.waitUntil(window.fixture.problem.isVisible, timeout=2000)
    assert "eighteen" in window.fixture.problem.text()
    press(button(window, "legs", "4"))
    assert field.text() == "eighteen"
    assert window.case.fixture.ballast_watts == ()


@pytest.mark.parametrize("text", ["🙂🙂", "CFQ26W/G24q/841 " * 640, "G24d G24q", "\\<b>x</b>&amp;", "?" * 60])
def test_any_paste_into_the_marks_is_survived_and_kept(window, text):
    QApplication.clipboard().setText(text)
    window.marks.take_focus()
    key(window, Qt.Key.Key_V, CTRL)
    key(window, Qt.Key.Key_Return)
    assert window.case.marks == window.marks.field.text() == text
    assert not window.grab().isNull()


# -- the fixture


def test_a_question_is_not_asked_no_or_yes_by_keyboard(window):
    window.fixture.go_to("damp")
    for which, answer, words in (
        (Qt.Key.Key_Y, True, "yes"),
        (Qt.Key.Key_N, False, "no"),
        (Qt.Key.Key_Delete, None, "not asked"),
        (Qt.Key.Key_Down, False, "no"),
    ):
        key(window, which)
        assert (window.case.fixture.damp, window.fixture.choices["damp"].currentText()) == (answer, words)


def test_what_the_label_says_is_seen_in_the_fields_and_what_is_typed_wins(window):
    fixture = window.fixture
    window._change_fixture({"label": "2 x 26 W electronic, emergency"})
    shown = fixture.watts.placeholderText(), fixture.ballast.currentText(), fixture.choices["emergency"].currentText()
    assert shown == ("26 from the label", "electronic, label", "yes, label")
    assert fixture.count.text() == "not known", "how many it can run is not how many it runs"
    window._change_fixture({"ballast_watts": "18", "ballast": "magnetic", "emergency": False})
    assert fixture.watts.text() == "18"
    assert (fixture.ballast.currentText(), fixture.choices["emergency"].currentText()) == ("magnetic", "no")
    window._change_fixture({"label": "", "ballast": "unknown", "ballast_watts": ""})
    assert (fixture.watts.placeholderText(), fixture.ballast.currentText()) == ("as 18, 26", "not known")


def test_more_about_the_fixture_is_closed_for_the_next_customer(window):
    window.fixture.go_to("label")
    key(window, Qt.Key.Key_F2)
    assert not window.fixture.label.isVisible()


# -- what keeps a sale from being plain


@pytest.mark.parametrize(
    ("case", "says"),
    [
        (Case(looks={"pins": "2"}, marks=CODE), "These marks say 4 pins, you saw 2"),
        (Case(looks={"glass": "clear"}), "germicidal"),
        (Case(marks="UV LAMP"), "UV"),
    ],
)
def test_a_lamp_that_the_button_does_not_settle_says_why(windows, case, says):
    window = windows(case=case)
    window._open_outline("G23/9/twin" if "glass" in case.looks else "G24q-2/18/quad")
    assert not window.detail.why_open.isVisible()
    window.detail.choose.click()
    assert not window.assessment.is_settled
    assert window.detail.why_open.isVisible()
    assert says in window.detail.why_open.text()


def test_a_settled_lamp_needs_no_reason(window):
    window._open_outline("G24q-3/26/quad")
    window.detail.choose.click()
    assert not window.detail.why_open.isVisible()


def test_a_place_not_set_is_said_until_it_is(window):
    assert window.answer.place.isVisible()
    window.ask_for_place()
    assert "law not checked" in window.side.law.says.text()
    QApplication.activePopupWidget().close()
    window.set_place("us-ca")
    assert not window.answer.place.isVisible()
    assert "not checked" not in window.side.law.says.text()


@pytest.mark.parametrize(
    ("verdict", "signal", "after"),
    [
        ("sell", "WARNING", "after reading the warning"),
        ("sell", "NOTICE", ""),
        ("sell", None, ""),
        ("ask first", "WARNING", ""),
    ],
)
def test_a_sale_beside_a_warning_comes_after_it(window, verdict, signal, after):
    window.answer.show_answer("G23", "9 W", verdict, signal, "Look first.")
    assert window.answer.stamp.after == after


def test_marks_that_cannot_be_read_are_not_passed_over(windows):
    window = windows(case=Case(marks="XQZZY#1"))
    assert "XQZZY#1" in window.marks.problems.text()
    assert "Nothing looked at yet" not in said(window)


# -- the next customer, and back


def fields(window):
    boxes = [row.field for row in window.looks.rows.values() if hasattr(row, "field")]
    return [*boxes, window.marks.field, window.fixture.watts, window.fixture.space, window.fixture.room]


def test_the_next_customer_finds_everything_empty(windows):
    window = windows(case=FULL)
    window.looks.rows["tube_mm"].field.setText("rubbish")
    window.looks.show_problem("tube_mm", "not a size")
    window.grid.filter.setText("26")
    key(window, Qt.Key.Key_F2)
    assert window.case.model_copy(update={"on": None}) == Case()
    assert [field.text() for field in fields(window)] == [""] * len(fields(window))
    assert not any(one.isChecked() for row in window.looks.rows.values() for one in getattr(row, "buttons", []))
    assert not window.looks.problem.isVisible()
    assert window.grid.filter.text() == ""
    assert window.answer.base.text() == ""
    assert not window.answer.stamp.isVisible()
    assert window.focusWidget() is window.marks.field


def test_one_key_brings_the_customer_back(windows):
    window = windows(case=FULL)
    key(window, Qt.Key.Key_F2)
    assert window.case != FULL
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.case == FULL
    assert window.marks.field.text() == CODE
    assert window.looks.rows["length_mm"].field.text() == "146"
    assert window.fixture.watts.text() == "18, 26"


def test_what_is_half_typed_does_not_reach_the_next_customer(window, qtbot):
    window.marks.take_focus()
    QTest.keyClicks(window.marks.field, "CFQ26W")
    row = window.looks.rows["length_mm"]
    row.field.setFocus()
    QTest.keyClicks(row.field, "14")
    QTest.keyClicks(window.fixture.watts, "18")
    key(window, Qt.Key.Key_F2)
    qtbot.wait(400)  # longer than any pause of a field
    assert (window.case.marks, window.case.looks, window.case.fixture.ballast_watts) == ("", {}, ())


def test_undo_and_redo_walk_the_steps(window):
    steps = [window.case]
    for look, value in ANSWERS:
        press(button(window, look, value))
        steps.append(window.case)
    window.looks.setFocus()
    for expected in reversed(steps[:-1]):
        key(window, Qt.Key.Key_Z, CTRL)
        assert window.case == expected
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.case == steps[0]
    for expected in steps[1:]:
        key(window, Qt.Key.Key_Y, CTRL)
        assert window.case == expected


def test_undo_takes_the_fixture_back_in_its_field_too(window, qtbot):
    window.fixture.watts.setFocus()
    QTest.keyClicks(window.fixture.watts, "18")
    qtbot.waitUntil(lambda: window.case.fixture.ballast_watts == (18,), timeout=2000)
    window.looks.rows["legs"].take_focus()
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.case.fixture.ballast_watts == ()
    assert window.fixture.watts.text() == ""


def test_undo_while_the_hand_is_in_a_field_undoes_the_typing(window):
    window.marks.take_focus()
    QTest.keyClicks(window.marks.field, "CFQ")
    key(window, Qt.Key.Key_Z, CTRL)
    assert window.marks.field.text() == ""


# -- memory between two days


def test_size_splitters_units_and_palette_are_remembered(windows):
    first = windows()
    first.resize(1240, 720)
    first.across.setSizes([350, 500, 380])
    first.middle.setSizes([300, 380])
    first.set_theme("dark")
    first.set_units("in")
    QApplication.processEvents()
    kept = [splitter.sizes() for splitter in (first.across, first.middle)]
    first.close()
    second = windows()
    # The size comes back as far as this screen, 800 pixels square, has room for it.
    assert second.settings.value("geometry") == first.settings.value("geometry")
    assert second.width() <= 1240
    for before, after in zip(kept, [splitter.sizes() for splitter in (second.across, second.middle)], strict=True):
        shares = [[one / sum(sizes) for one in sizes] for sizes in (before, after)]
        assert shares[1] == pytest.approx(shares[0], abs=0.08)
    assert (second.theme.name, second.units) == ("dark", "in")


@pytest.mark.parametrize(
    "content", [b"", b"\x00\xff garbage", b"[General]\ngeometry=7\nacross=x\nunits=ell\ntheme=pink\n"]
)
def test_damaged_settings_do_not_stop_the_window(windows, data, content):
    data.mkdir()
    (data / "window.ini").write_bytes(content)  # where it lay before; it is brought over
    window = windows()
    window._change(chosen="G24q-2/18/quad")
    assert window.answer.base.text() == "G24q-2"
    assert not window.grab().isNull()


# -- the opening cards


def test_outlines_show_before_the_core_is_awake(windows):
    windows()
    second = windows(awake=False)
    assert len(second.grid.model.cards) > 30
    assert second.catalogue is None
    assert not second.grab().isNull()


def test_opening_cards_are_the_cards_of_an_empty_case(windows):
    first = windows()
    second = windows(awake=False)

    def plain(window):
        return json.dumps([_plain(card) for card in window.grid.model.cards])

    assert plain(second) == plain(first)


def damaged(kept, how):
    if how == "half":
        return json.dumps(kept)[:5000]
    if how == "no cards":
        return json.dumps({"of": kept["of"]})
    if how == "cards are numbers":
        return json.dumps({"of": kept["of"], "cards": [1, 2]})
    if how == "unknown shape":
        kept["cards"][0]["face"][2][0][0] = "Blob"
    elif how == "field missing":
        del kept["cards"][0]["share"]
    elif how == "older":
        kept["of"] = "0.0.1 1.1 -"
    return json.dumps(kept)


@pytest.mark.parametrize(
    "how", ["half", "no cards", "cards are numbers", "unknown shape", "field missing", "older", "as it was"]
)
def test_damaged_opening_cards_only_cost_time(windows, data, how):
    windows()
    file = paths.machine(data) / FILE_NAME
    file.write_text(damaged(json.loads(file.read_text()), how))
    second = windows(awake=False)
    assert bool(second.grid.model.cards) == (how == "as it was")
    assert not second.grab().isNull()
    second.wake()
    assert len(second.grid.model.cards) > 30
    assert json.loads(file.read_text())["of"] == fingerprint(data)


def test_a_folder_that_cannot_be_made_does_not_stop_the_window(windows, data):
    data.write_text("a file where the folder should be")
    window = windows()
    window._change(chosen="G24q-2/18/quad")
    assert window.answer.base.text() == "G24q-2"


# -- a catalogue that cannot be read


@pytest.mark.parametrize("content", [None, "{ broken", "[]", "{}"], ids=["gone", "broken", "list", "empty"])
def test_a_broken_catalogue_is_a_designed_state(windows, tmp_path, monkeypatch, content):
    folder = tmp_path / "resources"
    folder.mkdir()
    if content is not None:
        (folder / "catalogue.json").write_text(content)
    monkeypatch.setattr(paths, "resources", lambda: folder)
    window = windows()
    assert window.answer.lamp.text() == "The catalogue could not be read"
    assert "counter check" in window.detail.tell.text()
    everything = said(window)
    assert "Laying out" not in everything, "nothing is coming any more"
    for inside in ("Traceback", "pydantic", "ValidationError"):
        assert inside not in everything
    for which in (Qt.Key.Key_F2, Qt.Key.Key_Escape):
        key(window, which)
    key(window, Qt.Key.Key_Z, CTRL)
    window.set_units("in")
    window.set_theme("dark")
    assert not window.grab().isNull()


# -- by the keyboard alone


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


def marked_letters(window):
    """Every letter that Alt leads somewhere with: captions of fields, and buttons that can be seen."""
    captions = [one.text() for one in window.findChildren(QLabel) if one.isVisible() and one.buddy() is not None]
    buttons = [one.text() for one in window.findChildren(QAbstractButton) if one.isVisible()]
    return [text[text.index("&") + 1].upper() for text in captions + buttons if "&" in text.replace("&&", "")]


def test_every_letter_shown_leads_to_one_place(windows):
    window = windows(case=Case(looks={"pins": "2", "glass": "white"}, marks=CODE))
    window.fixture.more.setChecked(True)
    QApplication.processEvents()
    letters = marked_letters(window)
    assert len(letters) == len(set(letters))
    assert set(letters) >= {*LETTERS.values(), *"HBIUXQY1234567890", *"EDMKOVF"}


def test_every_field_of_the_fixture_has_its_letter_underlined(window):
    window.fixture.more.setChecked(True)
    QApplication.processEvents()
    led = {one.buddy() for one in window.fixture.findChildren(QLabel)}
    assert {window.fixture.field_of(about) for about in FIXTURE_FIELDS} <= led
    for letter, about in (("H", "holder"), ("I", "ballast_watts"), ("Y", "label"), ("9", "dimmer")):
        key(window, getattr(Qt.Key, f"Key_{letter}"), ALT)
        assert window.focusWidget() is window.fixture.field_of(about)


def test_every_look_has_a_letter_of_its_own_in_its_name(catalogue):
    for look in catalogue.looks:
        assert LETTERS[look.key] in look.label.upper()
    assert {look.key for look in catalogue.looks} <= set(LETTERS)
    assert len(set(LETTERS.values())) == len(LETTERS)


@pytest.mark.parametrize("character", ["²", "٣", "½", "x", "\t"])
def test_odd_digits_on_a_look_do_nothing_bad(window, character):
    window.looks.go_to("legs")
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_unknown, Qt.KeyboardModifier.NoModifier, character)
    QApplication.sendEvent(window.focusWidget(), event)
    assert window.case.looks.get("legs") in (None, "6")


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


# -- good manners


def test_nothing_to_press_is_smaller_than_a_finger(windows):
    window = windows(case=FULL)
    small = [
        (type(one).__name__, one.accessibleName() or one.toolTip())
        for row in window.looks.rows.values()
        for one in getattr(row, "buttons", [])
        if one.width() < 36 or one.height() < 36
    ]
    assert small == []


def test_every_field_and_picture_has_a_name_for_a_screen_reader(window):
    nameless = [
        (type(one).__name__, one.objectName())
        for kind in (QLineEdit, QComboBox, QAbstractButton)
        for one in window.findChildren(kind)
        if one.isVisibleTo(window)
        and not one.objectName().startswith("qt_")
        and not (one.accessibleName() or one.toolTip() or getattr(one, "text", str)())
        and not isinstance(one.parentWidget(), QLineEdit)
    ]
    assert nameless == []


def test_no_pane_jumps_as_results_change(window):
    before = (window.size(), window.looks.geometry(), window.grid.geometry(), window.marks.geometry())
    for case in (FULL, Case(looks={"glass": "clear"}), Case(marks="CFQ26W/G24q/841", looks={"pins": "2"})):
        window._change(**{name: getattr(case, name) for name in ("looks", "marks", "fixture", "use")})
        QApplication.processEvents()
        QApplication.processEvents()
        assert (window.size(), window.looks.geometry(), window.grid.geometry(), window.marks.geometry()) == before


def test_nothing_in_the_answer_is_cut_at_the_smallest_size(windows):
    window = windows(case=FULL)
    window.resize(window.minimumSizeHint())
    QApplication.processEvents()
    for widget in (window.answer.base, window.answer.stamp, window.answer.next, window.answer.menu):
        box = widget.rect().translated(widget.mapTo(window, QPoint(0, 0)))
        assert window.rect().contains(box), type(widget).__name__
        assert isinstance(widget, QWidget)


def test_holder_is_typed_and_tab_goes_on(windows, qtbot):
    window = windows()
    qtbot.keyClick(window, Qt.Key.Key_H, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(window.fixture.holder, "G24q-3")
    qtbot.keyClick(window.fixture.holder, Qt.Key.Key_Tab)
    assert window.case.fixture.holder == "G24q-3"
    assert not window.fixture.holder.hasFocus()
