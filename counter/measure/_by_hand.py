"""A picture whose points were put right by hand: the same answer from the points alone."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from counter.language import marked, tr
from counter.measure._measure import answered
from counter.measure._models import Measured, Pattern, Pin

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue

    Point = tuple[float, float]

NO_CAMERA = marked(
    "Seen like this the four corners are no bank card's; put each on its corner, as if it were not rounded."
)
NO_SCALE = marked("Nothing says how large this is: mark a bank card's corners, or two points and their distance.")
FLAT_ONLY = marked("Scale from one length: right only if the camera stood straight above.")
LEAST_PX = 8.0
FLAT_OF_SPACING = 0.04  # by one length, which may lie on the face: ends of pins stand nearer to the camera


def by_card(
    catalogue: Catalogue, told: Measured, card_px: Sequence[Point], pins_px: Sequence[Point], notch: str | None
) -> Measured:
    """Measure by the corners of a card and the middles of the pins' ends, as placed by hand."""
    import numpy as np

    from counter.measure._card import long_first
    from counter.measure._view import view_of

    corners = np.array(card_px, float)
    view = view_of(long_first(corners), told.size_px) if _is_quad(corners) else None
    moved = told.model_copy(update={"card_px": tuple(card_px), "pins_px": tuple(pins_px)})
    if view is None:
        return _unanswered(moved, tr(NO_CAMERA))
    at = view.millimetres(np.array(pins_px, float).reshape(-1, 2), told.pins_tall_mm)
    moved = moved.model_copy(update={"tilt_deg": round(view.tilt_deg, 1)})
    return answered(catalogue, moved, pattern_of([(float(x), float(y)) for x, y in at], notch))


def by_length(
    catalogue: Catalogue,
    told: Measured,
    ends_px: tuple[Point, Point],
    length_mm: float,
    pins_px: Sequence[Point],
    notch: str | None,
) -> Measured:
    """Measure by one known length; without a card nothing tells how the camera stood."""
    (ax, ay), (bx, by) = ends_px
    long_px = hypot(ax - bx, ay - by)
    moved = told.model_copy(update={"pins_px": tuple(pins_px)})
    if long_px < LEAST_PX or length_mm <= 0:
        return _unanswered(moved, tr(NO_SCALE))
    scale = length_mm / long_px
    moved = moved.model_copy(update={"scale_mm_per_px": round(scale, 5), "tilt_deg": None})
    pattern = pattern_of([(x * scale, -y * scale) for x, y in pins_px], notch)
    return answered(catalogue, moved, pattern, (tr(FLAT_ONLY),), of_spacing=FLAT_OF_SPACING)


def _unanswered(told: Measured, problem: str) -> Measured:
    empty: dict[str, object] = {
        "pattern": None,
        "looks": {},
        "candidates": (),
        "spacing_mm": None,
        "problems": (problem,),
    }
    return told.model_copy(update=empty)


def _is_quad(corners: object) -> bool:
    import numpy as np

    points = np.asarray(corners)
    if points.shape != (4, 2):
        return False
    sides = np.linalg.norm(points - np.roll(points, -1, axis=0), axis=1)
    return bool(sides.min() > LEAST_PX)


def pattern_of(places: Sequence[Point], notch: str | None) -> Pattern:
    """Return pins placed by hand in the part's own frame: origin in their middle, their long side level."""
    if not places:
        return Pattern(pins=())
    import numpy as np

    from counter.measure._patterns import arrangement_of

    at = np.array(places, float)
    arrangement = arrangement_of(at)
    own = at - at.mean(0)
    if len(at) > 1:
        from counter.measure._measure import turn_of

        turn = -turn_of(at, arrangement)
        c, s = np.cos(turn), np.sin(turn)
        own = own @ np.array([[c, s], [-s, c]])
    pins = tuple(Pin(x_mm=round(float(x), 3), y_mm=round(float(y), 3)) for x, y in own)
    return Pattern(pins=pins, arrangement=arrangement, notch=notch, block=True if notch else None)
