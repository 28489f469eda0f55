"""From round spots to pins: every base's pins laid on pairs of spots, held against pins, outline and place."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from counter.measure._card import CARD_MM
from counter.measure._fit import outline_reach
from counter.measure._outline import Side, outline_seen, sides_of
from counter.measure._pins import RADII_MM, Spot, spots_in

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base
    from counter.measure._card import Floats
    from counter.measure._part import Place
    from counter.measure._pins import Maps, Patch
    from counter.measure._view import View

PAIR_MM, OF_PAIR = 1.0, 0.02  # how far two spots may be off a known pair before the pattern is laid on them
NEAR_MM = 0.7  # within which the other pins are then looked for
PLAIN, WORTH = 0.55, 5.0  # a pin's score that says nothing, and what more or less of it counts
LEAST_WORTH = -2.5
CLEAR, WORTH_BEYOND = 1.15, 1.5  # a score after which more counts less
AGAIN, SAME_PIN_MM = 10.0, 0.2  # patterns this near the best are looked at again; pins this near are one
LIKELY = 4  # poses of a pattern that are looked at closely
ON_CARD_MM = (CARD_MM[0] / 2 + 1, CARD_MM[1] / 2 + 1)  # no pin stands there
SAME_MM = 0.8  # within which two poses are one
MISFIT_MM = 0.35  # of a pin, standard deviation: parts, drawings and the picture together


class Pattern(NamedTuple):
    """A base's pins laid on the picture: how they are turned, their middle, where each would be, where it is seen."""

    known: Known
    score: float
    turn: float
    middle: Floats
    laid: Floats
    spots: tuple[Spot, ...] = ()


class Known(NamedTuple):
    """The pins of bases that stand alike, from the middle of the pattern, and the base's sides; millimetres."""

    bases: tuple[str, ...]
    at: Floats  # N x 2
    radius: float
    reach: float  # of a circle around the base's outline
    arrangement: str
    off: Floats  # from the pattern's middle to the outline's
    origin: Floats  # from the pattern's middle to that of the base's own frame
    sides: list[Side]


def known_patterns(bases: Sequence[Base]) -> list[Known]:
    """Return the distinct patterns of pins and outline."""
    found: dict[object, Known] = {}
    for base in (one for one in bases if one.face.is_known):
        known = _known(base)
        outline = base.face.outline
        key = (known.at.round(2).tobytes(), known.radius, outline.shape, outline.width_mm, outline.height_mm)
        same = found.get(key)
        found[key] = known if same is None else same._replace(bases=same.bases + known.bases)
    return list(found.values())


def _known(base: Base) -> Known:
    import numpy as np

    at = np.array([(pin.x_mm, pin.y_mm) for pin in base.face.pins.at])
    outline, diameter = base.face.outline, base.face.pin_diameter_mm
    middle = at.mean(0)
    radius = (diameter.value if diameter is not None else 2.0) / 2
    return Known(
        (base.designation,),
        at - middle,
        min(RADII_MM, key=lambda one: abs(one - radius)),
        outline_reach(base),
        arrangement_of(at),
        np.array([0.0, outline.offset_y_mm]) - middle,
        -middle,
        sides_of(outline),
    )


def arrangement_of(at: Floats) -> str:
    """Return one, two, row or rectangle."""
    import numpy as np

    if len(at) != 4:
        return {1: "one", 2: "two"}.get(len(at), "other")
    spread = np.linalg.svd(at - at.mean(0), compute_uv=False)
    return "row" if spread[1] < 0.08 * spread[0] else "rectangle"


def laid_patterns(maps: Maps, place: Place, known: Sequence[Known]) -> list[Pattern]:
    """Lay every known pattern on every pair of spots that is as far apart, and score what lies under its pins."""
    import cv2
    import numpy as np

    size = 2 * round(NEAR_MM * maps.piece.scale) + 1
    near = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    around = {radius: cv2.dilate(scores, near) for radius, scores in maps.scores.items()}
    points = {
        radius: np.array([(spot.x, spot.y) for spot in spots]).reshape(-1, 2)
        for radius, spots in spots_in(maps).items()
    }
    found: list[Pattern] = []
    for one in known:
        turns, middles = _poses(one, points[one.radius])
        if len(turns):
            found += _likeliest(one, turns, middles, maps.piece, around[one.radius], place)
    return found


def _likeliest(
    known: Known, turns: Floats, middles: Floats, piece: Patch, around: Floats, place: Place
) -> list[Pattern]:
    """Return the likeliest of many poses of a pattern, by what lies under its pins."""
    import numpy as np

    back = turned(turns)
    laid = known.at @ back + middles[:, None]
    values = _looked_up(piece, around, laid)
    scores = pin_worth(values).sum(1) - _unlike_place(known, middles + known.off @ back, place)
    scores[(np.abs(laid) < ON_CARD_MM).all(2).any(1)] = -np.inf  # its rim and print may look like one
    kept: list[Pattern] = []
    for at in np.argsort(-scores):
        if len(kept) == LIKELY or np.isneginf(scores[at]):
            break
        if all(np.abs(laid[at] - one.laid).max() > SAME_MM for one in kept):
            kept.append(Pattern(known, float(scores[at]), float(turns[at]), middles[at], laid[at]))
    return kept


def pin_worth(scores: Floats) -> Floats:
    """Return what pins' scores count for a pattern: about the logarithm of a likelihood ratio."""
    import numpy as np

    beyond = WORTH * (CLEAR - PLAIN) + (scores - CLEAR) * WORTH_BEYOND
    return np.asarray(np.maximum(np.minimum(WORTH * (scores - PLAIN), beyond), LEAST_WORTH))


def turned(turn: Floats | float) -> Floats:
    """Return the matrix, or matrices, by which rows of points are turned by so many radians."""
    import numpy as np

    c, s = np.cos(turn), np.sin(turn)
    return np.moveaxis(np.array([[c, s], [-s, c]]), (0, 1), (-2, -1))


def _poses(known: Known, points: Floats) -> tuple[Floats, Floats]:
    """Return turns and middles that put two of the pattern's pins on two of the points."""
    import numpy as np

    if len(known.at) == 1:
        return np.zeros(len(points)), points
    seen = points[None] - points[:, None]
    away = np.linalg.norm(seen, axis=2)
    turns, middles = [np.zeros(0)], [np.zeros((0, 2))]
    for i, j in combinations(range(len(known.at)), 2):
        way = known.at[j] - known.at[i]
        length = float(np.hypot(*way))
        a, b = np.nonzero(np.abs(away - length) < PAIR_MM + OF_PAIR * length)
        turn = np.arctan2(seen[a, b, 1], seen[a, b, 0]) - np.arctan2(way[1], way[0])
        turns.append(turn)
        middles.append((points[a] + points[b]) / 2 - (known.at[i] + known.at[j]) / 2 @ turned(turn))
    return np.concatenate(turns), np.concatenate(middles)


def _looked_up(piece: Patch, scores: Floats, laid: Floats) -> Floats:
    import numpy as np

    columns = np.rint((laid[..., 0] - piece.left) * piece.scale).astype(int)
    rows = np.rint((piece.top - laid[..., 1]) * piece.scale).astype(int)
    inside = (columns >= 0) & (rows >= 0) & (columns < scores.shape[1]) & (rows < scores.shape[0])
    return np.where(inside, scores[np.clip(rows, 0, len(scores) - 1), np.clip(columns, 0, scores.shape[1] - 1)], 0.0)


def _unlike_place(known: Known, middles: Floats, place: Place) -> Floats:
    """Return what it costs that the thing which lies there is of another size, or lies elsewhere."""
    import numpy as np

    off = np.hypot(middles[:, 0] - place.x, middles[:, 1] - place.y)
    size = min(((place.reach - known.reach - 1.5) / 3.5) ** 2, 5.0)
    return np.asarray(size + np.minimum((off / 3.0) ** 2, 5.0)) / 2


def patterns_at(image: Floats, view: View, maps: Maps, place: Place, known: Sequence[Known]) -> list[Pattern]:
    """Return the patterns that what lies at a place may be, the likeliest of each kind of base, best first."""
    best: dict[tuple[str, ...], Pattern] = {}
    for laid in laid_patterns(maps, place, known):
        one = _settled(image, view, maps, laid, place)
        before = best.get(one.known.bases)
        if before is None or one.score > before.score:
            best[one.known.bases] = one
    return sorted(best.values(), key=lambda one: -one.score)


def _settled(image: Floats, view: View, maps: Maps, pattern: Pattern, place: Place) -> Pattern:
    """Return the pattern laid anew on its pins as the maps show them."""
    spots = tuple(_brought(maps, pattern.known.radius, at) for at in pattern.laid)
    return _weighed(image, view, pattern._replace(spots=spots), place)


def _weighed(image: Floats, view: View, pattern: Pattern, place: Place, above: float = 0.0) -> Pattern:
    """Return the pattern laid anew on its spots, with what they and the outline then count.

    `above` is by how much the spots' scores are higher than those of the maps.
    """
    import numpy as np

    known = pattern.known
    seen = np.array([(spot.x, spot.y) for spot in pattern.spots])
    middle = seen.mean(0)
    turn = float(np.arctan2(*_turn_parts(known.at, seen - middle))) if len(seen) > 1 else 0.0
    off = (seen - middle - known.at @ turned(turn)) / MISFIT_MM
    outline = outline_seen(image, view, known.sides, turn, middle + known.origin @ turned(turn))
    unlike = float(_unlike_place(known, (middle + known.off @ turned(turn))[None], place)[0])
    worth = pin_worth(np.array([spot.score for spot in pattern.spots]) - above).sum()
    score = float(worth - (off**2).sum() / 2) + outline.worth - unlike
    return pattern._replace(score=score, turn=turn, middle=middle)


def looked_closer(image: Floats, view: View, patterns: Sequence[Pattern], place: Place) -> list[Pattern]:
    """Return the patterns with the likelier ones weighed anew by a closer look at each pin, best first."""
    from counter.measure._pin_end import CLOSER, looked_at

    seen: dict[tuple[float, float, float], Spot] = {}

    def closer(known: Known, at: Floats) -> Spot:
        x, y = (round(float(part) / SAME_PIN_MM) * SAME_PIN_MM for part in at)
        key = (x, y, known.radius)
        if key not in seen:
            seen[key] = looked_at(image, view, Spot(x, y, known.radius, 0.0))
        return seen[key]

    anew = []
    for one in patterns:
        if one.score >= patterns[0].score - AGAIN:
            spots = tuple(closer(one.known, at) for at in one.laid)
            anew.append(_weighed(image, view, one._replace(spots=spots), place, CLOSER))
        else:
            anew.append(one)
    return sorted(anew, key=lambda one: -one.score)


def _turn_parts(drawn: Floats, seen: Floats) -> tuple[float, float]:
    """Return sine and cosine, times the same, of the turn that lays points on others (W. Kabsch's solution)."""
    return (
        float((drawn[:, 0] * seen[:, 1] - drawn[:, 1] * seen[:, 0]).sum()),
        float((drawn * seen).sum()),
    )


def _brought(maps: Maps, radius: float, at: Floats) -> Spot:
    """Return the clearest spot around a place."""
    import numpy as np

    piece, scores = maps.piece, maps.scores[radius]
    reach = round(NEAR_MM * piece.scale)
    column, row = round((at[0] - piece.left) * piece.scale), round((piece.top - at[1]) * piece.scale)
    rows, columns = slice(max(row - reach, 0), row + reach + 1), slice(max(column - reach, 0), column + reach + 1)
    around = scores[rows, columns]
    if column + reach < 0 or row + reach < 0 or around.size == 0:
        return Spot(float(at[0]), float(at[1]), radius, 0.0)
    r, c = np.unravel_index(int(around.argmax()), around.shape)
    x, y = piece.at(float(columns.start + c), float(rows.start + r))
    return Spot(x, y, radius, float(around[r, c]))
