"""The menu's way to sharing: a layer written to a file, another shop's read, shown, and taken in."""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog

from counter import catalogue as catalogues
from counter import shop
from counter.files import write_atomic
from counter.language import tr, trn
from counter.window.entries.share_dialog import ShareDialog

if TYPE_CHECKING:
    from counter.catalogue import Loaded
    from counter.shop import Met
    from counter.window.counter_room import Counter

LAYERS = "JSON (*.json)"


class Share(QObject):
    """Asks the store beside the window; says in the looks what came of it."""

    def __init__(self, counter: Counter) -> None:
        super().__init__(counter)
        self.counter, self.data = counter, counter.data
        self.dialog: ShareDialog | None = None

    def ask_export(self) -> None:
        """Ask for a file and write this shop's layer to it."""
        name, _ = QFileDialog.getSaveFileName(self.counter.window, tr("Save as"), "layer.json", LAYERS)
        if name:
            self.export(Path(name))

    def export(self, out: Path) -> None:
        """Write this shop's layer for another."""

        def job() -> None:
            text = json.dumps(shop.shared_layer(self.data), ensure_ascii=False, indent=1)
            write_atomic(out, f"{text}\n".encode())

        self.counter.shop.worker.ask(
            job, lambda _: self._say(tr("Written: {file}").format(file=out.name)), self._fail
        )

    def ask_merge(self) -> None:
        """Ask for another shop's file."""
        name, _ = QFileDialog.getOpenFileName(self.counter.window, tr("From another shop"), "", LAYERS)
        if name:
            self.open(Path(name))

    def open(self, file: Path) -> None:
        """Read another shop's layer and show what taking it in would bring."""

        def job() -> tuple[dict[str, Any], Met]:
            theirs = catalogues.read_layer(file)
            if not isinstance(theirs, dict):
                raise ValueError(f"{file.name}: {theirs.what}. {theirs.way_out}")
            return theirs, shop.meet(self.data, theirs)

        self.counter.shop.worker.ask(job, partial(self._show, file), self._fail)

    def _show(self, file: Path, found: tuple[dict[str, Any], Met]) -> None:
        theirs, met = found
        self.dialog = ShareDialog(met, file.name, self.counter.catalogue, self.counter.window)
        self.dialog.taken.connect(partial(self._take, theirs))
        self.dialog.destroyed.connect(self._gone)
        self.dialog.open()

    def _gone(self) -> None:
        self.dialog = None

    def _take(self, theirs: dict[str, Any], ours_count: list[tuple[str, ...]]) -> None:
        def job() -> tuple[Met, Loaded]:
            return shop.take_in(self.data, theirs, ours_count), shop.load_catalogue(self.data)

        self.counter.shop.worker.ask(job, self._taken, self._fail)

    def _taken(self, found: tuple[Met, Loaded]) -> None:
        met, loaded = found
        if self.dialog is not None:
            self.dialog.accept()
        self.counter.take_loaded(loaded)
        count = len(met.rows)
        said = trn("{count} entry was taken in.", "{count} entries were taken in.", count).format(count=count)
        undo = (tr("Undo"), partial(self.take_back, met))
        self.counter.desk_cases.line.offer(said, undo, (tr("Close"), lambda: None))

    def take_back(self, met: Met) -> None:
        """Undo taking in; the file can be taken in again."""

        def job() -> Loaded:
            shop.take_back(self.data, met.rows)
            return shop.load_catalogue(self.data)

        def done(loaded: Loaded) -> None:
            self.counter.take_loaded(loaded)
            self._say(tr("Undone."))

        self.counter.shop.worker.ask(job, done, self._fail)

    def _say(self, words: str) -> None:
        self.counter.desk_cases.line.say(words)

    def _fail(self, problem: Exception) -> None:
        if self.dialog is not None:
            self.dialog.said.setText(str(problem))
            self.dialog.take.setEnabled(True)
        else:
            self.counter.looks.show_problem("", str(problem))
