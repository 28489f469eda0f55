"""How to hold the lamp, drawn: a hand round the glass, the eye on the pins, the key edge up; left and right depend
on it."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from counter.outline._shapes import Disc, Drawing, Path, Shape, drawing, rectangle

if TYPE_CHECKING:
    from counter.catalogue import Base

STEPS = 12


def hold_view(base: Base) -> Drawing:
    """Return an eye looking at the base from the left, and the hand that holds the glass.

    The key edge carries its notch where the base has a key.
    """
    has_key = base.face.notches is not None or bool(base.family_notches)
    shapes: list[Shape] = [*_eye(), Path("sight", ((-27, 0), (-11, 0)), "centre")]
    if base.mount == "two-ends":
        shapes += _tube()
    else:
        shapes += _plug(has_key)
    shapes += _hand(12.0 if base.mount != "two-ends" else 8.0)
    if has_key:
        shapes.append(Path("up", ((3, 19), (3, 28)), "accent"))
        shapes.append(Path("up", ((0, 24.5), (3, 28.5), (6, 24.5)), "accent"))
    return drawing(tuple(shapes))


def _eye() -> list[Shape]:
    lid = [(-40 + 12 * cos(pi * i / STEPS), 7 * sin(pi * i / STEPS)) for i in range(STEPS + 1)]
    under = [(x, -y) for x, y in lid]
    return [
        Path("eye", tuple(lid), "detail"),
        Path("eye", tuple(under), "detail"),
        Disc("eye", -38, 0, 3.2, "detail", "ink"),
    ]


def _hand(half_mm: float) -> list[Shape]:
    """Return a fist round glass of that half thickness: the back of the hand below, four fingers over it, a thumb."""
    wrist = ((34, -half_mm - 2), (58, -half_mm - 2), (64, -half_mm - 17), (44, -half_mm - 17))
    shapes: list[Shape] = [Path("hand", wrist, "detail", "paper", closed=True, corner_mm=5)]
    for at in range(4):
        left = 30 + at * 7
        finger = rectangle(left, -half_mm - 5, left + 7, half_mm + 3 - abs(at - 1) * 1.2)
        shapes.append(Path("hand", finger, "detail", "paper", closed=True, corner_mm=3.4))
    thumb = ((18, -half_mm - 1), (22, -half_mm + 6), (34, -half_mm - 1), (34, -half_mm - 8), (26, -half_mm - 8))
    return [*shapes, Path("hand", thumb, "detail", "paper", closed=True, corner_mm=4)]


def _plug(has_key: bool) -> list[Shape]:
    shapes: list[Shape] = [Path("pins", ((-9, y), (-3, y)), "outline") for y in (-9.0, 9.0)]
    shapes.append(Path("block", rectangle(-7, -5, -3, 5), "detail", "tint", closed=True))
    shapes.append(Path("cap", rectangle(-3, -15, 10, 15), "outline", "paper", closed=True, corner_mm=2))
    outer = ((10, -12), (58, -12), (58, 12), (10, 12))
    shapes.append(Path("legs", outer, "detail", "glass", closed=True, corner_mm=8))
    shapes.append(Path("legs", ((10, 0), (47, 0)), "thin"))
    if has_key:
        shapes.append(Path("notch", ((-7, 5), (-5.5, 5), (-5.5, 2.5), (-3, 2.5)), "accent"))
    return shapes


def _tube() -> list[Shape]:
    shapes: list[Shape] = [Path("pins", ((-9, y), (-3, y)), "outline") for y in (-3.0, 3.0)]
    shapes.append(Path("legs", rectangle(8, -8, 58, 8), "detail", "glass", closed=True))
    shapes.append(Path("cap", rectangle(-3, -8.5, 8, 8.5), "outline", "paper", closed=True))
    return shapes
