"""The demo shop: a stock list as a shop system would export it, the same for the same seed. Everything is invented.

Each line carries the lamp type that it was written for, so that matching can be counted against it: the matcher
never sees that. Makers, codes, barcodes, bins and prices exist nowhere else.
"""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, NamedTuple

from stdnum import ean

from counter import marks
from counter.language import marked
from counter.shelf._columns import guess_columns
from counter.shelf._match import Matcher
from counter.shelf._plan import plan_import, put
from counter.shelf._sheet import Row

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.catalogue import Catalogue, Lamp
    from counter.shop import Store

NAME = marked("Demo shop (invented)")
LINES = 1500
SEED = 20
HEADINGS = ("Item No", "Description", "Bin", "Qty", "Price", "Barcode", "Supplier", "Pack", "Lead days", "Life h")
MAKERS = ("Tollvik", "Brennholt", "Quillane", "Marrowby", "Ostwick")
COLOURS = ("827", "830", "835", "840", "841", "850", "865")
LAMP_SHARE = 0.45  # of the lines; the rest is what else an electrical supply house keeps
DEAD_SHARE = 0.12  # of the lamps: none there, and none sold for years
_SHAPE_WORDS = {"twin": "TWIN TUBE", "quad": "QUAD TUBE", "triple": "TRIPLE TUBE", "long-twin": "LONG TWIN TUBE"}
_GOODS = (
    "ELEC BALLAST 2X26W G24Q 120-277V",
    "MAG BALLAST 13W GX23 120V",
    "ELECTRONIC BALLAST 4X32W T8 INSTANT START",
    "LAMPHOLDER G24Q-3 4-PIN SCREW MOUNT",
    "SOCKET TOMBSTONE G13 SHUNTED",
    "LAMPHOLDER 2G11 HORIZONTAL",
    "STARTER GLOW 4-22W",
    "TROFFER 2X4 3 LAMP T8",
    "TUBE GUARD T8 48IN CLEAR",
    "WIRE NUT YELLOW 100/PK",
    "SCREW PAN 8-32 X 3/4 ZINC",
    "CONDUIT EMT 3/4IN 10FT",
    "BREAKER 1P 20A PLUG-IN",
    "RECEPTACLE DUPLEX 15A WHITE",
    "SWITCH TOGGLE 3-WAY 15A IVORY",
    "CABLE 12/2 250FT COPPER",
    "BATTERY AA 24/PK",
    "TAPE VINYL BLACK 3/4IN X 60FT",
    "BOX OCTAGON 4IN 1-1/2 DEEP",
    "COUPLING SET SCREW 1/2IN",
)
_LED = ("LED PLUG-IN {base} {watts}W 4000K TYPE A", "LED LAMP {base} {watts}W 3500K BALLAST BYPASS")


def put_demo(store: Store, catalogue: Catalogue) -> int:
    """Make the demo list the present one, marked as such.

    Raises:
        StoreProblem: it cannot be kept.
    """
    rows = demo_rows(catalogue)
    return put(store, plan_import(NAME, rows, guess_columns(rows), Matcher(catalogue)), is_demo=True)


class DemoLine(NamedTuple):
    """One line of the demo list, and the lamp type it was written for; None where it is no lamp type."""

    cells: tuple[str, ...]
    lamp: str | None


def demo_rows(catalogue: Catalogue, count: int = LINES, seed: int = SEED) -> list[Row]:
    """Return the demo list with its headings."""
    lines = demo_lines(catalogue, count, seed)
    return [Row(1, HEADINGS), *(Row(at, line.cells) for at, line in enumerate(lines, 2))]


def demo_lines(catalogue: Catalogue, count: int = LINES, seed: int = SEED) -> list[DemoLine]:
    """Return lines with what they are."""
    dice = random.Random(seed)
    lamps = [lamp for lamp in catalogue.lamps if lamp.kind in ("fluorescent", "uv-c", "uv-a")]
    made = []
    for at in range(count):
        lamp = dice.choice(lamps) if dice.random() < LAMP_SHARE else None
        made.append(_lamp_line(catalogue, lamp, dice, at) if lamp is not None else _other_line(dice, at))
    return made


def _lamp_line(catalogue: Catalogue, lamp: Lamp, dice: random.Random, at: int) -> DemoLine:
    colour = dice.choice(COLOURS)
    style = dice.choice(_STYLES)
    words = style(catalogue, lamp, colour) or _shorthand(catalogue, lamp, colour)
    maker = dice.choice(MAKERS)
    if dice.random() < 0.3:
        words = f"{maker.upper()} {words}"
    if dice.random() < 0.25:
        words = f"{words} {dice.choice((10, 12, 25))}/CS"
    is_dead = dice.random() < DEAD_SHARE
    quantity = 0 if is_dead else dice.randint(0, 60)
    price = 2.5 + lamp.watts.value * 0.14 + dice.random() * 4 + (18 if lamp.kind == "uv-c" else 0)
    lead = str(dice.choice((3, 7, 14))) if quantity == 0 and not is_dead else ""
    life = str(dice.choice((8000, 10000, 12000, 20000, 24000)))
    return DemoLine(_cells(dice, at, words, quantity, price, maker, lead, life), lamp.id)


def _other_line(dice: random.Random, at: int) -> DemoLine:
    if dice.random() < 0.08:
        base, watts = dice.choice((("G24q", 9), ("2G11", 16), ("GX23", 6)))
        words, price = dice.choice(_LED).format(base=base, watts=watts), 9 + dice.random() * 8
    else:
        words, price = dice.choice(_GOODS), 1 + dice.random() * 40
    return DemoLine(_cells(dice, at, words, dice.randint(0, 400), price, dice.choice(MAKERS), "", ""), None)


def _cells(
    dice: random.Random, at: int, words: str, quantity: int, price: float, maker: str, lead: str, life: str
) -> tuple[str, ...]:
    code = f"{maker[:2].upper()}{at + 10000}"
    aisle = f"{dice.choice('ABCDEFGH')}{dice.randint(1, 24):02d}-{dice.randint(1, 6)}"
    number = f"200{dice.randint(0, 999_999_999):09d}"  # 200…299 are for a shop's own use
    barcode = number + ean.calc_check_digit(number)
    pack = str(dice.choice((1, 10, 25)))
    return (code, words, aisle, str(quantity), f"{price:.2f}", barcode, maker, pack, lead, life)


# -- how shops write a lamp


def _whole_code(catalogue: Catalogue, lamp: Lamp, colour: str) -> str | None:
    systems = ("nema", "ansi-linear", "ansi-germicidal")
    found = (marks.format_code(catalogue, lamp.id, system, colour) for system in systems)
    return next(filter(None, found), None)


def _standard_code(catalogue: Catalogue, lamp: Lamp, colour: str) -> str | None:
    return marks.format_code(catalogue, lamp.id, "ilcos", colour)


def _shorthand(catalogue: Catalogue, lamp: Lamp, colour: str) -> str:
    kind = {"uv-c": " GERMICIDAL UV-C", "uv-a": " BLACKLIGHT BLB"}.get(lamp.kind, f" {colour}")
    return f"{lamp.watts.value:g}W {lamp.base}{kind}"


def _words(catalogue: Catalogue, lamp: Lamp, colour: str) -> str | None:
    if lamp.kind != "fluorescent" or lamp.shape not in _SHAPE_WORDS:
        return None
    pins = catalogue.base_of(lamp).pins.value
    kelvin = int(colour[1:]) * 100
    return f"LAMP {lamp.watts.value:g}W {_SHAPE_WORDS[lamp.shape]} {lamp.base.upper()} {pins:g}-PIN {kelvin}K"


def _run_together(catalogue: Catalogue, lamp: Lamp, colour: str) -> str | None:
    if lamp.kind != "fluorescent":
        return None
    return f"FLUO {lamp.base.upper().replace('-', '')} {lamp.watts.value:g} W /{colour}"


def _tube_words(catalogue: Catalogue, lamp: Lamp, colour: str) -> str | None:
    code = marks.format_code(catalogue, lamp.id, "ansi-linear", colour)
    return f"FLUORESCENT TUBE {code}" if code and lamp.kind == "fluorescent" else None


_STYLES: tuple[Callable[[Catalogue, Lamp, str], str | None], ...] = (
    _whole_code,
    _whole_code,
    _standard_code,
    _shorthand,
    _words,
    _run_together,
    _tube_words,
)
