"""The menu's way to measuring and to paper: opens dialogs, hands looks to the case, writes sheets."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog, QMenu

from counter.language import current, marked, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.paper import Sheet
    from counter.window.main_window import MainWindow
    from counter.window.measure.calibrate_dialog import CalibrateDialog
    from counter.window.measure.glass_dialog import GlassDialog
    from counter.window.measure.photo_dialog import PhotoDialog
    from counter.window.measure.worth_dialog import WorthDialog
    from counter.window.paper.printing import SheetPreview

SHEETS = (
    (marked("Wall chart"), "wall"),
    (marked("Pin gauge"), "gauge"),
    (marked("Look-alikes"), "look-alikes"),
    (marked("Bin labels"), "labels"),
)


class MeasureDoor(QObject):
    """Lives as long as the window."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self.window = window

    def fill(self, menu: QMenu) -> None:
        """Add the entries to the window's menu: two, each with a few below."""
        measure = menu.addMenu(tr("Measure"))
        measure.addAction(tr("From a picture …"), self.open_photo)
        measure.addAction(tr("Against the glass …"), self.open_glass)
        measure.addAction(tr("Calibrate this screen …"), self.calibrate)
        measure.addAction(tr("Worth confirming …"), self.open_worth)
        paper = menu.addMenu(tr("Paper"))
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
        from counter.window.paper.sheets import save_sheets

        try:
            save_sheets(self._sheets(what), Path(name), tr("Lamp counter"))
        except OSError as problem:
            self.window.counter.looks.show_problem(
                "", tr("Not written: {problem}").format(problem=problem.strerror or problem)
            )

    def print(self, what: str) -> SheetPreview:
        """Show a sheet as the printer will print it; from there it is printed."""
        from counter.window.paper.printing import SheetPreview

        preview = SheetPreview(self._sheets(what), tr("Lamp counter"), self.window)
        preview.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        preview.open()
        return preview

    def _came_back(self) -> list[tuple[str, str]]:
        """Return the bases of lamps that came back as one sold for the other, most often first."""
        from counter import shop

        catalogue, data = self.window.counter.catalogue, self.window.data
        try:
            mixed = shop.mixed_up(shop.open_store(data)) if shop.has_store(data) else []
        except OSError:
            return []  # a store that cannot be read leaves the pairs of the training room
        lamps = catalogue.lamp_by_id
        pairs = [(lamps[a].base, lamps[b].base) for a, b, _ in mixed if {a, b} <= lamps.keys()]
        return [(one, other) for one, other in pairs if one != other]

    def _mixed_up(self) -> list[tuple[str, str]]:
        """Return the families that this shop's trainees take for one another, most often first."""
        from counter import training

        try:
            people = training.trainees(self.window.data)
            answers = [answer for one in people for answer in training.progress(self.window.data, one.id).answers]
        except (OSError, ValueError, LookupError):
            return []  # records that cannot be read leave the pairs that look alike by the catalogue
        return [(mix.asked, mix.said) for mix in training.mixes(answers) if mix.axis == "family"]

    def _sheets(self, what: str) -> Sequence[Sheet]:
        from counter import paper

        spoken = current() if current() in paper.LANGUAGES else paper.LANGUAGES[0]
        catalogue, words = self.window.counter.catalogue, paper.words_in(spoken)
        page = self.page()
        if what == "gauge":
            return paper.pin_gauge(catalogue, words, page)
        if what == "look-alikes":
            mixed = paper.each_once((*self._came_back(), *paper.pairs_of(catalogue, self._mixed_up())))
            return paper.look_alike_sheets(catalogue, words, mixed or paper.likely_pairs(catalogue), page)
        if what == "labels":
            grid = paper.GRIDS["letter-30" if page in ("Letter", "Tabloid") else "a4-24"]
            return paper.bin_labels(catalogue, words, paper.labels_for(catalogue), grid)
        return (paper.wall_chart(catalogue, words, page),)
