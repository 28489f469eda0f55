"""What is chosen for the slip, and the slip's way into the log and onto paper."""

from __future__ import annotations

import platform
import secrets
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from counter import shop, slip
from counter.language import tr
from counter.window.slip.paper import PAPERS, ShopHead, blocks_of, height_mm, paint, save_pdf, set_page

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtWidgets import QWidget

    from counter.shelf import ShelfAnswer
    from counter.shop import Kept, LoggedSlip
    from counter.slip import Slip, SlipItem
    from counter.window.counter_room import Counter
    from counter.window.shelf.shelf_pane import ShelfPane
    from counter.window.shelf.store_worker import StoreWorker
    from counter.window.slip.slip_dialog import SlipDialog


class SlipWriter(QObject):
    """Holds the chosen items of this customer."""

    def __init__(self, counter: Counter, worker: StoreWorker, pane: ShelfPane) -> None:
        super().__init__(counter)
        self.counter, self.worker, self.pane = counter, worker, pane
        self.items: dict[tuple[str, str], SlipItem] = {}  # by code and bin, which stay where a list comes anew
        self.dialog: SlipDialog | None = None
        self._kept: Kept | None = None

    @property
    def says(self) -> str:
        """Say what is on the slip."""
        if not self.items:
            return ""
        items = ", ".join(f"{one.quantity} × {one.code}" for one in self.items.values())
        return tr("On the slip: {items} (Ctrl+P).").format(items=items)

    def choose(self, answer: ShelfAnswer, quantity: int) -> None:
        """Put an item on the slip; the same one again takes it off."""
        at = answer.item.code, answer.item.bin
        if self.items.pop(at, None) is None:
            self.items[at] = slip.item_from(answer.item, quantity)
        self._show_items()

    def take(self, items: Iterable[SlipItem]) -> None:
        """Choose these and nothing else: those of a customer who comes back."""
        self.items = {(item.code, item.bin): item for item in items}
        self._show_items()

    def _show_items(self) -> None:
        self.pane.show_chosen(self.items)
        self.pane.show_state(self.says)

    def clear(self) -> None:
        """Take everything off: the next customer has chosen nothing yet."""
        self.take(())

    def note_missing(self, text: str) -> None:
        """Note that this was asked for and is not there."""
        found, case = self.counter.assessment, self.counter.case
        words = text or found.headline or case.marks
        if not words:
            self.pane.say(tr("Say what was asked for: name the lamp, or type it into the search."))
            return
        now = datetime.now().astimezone()
        wish: dict[str, Any] = {
            "at": now.isoformat(timespec="seconds"),
            "day": now.date().isoformat(),
            "lamp": found.lamp,
        }
        wish |= {"text": words[:200], "quantity": self.pane.needed.value()}
        data, key = self.counter.data, secrets.token_hex(16)
        said = tr("Noted as asked for: {words}.").format(words=words)
        done = lambda problem: self.pane.say(" ".join(filter(None, (said, str(problem or "")))))  # noqa: E731
        failed = lambda problem: self.pane.say(str(problem))  # noqa: E731
        self.worker.ask(lambda: shop.keep_wish(data, key, wish), done, failed, keeps=True)

    def open(self, parent: QWidget) -> None:
        """Open the slip of this case."""
        from counter.window.slip.slip_dialog import SlipDialog

        self._kept = None
        initials = str(self.counter.settings.value("initials", ""))
        self.dialog = SlipDialog(self._slip(), self.counter.catalogue, self._head(), self._paper(), initials, parent)
        self.dialog.wanted.connect(self.write)
        self.dialog.finished.connect(self._closed)
        self.dialog.open()

    def open_copy(self, logged: LoggedSlip, parent: QWidget) -> None:
        """Open a slip of the log to print it once more, under its own number; nothing new goes into the log.

        Raises:
            ValidationError: a later version of this program wrote it.
        """
        from counter.window.slip.slip_dialog import SlipDialog

        written = slip.slip_of(logged)
        dialog = SlipDialog(written, self.counter.catalogue, self._head(), self._paper(), written.initials, parent)
        dialog.number = logged.number
        dialog.set_copy(logged.customer)
        dialog.wanted.connect(lambda how: self._give(dialog, how))
        dialog.open()

    def _paper(self) -> str:
        return str(self.counter.settings.value("slip_paper", "receipt"))

    def _head(self) -> ShopHead:
        own = self.counter.shop.settings
        return ShopHead(str(own["shop_name"]), str(own["shop_address"]), bool(own["names_asked"]))

    def _closed(self) -> None:
        """What is in the log is sold; it is not to be on the next slip too."""
        if self._kept is not None:
            self.clear()
            self.counter.desk_cases.line.say(_said_of(self._kept))

    def _slip(self) -> Slip:
        return slip.make_slip(
            self.counter.catalogue,
            self.counter.case,
            self.counter.assessment,
            list(self.items.values()),
            now=datetime.now().astimezone(),
            key=secrets.token_hex(16),
            till=platform.node() or "till",
            is_demo=self.counter.shop.is_demo,
        )

    def write(self, how: str) -> None:
        """Keep the slip in the log, once, and then give it as it was wanted."""
        dialog = self.dialog
        if dialog is None:
            return
        if self._kept is not None:
            self._give(dialog, how)
            return
        if not dialog.initials.isEnabled():  # it is on its way into the log
            return
        printed, data = dialog.printed(), self.counter.data
        self.counter.settings.setValue("initials", printed.slip.initials)
        self.counter.settings.setValue("slip_paper", dialog.paper.currentData())
        dialog.set_kept()
        job = lambda: slip.keep(data, printed.slip, printed.customer)  # noqa: E731
        said = lambda problem: self._not_taken(dialog, problem)  # noqa: E731
        dialog.say(tr("asking the store …"))
        self.worker.ask(job, lambda kept: self._taken(dialog, kept, how), said, owner=dialog, keeps=True)

    def _not_taken(self, dialog: SlipDialog, problem: Exception) -> None:
        """Neither store nor machine took it: it may be tried again."""
        for field in (dialog.initials, dialog.customer):
            field.setEnabled(True)
        dialog.say(str(problem))

    def _taken(self, dialog: SlipDialog, kept: Kept, how: str) -> None:
        self._kept, dialog.number = kept, kept.number
        dialog.say(_said_of(kept))
        self._give(dialog, how)

    def _give(self, dialog: SlipDialog, how: str) -> None:
        if how == "pdf":
            self._as_pdf(dialog)
        elif how == "print":
            self._on_printer(dialog)
        else:
            dialog.accept()

    def _as_pdf(self, dialog: SlipDialog) -> None:
        from PySide6.QtWidgets import QFileDialog

        name = f"slip-{dialog.number or dialog.slip.key[:8]}.pdf"
        chosen, _ = QFileDialog.getSaveFileName(dialog, tr("Slip as PDF"), str(Path.home() / name), "PDF (*.pdf)")
        if chosen:
            self.save(dialog, Path(chosen))

    def save(self, dialog: SlipDialog, out: Path) -> None:
        """Write the PDF and say so."""
        try:
            save_pdf(dialog.printed(), self.counter.catalogue, PAPERS[dialog.paper.currentData()], out)
        except OSError as problem:
            dialog.say(tr("Not written: {problem}").format(problem=problem))
            return
        dialog.accept()

    def _on_printer(self, dialog: SlipDialog) -> None:
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        paper = PAPERS[dialog.paper.currentData()]
        blocks = blocks_of(dialog.printed(), self.counter.catalogue, paper)
        printer: Any = QPrinter(QPrinter.PrinterMode.HighResolution)  # a name as long as the dialog lives
        set_page(printer, paper, height_mm(blocks, paper))
        printer.setDocName(tr("Slip {number}").format(number=dialog.number or dialog.slip.key[:8]))
        asks = QPrintDialog(printer, dialog)
        if asks.exec() == QPrintDialog.DialogCode.Accepted:
            paint(printer, blocks, paper)
            dialog.accept()


def _said_of(kept: Kept) -> str:
    """Say where a slip is."""
    if kept.problem is not None:
        return " ".join((str(kept.problem), tr("This slip waits on this machine.")))
    return tr("Slip {number} is in the log.").format(number=kept.number)
