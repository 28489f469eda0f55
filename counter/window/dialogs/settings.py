"""Settings: colours, lengths, the shop's place, and who confirms values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QAbstractSpinBox, QDialogButtonBox, QLineEdit

from counter.fit import places
from counter.language import current, languages, marked, tr
from counter.window.dialogs.sheet import Sheet
from counter.window.dialogs.shop_settings import ShopSettings
from counter.window.parts.calm import CalmCombo
from counter.window.parts.form_rows import form_of, level

if TYPE_CHECKING:
    from PySide6.QtGui import QCloseEvent

    from counter.window.main_window import MainWindow

COLOURS = ((marked("as the system"), "system"), (marked("light"), "light"), (marked("dark"), "dark"))
LENGTHS = ((marked("millimetres"), "mm"), (marked("inches"), "in"))
NOT_SET = marked("not set: law not checked")
NAME_MOST = 80


class Settings(Sheet):
    """Every change counts at once and is kept."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(tr("Settings"), window, letters=92)
        self.window_ = window
        self.colours = _combo(tr("Colours"), COLOURS, window.theme_name)
        self.lengths = _combo(tr("Lengths"), LENGTHS, window.units)
        self.language = _combo(tr("Language"), tuple((name, code) for code, name in languages().items()), current())
        place = str(window.settings.value("place", ""))
        known = ((one.name, one.id) for one in places(window.counter.catalogue))
        self.place = _combo(tr("Shop in"), ((NOT_SET, ""), *known), place)
        self.who = QLineEdit(str(window.settings.value("who", "")))
        self.who.setMaxLength(NAME_MOST)
        self.who.setAccessibleName(tr("Who confirms values"))
        form = form_of(
            (tr("&Colours"), self.colours),
            (tr("&Lengths"), self.lengths),
            (tr("Lan&guage"), self.language),
            (tr("&Shop in"), self.place),
            (tr("&Who confirms values"), self.who),
        )
        self.area.column.addLayout(form)
        self.buttons.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)  # Enter ends a field here
        self.of_shop = ShopSettings(window.counter.shop)
        self.area.column.addWidget(self.of_shop)
        level(form, self.of_shop.form)
        self.say(
            tr("The system's choice of light, dark and high contrast is followed while the program runs."), "quiet"
        )
        self.colours.activated.connect(lambda i: window.set_theme(self.colours.itemData(i)))
        self.lengths.activated.connect(lambda i: window.set_units(self.lengths.itemData(i)))
        self.language.activated.connect(lambda i: self._speak(self.language.itemData(i)))
        self.place.activated.connect(lambda i: window.counter.set_place(self.place.itemData(i)))
        self.who.editingFinished.connect(lambda: window.keep("who", self.who.text().strip()))

    def closeEvent(self, event: QCloseEvent) -> None:
        for box in self.findChildren(QAbstractSpinBox):
            box.interpretText()
            box.editingFinished.emit()
        for field in (one for one in self.findChildren(QLineEdit) if one.isModified()):
            field.editingFinished.emit()  # as when the hand leaves it: what was typed is kept
        super().closeEvent(event)

    def _speak(self, code: str) -> None:
        """Speak another language at once; these settings come back in it."""
        self.close()
        self.window_.set_language(code)
        self.window_.counter.show_settings()


def _combo(name: str, choices: tuple[tuple[str, str], ...], now: str) -> CalmCombo:
    combo = CalmCombo(name)
    for words, value in choices:
        combo.addItem(tr(words), value)
    combo.setCurrentIndex(max(combo.findData(now), 0))
    return combo
