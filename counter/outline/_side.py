"""The side view of the glass to one scale: legs, bends and length, so that legs can be counted in the drawing."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from counter.language import tr
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
FULL_ROOM_MM = (6.0, 12.0, 16.0, 9.0)
LEG_GAP_OF_TUBE = 0.35
BEHIND_OF_TUBE = 0.8  # how far each tube behind is set to the side
BROKEN_OVER_MM = 330.0  # longer lamps are shown with a break, or thumbnails could not share one scale
ARC_STEPS = 10
U_GAP_MM = 110.0  # between legs of a U; leg spacing is the code's (6 or 1 5/8 inch), not the drawing's to decide


def side_view(lamp: Lamp, base: Base, *, full: bool = False, units: Units = "mm") -> Drawing:
    """Return the lamp from the side; `full` adds its length, dashed where not sure, and a leader to its tube.

    Glass is dashed where its thickness is not known or not sure; an unsure length is dashed at its dimension.
    """
    draw = _BY_SHAPE.get(lamp.shape or "none", _covered)
    shapes = tuple(draw(lamp, base))
    box = box_of(shapes)
    # A thumbnail is no place to measure: dashes of tubes behind tubes would only blur the legs to be counted.
    if not full:
        return drawing(tuple(_solid(shape) for shape in shapes))
    lamp_alone = drawing(shapes, FULL_ROOM_MM)  # leaders hang outside its box as dimensions do
    return lamp_alone._replace(shapes=shapes + tuple(_dimensions(lamp, base, box, units)))


def _solid(shape: Shape) -> Shape:
    return shape._replace(dashed=False) if isinstance(shape, (Path, Disc)) else shape


def _tube(lamp: Lamp) -> float:
    return lamp.tube_mm.value if lamp.tube_mm is not None else PLAIN_TUBE_MM


def _length(lamp: Lamp) -> float:
    return lamp.length_mm.value if lamp.length_mm is not None else PLAIN_LENGTH_MM


def _shown(length_mm: float) -> float:
    return min(length_mm, BROKEN_OVER_MM)


def _is_guess(lamp: Lamp) -> bool:
    """Whether the thickness of the glass is drawn without being known for sure."""
    return lamp.tube_mm is None or lamp.tube_mm.is_unsure


def _glass(lamp: Lamp) -> str:
    return lamp.glass.value if lamp.glass is not None else "dark" if lamp.kind == "uv-a" else "white"


FILLS: dict[str, Fill] = {"white": "glass", "clear": "none", "dark": "dark-glass"}


def _bend(x_mm: float, y_mm: float, tube: float, top: float, lamp: Lamp, gap_mm: float | None = None) -> list[Shape]:
    """Return one bent tube as a closed outline standing on (x, y), two legs and a round top, and what clear glass
    lets see."""
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
    body = Path("legs", tuple(points), "detail", FILLS[_glass(lamp)], closed=True, dashed=_is_guess(lamp))
    return [body, *_seen_inside(lamp, [x_mm - inner - tube / 2, x_mm + inner + tube / 2], y_mm, tube, crown)]


def _seen_inside(lamp: Lamp, middles: list[float], foot: float, tube: float, top: float) -> list[Shape]:
    """Return the electrodes at the foot of each leg of clear glass, and two strokes of light on it."""
    if _glass(lamp) != "clear":
        return []
    shapes: list[Shape] = []
    for x in middles:
        coil = [(x + tube * 0.28 * (-1) ** i, foot + 4 + i * 2.5) for i in range(5)]
        shapes.append(Path("electrode", tuple(coil), "outline"))
        shapes += [
            Path("shine", ((x - tube * 0.3, y), (x + tube * 0.3, y + tube * 0.7)), "thin")
            for y in (foot + (top - foot) * 0.55, foot + (top - foot) * 0.55 + tube * 0.6)
        ]
    return shapes


def _break_mark(x_mm: float, half_mm: float, y_mm: float) -> list[Shape]:
    zig = ((x_mm - half_mm - 3, y_mm - 4), (x_mm - half_mm / 3, y_mm + 4), (x_mm + half_mm / 3, y_mm - 4))
    upper = (*zig, (x_mm + half_mm + 3, y_mm + 4))
    lower = tuple((x, y - 7) for x, y in upper)
    gap = Path("break", (*upper, *reversed(lower)), "none", "paper", closed=True)
    return [gap, Path("break", upper, "thin"), Path("break", lower, "thin")]


def _bent(lamp: Lamp, base: Base, bends: int) -> list[Shape]:
    tube, length = _tube(lamp), _shown(_length(lamp))
    step = tube * BEHIND_OF_TUBE
    first = -step * (bends - 1) / 2
    shapes: list[Shape] = []
    for behind in range(bends - 1, -1, -1):
        x, lift = first + behind * step, behind * tube * 0.28
        shapes += _bend(x, CAP_MM, tube, length - (bends - 1) * tube * 0.28 + lift, lamp)
    half = tube * (1 + LEG_GAP_OF_TUBE / 2) + step * (bends - 1) / 2
    if _length(lamp) > BROKEN_OVER_MM:
        shapes += _break_mark(0, half, length * 0.6)
    return [*shapes, *_cap(base, half)]


def _cap(base: Base, half_glass_mm: float) -> list[Shape]:
    half = max(half_glass_mm + 2, min(base.face.outline.width_mm, 60) / 2)
    body = Path("cap", rectangle(-half, 6, half, CAP_MM), "outline", "paper", closed=True, corner_mm=2)
    pins = sorted({round(pin.x_mm, 1) for pin in base.face.pins.at})
    has_starter = base.starter is not None and base.starter.value == "internal"
    # A block that holds the starter reaches beyond the pins, one without ends behind them; the first to touch is y 0.
    tip, deep = (2.5, 0.0) if has_starter and base.face.centre is not None else (0.0, 3.0)
    legs: list[Shape] = [Path("pins", ((x, tip), (x, 6)), "outline") for x in pins if abs(x) <= half]
    centre = base.face.centre
    if centre is not None:
        block = rectangle(-centre.width_mm / 2, deep, centre.width_mm / 2, 6)
        legs.append(Path("block", block, "detail", "tint", closed=True))
    return [*legs, body]


def _flat(lamp: Lamp, base: Base) -> list[Shape]:
    tube, length = _tube(lamp), _shown(_length(lamp))
    offset = tube * (1 + LEG_GAP_OF_TUBE)
    bends = [shape for x in (-offset, offset) for shape in _bend(x, CAP_MM, tube, length, lamp)]
    return [*bends, *_cap(base, offset * 2)]


def _square(lamp: Lamp, base: Base) -> list[Shape]:
    side, tube = _length(lamp), _tube(lamp)
    half = side / 2
    paths: list[Shape] = []
    glass = FILLS[_glass(lamp)]
    layers: tuple[tuple[float, Fill], ...] = ((0.0, glass), (tube, "paper"))
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
    paths.append(Path("legs", bridge, "detail", glass, closed=True, dashed=_is_guess(lamp)))
    width = min(base.face.outline.width_mm, side * 0.6)
    cap = rectangle(-width / 2, side * 0.12, width / 2, side * 0.34)
    return [*paths, Path("cap", cap, "outline", "paper", closed=True, corner_mm=2)]


def _ring(lamp: Lamp, base: Base) -> list[Shape]:
    radius, tube = _shown(_length(lamp)) / 2, _tube(lamp)
    guess = _is_guess(lamp)
    width = base.face.outline.width_mm
    cap = rectangle(-width / 2, -3, width / 2, tube + 3)
    return [
        Disc("legs", 0, radius, radius, "detail", FILLS[_glass(lamp)], dashed=guess),
        Disc("legs", 0, radius, radius - tube, "detail", "paper", dashed=guess),
        Path("cap", cap, "outline", "paper", closed=True, corner_mm=2),
    ]


def _straight(lamp: Lamp, base: Base) -> list[Shape]:
    tube, real = _tube(lamp), _length(lamp)
    length = _shown(real)
    half = tube / 2
    edge = rectangle(-half, 10, half, length - 10)
    shapes: list[Shape] = [
        Path("legs", edge, "detail", FILLS[_glass(lamp)], closed=True, dashed=_is_guess(lamp)),
        *_seen_inside(lamp, [0.0], 10, tube, length - 10),
    ]
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
    gap = U_GAP_MM
    shapes: list[Shape] = _bend(0, 12, tube, length, lamp, gap_mm=gap)
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


def _dimensions(lamp: Lamp, base: Base, box: tuple[float, float, float, float], units: Units) -> list[Shape]:
    left, bottom, right, top = box
    shapes: list[Shape] = []
    if lamp.length_mm is not None:
        start, end, off = _length_ends(lamp, base, box)
        about = "≈ " if lamp.length_mm.is_unsure else ""
        words = about + length_words(lamp.length_mm.value, units)
        shapes.append(Measure("length", start, end, off, words, lamp.length_mm.is_unsure))
    else:
        shapes.append(Label("length", (left + right) / 2, bottom - 9, tr("length not known"), quiet=True))
    if lamp.tube_mm is not None:
        about = "≈ " if lamp.tube_mm.is_unsure else ""
        shapes += _leader(_leg_edge(lamp), top, f"⌀ {about}{length_words(lamp.tube_mm.value, units)}")
    return shapes


def _length_ends(lamp: Lamp, base: Base, box: tuple[float, float, float, float]) -> tuple[Point, Point, float]:
    """Return where the length begins and ends, both on the lamp, and how far outside them its line runs.

    Caps of a tube are measured without their pins; of a lamp with one base all counts, from what touches first.
    """
    _, bottom, right, _ = box
    shown = _shown(_length(lamp))
    if lamp.shape == "circular":
        return (-shown / 2, shown / 2), (shown / 2, shown / 2), bottom - shown / 2 - 8
    if lamp.shape == "square":
        return (shown / 2, 0), (shown / 2, shown), 9.0
    if lamp.shape == "linear":
        return (_tube(lamp) / 2, 0), (_tube(lamp) / 2, shown), right - _tube(lamp) / 2 + 9
    pins = [pin.x_mm for pin in base.face.pins.at if abs(pin.x_mm) <= right]
    foot = right if lamp.shape == "u-bent" else max(pins, default=0.0)
    return (foot, 0), (_crown(lamp), shown), 9.0


def _crown(lamp: Lamp) -> float:
    """Return where across the highest glass stands: of bends behind each other, the one behind."""
    bends = {"quad": 2, "triple": 3, "four-fold": 4}.get(lamp.shape or "", 1)
    if lamp.shape == "flat":
        return _tube(lamp) * (1 + LEG_GAP_OF_TUBE)
    return _tube(lamp) * BEHIND_OF_TUBE * (bends - 1) / 2


def _leg_edge(lamp: Lamp) -> Point:
    """Return a point on the outer edge of the leftmost leg, below its bend: where a leader can point."""
    tube, shown = _tube(lamp), _shown(_length(lamp))
    outer = tube * (1 + LEG_GAP_OF_TUBE / 2)
    if lamp.shape == "linear":
        return -tube / 2, shown * 0.8
    if lamp.shape == "circular":
        return -shown / 2, shown / 2
    if lamp.shape == "square":
        return -shown / 2, shown * 0.6
    if lamp.shape == "u-bent":
        return -(U_GAP_MM / 2 + tube), shown * 0.4
    if lamp.shape == "flat":
        return -tube * (1 + LEG_GAP_OF_TUBE) - outer, shown - outer - 6
    bends = {"quad": 2, "triple": 3, "four-fold": 4}.get(lamp.shape or "", 1)
    front = shown - (bends - 1) * tube * 0.28
    return -tube * BEHIND_OF_TUBE * (bends - 1) / 2 - outer, front - outer - 6


def _leader(tip: Point, top: float, words: str) -> list[Shape]:
    """Return a line from one leg to the thickness of its tube, written above the lamp."""
    x, y = tip
    return [
        Disc("tube", x, y, 0.9, "none", "ink"),
        Path("tube", ((x, y), (x - 4, y + 7), (x - 4, top + 5), (x - 1, top + 5)), "thin"),
        Label("tube", x, top + 5, words, "left"),
    ]


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
