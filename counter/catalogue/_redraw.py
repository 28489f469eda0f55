"""Draw the pins of a base as far apart as the shop measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue._models import Pin

if TYPE_CHECKING:
    from counter.catalogue._models import Base

SQUARE_MM = 0.1  # sides closer than this are one square, and both take the measured length


def redrawn(base: Base, spacing_mm: float) -> Base:
    """Return the base with its drawn pins moved to `spacing_mm`, unless the pins are confirmed themselves.

    Pins in one row: each pair about its own middle. A rectangle: the side nearest to the spacing,
    about the middle of the pattern. How sure the drawing is stays as it was.
    """
    pins = base.face.pins
    if pins.confidence == "confirmed":
        return base
    is_row = len({pin.y_mm for pin in pins.at}) == 1 and len(pins.at) % 2 == 0
    at = _row(pins.at, spacing_mm) if is_row else _rectangle(pins.at, spacing_mm)
    face = base.face.model_copy(update={"pins": pins.model_copy(update={"at": at})})
    return base.model_copy(update={"face": face})


def _row(at: tuple[Pin, ...], spacing_mm: float) -> tuple[Pin, ...]:
    ordered = sorted(at, key=lambda pin: pin.x_mm)
    pairs = zip(ordered[::2], ordered[1::2], strict=True)
    middles = [((left.x_mm + right.x_mm) / 2, left.y_mm) for left, right in pairs]
    half = spacing_mm / 2
    return tuple(Pin(x_mm=x_mm + side, y_mm=y_mm) for x_mm, y_mm in middles for side in (-half, half))


def _rectangle(at: tuple[Pin, ...], spacing_mm: float) -> tuple[Pin, ...]:
    xs, ys = {pin.x_mm for pin in at}, {pin.y_mm for pin in at}
    if len(at) != 4 or len(xs) != 2 or len(ys) != 2:
        return at
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    is_square = abs(width - height) < SQUARE_MM
    is_wide = abs(width - spacing_mm) <= abs(height - spacing_mm)
    by_x = spacing_mm / width if is_square or is_wide else 1
    by_y = spacing_mm / height if is_square or not is_wide else 1
    return tuple(Pin(x_mm=pin.x_mm * by_x, y_mm=pin.y_mm * by_y) for pin in at)
