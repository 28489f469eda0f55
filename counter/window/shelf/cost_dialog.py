"""What light costs over the years: two lamps side by side, the customer's hours and rate, and the formula."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout

from counter.language import SpokenNumber, marked, tr
from counter.shelf import FORMULA, LEFT_OUT, CostOf, Usage, pay_back, yearly
from counter.window.parts.calm import CalmFigure
from counter.window.parts.form_rows import form_of
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QWheelEvent
    from PySide6.QtWidgets import QFormLayout

    from counter.shelf import ShelfAnswer, YearlyCost
    from counter.window.counter_room import Counter

RATE, HOURS = "rate_per_kwh", 3000
LIFE_H, LED_LIFE_H, LED_SHARE = 10_000, 30_000, 0.5  # where the list says nothing; shown, and to be typed over

FIGURE_WORDS = {
    "hours": marked("hours a year"),
    "rate": marked("price of a kWh"),
    "lamps": marked("how many lamps"),
    "watts": marked("watts"),
    "price": marked("price"),
    "life h": marked("life, h"),
}


class Figure(CalmFigure):
    """A figure to type; the wheel only turns it once it has the keyboard."""

    def __init__(self, value: float, most: float, decimals: int = 0) -> None:
        super().__init__()
        self.setRange(0, most)
        self.setDecimals(decimals)
        self.setValue(value)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class CostDialog(QDialog):
    """Reckons again at each figure."""

    def __init__(self, counter: Counter, shown: ShelfAnswer | None) -> None:
        super().__init__(counter.window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Cost over the years"))
        item = shown.item if shown is not None else None
        watts = (item.watts if item is not None else None) or 26.0
        price = (item.price_cents or 0) / 100 if item is not None else 0.0
        life = (item.life_h if item is not None else None) or LIFE_H
        name = item.code if item is not None else tr("this lamp")
        self.shop = counter.shop
        rate = float(self.shop.settings[RATE])
        self.usage = {"hours": Figure(HOURS, 8784), "rate": Figure(rate, 100, 3), "lamps": Figure(1, 9999)}
        self.present = _figures(watts, price, life)
        self.other = _figures(watts * LED_SHARE, price * 2, LED_LIFE_H)
        self.says = Words(wraps=True)
        forms = QHBoxLayout()
        for title, figures in ((tr("Use"), self.usage), (name, self.present), (tr("instead"), self.other)):
            forms.addLayout(_form(title, figures))
        box = QVBoxLayout(self)
        box.addLayout(forms)
        box.addWidget(self.says)
        box.addStretch(1)
        box.addWidget(Words(f"{tr(FORMULA)}.\n{tr(LEFT_OUT)}", wraps=True))
        for figures in (self.usage, self.present, self.other):
            for figure in figures.values():
                figure.valueChanged.connect(lambda _: self.reckon())
        self.reckon()

    def done(self, result: int) -> None:
        """Close; the rate is the shop's until somebody types another, the hours are a customer's own."""
        rate = self.usage["rate"].value()
        if self.shop.is_open and rate != self.shop.settings[RATE]:
            self.shop.put_setting(RATE, rate, lambda _: None, lambda _: None)
        super().done(result)

    def reckon(self) -> None:
        """Show what both cost a year, and the pay-back."""
        use = {name: figure.value() for name, figure in self.usage.items()}
        usage = Usage(use["hours"], use["rate"], int(use["lamps"]))
        one, two = (_lamp(name, figures) for name, figures in (("this", self.present), ("instead", self.other)))
        try:
            now, then, back = yearly(one, usage), yearly(two, usage), pay_back(one, two, usage)
        except ValueError as problem:
            self.says.setText(str(problem))
            return
        when = (
            tr("it never pays for itself")
            if back.years is None
            else tr("it costs no more to begin with")
            if back.years == 0
            else tr("it has paid for itself after {years:.1f} years").format(years=SpokenNumber(back.years))
        )
        self.says.setText(
            "\n".join(
                (
                    _yearly(tr("This: {total:.2f} a year (energy {energy:.2f}, lamps {lamps:.2f})."), now),
                    _yearly(tr("Instead: {total:.2f} a year (energy {energy:.2f}, lamps {lamps:.2f})."), then),
                    tr("Saves {saving:.2f} a year; {when}.").format(saving=SpokenNumber(back.saving), when=when),
                )
            )
        )


def _yearly(words: str, cost: YearlyCost) -> str:
    return words.format(
        total=SpokenNumber(cost.total), energy=SpokenNumber(cost.energy), lamps=SpokenNumber(cost.lamps)
    )


def _figures(watts: float, price: float, life: float) -> dict[str, Figure]:
    return {"watts": Figure(watts, 2000, 1), "price": Figure(price, 100_000, 2), "life h": Figure(life, 200_000)}


def _form(title: str, figures: dict[str, Figure]) -> QFormLayout:
    form = form_of(*((tr(FIGURE_WORDS[name]), figure) for name, figure in figures.items()))
    form.insertRow(0, Words(title, "title"))
    return form


def _lamp(name: str, figures: dict[str, Figure]) -> CostOf:
    return CostOf(name, figures["watts"].value(), figures["price"].value(), figures["life h"].value())
