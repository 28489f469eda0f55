"""The side view of the glass to one scale: legs, bends and length, so that legs can be counted in the drawing."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from counter.outline._shapes import (
    Disc,
    Drawing,
    Fill,
    Label,
    Measure,
    Path,
    Point,
    Shape,
    box_of,
    drawing,
    rectangle,
)
from counter.outline._words import length_words

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.catalogue import Base, Lamp
    from counter.outline._face import Units

# Sizes the catalogue does not know are drawn with these, dashed; they say nothing of a real lamp.
PLAIN_TUBE_MM = 13.0
PLAIN_LENGTH_MM = 140.0
CAP_MM = 22.0
FULL_ROOM_MM = (4.0, 12.0, 16.0, 8.0)
LEG_GAP_OF_TUBE = 0.35
BEHIND_OF_TUBE = 0.8  # how far each tube behind is set to the side
BROKEN_OVER_MM = 330.0  # longer lamps are shown with a break, or thumbnails could not share one scale
ARC_STEPS = 10


def side_view(lamp: Lamp, base: Base, *, full: bool = False, units: Units = "mm") -> Drawing:
    """Return the lamp from the side; `full` adds its length and tube width, dashed where not sure."""
    draw = _BY_SHAPE.get(lamp.shape or "none", _covered)
    shapes = tuple(draw(lamp, base))
    box = box_of(shapes)
    # A thumbnail is no place to measure: dashes of tubes behind tubes would only blur the legs to be counted.
    if not full:
        return drawing(tuple(_solid(shape) for shape in shapes))
    return drawing(shapes + tuple(_dimensions(lamp, box, units)), FULL_ROOM_MM)


def _solid(shape: Shape) -> Shape:
    return shape._replace(dashed=False) if isinstance(shape, (Path, Disc)) else shape


def _tube(lamp: Lamp) -> float:
    return lamp.tube_mm.value if lamp.tube_mm is not None else PLAIN_TUBE_MM


def _length(lamp: Lamp) -> float:
    return lamp.length_mm.value if lamp.length_mm is not None else PLAIN_LENGTH_MM


def _shown(length_mm: float) -> float:
    return min(length_mm, BROKEN_OVER_MM)


def _is_guess(lamp: Lamp) -> bool:
    return lamp.length_mm is None or lamp.length_mm.is_unsure


def _glass(lamp: Lamp) -> str:
    return lamp.glass.value if lamp.glass is not None else "white"


def _bend(
    x_mm: float,
    y_mm: float,
    tube: float,
    top: float,
    *,
    dashed: bool,
    clear: bool = False,
    gap_mm: float | None = None,
) -> Path:
    """Return one bent tube as a closed outline standing on (x, y): two legs and a round top."""
    gap = tube * LEG_GAP_OF_TUBE if gap_mm is None else gap_mm
    outer, inner = tube + gap / 2, gap / 2
    crown = top - outer
    points: list[Point] = [(x_mm - outer, y_mm)]
    points += [
        (x_mm - outer * cos(pi * i / ARC_STEPS), crown + outer * sin(pi * i / ARC_STEPS))
        for i in range(ARC_STEPS + 1)
    ]
    points += [(x_mm + outer, y_mm), (x_mm + inner, y_mm)]
    points += [
        (x_mm + inner * cos(pi * i / ARC_STEPS), crown + inner * sin(pi * i / ARC_STEPS))
        for i in range(ARC_STEPS + 1)
    ]
    points.append((x_mm - inner, y_mm))
    return Path("legs", tuple(points), "detail", "none" if clear else "glass", closed=True, dashed=dashed)


def _break_mark(x_mm: float, half_mm: float, y_mm: float) -> list[Shape]:
    zig = ((x_mm - half_mm - 3, y_mm - 4), (x_mm - half_mm / 3, y_mm + 4), (x_mm + half_mm / 3, y_mm - 4))
    upper = (*zig, (x_mm + half_mm + 3, y_mm + 4))
    lower = tuple((x, y - 7) for x, y in upper)
    gap = Path("break", (*upper, *reversed(lower)), "none", "paper", closed=True)
    return [gap, Path("break", upper, "thin"), Path("break", lower, "thin")]


def _bent(lamp: Lamp, base: Base, bends: int) -> list[Shape]:
    tube, length = _tube(lamp), _shown(_length(lamp))
    guess, clear = _is_guess(lamp), _glass(lamp) == "clear"
    step = tube * BEHIND_OF_TUBE
    first = -step * (bends - 1) / 2
    shapes: list[Shape] = []
    for behind in range(bends - 1, -1, -1):
        x, lift = first + behind * step, behind * tube * 0.28
        shapes.append(_bend(x, CAP_MM, tube, length - (bends - 1) * tube * 0.28 + lift, dashed=guess, clear=clear))
    half = tube * (1 + LEG_GAP_OF_TUBE / 2) + step * (bends - 1) / 2
    if _length(lamp) > BROKEN_OVER_MM:
        shapes += _break_mark(0, half, length * 0.6)
    return [*shapes, *_cap(base, half)]


def _cap(base: Base, half_glass_mm: float) -> list[Shape]:
    half = max(half_glass_mm + 2, min(base.face.outline.width_mm, 60) / 2)
    body = Path("cap", rectangle(-half, 6, half, CAP_MM), "outline", "paper", closed=True, corner_mm=2)
    pins = sorted({round(pin.x_mm, 1) for pin in base.face.pins.at})
    legs: list[Shape] = [Path("pins", ((x, 0), (x, 6)), "outline") for x in pins if abs(x) <= half]
    centre = base.face.centre
    if centre is not None:
        deep = -4.0 if base.starter is not None and base.starter.value == "internal" else 2.0
        block = rectangle(-centre.width_mm / 2, deep, centre.width_mm / 2, 6)
        legs.append(Path("block", block, "detail", "tint", closed=True))
    return [*legs, body]


def _flat(lamp: Lamp, base: Base) -> list[Shape]:
    tube, length = _tube(lamp), _shown(_length(lamp))
    guess, clear = _is_guess(lamp), _glass(lamp) == "clear"
    offset = tube * (1 + LEG_GAP_OF_TUBE)
    bends: list[Shape] = [_bend(x, CAP_MM, tube, length, dashed=guess, clear=clear) for x in (-offset, offset)]
    return [*bends, *_cap(base, offset * 2)]


def _square(lamp: Lamp, base: Base) -> list[Shape]:
    side, tube = _length(lamp), _tube(lamp)
    half = side / 2
    paths: list[Shape] = []
    layers: tuple[tuple[float, Fill], ...] = ((0.0, "glass"), (tube, "paper"))
    for inset, fill in layers:
        edge = rectangle(-half + inset, inset, half - inset, side - inset)
        paths.append(
            Path(
                "legs",
                edge,
                "detail",
                fill,
                closed=True,
                corner_mm=max(tube * 1.4 - inset, 2),
                dashed=_is_guess(lamp),
            )
        )
    bridge = rectangle(-tube * 0.6, side * 0.32, tube * 0.6, side - tube)
    paths.append(Path("legs", bridge, "detail", "glass", closed=True, dashed=_is_guess(lamp)))
    width = min(base.face.outline.width_mm, side * 0.6)
    cap = rectangle(-width / 2, side * 0.12, width / 2, side * 0.34)
    return [*paths, Path("cap", cap, "outline", "paper", closed=True, corner_mm=2)]


def _ring(lamp: Lamp, base: Base) -> list[Shape]:
    radius, tube = _shown(_length(lamp)) / 2, _tube(lamp)
    guess = _is_guess(lamp)
    width = base.face.outline.width_mm
    cap = rectangle(-width / 2, -3, width / 2, tube + 3)
    return [
        Disc("legs", 0, radius, radius, "detail", "glass", dashed=guess),
        Disc("legs", 0, radius, radius - tube, "detail", "paper", dashed=guess),
        Path("cap", cap, "outline", "paper", closed=True, corner_mm=2),
    ]


def _straight(lamp: Lamp, base: Base) -> list[Shape]:
    tube, real = _tube(lamp), _length(lamp)
    length = _shown(real)
    clear = _glass(lamp) == "clear"
    half = tube / 2
    glass = Path(
        "legs",
        rectangle(-half, 10, half, length - 10),
        "detail",
        "none" if clear else "glass",
        closed=True,
        dashed=_is_guess(lamp),
    )
    shapes: list[Shape] = [glass]
    if real > BROKEN_OVER_MM:
        shapes += _break_mark(0, half, length / 2)
    for low, high, tip in ((0, 10, -6), (length - 10, length, length + 6)):
        shapes.append(Path("cap", rectangle(-half, low, half, high), "outline", "paper", closed=True))
        root = low if tip < low else high
        shapes += [Path("pins", ((x, root), (x, tip)), "outline") for x in _end_pins(base)]
    return shapes


def _end_pins(base: Base) -> list[float]:
    return sorted({round(pin.x_mm, 1) for pin in base.face.pins.at})


def _u_tube(lamp: Lamp, base: Base) -> list[Shape]:
    tube, length = _tube(lamp), _shown(_length(lamp))
    gap = 110.0  # between the legs; leg spacing is the code's (6 or 1 5/8 inch), not the drawing's to decide
    shapes: list[Shape] = [_bend(0, 12, tube, length, dashed=True, gap_mm=gap)]
    for middle in (-(gap + tube) / 2, (gap + tube) / 2):
        shapes.append(
            Path("cap", rectangle(middle - tube / 2, 0, middle + tube / 2, 12), "outline", "paper", closed=True)
        )
        shapes += [Path("pins", ((middle + x, 0), (middle + x, -6)), "outline") for x in _end_pins(base)]
    return shapes


def _covered(lamp: Lamp, base: Base) -> list[Shape]:
    width = min(base.face.outline.width_mm, 75)
    half = width / 2
    if width > 60:  # wider than a hand closes round: a disc
        body: list[Shape] = [Path("cap", rectangle(-half, 6, half, 30), "outline", "paper", closed=True, corner_mm=4)]
    else:
        body = [
            Path("legs", _spiral_edge(half, row), "detail", "glass", closed=True, corner_mm=5, dashed=True)
            for row in range(5)
        ]
        body.append(
            Path("cap", rectangle(-half * 0.75, 6, half * 0.75, 34), "outline", "paper", closed=True, corner_mm=3)
        )
    pins: list[Shape] = [Path("pins", ((pin.x_mm, 0), (pin.x_mm, 6)), "outline") for pin in base.face.pins.at]
    return [*pins, *body]


def _spiral_edge(half_mm: float, row: int) -> tuple[Point, ...]:
    low = 36 + row * 13
    return ((-half_mm, low), (-half_mm, low + 11), (half_mm, low + 14), (half_mm, low + 3))


def _dimensions(lamp: Lamp, box: tuple[float, float, float, float], units: Units) -> list[Shape]:
    left, bottom, right, top = box
    shapes: list[Shape] = []
    if lamp.length_mm is not None:
        about = "≈ " if lamp.length_mm.is_unsure else ""
        across = lamp.shape == "circular"
        start, end = ((left, bottom), (right, bottom)) if across else ((right, bottom), (right, top))
        off = -8.0 if across else 9.0
        shapes.append(
            Measure(
                "length", start, end, off, about + length_words(lamp.length_mm.value, units), lamp.length_mm.is_unsure
            )
        )
    else:
        shapes.append(Label("length", (left + right) / 2, bottom - 9, "length not known", quiet=True))
    if lamp.tube_mm is not None:
        about = "≈ " if lamp.tube_mm.is_unsure else ""
        shapes.append(
            Label("tube", (left + right) / 2, top + 5, f"tube {about}{length_words(lamp.tube_mm.value, units)}")
        )
    return shapes


_BY_SHAPE: dict[str, Callable[[Lamp, Base], list[Shape]]] = {
    "twin": lambda lamp, base: _bent(lamp, base, 1),
    "long-twin": lambda lamp, base: _bent(lamp, base, 1),
    "quad": lambda lamp, base: _bent(lamp, base, 2),
    "triple": lambda lamp, base: _bent(lamp, base, 3),
    "four-fold": lambda lamp, base: _bent(lamp, base, 4),
    "flat": _flat,
    "square": _square,
    "circular": _ring,
    "linear": _straight,
    "u-bent": _u_tube,
}
