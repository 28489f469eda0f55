"""Pins on a rectified picture: round spots that are of one colour inside and of another around."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from counter.measure._card import Floats
    from counter.measure._view import View

PIN_TALL_MM = 7.0  # how high pins stand over the face: about 7 on all plug-in lamps, from memory
RADII_MM = (1.0, 1.25, 2.5, 4.0)  # pins of 2 to 2.5, posts of 5, the single contact of 8
COARSE_PX_PER_MM = 6.0
FINE_PX_PER_MM = 14.0
MOST_SPOTS = 16
LEAST_SCORE = 1.2
CLOSEST_MM = 2.6
DIRECTIONS = 48
SLENDER = 2  # of the radii, those of pins whose side is seen beside their end
LEAST_LEAN_PX = 0.8
PLAIN_MM = 7.0  # over which the plastic's own colour is taken
MOST_UNLIKE = 45.0
WHOLE_WORTH = 1.3
TIP_PX_PER_MM = 10.0
LIGHTER = 0.35  # how much it counts that a pin's end, which faces the light, is lighter than its side


class Spot(NamedTuple):
    """A round spot: middle in millimetres on the level of the pins' ends, radius, and how clearly it stands out."""

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
    """How pin-like each pixel of a patch is, by radius in millimetres; below zero where it is darker than around."""

    piece: Patch
    scores: dict[float, Floats]
    by_whole: dict[float, Floats]  # where it is the whole pin that scores so, and not its end alone


def maps_of(image: Floats, view: View, centre: tuple[float, float], half_mm: float) -> Maps:
    """Return the scores of a square on the level of the pins' ends."""
    import numpy as np

    piece = patch(image, view, centre, half_mm, PIN_TALL_MM, COARSE_PX_PER_MM)
    toward_foot = -view.lean(np.array(centre)) * PIN_TALL_MM
    scores = {radius: _scores(piece, radius, toward_foot) for radius in RADII_MM}
    by_whole: dict[float, Floats] = {}
    for radius in RADII_MM[:SLENDER]:
        whole = _whole_pins(piece, radius, toward_foot)
        by_whole[radius] = whole > np.abs(scores[radius])
        scores[radius] = np.where(by_whole[radius], whole, scores[radius])
    return Maps(piece, scores, by_whole)


def spots_in(maps: Maps) -> list[Spot]:
    """Return the round spots of a patch, clearest first."""
    found: list[Spot] = []
    for radius, scores in maps.scores.items():
        found += _peaks(abs(scores), maps.piece, radius)
    found.sort(key=lambda spot: -spot.score)
    kept: list[Spot] = []
    for spot in found:
        if all(
            (spot.x - one.x) ** 2 + (spot.y - one.y) ** 2 > max(CLOSEST_MM, one.radius * 1.3) ** 2 for one in kept
        ):
            kept.append(spot)
    return kept[:MOST_SPOTS]


def _scores(piece: Patch, radius: float, toward_foot: Floats) -> Floats:
    """Return how unlike a disc is to the ring around it, in deviations of both, at each pixel."""
    import cv2
    import numpy as np

    inside, around = _kernels(radius * piece.scale, toward_foot)
    gap = np.zeros(piece.image.shape[:2], np.float32)
    noise = np.full(piece.image.shape[:2], 9.0, np.float32)
    lighter = np.zeros(piece.image.shape[:2], np.float32)
    for at, plane in enumerate(cv2.split(piece.image)):
        means = [cv2.filter2D(plane, cv2.CV_32F, kernel) for kernel in (inside, around)]
        squares = [cv2.filter2D(plane * plane, cv2.CV_32F, kernel) for kernel in (inside, around)]
        gap += (means[0] - means[1]) ** 2
        noise += sum(np.maximum(square - mean**2, 0) for square, mean in zip(squares, means, strict=True))
        if at == 0:
            lighter = np.sign(means[0] - means[1])
    return np.asarray(np.sqrt(gap / noise) * lighter)


def _whole_pins(piece: Patch, radius: float, toward_foot: Floats) -> Floats:
    """Return how unlike the plastic around it the whole of a pin is, end and side together, at each end's middle.

    On light plastic the end of a pin may not be told from it, and only the side is; the whole has a known length.
    """
    import cv2
    import numpy as np

    lean_px = toward_foot * piece.scale
    if float(np.hypot(*lean_px)) < LEAST_LEAN_PX:
        return np.zeros(piece.image.shape[:2], np.float32)
    flat = piece.image.clip(0, 255).astype(np.uint8)
    plain = cv2.medianBlur(flat, 2 * round(PLAIN_MM * piece.scale / 2) + 1).astype(np.float32)
    unlike = np.minimum(np.linalg.norm(piece.image - plain, axis=2), MOST_UNLIKE).astype(np.float32)
    inside, around = _whole_kernels(radius * piece.scale, lean_px)
    means = [cv2.filter2D(unlike, cv2.CV_32F, kernel) for kernel in (inside, around)]
    spread = cv2.filter2D(unlike * unlike, cv2.CV_32F, around) - means[1] ** 2
    return np.asarray(WHOLE_WORTH * (means[0] - means[1]) / np.sqrt(np.maximum(spread, 0) + 9.0))


def _whole_kernels(radius_px: float, lean_px: Floats) -> tuple[Floats, Floats]:
    """Return the shape of a pin from its end to its foot, and the ring around it, each summing to 1."""
    import numpy as np

    long = float(np.hypot(*lean_px))
    reach = int(np.ceil(long + radius_px * 2.2))
    y, x = np.mgrid[-reach : reach + 1, -reach : reach + 1].astype(np.float32)
    way = np.array([lean_px[0], -lean_px[1]]) / long
    along = np.clip(x * way[0] + y * way[1], 0, long)
    away = np.hypot(x - along * way[0], y - along * way[1])
    inside = np.clip(radius_px + 0.5 - away, 0, 1)
    around = np.clip(away - radius_px * 1.35 + 0.5, 0, 1) * np.clip(radius_px * 2.0 + 0.5 - away, 0, 1)
    return inside / inside.sum(), around / around.sum()


def _kernels(radius_px: float, toward_foot: Floats) -> tuple[Floats, Floats]:
    """Return disc and ring, each summing to 1; the ring leaves out the side on which the pin's own side is seen."""
    import numpy as np

    reach = int(np.ceil(radius_px * 1.9))
    y, x = np.mgrid[-reach : reach + 1, -reach : reach + 1].astype(np.float32)
    away = np.hypot(x, y)
    inside = np.clip(radius_px * 0.85 + 0.5 - away, 0, 1)
    around = np.clip(away - radius_px * 1.25 + 0.5, 0, 1) * np.clip(radius_px * 1.85 + 0.5 - away, 0, 1)
    lean = float(np.hypot(*toward_foot))
    if lean > 0.4:
        cosine = (x * toward_foot[0] - y * toward_foot[1]) / (np.maximum(away, 1e-6) * lean)
        around *= cosine < 0.55
    return inside / inside.sum(), around / around.sum()


def _peaks(scores: Floats, piece: Patch, radius: float) -> list[Spot]:
    import cv2
    import numpy as np

    size = int(radius * piece.scale) * 2 + 1
    top = (scores == cv2.dilate(scores, np.ones((size, size), np.uint8))) & (scores > LEAST_SCORE)
    rows, columns = np.nonzero(top)
    order = np.argsort(-scores[rows, columns])[: MOST_SPOTS * 2]
    return [
        Spot(*piece.at(float(columns[at]), float(rows[at])), radius, float(scores[rows[at], columns[at]]))
        for at in order
    ]


def tip_of(image: Floats, view: View, spot: Spot) -> Spot:
    """Return the spot moved to the pin's end, where it was the pin's dark side that stood out from light plastic.

    A pin is seen as its end and, leaning toward its foot, its side; together they have a known length. Of all places
    along that line the one counts at which both cover most of what is unlike the plastic, and the end is lighter.
    """
    import cv2
    import numpy as np

    from counter.measure._card import sampled

    lean = view.lean(np.array([spot.x, spot.y])) * PIN_TALL_MM
    long = float(np.hypot(*lean))
    if long < 0.25:
        return spot
    along, across = lean / long, np.array([-lean[1], lean[0]]) / long
    half = long * 2 + spot.radius * 3
    piece = patch(image, view, (spot.x, spot.y), half, PIN_TALL_MM, TIP_PX_PER_MM)
    flat = cv2.GaussianBlur(piece.image, (0, 0), 1.0)
    plastic, spread = _plastic(flat, across, spot.radius * piece.scale * 1.6)
    unlike = np.minimum(np.linalg.norm(flat - plastic, axis=2), 6 * spread + 12)
    layers = np.dstack([unlike, flat[..., 0]])
    steps = np.arange(-long - 0.6, long + 0.61, 0.12)
    places = (steps[:, None, None] * along + np.array([-0.3, 0.0, 0.3])[None, :, None] * across).reshape(-1, 2)
    middle = np.array([(len(flat) - 1) / 2] * 2)
    values = []
    for points in _pin_points(spot.radius, long):
        at = (places[:, None] + points[None, :, :1] * along + points[None, :, 1:] * across) * piece.scale
        seen = sampled(layers, (middle + at * (1, -1)).reshape(-1, 2)).reshape(len(places), len(points), 2)
        values.append(seen.mean(1))
    end, side, around = values
    inside = (end[:, 0] + side[:, 0] * min(long, 2.0)) / (1 + min(long, 2.0))
    score = inside - around[:, 0] + LIGHTER * np.clip(end[:, 1] - side[:, 1], -40, 40)
    best = places[int(score.argmax())]
    return spot._replace(x=spot.x + float(best[0]), y=spot.y + float(best[1]))


def _plastic(flat: Floats, across: Floats, off_px: float) -> tuple[Floats, float]:
    """Return the colour beside a pin and how much it varies."""
    import numpy as np

    y, x = np.mgrid[: len(flat), : len(flat)] - (len(flat) - 1) / 2
    beside = flat[np.abs(x * across[0] - y * across[1]) > off_px]
    plastic = np.median(beside, axis=0)
    return plastic, float(np.median(np.linalg.norm(beside - plastic, axis=1)))


def _pin_points(radius: float, long: float) -> tuple[Floats, Floats, Floats]:
    """Return points of a pin's end, of its side and around both, as (along the lean, across)."""
    import numpy as np

    turns = np.linspace(0, 2 * np.pi, 12, endpoint=False)
    ring = np.column_stack([np.cos(turns), np.sin(turns)]) * radius
    end = np.vstack([[(0.0, 0.0)], ring * 0.4, ring * 0.75])
    back = np.linspace(min(radius * 1.2, long + radius * 0.5), long + radius * 0.6, 6)
    side = np.array([(-one, width * radius) for one in back for width in (-0.6, 0.0, 0.6)])
    flank = np.linspace(0, long, 6)
    around = [(-one, width * radius) for one in flank for width in (-1.5, 1.5)]
    around += [tuple(point * 1.5) for point in ring if point[0] > 0.3 * radius]
    around += [(-long - radius * 1.5, width * radius) for width in (-0.7, 0.0, 0.7)]
    return end, side, np.array(around)


def sharpened(image: Floats, view: View, spot: Spot) -> Spot:
    """Fit a circle to the edge that a spot shows, where the pin's own side does not hide it."""
    import cv2
    import numpy as np

    half = spot.radius * 2.2
    piece = patch(image, view, (spot.x, spot.y), half, PIN_TALL_MM, FINE_PX_PER_MM)
    flat = cv2.GaussianBlur(piece.image, (0, 0), 1.5)
    foot = -view.lean(np.array([spot.x, spot.y])) * PIN_TALL_MM
    angles = np.linspace(0, 2 * np.pi, DIRECTIONS, endpoint=False)
    ways = np.column_stack([np.cos(angles), -np.sin(angles)])  # in pixels y goes down
    if np.hypot(*foot) > 0.4:
        ways = ways[(ways @ np.array([foot[0], -foot[1]])) / np.hypot(*foot) < 0.6]
    middle = np.array([(len(flat) - 1) / 2] * 2)
    radius = spot.radius * piece.scale
    for reach in (0.55, 0.35, 0.25):
        edge = _rim(flat, middle, ways, radius, reach)
        fitted = _circle(edge, middle, radius)
        if fitted is None:
            return spot
        middle, radius = fitted
    x, y = piece.at(*middle)
    moved = np.hypot(x - spot.x, y - spot.y)
    if moved > 0.5 * spot.radius or not 0.55 < radius / piece.scale / spot.radius < 1.7:
        return spot
    return Spot(float(x), float(y), float(radius / piece.scale), spot.score)


def _rim(flat: Floats, middle: Floats, ways: Floats, radius: float, reach: float) -> Floats:
    """Return points and weights (x, y, step of colour) of the strongest step outward near a radius."""
    import numpy as np

    from counter.measure._card import sampled

    lengths = np.arange(radius * (1 - reach), radius * (1 + reach) + 0.01, 0.5)
    at = middle + ways[:, None] * lengths[None, :, None]
    values = sampled(flat, at.reshape(-1, 2)).reshape(len(ways), len(lengths), -1)
    step = np.linalg.norm(values[:, 2:] - values[:, :-2], axis=2)
    shared = step + step.mean(0)
    best = shared.argmax(1)
    points = middle + ways * lengths[best + 1][:, None]
    return np.column_stack([points, step[np.arange(len(ways)), best]])


def _circle(edge: Floats, middle: Floats, radius: float) -> tuple[Floats, float] | None:
    """Return middle and radius of the circle that the points lie on, strays weighing little (Gauss-Newton)."""
    import numpy as np

    weight = edge[:, 2] / (edge[:, 2].max() + 1e-9) + 0.05
    for _ in range(8):
        way = edge[:, :2] - middle
        away = np.hypot(way[:, 0], way[:, 1])
        off = away - radius
        robust = weight / (1 + (off / (0.08 * radius + 0.5)) ** 2)
        slopes = np.column_stack([-way / away[:, None], -np.ones(len(away))]) * robust[:, None]
        try:
            step = np.linalg.lstsq(slopes, off * robust, rcond=None)[0]
        except np.linalg.LinAlgError:
            return None
        middle, radius = middle - step[:2], radius - float(step[2])
        if not 1 < radius < 500:
            return None
    return middle, radius
