"""Pins on a rectified picture: an end of one colour, a side of another that leans to the foot, plastic around."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.measure._models import PIN_TALL_MM

if TYPE_CHECKING:
    from counter.measure._card import Floats
    from counter.measure._view import View

RADII_MM = (1.0, 1.25, 2.5, 4.0)  # pins of 2 to 2.5, posts of 5, the single contact of 8
COARSE_PX_PER_MM = 6.0
MOST_SPOTS = 20
LEAST_SCORE = 0.15
CLOSEST_MM = 1.2
RING_MM = 0.9  # how far around a pin the plastic is looked at
UNEVEN = 25.0  # square of the colour steps that even plastic has: grain and noise
DARK_END = 0.5  # what a pin counts whose end, which faces the light, is darker than its side
LEAST_SIDE_PX = 20.0  # of a pin's side that must be seen before it says anything


class Spot(NamedTuple):
    """A round spot: middle in millimetres on the level of the pins' ends, radius, and how pin-like it is."""

    x: float
    y: float
    radius: float
    score: float


class Patch(NamedTuple):
    """A piece of a level, straight from above: pixels, millimetres of the upper left one, pixels a millimetre."""

    image: Floats
    left: float
    top: float
    scale: float

    def at(self, x_px: float, y_px: float) -> tuple[float, float]:
        """Return millimetres of a pixel; y up."""
        return self.left + x_px / self.scale, self.top - y_px / self.scale


def patch(
    image: Floats, view: View, centre: tuple[float, float], half_mm: float, level_mm: float, scale: float
) -> Patch:
    """Return a square of a level around a point, as if seen from straight above."""
    import cv2
    import numpy as np

    size = round(2 * half_mm * scale)
    left, top = centre[0] - half_mm, centre[1] + half_mm
    to_mm = np.array([[1 / scale, 0, left], [0, -1 / scale, top], [0, 0, 1.0]])
    matrix = view.homography(level_mm) @ to_mm
    flat = cv2.warpPerspective(
        image, matrix, (size, size), flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP, borderMode=cv2.BORDER_REPLICATE
    )
    return Patch(flat, left, top, scale)


class Maps(NamedTuple):
    """How pin-like each pixel of a patch is as the middle of a pin's end, by radius in millimetres."""

    piece: Patch
    scores: dict[float, Floats]


def maps_of(image: Floats, view: View, centre: tuple[float, float], half_mm: float) -> Maps:
    """Return the scores of a square on the level of the pins' ends."""
    import numpy as np

    piece = patch(image, view, centre, half_mm, PIN_TALL_MM, COARSE_PX_PER_MM)
    to_foot = -view.lean(np.array(centre)) * PIN_TALL_MM
    return Maps(piece, {radius: pin_scores(piece, radius, to_foot) for radius in RADII_MM})


def spots_in(maps: Maps) -> dict[float, list[Spot]]:
    """Return the round spots of a patch by radius, clearest first."""
    return {radius: _apart(_peaks(scores, maps.piece, radius)) for radius, scores in maps.scores.items()}


def _apart(spots: list[Spot]) -> list[Spot]:
    """Leave out what lies beside a clearer spot."""
    kept: list[Spot] = []
    for spot in spots:
        close = max(CLOSEST_MM, spot.radius) ** 2
        if all((spot.x - one.x) ** 2 + (spot.y - one.y) ** 2 > close for one in kept):
            kept.append(spot)
    return kept[:MOST_SPOTS]


def pin_scores(piece: Patch, radius: float, to_foot: Floats) -> Floats:
    """Return for each pixel how much better three colours explain what is around it than one does.

    The colours are those of the pin's end, of its side as far as the slant shows it, and of the plastic around both;
    the score is the logarithm of the ratio of the squares left over (the likelihood ratio of a pixel, doubled).
    """
    import cv2
    import numpy as np

    kernels = _kernels(radius * piece.scale, to_foot * piece.scale * (1, -1), RING_MM * piece.scale)
    counts = [float(kernel.sum()) for kernel in kernels]
    planes = cv2.split(piece.image)
    sums = [[cv2.filter2D(plane, cv2.CV_32F, kernel) for plane in planes] for kernel in kernels]
    squares = cv2.filter2D((piece.image**2).sum(2), cv2.CV_32F, kernels[0] + kernels[1] + kernels[2])
    whole = sum(sum(parts) ** 2 for parts in zip(*sums, strict=True)) / sum(counts)
    apart = sum(sum(plane**2 for plane in one) / max(n, 1e-3) for one, n in zip(sums, counts, strict=True) if n > 1)
    least = sum(counts) * UNEVEN
    score = np.log((np.maximum(squares - whole, 0) + least) / (np.maximum(squares - apart, 0) + least))
    if counts[1] > LEAST_SIDE_PX:
        is_dark = sums[0][0] / counts[0] < sums[1][0] / counts[1] - 2
        score = np.where(is_dark, DARK_END * score, score)
    return np.asarray(score, np.float32)


def _kernels(radius: float, to_foot: Floats, ring: float) -> tuple[Floats, Floats, Floats]:
    """Return the shapes of a pin's end, its side and the plastic around, in pixels, the end in the middle."""
    import numpy as np

    long = float(np.hypot(*to_foot))
    reach = int(np.ceil(long + radius + ring)) + 1
    y, x = np.mgrid[-reach : reach + 1, -reach : reach + 1].astype(np.float32)
    way = to_foot / max(long, 1e-6)
    along = np.clip(x * way[0] + y * way[1], 0, long)
    away, off = np.hypot(x - along * way[0], y - along * way[1]), np.hypot(x, y)
    end = np.clip(radius * 0.9 + 0.5 - off, 0, 1)
    side = np.clip(radius * 0.9 + 0.5 - away, 0, 1) * np.clip(off - radius * 1.1 + 0.5, 0, 1)
    around = np.clip(away - radius * 1.2 + 0.5, 0, 1) * np.clip(radius + ring + 0.5 - away, 0, 1)
    return end, side, around


def _peaks(scores: Floats, piece: Patch, radius: float) -> list[Spot]:
    import cv2
    import numpy as np

    size = int(radius * piece.scale) * 2 + 1
    top = (scores == cv2.dilate(scores, np.ones((size, size), np.uint8))) & (scores > LEAST_SCORE)
    rows, columns = np.nonzero(top)
    order = np.argsort(-scores[rows, columns])[: 2 * MOST_SPOTS]
    return [
        Spot(*piece.at(float(columns[at]), float(rows[at])), radius, float(scores[rows[at], columns[at]]))
        for at in order
    ]
