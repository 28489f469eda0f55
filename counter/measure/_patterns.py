"""From round spots to pins: by what bases the catalogue knows, and by how pins stand on any base."""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import TYPE_CHECKING, NamedTuple

from counter.measure._pins import CLOSEST_MM, LEAST_SCORE, RADII_MM, Spot, sharpened, spots_in, tip_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base
    from counter.measure._card import Floats
    from counter.measure._part import Place
    from counter.measure._pins import Maps
    from counter.measure._view import View

CLEAREST = 6.0  # a spot clearer than this is no better a pin
PAIR_MM = 1.1  # how far two spots may be off a known pair before the pattern is laid on them
NEAR_MM = 0.7  # within which the other pins are then looked for
TO_SHARPEN = 3


class Pattern(NamedTuple):
    """Pins that stand as pins do: one, two, four in a row or four in a rectangle."""

    spots: tuple[Spot, ...]
    arrangement: str  # one, two, row, rectangle
    score: float
    like: str = ""  # the base whose pins were laid on them; empty where none was


def best_patterns(spots: list[Spot], centre: tuple[float, float], reach_mm: float) -> list[Pattern]:
    """Return the likeliest patterns among spots, best first; `centre` and `reach_mm` are where the part lies."""
    inside = [s for s in spots if (s.x - centre[0]) ** 2 + (s.y - centre[1]) ** 2 < reach_mm**2]
    found = [Pattern((spot,), "one", _worth((spot,), 0.0) - 1.2) for spot in inside if spot.radius > 2]
    pairs = ((pair, _worth(pair, 0.0)) for pair in combinations(inside, 2))
    found += [Pattern(pair, "two", score) for pair, score in pairs if score > 0]
    for four in combinations(inside[:12], 4):
        for arrangement, spots_in_turn, miss in _as_four(four):
            if (score := _worth(spots_in_turn, miss)) > 0:
                found.append(Pattern(spots_in_turn, arrangement, score))
    kept = [one._replace(score=one.score - _away(one, centre, reach_mm)) for one in found]
    return sorted(kept, key=lambda one: -one.score)


def _worth(spots: tuple[Spot, ...], miss: float) -> float:
    """Return how good spots are together: each clear, all alike, all in their places."""
    scores = [min(spot.score, 6.0) for spot in spots]
    radii = [spot.radius for spot in spots]
    if max(radii) > 1.5 * min(radii):
        return -1.0
    unlike = max(scores) / min(scores) - 1
    return sum(score - LEAST_SCORE for score in scores) - 0.8 * unlike - (miss / 0.35) ** 2 * 0.5


def _away(pattern: Pattern, centre: tuple[float, float], reach_mm: float) -> float:
    x = sum(spot.x for spot in pattern.spots) / len(pattern.spots)
    y = sum(spot.y for spot in pattern.spots) / len(pattern.spots)
    off = (x - centre[0]) ** 2 + (y - centre[1]) ** 2
    return float(6.0 * off / reach_mm**2)


def _as_four(four: tuple[Spot, ...]) -> list[tuple[str, tuple[Spot, ...], float]]:
    """Return the ways in which four spots are a row or a rectangle, with how far off in millimetres."""
    found: list[tuple[str, tuple[Spot, ...], float]] = []
    first, *rest = four
    for other in rest:  # first and other across the corner
        one, two = (spot for spot in rest if spot is not other)
        miss_x = (first.x + other.x - one.x - two.x) / 2
        miss_y = (first.y + other.y - one.y - two.y) / 2
        diagonals = _between(first, other) - _between(one, two)
        miss = (miss_x**2 + miss_y**2 + (diagonals / 2) ** 2) ** 0.5
        short = min(_between(first, one), _between(first, two))
        if miss < 1.2 and short > CLOSEST_MM:
            found.append(("rectangle", (first, one, other, two), miss))
    row = _as_row(four)
    return [*found, row] if row is not None else found


def _between(one: Spot, other: Spot) -> float:
    return float(((one.x - other.x) ** 2 + (one.y - other.y) ** 2) ** 0.5)


def _as_row(four: tuple[Spot, ...]) -> tuple[str, tuple[Spot, ...], float] | None:
    ends = max(combinations(four, 2), key=lambda pair: _between(*pair))
    long = _between(*ends)
    ux, uy = (ends[1].x - ends[0].x) / long, (ends[1].y - ends[0].y) / long
    placed = sorted(four, key=lambda spot: (spot.x - ends[0].x) * ux + (spot.y - ends[0].y) * uy)
    off = [abs((spot.y - ends[0].y) * ux - (spot.x - ends[0].x) * uy) for spot in placed]
    gaps = [_between(a, b) for a, b in pairwise(placed)]
    miss = (max(off) ** 2 + ((gaps[0] - gaps[2]) / 2) ** 2) ** 0.5
    if miss > 1.2 or min(gaps) < CLOSEST_MM:
        return None
    return "row", tuple(placed), miss


# -- by what the catalogue knows


class Known(NamedTuple):
    """The pins of bases that stand alike: places from the middle of the pattern, millimetres, and how large it is."""

    name: str
    at: Floats  # N x 2
    radius: float
    reach: float  # of a circle around the base's outline
    arrangement: str
    off: Floats  # from the pattern's middle to the outline's


def known_patterns(bases: Sequence[Base]) -> list[Known]:
    """Return the distinct pin patterns of the bases."""
    found: dict[object, Known] = {}
    for base in (one for one in bases if one.face.is_known):
        known = _known(base)
        key = (known.at.round(2).tobytes(), round(known.reach), round(known.radius, 1))
        found.setdefault(key, known)
    return list(found.values())


def _known(base: Base) -> Known:
    import numpy as np

    at = np.array([(pin.x_mm, pin.y_mm) for pin in base.face.pins.at])
    outline, diameter = base.face.outline, base.face.pin_diameter_mm
    half_w, half_h = outline.width_mm / 2, outline.height_mm / 2
    corner = min(outline.corner_mm, half_w, half_h)
    reach = half_w if outline.shape == "circle" else float(np.hypot(half_w - corner, half_h - corner) + corner)
    middle = at.mean(0)
    radius = (diameter.value if diameter is not None else 2.0) / 2
    return Known(
        base.designation,
        at - middle,
        min(RADII_MM, key=lambda one: abs(one - radius)),
        max(reach, half_w, half_h),
        arrangement_of(at),
        np.array([0.0, outline.offset_y_mm]) - middle,
    )


def arrangement_of(at: Floats) -> str:
    """Return one, two, row or rectangle."""
    import numpy as np

    if len(at) != 4:
        return {1: "one", 2: "two"}.get(len(at), "other")
    spread = np.linalg.svd(at - at.mean(0), compute_uv=False)
    return "row" if spread[1] < 0.08 * spread[0] else "rectangle"


def laid_patterns(maps: Maps, spots: Sequence[Spot], place: Place, known: Sequence[Known]) -> list[Pattern]:
    """Lay every known pattern on every pair of spots that is as far apart, and score what lies under its pins."""
    import cv2
    import numpy as np

    size = 2 * round(NEAR_MM * maps.piece.scale) + 1
    near = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    light = {radius: cv2.dilate(scores, near) for radius, scores in maps.scores.items()}
    dark = {radius: cv2.dilate(-scores, near) for radius, scores in maps.scores.items()}
    points = np.array([(spot.x, spot.y) for spot in spots]).reshape(-1, 2)
    found: list[Pattern] = []
    for one in known:
        for turn, middle in _poses(one, points):
            c, s = np.cos(turn), np.sin(turn)
            laid = one.at @ np.array([[c, s], [-s, c]]) + middle
            extent = _unlike_place(one, middle + one.off @ np.array([[c, s], [-s, c]]), place)
            values = max((_looked_up(maps, scores[one.radius], laid) for scores in (light, dark)), key=np.sum)
            found.append(_scored(one, laid, values, extent))
    return sorted(found, key=lambda pattern: -pattern.score)[:TO_SHARPEN]


def _poses(known: Known, points: Floats) -> list[tuple[float, Floats]]:
    """Return turns and middles that put the pattern's farthest two pins on two of the points."""
    import numpy as np

    if len(known.at) == 1:
        return [(0.0, point) for point in points]
    pairs = list(combinations(range(len(known.at)), 2))
    lengths = [float(np.linalg.norm(known.at[i] - known.at[j])) for i, j in pairs]
    long = sorted(range(len(pairs)), key=lambda at: -lengths[at])[: 2 if len(pairs) > 1 else 1]
    found = []
    for at in long:
        i, j = pairs[at]
        way = known.at[j] - known.at[i]
        for a in range(len(points)):
            for b in range(len(points)):
                seen = points[b] - points[a]
                if a != b and abs(float(np.linalg.norm(seen)) - lengths[at]) < PAIR_MM + 0.02 * lengths[at]:
                    turn = float(np.arctan2(seen[1], seen[0]) - np.arctan2(way[1], way[0]))
                    c, s = np.cos(turn), np.sin(turn)
                    half = (known.at[i] + known.at[j]) / 2 @ np.array([[c, s], [-s, c]])
                    found.append((turn, (points[a] + points[b]) / 2 - half))
    return found


def _looked_up(maps: Maps, scores: Floats, laid: Floats) -> Floats:
    import numpy as np

    columns = np.rint((laid[:, 0] - maps.piece.left) * maps.piece.scale).astype(int)
    rows = np.rint((maps.piece.top - laid[:, 1]) * maps.piece.scale).astype(int)
    inside = (columns >= 0) & (rows >= 0) & (columns < scores.shape[1]) & (rows < scores.shape[0])
    return np.where(inside, scores[np.clip(rows, 0, len(scores) - 1), np.clip(columns, 0, scores.shape[1] - 1)], -1.0)


def _unlike_place(known: Known, middle: Floats, place: Place) -> float:
    """Return what it costs that the thing which lies there is of another size, or lies elsewhere."""
    off = ((middle[0] - place.x) ** 2 + (middle[1] - place.y) ** 2) ** 0.5
    return float(min(((place.reach - known.reach - 1.5) / 3.5) ** 2, 5.0) + min((off / 3.0) ** 2, 5.0))


def _scored(known: Known, laid: Floats, values: Floats, extent: float) -> Pattern:
    import numpy as np

    clear = np.clip(values, 0.1, CLEAREST)
    score = float((clear - LEAST_SCORE).sum() - 0.3 * (clear.max() / max(clear.min(), 0.5) - 1) - extent)
    spots = tuple(Spot(float(x), float(y), known.radius, float(v)) for (x, y), v in zip(laid, values, strict=True))
    return Pattern(spots, known.arrangement, score, known.name)


def pins_at(image: Floats, view: View, maps: Maps, place: Place, known: Sequence[Known]) -> Pattern | None:
    """Return the likeliest pins of what lies at a place, each brought to the middle that its own edge shows."""
    spots = spots_in(maps)
    laid = laid_patterns(maps, spots, place, known)
    free = best_patterns(spots, (place.x, place.y), place.reach + 1)[:1]
    best = laid[:1]
    if free and (not best or free[0].score > best[0].score + 3.0):
        best = free
    if not best:
        return None
    pattern = best[0]
    brought = [_brought(maps, spot) for spot in pattern.spots]
    ends = [spot if is_light else tip_of(image, view, spot) for spot, is_light in brought]
    return pattern._replace(spots=tuple(sharpened(image, view, spot) for spot in ends))


def _brought(maps: Maps, spot: Spot) -> tuple[Spot, bool]:
    """Return a spot moved to the best score around it, and whether it is surely the light end of a pin."""
    import numpy as np

    if spot.radius not in maps.scores:
        return spot, True
    piece, signed = maps.piece, maps.scores[spot.radius]
    reach = round(NEAR_MM * piece.scale)
    column, row = round((spot.x - piece.left) * piece.scale), round((piece.top - spot.y) * piece.scale)
    rows, columns = slice(max(row - reach, 0), row + reach + 1), slice(max(column - reach, 0), column + reach + 1)
    around = signed[rows, columns]
    if around.size == 0:
        return spot, True
    r, c = np.unravel_index(int(np.abs(around).argmax()), around.shape)
    x, y = piece.at(float(columns.start + c), float(rows.start + r))
    by_whole = maps.by_whole.get(spot.radius)
    is_end = by_whole is None or not bool(by_whole[rows, columns][r, c])
    return spot._replace(x=x, y=y), is_end and bool(around[r, c] > 0)
