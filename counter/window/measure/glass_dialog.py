"""Measure a base on the glass of a calibrated screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.measure import screens
from counter.window.measure.glass_gauge import GlassGauge
from counter.window.measure.result_pane import ResultPane
from counter.window.outlines.facts import NOTCH_WORDS
from counter.window.parts.calm import CalmCombo
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtCore import QSettings

    from counter.catalogue import Catalogue
    from counter.window.parts.theme import Theme


class GlassDialog(QDialog):
    """Shows a base's pins full size; what they are dragged to becomes looks."""

    taken = Signal(dict)
    calibration_wanted = Signal()

    def __init__(self, catalogue: Catalogue, theme: Theme, settings: QSettings, base: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Hold the base against the glass"))
        self.catalogue, self.settings = catalogue, settings
        screen = parent.screen()
        found = screens.kept(settings, screen)
        self.gauge = GlassGauge(theme, screens.logical(found or screens.own_word(screen), screen))
        self.said = Words(screens.said_of(settings, screen), wraps=True)
        self.base, self.key = CalmCombo(), CalmCombo()
        self.base.addItems(list(catalogue.base_by_name))
        self.key.addItem(tr("not looked at"), "")
        for look, words in NOTCH_WORDS.items():
            self.key.addItem(tr(words), look)
        self.found = ResultPane(catalogue)
        self._lay_out()
        self.base.currentTextChanged.connect(self.begin)
        self.key.currentIndexChanged.connect(self.measure)
        self.gauge.moved.connect(self.measure)
        self.found.taken.connect(self._take)
        self.base.setCurrentText(base)
        self.begin(self.base.currentText())

    def _lay_out(self) -> None:
        calibrate = QPushButton(tr("Calibrate …"))
        calibrate.clicked.connect(self.calibration_wanted)
        row = QHBoxLayout()
        for words, widget in ((tr("Begin with"), self.base), (tr("Key, pins toward you"), self.key)):
            label = Words(words)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setBuddy(widget)
            row.addWidget(label)
            row.addWidget(widget)
        row.addStretch(1)
        row.addWidget(calibrate)
        middle = QHBoxLayout()
        middle.addWidget(self.gauge, 1)
        middle.addWidget(self.found)
        box = QVBoxLayout(self)
        box.addWidget(
            Words(tr("The pins touch the glass; look straight down, and drag each cross under its pin."), wraps=True)
        )
        box.addLayout(row)
        box.addLayout(middle, 1)
        box.addWidget(self.said)

    def begin(self, base: str) -> None:
        """Lay the pins of a base on the glass, mirrored: with its pins on the glass it is seen from behind."""
        from counter.paper import body_view

        one = self.catalogue.base_by_name[base]
        self.gauge.show_pins([(-pin.x_mm, pin.y_mm) for pin in one.face.pins.at], body_view(one))
        self.found.show_measured(None)

    def recalibrated(self) -> None:
        """Draw at the size that was just found."""
        screen = self.screen()
        found = screens.kept(self.settings, screen)
        if found is not None:
            self.gauge.set_size(screens.logical(found, screen))
        self.said.setText(screens.said_of(self.settings, screen))
        self.measure()

    def measure(self) -> None:
        """Show what the pins as they lie now say; on a screen that is not calibrated, nothing."""
        from counter.measure import Measured, answered, pattern_of

        if screens.kept(self.settings, self.screen()) is None:
            self.found.show_measured(None, tr("Calibrate this screen first: its size is not known."))
            return
        seen = [(-x, y) for x, y in self.gauge.pins]
        pattern = pattern_of(seen, self.key.currentData() or None)
        self.found.show_measured(answered(self.catalogue, Measured(size_px=(0, 0)), pattern))

    def _take(self, looks: dict[str, str | float]) -> None:
        self.taken.emit(looks)
        self.accept()
