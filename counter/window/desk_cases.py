"""Cases as files: saved, opened, dropped on the window; the last customers; and the one open when all stopped."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtWidgets import QFileDialog

from counter import desk
from counter.language import marked, tr
from counter.window.offer_line import OfferLine
from counter.window.parts.words import caption
from counter.window.saved_cases import folder

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMenu

    from counter.desk import Case, Kept
    from counter.window.counter_room import Counter

CASES = marked("Cases (*.json)")
LATER_MS = 200  # a disk takes longer to be sure than the next customer waits
REST_MS = 1500  # after a change, before the open case is written: a code is typed to its end


class DeskCases(QObject):
    """Reads and writes cases for a counter; what fails is said in its line at the foot."""

    def __init__(self, room: Counter) -> None:
        super().__init__(room)
        self.room, self.data = room, room.data
        self.line = OfferLine()
        self._left: list[Kept] = []
        room.window.places.add_foot(self.line)
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self.keep_open)

    # -- the case that is open

    def note_change(self) -> None:
        """Keep the open case soon, so that a stop loses no more than a moment."""
        self._rest.start()

    def keep_open(self) -> None:
        """Keep the open case now; an empty one is none."""
        self._rest.stop()
        desk.keep_open(self.data, self._kept())

    def _kept(self) -> Kept | None:
        case, found = self.room.case, self.room.assessment
        if not (case.looks or case.marks.strip() or case.chosen or case.typed):
            return None
        return desk.Kept(f"{found.headline} {found.subline}".strip() or tr("not known yet"), case)

    def leave(self) -> None:
        """Keep the case left behind among the last customers, once the next one has been greeted."""
        self.line.next_customer()
        kept = self._kept()
        if kept is not None:
            self._left.append(kept)
            QTimer.singleShot(LATER_MS, self, self._write_left)

    def _write_left(self) -> None:
        left, self._left = self._left, []
        for kept in left:
            desk.keep_customer(self.data, kept)

    def write(self) -> None:
        """Write now what waits to be written."""
        self._write_left()
        self.keep_open()

    def close(self) -> None:
        """Close as asked: the case goes to the last customers, and nothing is open any more."""
        self.leave()
        self._write_left()
        self._rest.stop()
        desk.keep_open(self.data, None)

    def offer_open(self) -> None:
        """Offer the case that was open when the program stopped without being asked to."""
        kept = desk.open_case(self.data)
        if kept is None or not self._is_known(kept.case):
            return
        desk.keep_customer(self.data, kept)
        self.line.offer(
            tr("When the program stopped, this case was open: {title}.").format(title=kept.title),
            (tr("Go on with it"), lambda: self.take(kept.case)),
            (tr("Leave it"), lambda: None),
        )

    def _is_known(self, case: Case) -> bool:
        """Whether the catalogue of today can show a case kept by an older one."""
        lamps = [one for one in (case.chosen, case.shown, case.beside) if one is not None]
        known = self.room.catalogue
        return all(one in known.lamp_by_id for one in lamps) and all(key in known.look_by_key for key in case.looks)

    # -- opening and saving

    def take(self, case: Case) -> None:
        """Open a case in the place of the present one, which comes back by undo."""
        self.room.open_case(case)

    def open_file(self, path: Path) -> None:
        """Open a saved case, or say what is wrong with the file."""
        try:
            case = desk.read_case(path, self.room.catalogue)
        except desk.CaseProblem as problem:
            self.line.say(tr("Not opened. {problem}").format(problem=problem))
            return
        self.line.hide()
        self.take(case)

    def save_file(self, path: Path) -> None:
        """Save the present case, and say so, or why not."""
        try:
            desk.write_case(path, self.room.case)
        except OSError as problem:
            self.line.say(
                tr("Not saved: {name}: {problem}").format(name=path.name, problem=problem.strerror or problem)
            )
            return
        self.line.say(tr("Saved as {name}.").format(name=path.name))

    def ask_open(self) -> None:
        """Ask for a file to open."""
        rescued = folder(self.data)
        place = rescued if rescued.is_dir() else self.data
        dialog = QFileDialog(self.room.window, tr("Open a case"), str(place), tr(CASES))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda name: self.open_file(Path(name)))
        dialog.open()

    def ask_save(self) -> None:
        """Ask for a file to save to."""
        dialog = QFileDialog(self.room.window, tr("Save the case"), "", tr(CASES))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("json")
        dialog.selectFile("case.json")
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda name: self.save_file(Path(name)))
        dialog.open()

    def fill_last(self, menu: QMenu) -> None:
        """Fill a menu with the last customers."""
        self._write_left()
        menu.clear()
        kept = [one for one in desk.last_customers(self.data) if self._is_known(one.case)]
        for one in kept:
            menu.addAction(caption(one.title), partial(self.take, one.case))
        if not kept:
            menu.addAction(tr("no customer yet")).setEnabled(False)
