"""Cases as files: saved, opened, dropped; the last customers; the one that was open when all stopped."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication, QMenu

from counter import desk
from counter.desk import Case
from tests.window.hands import CODE, CTRL, FULL, button, key, press, said


def answers(window):
    return window.case.looks, window.case.marks, window.case.fixture, window.case.use


def test_a_case_saved_is_the_case_opened(windows, tmp_path):
    window = windows(case=FULL)
    window.counter.desk_cases.save_file(tmp_path / "kept.json")
    assert "Saved as kept.json" in said(window.counter.desk_cases.line)
    before = answers(window)
    key(window, Qt.Key.Key_F2)
    window.counter.desk_cases.open_file(tmp_path / "kept.json")
    assert answers(window) == before
    window.counter.undo()
    assert window.case.marks == ""


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b'{"looks": {"legs": "<b>9</b>"}}', b"\xff\xfe\x00"])
def test_a_file_that_is_no_case_is_said_and_changes_nothing(windows, tmp_path, content):
    window = windows(case=FULL)
    file = tmp_path / "other.json"
    file.write_bytes(content)
    window.counter.desk_cases.open_file(file)
    assert "Not opened" in said(window.counter.desk_cases.line)
    assert window.case == FULL


def test_a_case_dropped_on_the_window_is_opened(window, tmp_path):
    desk.write_case(tmp_path / "dropped.json", FULL)
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(tmp_path / "dropped.json"))])
    drop = QDropEvent(
        QPointF(9, 9), Qt.DropAction.CopyAction, mime, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    )
    window.dropEvent(drop)
    assert window.case.marks == CODE


def test_a_folder_that_cannot_be_written_is_said(window, tmp_path):
    (tmp_path / "file").write_text("")
    window.counter.desk_cases.save_file(tmp_path / "file" / "case.json")
    assert "Not saved" in said(window.counter.desk_cases.line)


def test_a_stop_in_the_middle_offers_the_case_at_the_next_start(windows):
    first = windows()
    press(button(first, "legs", "4"))
    first.counter.desk_cases.keep_open()
    second = windows()  # the first was never closed: as after a power cut
    line = second.counter.desk_cases.line
    assert "was open" in said(line)
    press(line.buttons[0])
    assert second.case.looks == {"legs": "4"}
    assert not line.isVisible()


def test_a_window_closed_as_asked_offers_nothing(windows):
    first = windows()
    press(button(first, "legs", "4"))
    first.counter.desk_cases.keep_open()
    first.close()
    assert not windows().counter.desk_cases.line.isVisible()


@pytest.mark.parametrize(
    "content", ["", "{", '{"version": 1, "cases": [{"title": 1}]}', "[" * 4000, '{"version": 2}']
)
def test_damaged_kept_cases_offer_nothing(windows, data, content):
    data.mkdir()
    for name in ("open-case.json", "last-customers.json"):
        (data / name).write_text(content)
    window = windows()
    assert not window.counter.desk_cases.line.isVisible()
    menu = QMenu()
    window.counter.desk_cases.fill_last(menu)
    assert [action.text() for action in menu.actions()] == ["no customer yet"]


def test_last_customers_stand_in_the_menu_and_come_back(window):
    for looks in ({"legs": "4", "pins": "4"}, {"glass": "clear", "pins": "2"}):
        window.counter.change(looks=looks)
        window.counter.next_customer()
    menu = QMenu()
    window.counter.desk_cases.fill_last(menu)
    assert len(menu.actions()) == 2
    menu.actions()[0].trigger()
    assert window.case.looks == {"glass": "clear", "pins": "2"}


def test_no_more_than_a_dozen_are_kept(data):
    for at in range(20):
        desk.keep_customer(data, desk.Kept(f"{at}", Case(marks=f"F{at}")))
    assert [one.title for one in desk.last_customers(data)] == [str(at) for at in range(19, 7, -1)]


def test_the_answer_is_copied_as_text(windows):
    window = windows(case=FULL)
    key(window, Qt.Key.Key_C, CTRL | Qt.KeyboardModifier.ShiftModifier)
    text = QApplication.clipboard().text()
    for part in ("G24q-2", "Verdict:", f"Marks: {CODE}", "Legs 2 bent tubes", "electrician"):
        assert part in text
    assert "<" not in text
