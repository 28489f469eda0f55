"""How high pins stand, by how far their feet are seen from their ends: a slanted camera sees a pin's side between.

What counts is the height over the camera's own: it says how much farther apart ends look than feet. So a lens that
was taken for another one is put right along with it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.measure._models import PIN_TALL_MM
from counter.measure._pin_end import sharpened

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.measure._card import Floats
    from counter.measure._pins import Spot
    from counter.measure._view import View

SPREAD_MM = 0.8  # of the height that pins seem to have, standard deviation: pins, and lenses taken for others
LOWEST_MM, HIGHEST_MM, STEP_MM = 4.0, 10.0, 0.2
ALONG_MM = 0.08  # from place to place along a pin's side
ACROSS = (-0.4, -0.2, 0.0, 0.2, 0.4)  # of the radius: lines along the side
EVEN = 5.0  # square of the colour steps that an even surface has
SHARP, MOST_SHARP = 5.0, 20.0  # what a look at a side counts, by the square root of its area in mm2, to this area
SHADOW = 0.3  # how often a side's end is something else: shadow, block, a pin behind


def standing(image: Floats, view: View, spots: Sequence[Spot]) -> tuple[list[Spot], float]:
    """Return pins' ends on the usual height's level as a closer look shows them, and how high they stand, mm."""
    tall_mm = tall_of(image, view, spots)
    ends = [sharpened(image, view, spot, tall_mm) for spot in spots]
    return ends, tall_of(image, view, ends)


def tall_of(image: Floats, view: View, spots: Sequence[Spot]) -> float:
    """Return how high pins stand whose ends are seen at these places of the usual height's level, mm."""
    import numpy as np

    heights = np.arange(LOWEST_MM, HIGHEST_MM + STEP_MM / 2, STEP_MM)
    told = -(((heights - PIN_TALL_MM) / SPREAD_MM) ** 2) / 2
    for spot in spots:
        likely = _likely(image, view, spot, heights)
        told = told + np.log((1 - SHADOW) * likely / likely.mean() + SHADOW)
    chance = np.exp(told - told.max())
    return float((chance * heights).sum() / chance.sum())


def _likely(image: Floats, view: View, spot: Spot, heights: Floats) -> Floats:
    """Return how likely one pin makes each height: its side of one colour to its foot, then plastic, lit unevenly."""
    import numpy as np

    lean = -view.lean(np.array([spot.x, spot.y]))
    long = float(np.hypot(*lean))
    way = lean / max(long, 1e-9)
    along = np.arange(spot.radius * 1.15, long * HIGHEST_MM + spot.radius * 1.8, ALONG_MM)
    values = _side(image, view, spot, way, along)
    feet = long * heights + spot.radius * 0.97 * (1 - heights / view.eye[2])
    left = _left_over(along, values, np.searchsorted(along, feet))
    area = len(along) * ALONG_MM * spot.radius * (ACROSS[-1] - ACROSS[0])
    costs = np.log(left + EVEN) * SHARP * min(area, MOST_SHARP) ** 0.5
    return np.asarray(np.exp(costs.min() - costs))


def _side(image: Floats, view: View, spot: Spot, way: Floats, along: Floats) -> Floats:
    """Return the colours along lines from a pin's end toward its foot, on the ends' level: line, place, colour."""
    import numpy as np

    from counter.measure._card import sampled

    across = np.array(ACROSS) * spot.radius
    middle = np.array([spot.x, spot.y]) + along[None, :, None] * way
    at = middle + across[:, None, None] * np.array([-way[1], way[0]])
    return sampled(image, view.pixels(at.reshape(-1, 2), PIN_TALL_MM)).reshape(len(across), len(along), -1)


def _left_over(along: Floats, values: Floats, feet: Floats) -> Floats:
    """Return for each foot the mean square left over by one colour before it and one that changes evenly beyond."""
    import numpy as np

    lines = len(values)
    a = along - along.mean()
    terms = np.stack([np.ones_like(a), a, a * a], axis=1) * lines
    seen = np.concatenate([values.sum(0), (values * a[None, :, None]).sum(0)], axis=1)
    square = np.concatenate([[0.0], np.cumsum((values**2).sum((0, 2)))])
    terms, seen = (np.pad(np.cumsum(one, axis=0), ((1, 0), (0, 0))) for one in (terms, seen))
    near, n = seen[feet, : values.shape[2]], np.maximum(terms[feet, 0], 1)
    inside = square[feet] - (near**2).sum(1) / n
    beyond = square[-1] - square[feet] - _explained(terms[-1] - terms[feet], seen[-1] - seen[feet])
    return np.asarray(np.maximum(inside + beyond, 0) / (lines * len(along)))


def _explained(terms: Floats, seen: Floats) -> Floats:
    """Return the squares that a line through values explains, of sums over them: 1, a, a2; values, a times values."""
    import numpy as np

    n, first, second = (np.maximum(terms[:, 0], 1e-9), terms[:, 1], terms[:, 2])
    values, turned = np.split(seen, 2, axis=1)
    spread = np.maximum(second - first**2 / n, 1e-9)
    slope = turned - values * (first / n)[:, None]
    return np.asarray((values**2).sum(1) / n + (slope**2).sum(1) / spread)
