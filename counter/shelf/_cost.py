"""What light costs over the years: lamp and energy, and after how long a dearer lamp has paid for itself.

Common practice of lighting economics, no source: the yearly cost of a lamp is the energy it takes, W / 1000 x h x
rate, and its share of the lamps burnt in a year, h / life x price. Simple pay-back is what is spent more at once over
what is saved a year; it leaves interest and labour out, and says so.
"""

from __future__ import annotations

from typing import NamedTuple

from counter.language import figure, marked, tr

FORMULA = marked(
    "a year: W ÷ 1000 × hours × rate + hours ÷ life × price, for each lamp; pay-back: extra price ÷ yearly saving"
)
LEFT_OUT = marked("Interest, labour and the ballast's own losses are left out unless the watts include them.")


class CostOf(NamedTuple):
    """One lamp to reckon with: watts from the line (with the ballast's losses where known), price, rated life."""

    name: str
    watts: float
    price: float
    life_h: float


class Usage(NamedTuple):
    """How a customer burns it: hours a year, price of a kilowatt-hour, how many lamps."""

    hours: float
    rate: float
    lamps: int = 1


class YearlyCost(NamedTuple):
    """What one choice costs a year."""

    energy: float
    lamps: float

    @property
    def total(self) -> float:
        """Return energy and lamps together."""
        return self.energy + self.lamps


class PayBack(NamedTuple):
    """A dearer lamp against a cheaper: what it saves a year, and after how many years; None: never."""

    saving: float
    years: float | None


def yearly(lamp: CostOf, usage: Usage) -> YearlyCost:
    """Return what a lamp costs a year.

    Raises:
        ValueError: a figure is negative, or the life is not above zero; says which.
    """
    for name, value in (("watts", lamp.watts), ("price", lamp.price), ("hours", usage.hours), ("rate", usage.rate)):
        if value < 0:
            raise ValueError(tr("{name}: {value} cannot be negative").format(name=name, value=figure(value)))
    if lamp.life_h <= 0:
        raise ValueError(tr("life: a lamp's rated life is more than zero hours"))
    energy = lamp.watts / 1000 * usage.hours * usage.rate * usage.lamps
    return YearlyCost(energy, usage.hours / lamp.life_h * lamp.price * usage.lamps)


def pay_back(present: CostOf, other: CostOf, usage: Usage) -> PayBack:
    """Return what the other lamp saves a year against the present one, and when it has paid for itself."""
    saving = yearly(present, usage).total - yearly(other, usage).total
    extra = (other.price - present.price) * usage.lamps
    if saving <= 0:
        return PayBack(saving, None)
    return PayBack(saving, max(extra, 0.0) / saving)
