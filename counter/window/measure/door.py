"""The menu's way to measuring and to paper: opens dialogs, hands looks to the case, writes sheets."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog, QMenu

from counter.language import marked, tr
from counter.window.measure.mixed_here import MixedHere, mixed_here, pairs_here
from counter.window.parts.asking import Asking

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counter.paper import Sheet
    from counter.window.main_window import MainWindow
    from counter.window.measure.calibrate_dialog import CalibrateDialog
    from counter.window.measure.glass_dialog import GlassDialog
    from counter.window.measure.photo_dialog import PhotoDialog
    from counter.window.measure.worth_dialog import WorthDialog

SHEETS = (
    (marked("Wall chart"), "wall"),
    (marked("Pin gauge"), "gauge"),
    (marked("Look-alikes"), "look-alikes"),
    (marked("Bin labels"), "labels"),
)


NOTHING_MIXED = MixedHere()


class MeasureDoor(QObject):
    """Lives as long as the window."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self.window, self.asking = window, Asking()
        self.asking.pending.connect(self._say_pending)

    def fill(self, measure: QMenu, paper: QMenu) -> None:
        """Fill the window's menus of measuring and of paper."""
        measure.addAction(tr("From a picture …"), self.open_photo)
        measure.addAction(tr("Against the glass …"), self.open_glass)
        measure.addAction(tr("Calibrate this screen …"), self.calibrate)
        measure.addAction(tr("Worth confirming …"), self.open_worth)
        for words, what in SHEETS:
            sheet = paper.addMenu(tr(words))
            sheet.addAction(tr("Look at it and print …"), partial(self.print, what))
            sheet.addAction(tr("Save as PDF …"), partial(self.save, what))
        paper.addSeparator()
        sizes = paper.addMenu(tr("Size of the paper"))
        sizes.aboutToShow.connect(partial(self._fill_sizes, sizes))

    def _fill_sizes(self, menu: QMenu) -> None:
        from counter.paper import PAGES

        menu.clear()
        for page in PAGES:
            action = menu.addAction(page, partial(self.window.settings.setValue, "paper", page))
            action.setCheckable(True)
            action.setChecked(page == self.page())

    def page(self) -> str:
        """Return the paper that sheets are laid out for: what was chosen, or what goes with the shop's lengths."""
        from counter.paper import PAGES

        chosen = str(self.window.settings.value("paper", ""))
        return chosen if chosen in PAGES else "Letter" if self.window.units == "in" else "A4"

    def take(self, looks: dict[str, str | float]) -> None:
        """Put measured looks into the case, over what was typed for the same."""
        counter = self.window.counter
        typed = {key: one for key, one in counter.case.typed.items() if key not in looks}
        counter.change(looks={**counter.case.looks, **looks}, typed=typed)

    def open_photo(self) -> PhotoDialog:
        """Open the room for pictures."""
        from counter.window.measure.photo_dialog import PhotoDialog

        dialog = PhotoDialog(self.window.counter.catalogue, self.window.theme, self.window)
        dialog.taken.connect(self.take)
        dialog.open()
        return dialog

    def open_glass(self) -> GlassDialog:
        """Open the gauge on the glass, with the pins of the base that leads."""
        from counter.window.measure.glass_dialog import GlassDialog

        counter = self.window.counter
        lamp = counter.case.shown or counter.assessment.lamp or counter.assessment.nearest
        catalogue = counter.catalogue
        base = catalogue.lamp_by_id[lamp].base if lamp is not None else catalogue.bases[0].designation
        dialog = GlassDialog(catalogue, self.window.theme, self.window.settings, base, self.window)
        dialog.taken.connect(self.take)
        dialog.calibration_wanted.connect(lambda: self.calibrate().calibrated.connect(dialog.recalibrated))
        dialog.open()
        return dialog

    def calibrate(self) -> CalibrateDialog:
        """Open the card's outline."""
        from counter.window.measure.calibrate_dialog import CalibrateDialog

        dialog = CalibrateDialog(self.window.theme, self.window.settings, self.window)
        dialog.open()
        return dialog

    def open_worth(self) -> WorthDialog:
        """Open the list of what is worth confirming."""
        from counter.window.measure.worth_dialog import WorthDialog

        dialog = WorthDialog(self.window.counter.catalogue, self.window)
        dialog.opened.connect(self.window.counter.open_outline)
        dialog.open()
        return dialog

    def save(self, what: str) -> None:
        """Ask for a file and write a sheet to it, on the paper that goes with the shop's lengths."""
        name, _ = QFileDialog.getSaveFileName(self.window, tr("Save as"), f"{what}.pdf", "PDF (*.pdf)")
        if not name:
            return
        self._with_sheets(what, lambda sheets: self._write(sheets, Path(name)))

    def _write(self, sheets: Sequence[Sheet], out: Path) -> None:
        from counter.window.paper.sheets import save_sheets

        try:
            save_sheets(sheets, out, tr("Lamp counter"))
        except OSError as problem:
            self.window.counter.looks.show_problem(
                "", tr("Not written: {problem}").format(problem=problem.strerror or problem)
            )

    def print(self, what: str) -> None:
        """Show a sheet as the printer will print it; from there it is printed."""
        self._with_sheets(what, self._preview)

    def _preview(self, sheets: Sequence[Sheet]) -> None:
        from counter.window.paper.printing import SheetPreview

        preview = SheetPreview(sheets, tr("Lamp counter"), self.window)
        preview.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        preview.open()

    def _with_sheets(self, what: str, use: Callable[[Sequence[Sheet]], None]) -> None:
        """Lay a sheet out and use it; what this shop mixes up is asked beside the window, once a press."""
        if what != "look-alikes":
            use(self._sheets(what))
            return
        self.asking.ask = self.window.counter.shop.worker.ask
        use_found = lambda found: use(self._sheets(what, found))  # noqa: E731
        # a store that cannot be read leaves the pairs that look alike by the catalogue
        self.asking.once("sheet", partial(mixed_here, self.window.data), use_found, lambda _: use(self._sheets(what)))

    def _say_pending(self, is_pending: bool) -> None:
        self.window.counter.looks.show_problem("", tr("asking the store …") if is_pending else "")

    def _sheets(self, what: str, mixed: MixedHere = NOTHING_MIXED) -> Sequence[Sheet]:
        from counter import paper

        catalogue = self.window.counter.catalogue
        page = self.page()
        if what == "gauge":
            return paper.pin_gauge(catalogue, page)
        if what == "look-alikes":
            pairs = pairs_here(catalogue, mixed) or paper.likely_pairs(catalogue)
            return paper.look_alike_sheets(catalogue, pairs, page)
        if what == "labels":
            grid = paper.GRIDS["letter-30" if page in ("Letter", "Tabloid") else "a4-24"]
            return paper.bin_labels(catalogue, paper.labels_for(catalogue), grid)
        return (paper.wall_chart(catalogue, page),)
