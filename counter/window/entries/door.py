"""The menu's way to a shop's own entries: asks the store beside the window, keeps what was typed, undoes it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog

from counter import catalogue as catalogues
from counter import entries, shop
from counter.files import write_atomic
from counter.language import tr
from counter.window.entries.entries_dialog import EntriesDialog, Known

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.catalogue import Loaded
    from counter.window.counter_room import Counter


class Step(NamedTuple):
    """One thing that was done, as what would undo it: entries to take out again, or to bring back."""

    take_out: tuple[int, ...] = ()
    bring_back: tuple[int, ...] = ()


class EntriesDoor(QObject):
    """Lives as long as its dialog."""

    def __init__(self, counter: Counter) -> None:
        super().__init__(counter)
        self.counter, self.data = counter, counter.data
        self.steps: list[Step] = []
        self.dialog: EntriesDialog | None = None

    def open(self) -> None:
        """Ask the store what there is, then open the dialog."""
        self.counter.shop.worker.ask(self._look, self._show, self._say_not_opened)

    def _look(self) -> tuple[Known, Loaded]:
        store = shop.open_store(self.data)
        layer, loaded = shop.layer(store), shop.load_catalogue(self.data)
        shipped = catalogues.load()
        return Known(shipped, loaded.catalogue, layer.content, shop.own_rows(store)), loaded

    def _say_not_opened(self, problem: Exception) -> None:
        self.counter.looks.show_problem("", str(problem))

    def _show(self, found: tuple[Known, Loaded]) -> None:
        who = str(self.counter.settings.value("who", ""))
        dialog = EntriesDialog(found[0], self.counter.window.theme, who, self.counter.window)
        dialog.kept.connect(self.keep)
        dialog.taken_out.connect(self.take_out)
        dialog.brought_back.connect(self.bring_back)
        dialog.undone.connect(self.undo)
        dialog.patch_wanted.connect(self.ask_patch)
        dialog.destroyed.connect(self._gone)
        self.dialog = dialog
        dialog.open()

    def _gone(self) -> None:
        self.dialog = None

    # -- what is done, each with what undoes it

    def keep(self, section: str, entry: dict[str, Any], who: str) -> None:
        """Add an entry; it counts at once."""
        self.counter.settings.setValue("who", who)

        def job() -> Step:
            return Step(take_out=(shop.keep_own(self.data, section, entry, who=who, on=date.today()),))

        self._do(job, tr("Kept: it counts from now on."))

    def take_out(self, ids: list[int], who: str) -> None:
        """Let entries no longer count."""

        def job() -> Step:
            shop.take_out(self.data, ids, who=who)
            return Step(bring_back=tuple(ids))

        self._do(job, tr("Withdrawn: it no longer counts."))

    def bring_back(self, ids: list[int]) -> None:
        """Let withdrawn entries count again."""

        def job() -> Step:
            shop.bring_back_own(self.data, ids)
            return Step(take_out=tuple(ids))

        self._do(job, tr("Brought back: it counts again."))

    def undo(self) -> None:
        """Undo the last of these."""
        if not self.steps:
            return
        step, who = self.steps.pop(), str(self.counter.settings.value("who", ""))

        def job() -> None:
            shop.take_out(self.data, step.take_out, who=who)
            shop.bring_back_own(self.data, step.bring_back)

        self._do(job, tr("Undone."))

    def _do(self, job: Callable[[], Step | None], said: str) -> None:
        def both() -> tuple[Step | None, tuple[Known, Loaded]]:
            return job(), self._look()

        def done(found: tuple[Step | None, tuple[Known, Loaded]]) -> None:
            step, (known, loaded) = found
            if step is not None:
                self.steps.append(step)
            self.counter.take_loaded(loaded)
            if self.dialog is not None:
                self.dialog.show_known(known, bool(self.steps), said)

        self.counter.shop.worker.ask(both, done, self._fail)

    def _fail(self, problem: Exception) -> None:
        if self.dialog is not None:
            self.dialog.show_problem(str(problem))

    # -- handing back

    def ask_patch(self) -> None:
        """Ask for a file and write the patch to it."""
        name, _ = QFileDialog.getSaveFileName(self.dialog, tr("Save as"), "shop.patch", tr("Patch (*.patch *.diff)"))
        if name:
            self.write_patch(Path(name))

    def write_patch(self, out: Path) -> None:
        """Write what was added as a patch to the shipped files."""

        def job() -> str:
            text = entries.patch_of(shop.layer(shop.open_store(self.data)).content)
            if text:
                write_atomic(out, text.encode())
                return tr("Written: {file}").format(file=out.name)
            return tr("Nothing that was added changes the shipped files.")

        self.counter.shop.worker.ask(job, self._say, self._fail)

    def _say(self, words: str) -> None:
        if self.dialog is not None:
            self.dialog.show_problem(words)
