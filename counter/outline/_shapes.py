"""The few shapes every drawing is made of: plain tuples in millimetres, y up, to be painted or kept in a file.

Named tuples and not dataclasses: these are made before the first paint, where a dataclass costs a millisecond each.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

Pen = Literal["outline", "detail", "thin", "centre", "accent", "none"]
Fill = Literal["none", "ink", "paper", "glass", "dark-glass", "tint"]
Point = tuple[float, float]


class Path(NamedTuple):
    """A line through points; a segment after a `round` point bends with that corner radius, millimetres."""

    part: str
    points: tuple[Point, ...]
    pen: Pen
    fill: Fill = "none"
    closed: bool = False
    corner_mm: float = 0.0
    dashed: bool = False


class Disc(NamedTuple):
    """A circle by its middle and radius, millimetres."""

    part: str
    x_mm: float
    y_mm: float
    radius_mm: float
    pen: Pen
    fill: Fill = "none"
    dashed: bool = False


class Label(NamedTuple):
    """Words beside a drawing; their size is the painter's, their place is in millimetres."""

    part: str
    x_mm: float
    y_mm: float
    text: str
    align: Literal["left", "middle", "right"] = "middle"
    quiet: bool = False


class Measure(NamedTuple):
    """A dimension line between two points, set off to the side by `off_mm`, with its words and confidence."""

    part: str
    start: Point
    end: Point
    off_mm: float
    text: str
    dashed: bool = False


Shape = Path | Disc | Label | Measure


class Drawing(NamedTuple):
    """Shapes, the box around the solid ones, and the reach of what is written around it.

    Boxes are left, bottom, right, top in millimetres.
    """

    shapes: tuple[Shape, ...]
    box: tuple[float, float, float, float]
    reach: tuple[float, float, float, float]

    @property
    def width_mm(self) -> float:
        """Width with all that is written around."""
        return self.reach[2] - self.reach[0]

    @property
    def height_mm(self) -> float:
        """Height with all that is written around."""
        return self.reach[3] - self.reach[1]


def drawing(shapes: tuple[Shape, ...], around: tuple[float, float, float, float] = (0, 0, 0, 0)) -> Drawing:
    """Return shapes as a drawing whose writing reaches `around` (left, below, right, above) past the box, in mm."""
    left, bottom, right, top = box = box_of(shapes)
    return Drawing(shapes, box, (left - around[0], bottom - around[1], right + around[2], top + around[3]))


def box_of(shapes: tuple[Shape, ...]) -> tuple[float, float, float, float]:
    """Return the box around paths and discs; labels and measures hang outside it."""
    xs: list[float] = []
    ys: list[float] = []
    for shape in shapes:
        if isinstance(shape, Path):
            xs += [x for x, _ in shape.points]
            ys += [y for _, y in shape.points]
        elif isinstance(shape, Disc):
            xs += [shape.x_mm - shape.radius_mm, shape.x_mm + shape.radius_mm]
            ys += [shape.y_mm - shape.radius_mm, shape.y_mm + shape.radius_mm]
    if not xs:
        return (0.0, 0.0, 0.0, 0.0)
    return (min(xs), min(ys), max(xs), max(ys))


def rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle, clockwise from the lower left."""
    return ((left, bottom), (left, top), (right, top), (right, bottom))
