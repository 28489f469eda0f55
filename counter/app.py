"""Starts the window: first paint first, then the core. What goes wrong leaves a report, and the next start tells."""

from __future__ import annotations

import gc
import os
import sys
from typing import TYPE_CHECKING

import counter.window  # noqa: F401 - first: it keeps PySide6 from reading the source of what comes after

# isort: split
from PySide6.QtCore import QTimer, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from counter import __version__
from counter.faults import FaultWatch, left_faults
from counter.files import write_atomic
from counter.language import marked, tr
from counter.window.main_window import MainWindow
from counter.window.one_instance import OneInstance
from counter.window.outlines.opening import forget
from counter.window.rescue import Rescue

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from PySide6.QtCore import QMessageLogContext, QtMsgType
    from PySide6.QtGui import QIcon

    from counter.desk import Case
    from counter.paper import Sheet

# A layout request made while requests are handled waits for the next round.
SETTLE_ROUNDS = 4
ALREADY_OPEN = 2  # exit status: another window has the data folder, and does not answer
FAULT_WORDS = marked("The last time, the program ended without a word: a fault below it. This is what it left.")
OFFER_MS = 1500  # after the first paint: by then the window is awake and has been seen


def run(data: Path) -> int:
    """Open the window and stay until it is closed; return the exit status."""
    only = OneInstance(data)
    if not only.take():
        return _call_first(only)
    watch = FaultWatch(data)
    application = make_application(sys.argv[:1])
    window = _window(data)
    window.fit_screen()
    rescue = Rescue(window)
    rescue.install()
    window.painted.connect(lambda: QTimer.singleShot(0, lambda: _wake(window, rescue, only)))
    try:
        window.show()
    except Exception as error:  # what an override raised that Qt called while it showed comes out here
        rescue.take(type(error), error, error.__traceback__)
    try:
        return application.exec()
    finally:
        watch.end()


def _call_first(only: OneInstance) -> int:
    """Let the window that is open already come to the front, or say why it does not."""
    problem = only.call_first()
    if problem and sys.stderr is not None:
        print("counter:", problem, tr("Close it, or name another folder with --data."), file=sys.stderr)
    return ALREADY_OPEN if problem else 0


def _window(data: Path) -> MainWindow:
    """Return the window; where what is kept of an earlier start keeps it from opening, without that."""
    try:
        return MainWindow(data)
    except Exception as error:
        from counter.reports import keep_report

        keep_report(data, error)
        forget(data)
        return MainWindow(data)


def _wake(window: MainWindow, rescue: Rescue, only: OneInstance) -> None:
    """Do what the first paint need not wait for."""
    gc.enable()
    window.wake()
    from counter import reports

    reports.start_log(window.data)
    reports.log.info("started: %s", reports.versions())
    qInstallMessageHandler(_note_qt)
    rescue.install_in_threads()
    window.fill_screen()
    window.setWindowIcon(icon())
    only.called.connect(window.come_forward)
    only.listen()
    for report in left_faults(window.data):
        rescue.offer(tr(FAULT_WORDS), report)
    from counter.window.idle import make_ready

    make_ready(window)
    QTimer.singleShot(OFFER_MS, lambda: _offer_first_case(window))


def _note_qt(kind: QtMsgType, context: QMessageLogContext, words: str) -> None:
    from counter.reports import log

    log.warning("Qt: %s", words)
    if sys.stderr is not None:
        print(words, file=sys.stderr)


def icon() -> QIcon:
    """Return the program's own icon: a face with its key, drawn as all faces are."""
    from counter.window.icon import drawn_icon

    return drawn_icon()


def _offer_first_case(window: MainWindow) -> None:
    from counter.window.training.first_case import offer_first_case  # nothing that the first paint needs

    offer_first_case(window)


def save_picture(out: Path, data: Path, case: Case | None, size: tuple[int, int], theme: str, spoken: str) -> None:
    """Paint the window with a case into a PNG of `size` pixels, with no screen needed.

    `spoken` is the language asked for; "" is that of the settings.

    Raises:
        OSError: the picture cannot be written.
    """
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    qInstallMessageHandler(_without_size_hints)
    application = make_application(sys.argv[:1])
    window = MainWindow(data, theme, spoken)
    window.resize(*size)
    window.show()
    window.wake(case)
    for _ in range(SETTLE_ROUNDS):
        application.processEvents()
    _write_png(window, out)


def _write_png(window: MainWindow, out: Path) -> None:
    """Write the window's picture, in full or not at all; never into a folder, a pipe or a device."""
    from PySide6.QtCore import QBuffer

    raw = QBuffer()
    raw.open(QBuffer.OpenModeFlag.WriteOnly)
    window.grab().save(raw, "PNG")
    write_atomic(out, bytes(raw.data().data()))


def save_paper(out: Path, sheets: Sequence[Sheet]) -> None:
    """Write sheets of paper as a PDF, with no screen needed.

    Raises:
        OSError: the file cannot be written.
    """
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from counter.window.paper.sheets import save_sheets

    application = make_application(sys.argv[:1])
    save_sheets(sheets, out, application.applicationDisplayName())


def _without_size_hints(kind: QtMsgType, context: QMessageLogContext, words: str) -> None:
    # The offscreen platform says at every show that it has no size hints; nobody can do anything about it.
    if "propagateSizeHints" not in words:
        print(words, file=sys.stderr)


def make_application(arguments: list[str]) -> QApplication:
    """Return the application with its name set; there is one a process."""
    # Fusion, the one style that follows a palette alike on every system: as an argument, since `setStyle` would make
    # all of QStyle's enumerations known to Python before the first paint.
    application = QApplication([*arguments, "-style", "fusion"])
    application.setApplicationName("lamp-counter")
    application.setApplicationDisplayName(tr("Lamp counter"))
    application.setApplicationVersion(__version__)
    application.setDesktopFileName("lamp-counter")
    return application
