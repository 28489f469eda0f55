"""Who is learning: adds, removes and chooses trainees, and says who learns at the counter."""

from __future__ import annotations

from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSettings, Signal

from counter.language import tr
from counter.window.training.filling import faces, progress_of, row_of
from counter.window.training.kept_round import offer

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training import Progress, Row, Trainee, Unfinished
    from counter.window.parts.asking import Asking
    from counter.window.training.people_pane import PeoplePane
    from counter.window.training.session import Clock
    from counter.window.training.start_pane import StartPane

PEOPLE, PERSON = "people", "person"  # topics: the list, and the record of who is chosen


class Roster(QObject):
    """Keeps the two panes of the first page in step with the records; settings hold ids, never names."""

    picked = Signal(str)
    at_counter_chosen = Signal(str)

    def __init__(
        self, people: PeoplePane, start: StartPane, data: Path, settings: QSettings, clock: Clock, asking: Asking
    ) -> None:
        super().__init__()
        self.people, self.start, self.asking = people, start, asking
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

        if self.catalogue is not None:
            self.asking.newest(PEOPLE, partial(trainees, self.data), self._list, self._list_nobody)

    def _list(self, found: tuple[Trainee, ...]) -> None:
        self.people.show_problem("")
        self.people.show_people(found, self.who)

    def _list_nobody(self, problem: Exception) -> None:
        self.people.show_people((), self.who)
        self.people.show_problem(str(problem))

    @property
    def name(self) -> str:
        """Return the name of who is chosen, "" for nobody."""
        return self.row.name if self.row is not None else ""

    @property
    def is_known(self) -> bool:
        """Return whether it is known who is chosen and where they stand; else the store is still being asked."""
        return not self.asking.waits(PEOPLE, PERSON)

    def _pick(self, who: str) -> None:
        if self.catalogue is None:
            return
        self.who = who
        self.settings.setValue("trainee", who)
        shown = partial(self._show_person, who)
        self.asking.newest(PERSON, partial(progress_of, self.data, who), shown, lambda _: shown(None))

    def _show_person(self, who: str, known: Progress | None) -> None:
        """Show where somebody stands, and a round that was cut off; the day is this machine's."""
        from counter.training import unfinished

        assert self.catalogue is not None
        now = self.clock()
        self.row = row_of(self.catalogue, known, now)
        self.unfinished = unfinished(known, now.astimezone()) if known is not None else None
        is_at_counter = bool(who) and who == self.settings.value("at_counter", "")
        self.start.show_person(self.row, is_at_counter, offer(self.unfinished), faces(self.catalogue))
        self.picked.emit(who)

    def add(self, name: str) -> None:
        """Start a record and choose it."""
        from counter.training import add_trainee

        def failed(problem: Exception) -> None:
            self.people.show_problem(tr("Not added: {problem}").format(problem=problem))

        job = partial(add_trainee, self.data, name, self.clock())
        self.asking.once("add", job, self._choose, failed, keeps=True)

    def _choose(self, added: Trainee) -> None:
        self.who = added.id
        self.people.show_added()
        self.show()

    def remove(self, who: str) -> None:
        """Remove somebody with all records."""
        from counter.training import UnknownTraineeError, remove_trainee

        def job() -> None:
            with suppress(UnknownTraineeError):  # gone already, which was wanted
                remove_trainee(self.data, who)

        def failed(problem: Exception) -> None:
            self.people.show_problem(tr("Not removed: {problem}").format(problem=problem))

        self.asking.once("remove", job, lambda _: self._removed(who), failed, keeps=True)

    def _removed(self, who: str) -> None:
        if who == self.settings.value("at_counter", ""):
            self.set_at_counter(False)
        self.who = ""
        self.show()

    def set_at_counter(self, on: bool) -> None:
        """Let whoever is chosen learn at the counter, or nobody."""
        self.settings.setValue("at_counter", self.who if on else "")
        self.at_counter_chosen.emit(self.who if on else "")
