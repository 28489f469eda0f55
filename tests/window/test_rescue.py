"""Unexpected errors: the case is saved, a report kept, the window says so and goes on."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from counter import paths
from counter.desk import Case
from counter.reports import LEFT_OUT, keep_report
from counter.window.report_dialog import ReportDialog
from counter.window.rescue import Rescue
from counter.window.saved_cases import folder, save_rescued
from tests.bench import fill_opening

ROOT = Path(paths.__file__).parents[1]


@pytest.fixture
def rescue(window):
    return Rescue(window)


def boxes():
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, ReportDialog) and one.isVisible()]


def fail(rescue, error):
    try:
        raise error
    except type(error):
        rescue.take(*sys.exc_info())


def reports(data):
    return sorted((data / "reports").glob("report-*.txt"))


def test_the_case_is_saved_a_report_kept_and_the_window_goes_on(window, rescue, data, qapp):
    window.counter.change(marks="CFQ18W/G24q/841")
    fail(rescue, KeyError("lamp"))
    assert boxes() == [], "nothing is shown while Qt may be painting"
    qapp.processEvents()
    (box,) = boxes()
    (report,) = reports(data)
    (case,) = folder(data).glob("*.json")
    assert Case.model_validate_json(case.read_bytes()) == window.case
    assert case.name in box.words.text()
    assert "KeyError" in report.read_text()
    box.copy.click()
    assert "KeyError" in QApplication.clipboard().text()
    box.go_on.click()
    window.counter.change(marks="FT18W/2G11")
    assert window.answer.base.text() == "2G11"


def test_the_same_error_again_is_neither_told_nor_written(rescue, data, qapp):
    for _ in range(200):
        fail(rescue, KeyError("lamp"))
    qapp.processEvents()
    assert len(boxes()) == len(reports(data)) == 1
    boxes()[0].go_on.click()
    fail(rescue, KeyError("lamp"))
    qapp.processEvents()
    assert boxes() == []


def test_errors_in_other_places_join_the_open_box(rescue, data, qapp):
    fail(rescue, KeyError("one"))
    qapp.processEvents()
    try:
        [][1]
    except IndexError:
        rescue.take(*sys.exc_info())
    qapp.processEvents()
    (box,) = boxes()
    assert len(reports(data)) == 2
    assert "KeyError" in box.report.toPlainText()
    assert "IndexError" in box.report.toPlainText()


def test_errors_without_end_fill_no_disk(rescue, data, qapp):
    for number in range(60):
        source = "\n" * number + "raise ValueError"
        try:
            exec(compile(source, "many.py", "exec"))
        except ValueError:
            rescue.take(*sys.exc_info())
    qapp.processEvents()
    assert len(reports(data)) == 20
    assert len(boxes()) == 1


def test_an_error_of_another_thread_is_told_in_this_one(rescue, data, qtbot):
    def work():
        fail(rescue, OSError("no such disk"))

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    qtbot.waitUntil(lambda: len(boxes()) == 1)


@pytest.mark.parametrize("what", ["full", "shut"])
def test_nowhere_to_write_is_said(window, rescue, data, qapp, monkeypatch, what):
    def no_room(path, content):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("counter.reports.write_atomic", no_room)
    monkeypatch.setattr("counter.window.saved_cases.write_atomic", no_room)
    fail(rescue, KeyError("lamp"))
    qapp.processEvents()
    words = boxes()[0].words.text()
    assert "could not be saved" in words
    assert "copy it" in words


def test_a_report_names_nobody_and_repeats_nothing_typed(window, rescue, data, qapp):
    window.counter.change(marks="for Ms Petrova of 12 Mill Lane")
    window.settings.setValue("who", "Anselm")
    window.counter.training.line.show_person("Ludmila")
    window.counter.training._room().people.list.addItem("Radomir")
    fail(rescue, ValueError("cannot take for ms petrova of 12 mill lane, say Anselm, Radomir, Ludmila"))
    text = reports(data)[0].read_text()
    assert LEFT_OUT in text
    names = ("Petrova", "petrova", "Mill Lane", "Anselm", "Radomir", "Ludmila", str(Path.home()))
    assert not any(name in text for name in names)


def test_a_report_leaves_out_what_a_model_refused(data):
    typed = "for Ms Pet" + "rova"  # in parts, or the line of code in the trace would hold it
    try:
        Case(use=typed)
    except ValueError as error:
        text = keep_report(data, error).text
    assert "Petrova" not in text
    assert "use" in text


def test_old_reports_make_room(data):
    for number in range(30):
        keep_report(data, KeyError(number))
    assert len(reports(data)) == 20


def test_a_rescued_case_is_opened_again_and_undone(window, data):
    kept = save_rescued(data, Case(marks="CFQ18W/G24q/841", looks={"legs": "4"}))
    window.counter.change(marks="FT18W/2G11")
    window.counter.desk_cases.open_file(kept)
    assert (window.case.marks, window.marks.field.text()) == ("CFQ18W/G24q/841", "CFQ18W/G24q/841")
    window.counter.undo()
    assert window.case.marks == "FT18W/2G11"


def test_a_file_that_holds_no_case_is_said_and_changes_nothing(window, data, tmp_path):
    (tmp_path / "case.json").write_text("{}[")
    before = window.case
    window.counter.desk_cases.open_file(tmp_path / "case.json")
    assert window.case == before
    assert "case.json" in window.counter.desk_cases.line.words.text()


def test_the_same_case_is_rescued_once_and_others_have_their_own_names(data):
    one, two = Case(marks="A"), Case(marks="B")
    names = [save_rescued(data, case) for case in (one, one, two, one)]
    assert len(set(names)) == 3
    assert Case.model_validate_json(names[0].read_bytes()) == one


# -- the real program, in a process of its own

# Ends itself once what is waited for has come about; a process that dies or hangs fails the test.
SESSION = """
import sys, json
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
data = Path(sys.argv[1])
{breaks}
from counter.window.report_dialog import ReportDialog
def boxes():
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, ReportDialog) and one.isVisible()]
def watch():
    if {until}:
        window = QApplication.activeWindow()
        print(json.dumps([box.words.text() for box in boxes()]))
        QApplication.exit(0)
ticks = QTimer()
ticks.setInterval(20)
ticks.timeout.connect(watch)
from counter import app
made = app.make_application
def make(arguments):
    application = made(arguments)
    ticks.start()
    return application
app.make_application = make
sys.exit(app.run(data))
"""


def session(data, breaks="", until="boxes()"):
    script = SESSION.format(breaks=breaks, until=until)
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-c", script, str(data)]
    return subprocess.run(command, capture_output=True, text=True, cwd=ROOT, env=environment, timeout=120)


PAINT = """
from counter.window.outlines.card_delegate import CardDelegate
kept = CardDelegate.{method}
def broken(self, *given):
    raise RuntimeError("in {method}")
CardDelegate.{method} = broken
"""
FILTER = """
from PySide6.QtCore import QObject
class Broken(QObject):
    def eventFilter(self, watched, event):
        raise RuntimeError("in an event filter")
from counter.window.main_window import MainWindow
woken = MainWindow.wake
def wake(self, case=None):
    woken(self, case)
    self.broken = Broken()
    self.marks.field.installEventFilter(self.broken)
MainWindow.wake = wake
"""


@pytest.mark.parametrize("breaks", [PAINT.format(method="paint"), PAINT.format(method="sizeHint"), FILTER])
def test_an_error_inside_qt_s_own_calls_does_not_end_the_process(data, breaks):
    done = session(data, breaks)
    assert done.returncode == 0, done.stderr
    assert len(json.loads(done.stdout)) == 1
    assert len(reports(data)) == 1


def test_an_error_while_kept_outlines_are_shown_first_does_not_end_the_process(data):
    """Then Qt asks for their size inside show() itself, and the error comes out of that."""
    fill_opening(data)
    done = session(data, PAINT.format(method="sizeHint"))
    assert done.returncode == 0, done.stderr
    assert len(json.loads(done.stdout)) == 1


@pytest.mark.parametrize("value", ['"soup"', "1e300"])
def test_kept_outlines_that_are_sound_json_and_wrong_do_not_end_the_start(data, value):
    first = session(data, until="(window := QApplication.activeWindow()) and window.case is not None")
    assert first.returncode == 0, first.stderr
    file = paths.machine(data) / "opening.json"
    kept = json.loads(file.read_text())
    for card in kept["cards"]:
        card["face"] = f"[{value}, [0, 0, 1, 1], []]"
        card["words"] = json.loads(value)
    import zlib

    kept["sum"] = zlib.crc32(json.dumps(kept["cards"], separators=(",", ":")).encode())  # whoever did it did it well
    file.write_text(json.dumps(kept))
    again = session(data, until="(window := QApplication.activeWindow()) and window.case is not None")
    assert again.returncode == 0, again.stderr
    third = session(data, until="(window := QApplication.activeWindow()) and window.case is not None")
    assert json.loads(third.stdout) == []


def test_a_fault_below_python_is_told_at_the_next_start(data):
    dies = "import faulthandler\nfrom counter.window.main_window import MainWindow\n"
    dies += "MainWindow.wake = lambda self, case=None: faulthandler._sigsegv()\n"
    assert session(data, dies, until="False").returncode not in (0, 1)
    told = session(data)
    assert told.returncode == 0, told.stderr
    assert "The last time" in json.loads(told.stdout)[0]
    assert "Segmentation fault" in reports(data)[-1].read_text() or sys.platform == "win32"
    quiet = session(data, until="(window := QApplication.activeWindow()) and window.case is not None")
    assert json.loads(quiet.stdout) == []
    assert list((data / "reports").glob("fault-*")) == []


def test_the_log_rotates_and_stays_small(data):
    from counter import reports as reporting

    reporting.start_log(data)
    for number in range(12_000):
        reporting.log.warning("line %s of a log that is much too long for anybody to read it to its end", number)
    reporting.stop_log()
    logs = list((data / "reports").glob("counter.log*"))
    assert len(logs) == 1 + reporting.LOG_KEPT
    assert all(log.stat().st_size <= reporting.LOG_LARGEST for log in logs)
