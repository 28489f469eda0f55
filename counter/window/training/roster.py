"""Who is learning: adds, removes and chooses trainees, and says who learns at the counter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSettings, Signal

from counter.language import tr
from counter.window.training.filling import faces, progress_of, row_of
from counter.window.training.kept_round import offer

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training import Row, Unfinished
    from counter.window.training.people_pane import PeoplePane
    from counter.window.training.session import Clock
    from counter.window.training.start_pane import StartPane


class Roster(QObject):
    """Keeps the two panes of the first page in step with the records; settings hold ids, never names."""

    picked = Signal(str)
    at_counter_chosen = Signal(str)

    def __init__(self, people: PeoplePane, start: StartPane, data: Path, settings: QSettings, clock: Clock) -> None:
        super().__init__()
        self.people, self.start = people, start
        self.data, self.settings, self.clock = data, settings, clock
        self.catalogue: Catalogue | None = None
        self.who = str(settings.value("trainee", ""))
        self.row: Row | None = None
        self.unfinished: Unfinished | None = None
        people.picked.connect(self._pick)
        people.added.connect(self.add)
        people.removed.connect(self.remove)
        start.at_counter_toggled.connect(self.set_at_counter)

    def show(self) -> None:
        """Show who has a record, and choose whoever was chosen."""
        from counter.training import trainees

        if self.catalogue is None:
            return
        try:
            found = trainees(self.data)
        except OSError as problem:
            self.people.show_problem(str(problem))
            found = ()
        self.people.show_people(found, self.who)

    @property
    def name(self) -> str:
        """Return the name of who is chosen, "" for nobody."""
        return self.row.name if self.row is not None else ""

    def _pick(self, who: str) -> None:
        if self.catalogue is None:
            return
        self.who = who
        self.settings.setValue("trainee", who)
        self.row = row_of(self.catalogue, self.data, who, self.clock())
        self.find_unfinished()
        is_at_counter = bool(who) and who == self.settings.value("at_counter", "")
        self.start.show_person(self.row, is_at_counter, offer(self.unfinished), faces(self.catalogue))
        self.picked.emit(who)

    def find_unfinished(self) -> Unfinished | None:
        """Look for a round of whoever is chosen that was cut off; the day is this machine's."""
        from counter.training import unfinished

        known = progress_of(self.data, self.who)
        self.unfinished = unfinished(known, self.clock().astimezone()) if known is not None else None
        return self.unfinished

    def add(self, name: str) -> None:
        """Start a record and choose it."""
        from counter.training import add_trainee

        try:
            self.who = add_trainee(self.data, name, self.clock()).id
        except (OSError, ValueError) as problem:
            self.people.show_problem(tr("Not added: {problem}").format(problem=problem))
            return
        self.people.show_problem("")
        self.show()

    def remove(self, who: str) -> None:
        """Remove somebody with all records."""
        from counter.training import UnknownTraineeError, remove_trainee

        try:
            remove_trainee(self.data, who)
        except UnknownTraineeError:
            pass  # gone already, which was wanted
        except OSError as problem:
            self.people.show_problem(tr("Not removed: {problem}").format(problem=problem))
            return
        if who == self.settings.value("at_counter", ""):
            self.set_at_counter(False)
        self.who = ""
        self.show()

    def set_at_counter(self, on: bool) -> None:
        """Let whoever is chosen learn at the counter, or nobody."""
        self.settings.setValue("at_counter", self.who if on else "")
        self.at_counter_chosen.emit(self.who if on else "")
