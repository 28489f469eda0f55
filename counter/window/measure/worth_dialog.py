"""What is worth confirming first, so that a quiet hour with a caliper sharpens the most."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QRunnable, QSize, Qt, QThreadPool, Signal
from PySide6.QtWidgets import QDialog, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from counter.language import figure, marked, tr
from counter.window.parts.sizes import be_large
from counter.window.parts.theme import SMALL_TARGET
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue
    from counter.identify import Worth

PARTS = {
    "face.notches": marked("where the key sits"),
    "pin_spacing_mm": marked("pin spacing"),
    "arrangement": marked("how the pins stand"),
    "block": marked("whether there is a block"),
    "length_mm": marked("length"),
    "tube_mm": marked("tube width"),
    "glass": marked("glass colour"),
}
MOST = 20
HOW = marked("Take a lamp from the shelf, open its outline here, and press the value's small word to confirm it.")


class Told(QObject):
    """Carries the list from the worker to the window."""

    done = Signal(object)


class Work(QRunnable):
    """Ranks beside the window: some seconds on a slow machine."""

    def __init__(self, catalogue: Catalogue, told: Told) -> None:
        super().__init__()
        self.catalogue, self.told = catalogue, told

    def run(self) -> None:
        from counter.identify import worth_confirming

        found = worth_confirming(self.catalogue, MOST)
        try:
            self.told.done.emit(found)
        except RuntimeError:
            return  # the dialog was closed meanwhile


class WorthDialog(QDialog):
    """Lists values by what they would tell; opening one shows its outline."""

    opened = Signal(str)  # id of a lamp type

    def __init__(self, catalogue: Catalogue, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Worth confirming"))
        self.catalogue = catalogue
        self.rows = QListWidget()
        self.rows.setAccessibleName(tr("Values worth confirming, the most telling first"))
        self.said = Words(tr("Working it out …"), wraps=True)
        box = QVBoxLayout(self)
        box.addWidget(self.said)
        box.addWidget(self.rows, 1)
        be_large(self, 87, 34)
        self.rows.itemActivated.connect(self._open)
        self._carrier = Told()
        self._carrier.done.connect(self.show_found)
        QThreadPool.globalInstance().start(Work(catalogue, self._carrier))

    def show_found(self, found: Sequence[Worth]) -> None:
        """Show the values, the most telling first."""
        self.said.setText(tr(HOW) if found else tr("All that identifying rests on is sure already."))
        best = max((one.bits for one in found), default=0.0)
        for one in found:
            part = f"{one.bits / best:.0%}" if best > 0 else "–"
            name = one.of if one.kind == "base" else self._lamp_name(one.of)
            item = QListWidgetItem(
                tr("{name}: {value}   {share} as useful as the first").format(
                    name=name, value=tr(PARTS[one.part]), share=part
                )
            )
            item.setData(Qt.ItemDataRole.UserRole, self._lamp_of(one))
            item.setSizeHint(QSize(0, SMALL_TARGET))
            self.rows.addItem(item)

    def _lamp_name(self, lamp: str) -> str:
        one = self.catalogue.lamp_by_id[lamp]
        return f"{one.base} {figure(one.watts.value)}\N{THIN SPACE}W"

    def _lamp_of(self, one: Worth) -> str:
        return one.of if one.kind == "lamp" else self.catalogue.lamps_on[one.of][0].id

    def _open(self, item: QListWidgetItem) -> None:
        self.opened.emit(str(item.data(Qt.ItemDataRole.UserRole)))
        self.accept()
