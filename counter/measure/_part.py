"""Where on the counter the lamp's base lies: what is neither counter nor card."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from counter.measure._card import Floats
    from counter.measure._picture import Pixels
    from counter.measure._view import View

LEVELS = (110, 70, 40, 25)  # how unlike the counter, clearest first
LEAST_MM2, MOST_MM2 = 25.0, 9000.0
CARD_ROOM_MM = 2.0
MOST = 8


class Place(NamedTuple):
    """A round place that something lies in, millimetres on the card's level."""

    x: float
    y: float
    reach: float
    share: float  # of its circle that it fills


def places_of(image: Pixels, view: View) -> list[Place]:
    """Return the places of things beside the card, the likeliest to be a lamp's base first."""
    import cv2
    import numpy as np

    from counter.measure._card import CARD_MM, SMALL_PX, unlike_ground

    scale = min(1.0, SMALL_PX / max(image.shape[:2]))
    small = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    away = unlike_ground(cv2.cvtColor(cv2.GaussianBlur(small, (0, 0), 1.0), cv2.COLOR_BGR2LAB))
    w, h = CARD_MM[0] / 2 + CARD_ROOM_MM, CARD_MM[1] / 2 + CARD_ROOM_MM
    card = view.pixels(np.array([(-w, h), (w, h), (w, -h), (-w, -h)])) * scale
    cv2.fillPoly(away, [np.round(card).astype(np.int32)], 0)
    found: list[Place] = []
    for level in LEVELS:
        mask = cv2.morphologyEx((away > level).astype(np.uint8), cv2.MORPH_OPEN, np.ones((5, 5), np.uint8))
        mask = cv2.morphologyEx(mask, cv2.MORPH_CLOSE, np.ones((9, 9), np.uint8))
        outlines, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
        for outline in outlines:
            place = _place(outline, view, scale)
            if place is not None and not any(_is_same(place, one) for one in found):
                found.append(place)
    return sorted(found, key=lambda one: -one.share * min(one.reach, 15.0))[:MOST]


def _place(outline: Pixels, view: View, scale: float) -> Place | None:
    import cv2
    import numpy as np

    flat = view.millimetres(outline.reshape(-1, 2) / scale).astype(np.float32)
    area = cv2.contourArea(flat)
    if not LEAST_MM2 <= area <= MOST_MM2:
        return None
    (x, y), reach = cv2.minEnclosingCircle(flat)
    return Place(float(x), float(y), float(reach), float(area / (np.pi * reach**2)))


def _is_same(one: Place, other: Place) -> bool:
    return (one.x - other.x) ** 2 + (one.y - other.y) ** 2 < 16 and abs(one.reach - other.reach) < 0.25 * other.reach


def as_floats(image: Pixels) -> Floats:
    """Return the picture in Lab colours, whose distances are about what an eye tells apart."""
    import cv2
    import numpy as np

    return np.asarray(cv2.cvtColor(image, cv2.COLOR_BGR2LAB), np.float32)
