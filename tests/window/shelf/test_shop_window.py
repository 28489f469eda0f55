"""The shop in the window, with real clicks and files: import, search, slip, paper, reopening, parked cases."""

from __future__ import annotations

import os
import socket
import threading
from datetime import date

import pypdfium2
import pytest
import zxingcpp
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter import shelf, shop, slip
from counter.desk import Case
from counter.shop import open_store
from counter.window.shelf.import_dialog import ImportDialog
from counter.window.shelf.shop_desk import AGAIN_MS
from counter.window.shelf.slip_reopen import case_of_today
from counter.window.slip.paper import PAPERS
from tests.shelf.conftest import HEADINGS, LINES, write_xlsx
from tests.window.hands import shop_at_rest, store_answered, waited

CODE = "CFQ26W/G24q/835"
SURE = Case(marks=CODE, looks={"glass": "white", "pins": "4", "legs": "4"}, fixture={"holder": "G24q-3"})


@pytest.fixture
def counter(windows, shop_data):
    """Return the counter of a window on each kind of store in turn."""
    return windows(case=SURE).counter


def bring_in(counter, tmp_path):
    """Import a list as a clerk does: look at it, then press Import."""
    path = tmp_path / "stock.xlsx"
    write_xlsx(path, [HEADINGS, *LINES])
    dialog = ImportDialog(counter, counter.shop.worker, path, counter.shop._imported)
    dialog.show()
    shop_at_rest(counter)
    assert dialog.go.isEnabled()
    said = dialog.says.text()
    QTest.mouseClick(dialog.go, Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    return said


def codes(counter):
    return [one.item.code for one in counter.shop.pane.model.answers]


def press(counter, key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(counter.window.focusWidget() or counter.window, key, modifier)
    QApplication.processEvents()


def write(counter, tmp_path, paper="A4", customer=""):
    """Write the slip as PDF and return it with the number."""
    counter.shop.write_slip()
    dialog = counter.shop.writer.dialog
    dialog.paper.setCurrentIndex(dialog.paper.findData(paper))
    dialog.customer.setText(customer)
    out = tmp_path / f"slip-{paper}.pdf"
    counter.shop.writer._as_pdf = lambda asked: counter.shop.writer.save(asked, out)
    QTest.mouseClick(dialog.buttons["pdf"], Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    return out


def test_a_list_is_looked_at_and_imported_then_found_and_sold_and_brought_back(counter, tmp_path):
    assert "Lines: 4, matched to a lamp type: 2" in bring_in(counter, tmp_path)
    assert codes(counter) == ["TV100", "TV101"]
    first, second = counter.shop.pane.model.answers
    assert (first.rank, second.rank) == ("exact", "other colour")
    assert "12 here, bin A01-2, 8.50 each" in counter.answer.lamp.text()

    QTest.mouseClick(counter.shop.pane.add, Qt.MouseButton.LeftButton)
    assert "1 × TV100" in counter.shop.pane.state.text()
    out = write(counter, tmp_path, customer="Ola Nordberg")
    (logged,) = shop.find_slips(open_store(counter.data), ["nordberg"])
    assert (logged.number, logged.base, logged.body["items"][0]["code"]) == (1, "G24q-3", "TV100")

    page = pypdfium2.PdfDocument(out)[0]
    text = page.get_textpage().get_text_range()
    for words in ("Slip 1", "G24q-3", "TV100", "Ola Nordberg", "8.50"):
        assert words in text
    (read,) = zxingcpp.read_barcodes(page.render(scale=4).to_numpy())
    counter.next_customer()
    assert counter.case.marks == ""
    QTest.keyClicks(counter.marks.field, read.text)  # as a scanner does
    press(counter, Qt.Key.Key_Return)
    assert counter.case.marks == CODE
    assert counter.assessment.lamp == "G24q-3/26/quad"


@pytest.mark.parametrize("paper", PAPERS)
def test_every_paper_is_read_back(windows, data, tmp_path, paper):
    counter = windows(case=SURE).counter
    out = write(counter, tmp_path, paper)
    document = pypdfium2.PdfDocument(out)
    width, height = document[0].get_size()
    kind = PAPERS[paper]
    assert width == pytest.approx(kind.width_mm / 25.4 * 72, abs=1.5)
    if kind.height_mm:
        assert height == pytest.approx(kind.height_mm / 25.4 * 72, abs=1.5)
    else:
        assert len(document) == 1
    codes = [found.text for page in document for found in zxingcpp.read_barcodes(page.render(scale=4).to_numpy())]
    assert [slip.case_in(text, counter.catalogue).marks for text in codes] == [CODE]


def test_the_base_is_drawn_in_its_true_size(windows, data, tmp_path, catalogue):
    """Its pins stand as far apart on paper, in points of 1/72 inch, as the catalogue says in millimetres."""
    counter = windows(case=SURE).counter
    page = pypdfium2.PdfDocument(write(counter, tmp_path))[0]
    base = catalogue.base_by_name["G24q-3"]
    outline = base.face.outline
    wanted = (outline.width_mm * 72 / 25.4, outline.height_mm * 72 / 25.4)
    boxes = [found.get_bounds() for found in page.get_objects(filter=[2])]
    sizes = [(right - left, top - bottom) for left, bottom, right, top in boxes]
    pen = 3.0  # points: the outline's own width on either side
    assert any(abs(w - wanted[0]) < pen and abs(h - wanted[1]) < pen for w, h in sizes), sorted(sizes)[-5:]


def test_what_must_not_go_in_is_struck_through_and_cannot_be_chosen(counter, tmp_path):
    bring_in(counter, tmp_path)
    counter.change(fixture=counter.case.fixture.model_copy(update={"holder": "G23"}))
    counter.shop.pane.field.setText("TV100")
    shop_at_rest(counter)
    (found,) = counter.shop.pane.model.answers
    assert (found.rank, found.verdict) == ("not for this", "do not sell")
    assert found.why
    assert not counter.shop.pane.add.isEnabled()


def test_search_as_you_type_and_what_is_missing_is_noted(counter, tmp_path):
    bring_in(counter, tmp_path)
    counter.shop.search()
    QTest.keyClicks(counter.shop.pane.field, "wire nut")
    shop_at_rest(counter)
    assert codes(counter) == ["TV103"]
    QTest.mouseClick(counter.shop.pane.miss, Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    assert [one.text for one in shop.asked_for(open_store(counter.data))] == ["wire nut"]


def test_a_line_is_matched_by_hand(counter, tmp_path):
    bring_in(counter, tmp_path)
    counter.shop.pane.field.setText("tv103")
    shop_at_rest(counter)
    QTest.mouseClick(counter.shop.pane.same, Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    assert shelf.find(open_store(counter.data), "tv103")[0].lamp == "G24q-3/26/quad"


def test_parked_cases_come_back_by_one_key_and_after_a_restart(windows, data):
    window = windows(case=SURE)
    press(window.counter, Qt.Key.Key_F6)
    assert window.counter.case == window.counter.fresh_case()
    window.counter.change(marks="CFT9W/G23")
    press(window.counter, Qt.Key.Key_F7)
    assert window.counter.case == case_of_today(window.counter, SURE)
    second = windows()
    assert second.counter.shop.parked.buttons[0].text().startswith("F7  G23")
    press(second.counter, Qt.Key.Key_F7)
    assert second.counter.case.marks == "CFT9W/G23"
    assert not second.counter.shop.parked.bar.isVisible()


def test_a_store_that_is_gone_is_said_and_the_slip_waits(windows, data, monkeypatch, tmp_path):
    monkeypatch.setenv("COUNTER_STORE", "postgresql://clerk@127.0.0.1:9/shop")
    counter = windows(case=SURE).counter
    out = write(counter, tmp_path)
    assert "cannot be reached" in counter.shop.writer._kept.problem.what
    assert "not numbered yet" in pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range()
    assert shop.waiting(data) == 1
    counter.shop.worker.close()
    monkeypatch.delenv("COUNTER_STORE")
    assert shop.flush(open_store(data)) == 1


def test_what_another_till_confirms_is_taken_without_a_restart(counter):
    from datetime import date

    by = {"who": "Kim", "on": date(2026, 3, 2), "how": "caliper"}
    shop.confirm(counter.data, kind="lamp", of="G24q-3/26/quad", part="length_mm", value=163.5, **by)
    counter.shop.open()
    shop_at_rest(counter)
    assert counter.catalogue.lamp_by_id["G24q-3/26/quad"].length_mm.value == 163.5


def test_a_store_that_cannot_be_read_is_said_at_the_foot_once(windows, data):
    """What the shop confirmed and taught does not count then; only the page of the shelf said so."""
    data.mkdir()
    (data / "shop.db").write_bytes(b"no database" * 999)
    counter = windows().counter
    line = counter.desk_cases.line
    for is_said in (True, False):
        line.hide()
        counter.shop.open()
        shop_at_rest(counter)
        assert line.isVisible() is is_said
    assert "shop.db" in line.words.text()
    assert "shop.db" in counter.shop.pane.state.text()


def test_demo_shop_is_marked_and_taken_out(windows, data):
    counter = windows(case=SURE).counter
    counter.shop.load_demo()
    shop_at_rest(counter)
    assert "nothing in it exists" in counter.shop.pane.state.text()
    assert counter.shop.pane.model.answers
    assert not counter.window.grab().isNull()
    counter.shop.drop_demo()
    shop_at_rest(counter)
    assert shop.current_list(open_store(data)) is None


def test_the_log_finds_reopens_and_takes_back(counter, tmp_path):
    from counter.window.slip.log_dialog import LogDialog

    bring_in(counter, tmp_path)
    QTest.mouseClick(counter.shop.pane.add, Qt.MouseButton.LeftButton)
    write(counter, tmp_path, customer="Ola Nordberg")
    counter.next_customer()
    dialog = LogDialog(counter, counter.shop.worker, counter.shop.reopener)
    dialog.show()
    QTest.keyClicks(dialog.field, "nordb")
    shop_at_rest(counter)
    assert dialog.list.count() == 1
    QTest.mouseClick(dialog.buttons["came_back"], Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    dialog.export_to(tmp_path / "log.csv")
    shop_at_rest(counter)
    assert "Nordberg" not in (tmp_path / "log.csv").read_text("utf-8-sig")
    assert not dialog.month.grab().isNull()
    QTest.mouseClick(dialog.buttons["forget"], Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    assert shop.find_slips(open_store(counter.data))[0].customer == ""
    dialog.field.clear()
    shop_at_rest(counter)
    QTest.mouseClick(dialog.buttons["reopen"], Qt.MouseButton.LeftButton)
    assert counter.case.marks == CODE
    assert [one.reason for one in shop.came_back(open_store(counter.data))] == ["wrong base"]


def test_a_value_is_confirmed_beside_the_window(counter):
    from counter.window.parts.source_dialog import SourceDialog

    fact = next(one for one in counter.detail._facts if one.address == ("lamp", "G24q-3/26/quad", "length_mm"))
    dialog = SourceDialog(fact, "26 W", "", (), counter.window)
    counter._confirm(dialog, fact, "163.5", "Kim", "caliper")
    shop_at_rest(counter)
    assert counter.catalogue.lamp_by_id["G24q-3/26/quad"].length_mm.value == 163.5


def test_an_import_that_is_closed_in_the_middle_leaves_no_trace(counter, tmp_path):
    path = tmp_path / "stock.xlsx"
    write_xlsx(path, [HEADINGS, *LINES * 400])
    dialog = ImportDialog(counter, counter.shop.worker, path, counter.shop._imported)
    dialog.show()
    QTest.qWait(150)
    dialog.reject()
    shop_at_rest(counter)
    assert shop.current_list(open_store(counter.data)) is None


def test_what_was_sold_last_time_is_chosen_again_and_a_sold_slip_is_not_sold_twice(counter, tmp_path):
    from counter.window.slip.log_dialog import LogDialog

    bring_in(counter, tmp_path)
    QTest.mouseClick(counter.shop.pane.add, Qt.MouseButton.LeftButton)
    chosen = list(counter.shop.writer.items)
    assert chosen
    write(counter, tmp_path, customer="Ola Nordberg")
    assert counter.shop.writer.items == {}
    counter.next_customer()
    dialog = LogDialog(counter, counter.shop.worker, counter.shop.reopener)
    dialog.show()
    QTest.keyClicks(dialog.field, "nordb")
    shop_at_rest(counter)
    QTest.keyClick(dialog.field, Qt.Key.Key_Return)
    shop_at_rest(counter)
    assert counter.case.marks == CODE
    assert list(counter.shop.writer.items) == chosen


def test_parked_case_keeps_what_was_chosen_and_takes_nothing_from_the_next(counter, tmp_path):
    bring_in(counter, tmp_path)
    QTest.mouseClick(counter.shop.pane.add, Qt.MouseButton.LeftButton)
    chosen = dict(counter.shop.writer.items)
    counter.window.activateWindow()
    assert QTest.qWaitForWindowActive(counter.window)
    press(counter, Qt.Key.Key_F6)
    assert counter.shop.writer.items == {}
    counter.take_marks("CFT9W/G23/827")
    press(counter, Qt.Key.Key_F7)
    assert counter.case.marks == CODE
    assert counter.shop.writer.items == chosen


def test_parked_case_of_a_later_version_waits_on(windows, data):
    shop.park(data, shop.Parked("k", "2026-11-25T10:00:00", "from later", {"version": 99}))
    counter = windows().counter
    press(counter, Qt.Key.Key_F7)
    assert [one.key for one in shop.parked(data)] == ["k"]


def test_shops_name_and_address_are_set_once_for_all_slips(counter, tmp_path):
    from counter.window.dialogs.settings import Settings

    counter.shop.open()
    shop_at_rest(counter)
    dialog = Settings(counter.window)
    dialog.show()
    own = dialog.of_shop
    for field, text in ((own.name, "Corner Lamps"), (own.address, "1 North Street")):
        field.setFocus()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
    QTest.mouseClick(own.asked, Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    store = open_store(counter.data)
    assert [shop.setting(store, key) for key in ("shop_name", "shop_address")] == ["Corner Lamps", "1 North Street"]
    assert shop.setting(store, "names_asked") is own.asked.isChecked()
    out = write(counter, tmp_path)
    words = pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range()
    assert "Corner Lamps" in words
    assert "1 North Street" in words


def test_place_that_another_till_sets_is_taken(counter):
    counter.shop.open()
    shop_at_rest(counter)
    shop.put_setting(open_store(counter.data), "place", "us-ca")
    counter.shop.open()
    shop_at_rest(counter)
    assert counter.case.place == "us-ca"
    counter.set_place("")
    shop_at_rest(counter)
    assert shop.setting(open_store(counter.data), "place") == ""


def test_choice_that_this_machine_cannot_keep_is_said(windows, data, monkeypatch, tmp_path):
    (tmp_path / "no folder").write_text("")
    monkeypatch.setenv("COUNTER_LOCAL", str(tmp_path / "no folder"))
    window = windows()
    window.set_units("in")
    assert "cannot be written" in window.counter.desk_cases.line.words.text()
    assert window.units == "in"


def test_lists_say_what_was_asked_for_and_what_came_back(counter):
    from counter.window.slip.log_dialog import LogDialog

    store = open_store(counter.data)
    shop.add_wish(store, "w", shop.Wish("2026-11-25T10:00:00", "2026-11-25", None, "wire nut", 3))
    back = shop.Return("2026-11-25T10:00:00", "2026-11-25", None, "G23/9/twin", "GX23/13/twin", "wrong base", "")
    shop.add_return(store, "r", back)
    dialog = LogDialog(counter, counter.shop.worker, counter.shop.reopener)
    dialog.show()
    shop_at_rest(counter)
    assert "3 × wire nut" in dialog.happened.asked.item(0).text()
    said = dialog.happened.back.item(0).text()
    assert all(part in said for part in ("G23 9", "wrong base", "GX23 13"))
    assert "G23 9" in dialog.month.accessibleDescription()


def length_of(counter):
    return next(one for one in counter.detail._facts if one.address == ("lamp", "G24q-3/26/quad", "length_mm"))


def test_what_the_shop_said_is_read_and_withdrawn_beside_the_window(counter):
    from counter.window.parts.source_dialog import SourceDialog

    by = {"who": "Kim", "on": date(2026, 3, 2), "how": "caliper"}
    shop.confirm(counter.data, kind="lamp", of="G24q-3/26/quad", part="length_mm", value=163.5, **by)
    counter.open_source(length_of(counter))
    dialog = counter.window.findChild(SourceDialog)
    assert "asking the store" in dialog.history.text()
    shop_at_rest(counter)
    assert "Kim" in dialog.history.text()
    QTest.mouseClick(dialog.withdraw, Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    assert shop.confirmed_before(counter.data, kind="lamp", of="G24q-3/26/quad", part="length_mm") == ()


def test_a_server_that_accepts_and_never_answers_holds_nothing(windows, data, monkeypatch):
    """The window's own loop goes on while the worker waits; a bare socket takes the connection and says nothing."""
    from counter.window.parts.source_dialog import SourceDialog

    monkeypatch.setattr("counter.shop._engine.CONNECT_S", 1)
    with socket.create_server(("127.0.0.1", 0)) as silent:
        monkeypatch.setenv("COUNTER_STORE", f"postgresql://clerk@127.0.0.1:{silent.getsockname()[1]}/shop")
        counter = windows(case=SURE).counter
        counter.window.settings.setValue("at_counter", "0123456789abcdef")
        counter.training._greet()
        counter.open_source(length_of(counter))
        dialog = counter.window.findChild(SourceDialog)
        assert counter.shop.worker.pending
        assert "asking the store" in dialog.history.text()
        counter.change(marks="CFT9W/G23/827")
        QApplication.processEvents()
        assert counter.shop.worker.pending, "all this went on while the server was silent"
        assert counter.assessment.lamp == "G23/9/twin"
        waited(lambda: "cannot be reached" in dialog.problem.text())  # once its time is up
    store_answered(counter.window)


@pytest.fixture
def asked_from(monkeypatch):
    """Return whether the window's own thread asked, for each time that a store was to be opened."""
    asked, open_at = [], shop._store.open_at
    monkeypatch.setattr("counter.shop._engine.CONNECT_S", 1)

    def opens(*of, **how):
        asked.append(threading.current_thread() is threading.main_thread())
        return open_at(*of, **how)

    monkeypatch.setattr("counter.shop._store.open_at", opens)
    return asked


def said_in(label, words):
    for _ in range(2000):
        if words in label.text():
            return True
        QTest.qWait(5)
    return False


def test_a_silent_server_holds_nothing_in_the_training_room(windows, data, monkeypatch, asked_from):
    from counter.training import add_trainee
    from counter.window.training.frame import BOARD, PRACTICE, STANDING
    from counter.window.training.session import system_clock

    for name in ("Ada", "Bo"):
        add_trainee(data, name, system_clock())
    window = windows(case=SURE)
    worker = window.counter.shop.worker
    window.counter.training.enter()
    room = window.counter.training.room
    store_answered(window)
    assert room.start.title.text() == "Ada: a round of"
    asked_from.clear()
    with socket.create_server(("127.0.0.1", 0)) as silent:
        monkeypatch.setenv("COUNTER_STORE", f"postgresql://clerk@127.0.0.1:{silent.getsockname()[1]}/shop")
        room._start_place(0)
        asked = worker.pending
        room._start_place(1)
        assert worker.pending == asked, "a second press is not taken"
        assert said_in(room.said, "asking the store")
        room.people.list.setCurrentRow(1)
        room.people.name.setText("Cy")
        for _ in range(2):
            room.people.add.click()
        for page in (STANDING, BOARD, PRACTICE):
            room._open(page)
            QApplication.processEvents()
            assert room.pages.currentIndex() == page
        room.roster.remove(room.who)
        window.counter.change(marks="CFT9W/G23/827")
        assert window.assessment.lamp == "G23/9/twin"
        window.counter.measuring.print("look-alikes")
        assert worker.pending, "all this went on while the server was silent"
    store_answered(window)  # the server is gone: nothing that was asked has to wait for its time to be up
    assert "cannot be reached" in room.people.problem.text()
    assert room.people.name.text() == "Cy", "what was typed is still there to be added"
    assert asked_from
    assert not any(asked_from), "the window's thread asks no store"


def test_a_lesson_starts_without_the_store_and_says_that_nothing_is_kept(windows, data, monkeypatch, asked_from):
    from counter.training import add_trainee
    from counter.window.training.session import system_clock

    add_trainee(data, "Ada", system_clock())
    window = windows(case=SURE)
    window.counter.training.enter()
    store_answered(window)
    room = window.counter.training.room
    asked_from.clear()
    with socket.create_server(("127.0.0.1", 0)) as silent:
        monkeypatch.setenv("COUNTER_STORE", f"postgresql://clerk@127.0.0.1:{silent.getsockname()[1]}/shop")
        window.counter.training.teach("G24q")
        assert room.session.card.family == "G24q"
        room.session.choose(0)
        room.session.choose(1)
        assert window.counter.shop.worker.pending, "the lesson went on while the server was silent"
    store_answered(window)
    assert [one.choice for one in room.session.given] == [0]
    assert "cannot be reached" in room.said.text()
    assert asked_from
    assert not any(asked_from)


def test_what_a_hand_gave_is_kept_though_the_window_closes_first(windows, data):
    window = windows(case=SURE)
    worker, holds, done = window.counter.shop.worker, threading.Event(), []
    worker.ask(holds.wait, done.append, done.append)
    worker.ask(lambda: done.append("read"), lambda _: None, done.append)
    worker.ask(lambda: done.append("kept"), lambda _: None, done.append, keeps=True)
    worker.is_closed = True  # as the first thing that closing does, while the store is still busy
    holds.set()
    worker.close()
    assert done == ["kept"]


def test_a_fault_in_a_job_ends_the_waiting_and_is_a_fault(windows, data, qtbot):
    window, told = windows(case=SURE), []
    worker = window.counter.shop.worker
    with qtbot.capture_exceptions() as found:
        worker.ask(lambda: {}["nothing"], told.append, lambda problem: told.append(str(problem)))
        store_answered(window)
    assert [kind for kind, *_ in found] == [KeyError]
    assert told == ["something went wrong that should not; it is noted"]


def test_one_timer_looks_what_other_tills_changed(counter):
    shop_at_rest(counter)
    for _ in range(5):
        counter.shop.open()
        shop_at_rest(counter)
    running = [one for one in counter.shop.findChildren(QTimer) if one.isActive()]
    assert [one.interval() for one in running] == [AGAIN_MS]


def logged(counter, tmp_path):
    """Open the log over one slip that was written for a customer."""
    from counter.window.slip.log_dialog import LogDialog

    write(counter, tmp_path, customer="Ola Nordberg")
    counter.next_customer()
    dialog = LogDialog(counter, counter.shop.worker, counter.shop.reopener)
    dialog.show()
    shop_at_rest(counter)
    return dialog


def test_a_slip_is_printed_again_under_its_number_and_says_that_it_is_a_copy(windows, data, tmp_path):
    from counter.window.slip.slip_dialog import SlipDialog

    counter = windows(case=SURE).counter
    dialog = logged(counter, tmp_path)
    QTest.mouseClick(dialog.buttons["print_again"], Qt.MouseButton.LeftButton)
    again = dialog.findChild(SlipDialog)
    assert not again.initials.isEnabled()
    out = tmp_path / "again.pdf"
    counter.shop.writer._as_pdf = lambda asked: counter.shop.writer.save(asked, out)
    QTest.mouseClick(again.buttons["pdf"], Qt.MouseButton.LeftButton)
    words = pypdfium2.PdfDocument(out)[0].get_textpage().get_text_range()
    assert "Copy" in words
    assert "Slip 1 " in words
    assert "Ola Nordberg" in words
    assert "Copy" not in pypdfium2.PdfDocument(tmp_path / "slip-A4.pdf")[0].get_textpage().get_text_range()
    assert len(shop.find_slips(open_store(counter.data))) == 1
    assert counter.shop.writer.items == {}


def test_a_return_is_kept_in_english_whatever_is_spoken_and_once(windows, data, tmp_path):
    window = windows(case=SURE)
    window.set_language("es")
    counter = window.counter
    dialog = logged(counter, tmp_path)
    dialog.reason.setCurrentIndex(dialog.reason.findData("does not light"))
    assert dialog.reason.currentText() == "no enciende"
    for _ in range(2):
        QTest.mouseClick(dialog.buttons["came_back"], Qt.MouseButton.LeftButton)
    shop_at_rest(counter)
    assert [one.reason for one in shop.came_back(open_store(counter.data))] == ["does not light"]
    assert "no enciende" in dialog.happened.back.item(0).text()


def test_a_slip_on_its_way_into_the_log_is_not_written_twice(windows, data, monkeypatch):
    counter, kept = windows(case=SURE).counter, []
    monkeypatch.setattr(slip, "keep", lambda *of: kept.append(of) or shop.Kept(7))
    counter.shop.write_slip()
    dialog = counter.shop.writer.dialog
    for _ in range(2):
        counter.shop.writer.write("keep")
    assert "asking the store" in dialog.says.text()
    shop_at_rest(counter)
    assert len(kept) == 1


def test_a_list_that_is_being_read_for_letters_is_left_when_the_window_closes(windows, shop_data, tmp_path):
    """Else its thread would open the store anew after the window has let go of it, and hold the program's end."""
    counter = windows(case=SURE).counter
    bring_in(counter, tmp_path)
    counter.shop.learner._quiet_from = float("inf")  # a hand that never rests
    counter.shop.learner.begin()
    counter.window.close()
    assert counter.shop.learner.worker.is_closed
    assert not any(one.is_alive() for one in counter.shop.learner.worker._pool._threads)


def test_a_folder_that_may_only_be_read_keeps_what_it_can_on_the_machine(windows, data):
    open_store(data)
    shop.close_all()
    (data / "shop.db").chmod(0o400)
    data.chmod(0o500)
    try:
        if os.access(data, os.W_OK):
            pytest.skip("permissions bind nobody who runs as root, nor any folder of another system")
        window = windows(case=SURE)
        window.counter.set_place("us")
        window.set_units("in")
        window.counter.shop.write_slip()
        window.counter.shop.writer.write("keep")
        store_answered(window)
        assert shop.waiting(data) == 1
        assert (window.settings.value("place"), window.settings.value("units")) == ("us", "in")
    finally:
        data.chmod(0o700)
