"""When something goes wrong that should not have: save the case, keep a report, say so, and go on.

An error can come up while Qt paints or asks a model, where a window opened there ends the process. So what is done
at once touches files only; the words wait behind an event of our own until the loop comes round.
"""

from __future__ import annotations

import contextlib
import sys
from typing import TYPE_CHECKING, Any, NamedTuple

from PySide6.QtCore import QCoreApplication, QEvent, QObject

from counter.language import tr
from counter.window.outlines.opening import forget

if TYPE_CHECKING:
    from types import TracebackType

    from counter.reports import Report
    from counter.window.main_window import MainWindow
    from counter.window.report_dialog import ReportDialog

MOST_PLACES = 20  # where errors came up in one run; after so many no more is written, or a disk would fill


class Trouble(NamedTuple):
    """What to tell: a sentence or two, and the report with its details."""

    words: str
    report: Report


class Rescue(QObject):
    """Takes every unexpected error of the process; one in the same place as before is only counted."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._seen: dict[str, int] = {}
        self._untold: list[Trouble] = []
        self._dialog: ReportDialog | None = None

    def install(self) -> None:
        """Take errors from now on."""
        sys.excepthook = self.take

    def install_in_threads(self) -> None:
        """Take those of other threads too; there are none before the window is awake."""
        import threading

        threading.excepthook = lambda about: self.take(about.exc_type, about.exc_value, about.exc_traceback)

    def take(self, kind: type[BaseException], error: BaseException | None, trace: TracebackType | None) -> None:
        """Save the case and keep a report; never raises, and asks nothing of Qt but an event for later."""
        if not issubclass(kind, Exception):  # Ctrl+C in the terminal is a wish, not a fault
            sys.__excepthook__(kind, error or kind(), trace)
            return
        place = _place_of(kind, trace)
        self._seen[place] = self._seen.get(place, 0) + 1
        if self._seen[place] > 1 or len(self._seen) > MOST_PLACES:
            return
        with contextlib.suppress(Exception):
            self._keep(error or kind())
        self._tell_soon()

    def offer(self, words: str, report: Report) -> None:
        """Tell of a report from an earlier run."""
        self._untold.append(Trouble(words, report))
        self._tell_soon()

    def customEvent(self, _: QEvent) -> None:
        self._tell()

    def _tell_soon(self) -> None:
        QCoreApplication.postEvent(self, QEvent(QEvent.Type.User))  # from any thread, and while Qt paints

    def _keep(self, error: BaseException) -> None:
        from counter.reports import keep_report, log

        if self._window.case is None:
            forget(self._window.data)
        log.error("unexpected %s", type(error).__name__)
        report = keep_report(self._window.data, error, _private(self._window))
        if sys.stderr is not None:
            print(report.text, file=sys.stderr)
        self._untold.append(
            Trouble(" ".join((tr("Something went wrong that should not have."), self._saved())), report)
        )

    def _saved(self) -> str:
        """Save the case under a name of its own and say so."""
        from counter.window.saved_cases import save_rescued

        if self._window.case is None:
            return ""
        try:
            path = save_rescued(self._window.data, self._window.case)
        except OSError as problem:
            return tr("The case could not be saved ({problem}); it is still on the screen.").format(
                problem=problem.strerror or problem
            )
        return tr("The case is saved as {name}; it is still on the screen, and «Open a case» brings it back.").format(
            name=path.name
        )

    def _tell(self) -> None:
        """Show what was not told yet: in the box that is open, or in a new one."""
        if not self._untold:
            return
        from counter.window.report_dialog import ReportDialog

        untold, self._untold = self._untold, []
        if self._dialog is None:
            self._dialog = ReportDialog(self._window)
            self._dialog.finished.connect(self._close)
        for trouble in untold:
            self._dialog.add(trouble.words, trouble.report)
        self._dialog.open()

    def _close(self) -> None:
        if self._dialog is not None:
            self._dialog.deleteLater()
            self._dialog = None


def _place_of(kind: type[BaseException], trace: TracebackType | None) -> str:
    """Return the innermost line that an error came from."""
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{trace.tb_frame.f_code.co_filename}:{trace.tb_lineno}" if trace is not None else ""
    return f"{kind.__name__} {where}"


def _private(window: MainWindow) -> list[str]:
    """Return what a report must not repeat: what was typed of this customer, and who works here."""
    found: list[str] = []
    case: Any = window.case
    if case is not None:
        found += [case.marks, case.fixture.label, *case.marks.split("\n"), *case.fixture.label.split("\n")]
    with contextlib.suppress(Exception):
        found.append(str(window.settings.value("who", "")))
    with contextlib.suppress(Exception):
        found += _trainees(window)
    return found


def _trainees(window: MainWindow) -> list[str]:
    """Return the trainees that this window knows by name; the store itself may be what is wrong, and is not asked."""
    door = window.counter.training
    people = door.room.people.list if door.room is not None else None
    listed = [people.item(at).text() for at in range(people.count())] if people is not None else []
    return [door.line.name, *listed]
