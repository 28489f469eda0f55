"""What a sheet of paper is made of: drawings to a scale, and words of a size in millimetres."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Literal, NamedTuple

from counter.outline import Drawing, Path, Shape, box_of

if TYPE_CHECKING:
    from collections.abc import Iterable

Align = Literal["left", "middle", "right"]

# Width and height upright, millimetres: ISO 216 for A4 and A3, ANSI/ASME Y14.1 sizes A and B for the others.
PAGES: dict[str, tuple[float, float]] = {
    "A4": (210.0, 297.0),
    "Letter": (215.9, 279.4),
    "A3": (297.0, 420.0),
    "Tabloid": (279.4, 431.8),
}
MARGIN_MM = 10.0  # what every office printer can reach
CARD_MM = (85.60, 53.98)  # ISO/IEC 7810, ID-1: a bank card's width and height
EM_WIDE = 0.52  # of a letter's height, an average one's width in a wide sans: measured on DejaVu Sans, rounded up


class Placed(NamedTuple):
    """A drawing whose origin falls on (x, y) of the page, `scale` millimetres of paper for one of the drawing."""

    drawing: Drawing
    x_mm: float
    y_mm: float
    scale: float = 1.0
    marked: frozenset[str] = frozenset()


class Text(NamedTuple):
    """One line of words: (x, y) is its foot; set smaller where it would be wider than `room_mm`."""

    x_mm: float
    y_mm: float
    text: str
    size_mm: float
    align: Align = "left"
    bold: bool = False
    quiet: bool = False
    room_mm: float | None = None


class Sheet(NamedTuple):
    """One page in millimetres, origin at the lower left, y up."""

    width_mm: float
    height_mm: float
    items: tuple[Placed | Text, ...]


def lines(shapes: Iterable[Shape]) -> Placed:
    """Return shapes that are already in the page's millimetres, to be painted where they stand."""
    kept = tuple(shapes)
    box = box_of(kept)
    return Placed(Drawing(kept, box, box), 0.0, 0.0)


def rule(x_mm: float, y_mm: float, to_x_mm: float, to_y_mm: float) -> Path:
    """Return a thin line of the page."""
    return Path("rule", ((x_mm, y_mm), (to_x_mm, to_y_mm)), "thin")


def wrapped(text: str, size_mm: float, room_mm: float) -> list[str]:
    """Break words into lines of about one length that fit a room; an estimate: only the painter knows the font."""
    most = max(int(room_mm / (size_mm * EM_WIDE)), 8)
    count = len(textwrap.wrap(text, most, break_on_hyphens=False))
    tries = (textwrap.wrap(text, wide, break_on_hyphens=False) for wide in range(len(text) // max(count, 1), most))
    return next((lines for lines in tries if 0 < len(lines) <= count), textwrap.wrap(text, most))


def check_bar(left: float, foot: float, words: str, size_mm: float = 2.6) -> list[Placed | Text]:
    """Return a bar as long as a bank card is wide, to be held against one: printed to scale or not, it shows."""
    width = CARD_MM[0]
    bar: list[Shape] = [
        Path("check-bar", ((left, foot), (left + width, foot)), "detail"),
        *(Path("check-end", ((left + at, foot), (left + at, foot + 4.0)), "detail") for at in (0.0, width)),
        *(
            Path("check-tick", ((left + at, foot), (left + at, foot + (3 if at % 50 == 0 else 1.6))), "thin")
            for at in range(10, 86, 10)
        ),
    ]
    return [lines(bar), Text(left, foot - size_mm * 1.3, words, size_mm, room_mm=width * 2)]
