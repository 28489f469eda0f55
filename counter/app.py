"""Starts the window: first paint first, then the core."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QTimer, qInstallMessageHandler
from PySide6.QtWidgets import QApplication, QMessageBox

from counter import __version__
from counter.window.main_window import MainWindow
from counter.window.one_instance import OneInstance

if TYPE_CHECKING:
    from pathlib import Path
    from types import TracebackType

    from PySide6.QtCore import QMessageLogContext, QtMsgType
    from PySide6.QtGui import QIcon

    from counter.desk import Case

# A layout request made while requests are handled waits for the next round.
SETTLE_ROUNDS = 4
RESCUE_FILE = "rescued-case.json"


def run(data: Path) -> int:
    """Open the window and stay until it is closed; return the exit status."""
    application = make_application(sys.argv[:1])
    only = OneInstance(data)
    if not only.take():
        problem = only.call_first()
        if problem:
            print(f"counter: {problem} Close it, or name another folder with --data.", file=sys.stderr)
        return 2 if problem else 0
    window = MainWindow(data)
    window.fit_screen()
    window.painted.connect(lambda: QTimer.singleShot(0, lambda: _wake(window, only)))
    sys.excepthook = lambda kind, error, trace: _rescue(window, kind, error, trace)
    window.show()
    return application.exec()


def _wake(window: MainWindow, only: OneInstance) -> None:
    window.wake()
    window.setWindowIcon(icon())
    only.called.connect(window.come_forward)
    only.listen()


def icon() -> QIcon:
    """Return the program's own icon: a face with its key, drawn as all faces are."""
    from counter.window.icon import drawn_icon

    return drawn_icon()


def save_picture(out: Path, data: Path, case: Case | None, size: tuple[int, int], theme: str) -> None:
    """Paint the window with a case into a PNG of `size` pixels, with no screen needed.

    Raises:
        OSError: the picture cannot be written.
    """
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    qInstallMessageHandler(_without_size_hints)
    application = make_application(sys.argv[:1])
    window = MainWindow(data, theme)
    window.resize(*size)
    window.show()
    window.wake(case)
    for _ in range(SETTLE_ROUNDS):
        application.processEvents()
    if not window.grab().save(str(out)):
        raise OSError(f"cannot write {out}: is it a .png in a folder that exists?")


def _without_size_hints(kind: QtMsgType, context: QMessageLogContext, words: str) -> None:
    # The offscreen platform says at every show that it has no size hints; nobody can do anything about it.
    if "propagateSizeHints" not in words:
        print(words, file=sys.stderr)


def make_application(arguments: list[str]) -> QApplication:
    """Return the application with its name set; there is one a process."""
    application = QApplication(arguments)
    application.setStyle("Fusion")  # the one style that follows a palette alike on every system
    application.setApplicationName("lamp-counter")
    application.setApplicationDisplayName("Lamp counter")
    application.setApplicationVersion(__version__)
    application.setDesktopFileName("lamp-counter")
    return application


def _rescue(window: MainWindow, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    """Save the case first, then say what happened; the details are folded."""
    from traceback import format_exception

    where = ""
    if window.case is not None:
        try:
            window.data.mkdir(parents=True, exist_ok=True)
            (window.data / RESCUE_FILE).write_text(window.case.model_dump_json(indent=1))
            where = f" The case was saved as {RESCUE_FILE} in the data folder."
        except OSError:
            where = " The case could not be saved."
    details = "".join(format_exception(kind, error, trace))
    print(details, file=sys.stderr)
    _message(window, f"Something went wrong that should not have.{where}", details)


def _message(window: MainWindow, words: str, details: str) -> None:
    box: Any = QMessageBox(window)
    box.setIcon(QMessageBox.Icon.Critical)
    box.setText(words)
    box.setDetailedText(details)
    box.open()
