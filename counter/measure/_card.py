"""A bank card in a picture: its four corners, to a fraction of a pixel."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    import numpy as np
    from numpy.typing import NDArray

    from counter.measure._picture import Pixels

    Floats = NDArray[Any]

CARD_MM = (85.60, 53.98)  # ISO/IEC 7810, ID-1
THICK_MM = 0.76  # the same standard
SMALL_PX = 640  # the size in which quadrilaterals are looked for
LEAST_SHARE, MOST_SHARE = 0.02, 0.6  # of the picture
CORNER_INSETS_MM = (-1.5, 2.0, 4.5)  # outside, within a card's corner of 3.18 mm radius, well inside
OTHER_CORNERS = 0.2  # what a shape with rounder corners counts
THRESHOLDS = 7
MOST_TRIED = 4  # quadrilaterals whose edges are fitted, of each way of looking
WELL_FITTED_PX = 0.8
SAME_PX = 4.0
COARSE, RIM = 64, 5  # cells across and at the rim, by which the counter's own colour is known
SIDE_SAMPLES = 80
OFF_SIDE = 0.08  # of a side's length, within which an outline's points belong to it
CORNER_ROOM = 0.12  # of a side: the corners are round, so lines are fitted to what lies between
SEARCH_PX = 7
CLEAR = 6.0  # a step of colour along all four edges after which no other way of looking is tried


class Quad(NamedTuple):
    """Corners in pixels, in turn around the card, the first side a long one; how well its edges were seen."""

    corners: Floats  # 4 x 2
    seen: float


def find_card(image: Pixels) -> Quad | None:
    """Return the card, or None where nothing of its shape stands out."""
    import cv2
    import numpy as np

    scale = min(1.0, SMALL_PX / max(image.shape[:2]))
    small = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    lab = cv2.cvtColor(cv2.GaussianBlur(small, (0, 0), 1.0), cv2.COLOR_BGR2LAB)
    full = cv2.GaussianBlur(cv2.cvtColor(image, cv2.COLOR_BGR2LAB).astype(np.float32), (0, 0), 1.0)
    best: tuple[float, Quad] | None = None
    tried: list[Floats] = []
    for masks in (_by_ground, _by_edges, _by_levels):
        rough = _distinct([quad for quad in _quads(masks(lab)) if _is_card_like(quad, small.shape)], tried)
        rough.sort(key=lambda quad: -edge_contrast(lab, quad))
        for quad in rough[:MOST_TRIED]:
            found = refined(full, long_first(quad / scale))
            worth = _worth(full, found) if found.seen else 0.0
            if worth:
                tried.append(quad)  # one like it would be no better; beside one that did not fit another may
            if worth and (best is None or worth > best[0]):
                best = (worth, found)
        if best is not None and _is_surely_one(full, best[1]):
            break
    return by_top_edges(full, best[1]) if best is not None else None


def _is_surely_one(lab: Floats, quad: Quad) -> bool:
    return quad.seen > CLEAR and _miss(quad, lab.shape) < WELL_FITTED_PX and _has_its_corners(lab, quad)


def by_top_edges(lab: Floats, quad: Quad) -> Quad:
    """Return the corners of the card's upper face, where the slant shows the card's own edge below it too."""
    import numpy as np

    from counter.measure._card_edge import upper_edge
    from counter.measure._view import view_of

    view = view_of(quad.corners, (int(lab.shape[1]), int(lab.shape[0])))
    if view is None:
        return quad
    low = view.pixels(view.millimetres(quad.corners), -THICK_MM)
    lines = []
    for at, (start, end, normal) in enumerate(_sides(quad.corners)):
        below = float((low[at] + low[(at + 1) % 4] - start - end) / 2 @ normal)
        edge = upper_edge(lab, start, end, normal, below, CORNER_ROOM)
        lines.append(Line(*_fitted_line(edge.points, edge.weight)))
    corners = [_meeting(lines[at - 1], lines[at]) for at in range(4)]
    if any(corner is None for corner in corners):
        return quad
    moved = Quad(np.array(corners), quad.seen)
    return moved if _miss(moved, lab.shape) <= WELL_FITTED_PX + _miss(quad, lab.shape) else quad


def _worth(lab: Floats, quad: Quad) -> float:
    """Return how much stands for a card: clear edges, its own shape, its own corners; of two the larger, no print."""
    miss = _miss(quad, lab.shape)
    worth = float(min(quad.seen, 12.0) * _area(quad.corners) ** 0.5 / (1 + miss))
    return worth if _has_its_corners(lab, quad) else worth * OTHER_CORNERS


def _has_its_corners(lab: Floats, quad: Quad) -> bool:
    """Whether the corners are no rounder than a card's: what lies a little inside of them is still the card."""
    import cv2
    import numpy as np

    half = np.array(CARD_MM) / 2
    ways = np.array([(-1, 1), (1, 1), (1, -1), (-1, -1)])
    matrix, _ = cv2.findHomography(ways * half, quad.corners)
    places = [ways * (half - inset) for inset in CORNER_INSETS_MM]
    seen = [sampled(lab, cv2.perspectiveTransform(at[None], matrix)[0]) for at in places]
    outside, corner, inside = seen
    is_card = np.linalg.norm(corner - inside, axis=1) < np.linalg.norm(corner - outside, axis=1)
    return int(is_card.sum()) >= 3


def _miss(quad: Quad, shape: tuple[int, ...]) -> float:
    """Return by how many pixels the corners miss those of any card, infinite where no camera sees one so."""
    from counter.measure._view import view_of

    view = view_of(quad.corners, (shape[1], shape[0]))
    return view.error_px if view is not None else float("inf")


def _quads(masks: Iterator[Pixels]) -> Iterator[Floats]:
    import cv2
    import numpy as np

    for mask in masks:
        outlines, _ = cv2.findContours(mask, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
        for outline in outlines:
            if len(outline) < 4:
                continue
            hull = cv2.convexHull(outline)
            if cv2.contourArea(hull) < LEAST_SHARE * mask.size:
                continue
            for slack in (0.02, 0.035, 0.05):
                corners = cv2.approxPolyDP(hull, slack * cv2.arcLength(hull, True), True)
                if len(corners) == 4:
                    if cv2.contourArea(corners) * 0.9 < cv2.contourArea(hull):
                        yield _by_sides(outline.reshape(-1, 2), corners.reshape(4, 2).astype(np.float64))
                    break


def _by_sides(outline: Floats, corners: Floats) -> Floats:
    """Return where the straight parts of an outline's sides meet: its own corners are round, and cut short."""
    import numpy as np

    lines = []
    for start, end, normal in _sides(corners):
        long = float(np.linalg.norm(end - start))
        along = (outline - start) @ (end - start) / long**2
        is_side = (np.abs((outline - start) @ normal) < OFF_SIDE * long) & (np.abs(along - 0.5) < 0.5 - CORNER_ROOM)
        if is_side.sum() < 2:
            return corners
        lines.append(Line(*_fitted_line(outline[is_side].astype(np.float64), np.ones(int(is_side.sum())))))
    met = [_meeting(lines[at - 1], lines[at]) for at in range(4)]
    return corners if any(one is None for one in met) else np.array(met)


def _by_ground(lab: Pixels) -> Iterator[Pixels]:
    """Yield what is unlike the counter."""
    import cv2
    import numpy as np

    away = unlike_ground(lab)
    for level in (35, 60, 100, 160):
        white = (away > level).astype(np.uint8) * 255
        yield cv2.morphologyEx(white, cv2.MORPH_OPEN, np.ones((5, 5), np.uint8))


def _by_edges(lab: Pixels) -> Iterator[Pixels]:
    """Yield what edges close in."""
    import cv2
    import numpy as np

    edges = np.max([cv2.Canny(plane, 25, 70) for plane in cv2.split(lab)], axis=0)
    for size in (3, 7):
        closed = cv2.morphologyEx(edges, cv2.MORPH_CLOSE, np.ones((size, size), np.uint8))
        yield closed
        yield 255 - cv2.dilate(closed, np.ones((3, 3), np.uint8))


def _by_levels(lab: Pixels) -> Iterator[Pixels]:
    """Yield what is lighter, darker, redder or bluer than each of some levels."""
    import cv2
    import numpy as np

    kernel = np.ones((5, 5), np.uint8)
    for plane in cv2.split(lab):
        low, high = np.percentile(plane, (3, 97))
        for level in np.linspace(low, high, THRESHOLDS + 2)[1:-1]:
            white = (plane > level).astype(np.uint8) * 255
            for mask in (white, 255 - white):
                yield cv2.morphologyEx(mask, cv2.MORPH_OPEN, kernel)


def unlike_ground(lab: Pixels) -> Pixels:
    """Return how far each pixel's colour is from the counter's, as the picture's rim shows it."""
    import cv2
    import numpy as np

    values = cv2.GaussianBlur(lab, (0, 0), 2.0).astype(np.float32)
    coarse = cv2.resize(values, (COARSE, COARSE), interpolation=cv2.INTER_AREA)
    outer = np.ones((COARSE, COARSE), bool)
    outer[RIM:-RIM, RIM:-RIM] = False
    away = np.zeros(values.shape[:2], np.float32)
    for plane in range(3):
        ground = surface(coarse[..., plane], outer)
        spread = np.median(np.abs(coarse[..., plane] - ground)[outer]) * 2 + 2
        away += ((values[..., plane] - cv2.resize(ground, values.shape[1::-1])) / spread) ** 2
    return np.asarray(np.clip(np.sqrt(away) * 12, 0, 255), np.uint8)


def surface(plane: Floats, known: NDArray[np.bool_]) -> Floats:
    """Return a second-order surface through the known cells of a square: a counter is lit unevenly."""
    import numpy as np

    steps = np.linspace(-1, 1, len(plane))
    x, y = np.meshgrid(steps, steps)
    terms = np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], axis=-1)
    at, value = terms[known], plane[known]
    weight = np.ones(len(value))
    for _ in range(5):
        factors, *_ = np.linalg.lstsq(at * weight[:, None], value * weight, rcond=None)
        off = np.abs(value - at @ factors)
        weight = 1 / np.maximum(off / (np.median(off) * 1.5 + 1e-6), 1)
    return np.asarray(terms @ factors, np.float32)


def _is_card_like(quad: Floats, shape: tuple[int, ...]) -> bool:
    import numpy as np

    sides = [float(np.linalg.norm(quad[i] - quad[i - 1])) for i in range(4)]
    area = _area(quad)
    if not LEAST_SHARE <= area / (shape[0] * shape[1]) <= MOST_SHARE:
        return False
    one, other = sides[0] + sides[2], sides[1] + sides[3]
    ratio = max(one, other) / max(min(one, other), 1e-6)
    # 85.60 to 53.98 is 1.59; slanted by 40 degrees either way 1.21 to 2.07
    return 1.18 <= ratio <= 2.15 and min(sides) > 0.6 * max(sides) / ratio / 1.6 and _inside(quad, shape)


def _area(quad: Floats) -> float:
    (x0, y0), (x1, y1) = quad[2] - quad[0], quad[3] - quad[1]
    return 0.5 * abs(float(x0 * y1 - y0 * x1))


def _inside(quad: Floats, shape: tuple[int, ...]) -> bool:
    margin = 3
    return bool(
        (quad > margin).all() and (quad[:, 0] < shape[1] - margin).all() and (quad[:, 1] < shape[0] - margin).all()
    )


def _distinct(quads: list[Floats], met: list[Floats]) -> list[Floats]:
    kept: list[Floats] = []
    for quad in quads:
        if not any(_is_same(quad, one) for one in (*met, *kept)):
            kept.append(quad)
    return kept


def _is_same(one: Floats, other: Floats) -> bool:
    """Whether corners begin where others do, whichever is named first: fitting their edges gives the same."""
    return all(min((corner - there) @ (corner - there) for there in other) < SAME_PX**2 for corner in one)


def edge_contrast(lab: Floats, quad: Floats) -> float:
    """Return how unlike the two sides of the quadrilateral's edges are, the weakest edge counting most."""
    import numpy as np

    inner, outer = [], []
    for start, end, normal in _sides(quad):
        at = start + (end - start) * np.linspace(CORNER_ROOM, 1 - CORNER_ROOM, 30)[:, None]
        inner.append(sampled(lab, at - normal * 3))
        outer.append(sampled(lab, at + normal * 3))
    steps = [np.linalg.norm(i - o, axis=1) for i, o in zip(inner, outer, strict=True)]
    return float(min(np.percentile(step, 25) for step in steps) * np.sqrt(_area(quad)))


def _sides(quad: Floats) -> Iterator[tuple[Floats, Floats, Floats]]:
    """Yield start, end and outward normal of each side."""
    import numpy as np

    middle = quad.mean(0)
    for at in range(4):
        start, end = quad[at], quad[(at + 1) % 4]
        along = (end - start) / max(float(np.linalg.norm(end - start)), 1e-9)
        normal = np.array([along[1], -along[0]])
        yield start, end, normal if (start - middle) @ normal > 0 else -normal


def sampled(image: Floats, points: Floats) -> Floats:
    """Return the picture's values at points between pixels."""
    import cv2
    import numpy as np

    at = np.ascontiguousarray(points, np.float32)
    x, y = at[:, 0].reshape(-1, 1).copy(), at[:, 1].reshape(-1, 1).copy()
    found = cv2.remap(image, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    return np.asarray(found, np.float32).reshape(len(at), -1)


def long_first(quad: Floats) -> Floats:
    """Return the corners so that the first side is a long one."""
    import numpy as np

    one = np.linalg.norm(quad[1] - quad[0]) + np.linalg.norm(quad[3] - quad[2])
    other = np.linalg.norm(quad[2] - quad[1]) + np.linalg.norm(quad[0] - quad[3])
    return quad if one >= other else np.roll(quad, -1, axis=0)


def refined(lab: Floats, quad: Floats) -> Quad:
    """Fit a line to each edge as the pixels show it and return where neighbouring lines meet."""
    import numpy as np

    seen = 0.0
    for reach in (SEARCH_PX, SEARCH_PX * 0.6, SEARCH_PX * 0.4):
        lines = [_edge_line(lab, *side, reach) for side in _sides(quad)]
        corners = [_meeting(lines[at - 1], lines[at]) for at in range(4)]
        if any(corner is None for corner in corners):
            return Quad(quad, 0.0)
        moved = np.array(corners)
        if np.abs(moved - quad).max() > 40:
            return Quad(quad, 0.0)
        quad, seen = moved, min(line.seen for line in lines)
    return Quad(quad, seen)


class Line(NamedTuple):
    """A line by a point and direction in pixels; `seen` is the step of colour across it times its straightness."""

    point: Floats
    along: Floats
    seen: float


def _edge_line(lab: Floats, start: Floats, end: Floats, normal: Floats, reach: float) -> Line:
    """Return the line of the clearest steps."""
    import numpy as np

    along = np.linspace(CORNER_ROOM, 1 - CORNER_ROOM, SIDE_SAMPLES)
    offsets = np.arange(-reach - 1.5, reach + 1.51, 0.5)
    at = (start + (end - start) * along[:, None])[:, None] + normal * offsets[None, :, None]
    values = sampled(lab, at.reshape(-1, 2)).reshape(SIDE_SAMPLES, len(offsets), -1)
    step = np.linalg.norm(values[:, 4:] - values[:, :-4], axis=2)  # over two pixels
    # The edge is where the whole side steps, not where print does at one place.
    shared = step + 0.6 * step.mean(0)
    best = shared.argmax(1)
    off = offsets[best + 2] + peak(shared, best) * 0.5
    points = (start + (end - start) * along[:, None]) + normal * off[:, None]
    weight = step[np.arange(SIDE_SAMPLES), best]
    point, direction, spread = _fitted_line(points, weight)
    return Line(point, direction, float(np.median(weight)) / (1 + spread))


def peak(rows: Floats, best: NDArray[np.intp]) -> Floats:
    """Return how far between samples the top of a parabola through three of them lies."""
    import numpy as np

    inner = np.clip(best, 1, rows.shape[1] - 2)
    here = np.arange(len(rows))
    low, mid, high = rows[here, inner - 1], rows[here, inner], rows[here, inner + 1]
    bend = low - 2 * mid + high
    return np.asarray(np.where(np.abs(bend) > 1e-6, np.clip((low - high) / (2 * bend + 1e-12), -1, 1), 0.0))


def _fitted_line(points: Floats, weight: Floats) -> tuple[Floats, Floats, float]:
    import numpy as np

    weight = weight / (weight.max() + 1e-9) + 1e-3
    for _ in range(6):
        middle = np.average(points, axis=0, weights=weight)
        _, _, axes = np.linalg.svd((points - middle) * np.sqrt(weight)[:, None], full_matrices=False)
        off = np.abs((points - middle) @ np.array([-axes[0][1], axes[0][0]]))
        scale = np.median(off) + 0.15
        weight = np.where(off < 4 * scale, 1.0, 1e-4) / (1 + (off / scale) ** 2)
    return middle, axes[0], float(np.median(off))


def _meeting(one: Line, other: Line) -> Floats | None:
    import numpy as np

    matrix = np.column_stack([one.along, -other.along])
    if abs(np.linalg.det(matrix)) < 0.2:
        return None
    return np.asarray(one.point + one.along * np.linalg.solve(matrix, other.point - one.point)[0])
