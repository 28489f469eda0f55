"""A base's face laid over the picture: lines in the picture's pixels, for the eye to judge the fit."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base, Outline
    from counter.measure._models import Fit, Measured

    Line = tuple[tuple[float, float], ...]

CORNER_STEPS, CIRCLE_STEPS = 6, 48


def overlay(told: Measured, base: Base, fit: Fit) -> tuple[Line, ...]:
    """Return the outline, the block and the pins of a base where they would be seen; nothing without a card."""
    if len(told.card_px) != 4 or not fit.pairs:
        return ()
    import numpy as np

    from counter.measure._card import long_first
    from counter.measure._view import view_of

    view = view_of(long_first(np.array(told.card_px, float)), told.size_px)
    if view is None or len(told.pins_px) <= max(seen for seen, _ in fit.pairs):
        return ()
    at = view.millimetres(np.array(told.pins_px, float), told.pins_tall_mm)
    seen = [complex(*at[mine]) for mine, _ in fit.pairs]
    drawn = [complex(base.face.pins.at[yours].x_mm, base.face.pins.at[yours].y_mm) for _, yours in fit.pairs]
    way, middle, from_middle = _laid(drawn, seen)
    lines: list[Line] = []
    for points, level in _face_lines(base, told.pins_tall_mm):
        moved = [way * (point - from_middle) + middle for point in points]
        pixels = view.pixels(np.array([(one.real, one.imag) for one in moved]), level)
        lines.append(tuple((round(float(x), 1), round(float(y), 1)) for x, y in pixels))
    return tuple(lines)


def _laid(drawn: Sequence[complex], seen: Sequence[complex]) -> tuple[complex, complex, complex]:
    """Return the unit turn, and the middles that fall on one another."""
    a, b = sum(drawn) / len(drawn), sum(seen) / len(seen)
    product = sum(((q - b) * (p - a).conjugate() for p, q in zip(drawn, seen, strict=True)), 0j)
    return (product / abs(product) if abs(product) > 1e-9 else 1 + 0j), b, a


def _face_lines(base: Base, tall_mm: float) -> list[tuple[list[complex], float]]:

    face = base.face
    radius = (face.pin_diameter_mm.value if face.pin_diameter_mm is not None else 2.0) / 2
    lines = [(_edge(face.outline), 0.0)]
    if face.centre is not None:
        lines.append((_edge(face.centre), tall_mm))
    lines += [(_circle(complex(pin.x_mm, pin.y_mm), radius), tall_mm) for pin in face.pins.at]
    return lines


def _circle(middle: complex, radius: float) -> list[complex]:
    turns = [2 * pi * step / CIRCLE_STEPS for step in range(CIRCLE_STEPS + 1)]
    return [middle + radius * complex(cos(turn), sin(turn)) for turn in turns]


def _edge(outline: Outline) -> list[complex]:
    """Return the closed line of an outline, corners rounded."""
    middle, half_w, half_h = complex(0, outline.offset_y_mm), outline.width_mm / 2, outline.height_mm / 2
    if outline.shape == "circle":
        return _circle(middle, half_w)
    corner = min(outline.corner_mm, half_w, half_h)
    points: list[complex] = []
    for quarter, (x, y) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        pivot = middle + complex(x * (half_w - corner), y * (half_h - corner))
        for step in range(CORNER_STEPS + 1):
            turn = (quarter + step / CORNER_STEPS) * pi / 2
            points.append(pivot + corner * complex(cos(turn), sin(turn)))
    return [*points, points[0]]
