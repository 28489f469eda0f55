"""Settings: colours, lengths, the shop's place, and who confirms values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFormLayout, QLineEdit, QWidget

from counter.fit import places
from counter.window.dialogs.sheet import Sheet
from counter.window.parts.calm import CalmCombo
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.main_window import MainWindow

COLOURS = (("as the system", "system"), ("light", "light"), ("dark", "dark"))
LENGTHS = (("millimetres", "mm"), ("inches", "in"))
NOT_SET = "not set: law not checked"
NAME_MOST = 80


class Settings(Sheet):
    """Every change counts at once and is kept."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__("Settings", window, letters=92, lines=20)
        self.window_ = window
        self.colours = _combo("Colours", COLOURS, window.theme_name)
        self.lengths = _combo("Lengths", LENGTHS, window.units)
        place = str(window.settings.value("place", ""))
        self.place = _combo("Shop in", ((NOT_SET, ""), *((one.name, one.id) for one in places())), place)
        self.who = QLineEdit(str(window.settings.value("who", "")))
        self.who.setMaxLength(NAME_MOST)
        self.who.setAccessibleName("Who confirms values")
        form = QWidget()
        rows = QFormLayout(form)
        for words, field in (
            ("&Colours", self.colours),
            ("&Lengths", self.lengths),
            ("&Shop in", self.place),
            ("&Who confirms values", self.who),
        ):
            caption = Words(words)
            caption.setBuddy(field)
            rows.addRow(caption, field)
        self.area.column.addWidget(form)
        self.say("The system's choice of light, dark and high contrast is followed while the program runs.", "quiet")
        self.colours.activated.connect(lambda i: window.set_theme(self.colours.itemData(i)))
        self.lengths.activated.connect(lambda i: window.set_units(self.lengths.itemData(i)))
        self.place.activated.connect(lambda i: window.counter.set_place(self.place.itemData(i)))
        self.who.editingFinished.connect(lambda: window.settings.setValue("who", self.who.text().strip()))


def _combo(name: str, choices: tuple[tuple[str, str], ...], now: str) -> CalmCombo:
    combo = CalmCombo(name)
    for words, value in choices:
        combo.addItem(words, value)
    combo.setCurrentIndex(max(combo.findData(now), 0))
    return combo
