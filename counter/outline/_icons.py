"""Small pictures for the look buttons, one for each answer that can be drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.outline._shapes import Disc, Drawing, Fill, Path, Shape, drawing, rectangle

if TYPE_CHECKING:
    from collections.abc import Callable

BLOCK = (-12.0, -7.0, 12.0, 7.0)


def look_icon(key: str, value: str) -> Drawing | None:
    """Return the picture of one answer, or None where words must do."""
    draw = _ICONS.get((key, value))
    if draw is None:
        return None
    shapes = tuple(draw())
    return drawing(shapes)


def _bends(count: int, step: float = 7.0) -> list[Shape]:
    shapes: list[Shape] = []
    for behind in range(count - 1, -1, -1):
        x, y = behind * step, behind * 3.0
        outer = ((x - 6.5, y), (x - 6.5, y + 26), (x + 6.5, y + 26), (x + 6.5, y))
        inner = ((x + 1, y), (x + 1, y + 20), (x - 1, y + 20), (x - 1, y))
        shapes.append(Path("legs", outer, "detail", "glass", closed=True, corner_mm=6))
        shapes.append(Path("legs", inner, "thin", "none"))
    right = (count - 1) * step + 7
    shapes.append(Path("cap", rectangle(-7, -7, right, 1), "outline", "paper", closed=True, corner_mm=1))
    return shapes


def _flat_legs() -> list[Shape]:
    shapes: list[Shape] = []
    for x in (-7.5, 7.5):
        outer = ((x - 6.5, 0), (x - 6.5, 22), (x + 6.5, 22), (x + 6.5, 0))
        shapes.append(Path("legs", outer, "detail", "glass", closed=True, corner_mm=6))
        shapes.append(Path("legs", ((x, 0), (x, 16)), "thin"))
    shapes.append(Path("cap", rectangle(-15, -7, 15, 1), "outline", "paper", closed=True, corner_mm=1))
    return shapes


def _square() -> list[Shape]:
    return [
        Path("legs", rectangle(-15, -15, 15, 15), "detail", "glass", closed=True, corner_mm=6),
        Path("legs", rectangle(-9.5, -9.5, 9.5, 9.5), "detail", "paper", closed=True, corner_mm=3),
        Path("cap", rectangle(-6, -13, 6, -5), "outline", "paper", closed=True),
    ]


def _ring() -> list[Shape]:
    return [
        Disc("legs", 0, 0, 16, "detail", "glass"),
        Disc("legs", 0, 0, 11, "detail", "paper"),
        Path("cap", rectangle(-4, -17, 4, -9), "outline", "paper", closed=True),
    ]


def _u_tube() -> list[Shape]:
    outer = ((-14, 0), (-14, 28), (14, 28), (14, 0))
    inner = ((9, 0), (9, 23), (-9, 23), (-9, 0))
    return [
        Path("legs", (*outer, *inner), "detail", "glass", closed=True, corner_mm=2),
        Path("cap", rectangle(-14.5, -3, -8.5, 2), "outline", "paper", closed=True),
        Path("cap", rectangle(8.5, -3, 14.5, 2), "outline", "paper", closed=True),
    ]


def _straight() -> list[Shape]:
    shapes: list[Shape] = [Path("legs", rectangle(-18, -3, 18, 3), "detail", "glass", closed=True)]
    for side in (-1, 1):
        shapes.append(Path("cap", rectangle(*sorted_pair(side * 18, side * 14)), "outline", "paper", closed=True))
        shapes += [Path("pins", ((side * 18, y), (side * 22, y)), "outline") for y in (-1.5, 1.5)]
    return shapes


def sorted_pair(a: float, b: float) -> tuple[float, float, float, float]:
    """Return left, bottom, right, top of the cap of the straight tube between two x."""
    return (min(a, b), -3.6, max(a, b), 3.6)


def _covered() -> list[Shape]:
    turns: list[Shape] = [
        Path(
            "legs", ((-11, y), (-11, y + 5), (11, y + 7), (11, y + 2)), "detail", "glass", closed=True, corner_mm=2.5
        )
        for y in (2, 9, 16)
    ]
    return [*turns, Path("cap", rectangle(-8, -8, 8, 1), "outline", "paper", closed=True, corner_mm=1)]


def _pins(*at: tuple[float, float], wide: float = 16, tall: float = 11) -> list[Shape]:
    edge = Path("outline", rectangle(-wide, -tall, wide, tall), "detail", "paper", closed=True, corner_mm=5)
    return [edge, *(Disc("pins", x, y, 2.6, "none", "ink") for x, y in at)]


def _ends() -> list[Shape]:
    shapes: list[Shape] = []
    for middle in (-10, 10):
        shapes.append(Disc("outline", middle, 0, 8, "detail", "paper"))
        shapes += [Disc("pins", middle + x, 0, 2, "none", "ink") for x in (-3, 3)]
    return shapes


def _keyed(*cuts: tuple[float, float]) -> list[Shape]:
    left, bottom, right, top = BLOCK
    edge: list[tuple[float, float]] = [(left, top)]
    marks: list[Shape] = []
    for middle, width in cuts:
        cut = ((middle - width / 2, top), (middle - width / 2, top - 5), (middle + width / 2, top - 5))
        full = (*cut, (middle + width / 2, top))
        edge += full
        marks.append(Path("notch", full, "accent", "paper"))
    body = Path("block", ((left, bottom), *edge, (right, top), (right, bottom)), "detail", "tint", closed=True)
    return [body, *marks]


def _disc() -> list[Shape]:
    return [
        Path("cap", rectangle(-17, 0, 17, 10), "outline", "paper", closed=True, corner_mm=3),
        Path("cap", rectangle(-6, -5, 6, 0), "outline", "paper", closed=True),
        *(Path("pins", ((x, -5), (x, -9)), "outline") for x in (-4.0, 4.0)),
    ]


def _body(half_wide: float, half_tall: float) -> list[Shape]:
    edge = rectangle(-half_wide, -half_tall, half_wide, half_tall)
    inner = rectangle(-half_wide * 0.45, -half_tall * 0.5, half_wide * 0.45, half_tall * 0.5)
    return [
        Path("outline", edge, "outline", "paper", closed=True, corner_mm=4),
        Path("block", inner, "detail", "tint", closed=True),
    ]


def _bulb(glass: str) -> list[Shape]:
    fills: dict[str, Fill] = {"white": "glass", "dark": "dark-glass"}
    body = Path("legs", rectangle(-14, -6, 14, 6), "detail", fills.get(glass, "none"), closed=True, corner_mm=6)
    if glass in fills:
        return [body]
    # In clear glass one sees the electrodes and through to whatever lies behind.
    seen = [((x, -3.0), (x + 3 * way, 0.0), (x, 3.0)) for x, way in ((-10.0, -1), (10.0, 1))]
    return [body, *(Path("electrode", points, "outline") for points in seen), *_shine()]


def _shine() -> list[Shape]:
    return [Path("legs", ((x, -3), (x + 4, 3)), "thin") for x in (-4.0, 0.0)]


_ICONS: dict[tuple[str, str], Callable[[], list[Shape]]] = {
    ("legs", "2"): lambda: _bends(1),
    ("legs", "4"): lambda: _bends(2),
    ("legs", "6"): lambda: _bends(3),
    ("legs", "8"): lambda: _bends(4, 6.0),
    ("legs", "4-flat"): _flat_legs,
    ("legs", "square"): _square,
    ("legs", "ring"): _ring,
    ("legs", "u-bent"): _u_tube,
    ("legs", "1"): _straight,
    ("legs", "covered"): _covered,
    ("legs", "disc"): _disc,
    ("body", "slim"): lambda: _body(17, 7),
    ("body", "square"): lambda: _body(13, 11),
    ("pins", "1"): lambda: _pins((0, 0)),
    ("pins", "2"): lambda: _pins((-8, 0), (8, 0)),
    ("pins", "4"): lambda: _pins((-8, 4.5), (8, 4.5), (-8, -4.5), (8, -4.5)),
    ("arrangement", "two-across"): lambda: _pins((-9, 0), (9, 0)),
    ("arrangement", "row"): lambda: _pins((-12, 0), (-5, 0), (5, 0), (12, 0), tall=7),
    ("arrangement", "rectangle"): lambda: _pins((-8, 4.5), (8, 4.5), (-8, -4.5), (8, -4.5)),
    ("arrangement", "ends"): _ends,
    ("notch", "none"): lambda: _keyed(),
    ("notch", "one-large"): lambda: _keyed((0, 8)),
    ("notch", "two-large"): lambda: _keyed((-6, 6), (6, 6)),
    ("notch", "small-centre"): lambda: _keyed((0, 3.6)),
    ("notch", "small-left"): lambda: _keyed((-7, 3.6)),
    ("notch", "small-right"): lambda: _keyed((7, 3.6)),
    ("notch", "two-small"): lambda: _keyed((-3.4, 3.4), (3.4, 3.4)),
    ("block", "yes"): lambda: [
        *_pins((-12, 0), (12, 0), wide=17),
        Path("block", rectangle(-6, -5, 6, 5), "detail", "tint", closed=True),
    ],
    ("block", "no"): lambda: _pins((-12, 0), (-4, 0), (4, 0), (12, 0), wide=17),
    ("glass", "white"): lambda: _bulb("white"),
    ("glass", "clear"): lambda: _bulb("clear"),
    ("glass", "dark"): lambda: _bulb("dark"),
}
