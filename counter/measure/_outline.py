"""Whether a base's outline lies where its pins say: the step of colour along each of its sides."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from counter.catalogue import Outline
    from counter.measure._card import Floats
    from counter.measure._view import View

REACH_MM, STEP_MM = 3.0, 0.25  # how far off its drawn place a side is looked for
STRIP = 4  # steps on either side of an edge whose colours are compared: a millimetre
ALONG = 14  # places along a side
UNEVEN = 25.0  # square of the colour steps that an even surface has
LOOSE_MM = 1.5  # standard deviation of a side from its drawn place: outlines are drawn from memory
PLAIN, WORTH, MOST = 0.45, 1.6, 1.6  # a side's score that says nothing; what more counts, and how much at most


class Side(NamedTuple):
    """Points along a side and the way out, millimetres in the base's own frame."""

    points: Floats  # ALONG x 2
    out: Floats  # ALONG x 2


class Seen(NamedTuple):
    """How far out each side of a base was found, right, top, left, bottom; what that counts for the base."""

    off_mm: Floats
    worth: float


def sides_of(outline: Outline) -> list[Side]:
    """Return right, upper, left and lower side; of a circle its quarters."""
    import numpy as np

    half_w, half_h = outline.width_mm / 2, outline.height_mm / 2
    corner = min(outline.corner_mm, half_w, half_h)
    middle = np.array([0.0, outline.offset_y_mm])
    found = []
    for quarter in range(4):
        turn = quarter * np.pi / 2
        if outline.shape == "circle":
            at = turn + np.linspace(-0.7, 0.7, ALONG)
            out = np.column_stack([np.cos(at), np.sin(at)])
            found.append(Side(middle + out * half_w, out))
            continue
        out = np.array([np.cos(turn), np.sin(turn)])
        far, half = (half_w, half_h) if quarter % 2 == 0 else (half_h, half_w)
        long = np.linspace(-1, 1, ALONG)[:, None] * max(half - corner * 0.8, half * 0.35)
        points = middle + out * far + long * np.array([-out[1], out[0]])
        found.append(Side(points, np.broadcast_to(out, points.shape)))
    return found


def outline_seen(image: Floats, view: View, sides: list[Side], turn: float, origin: Floats) -> Seen:
    """Return where the sides of a base are seen that lies turned by `turn` radians with its origin there."""
    import numpy as np

    from counter.measure._card import sampled

    c, s = np.cos(turn), np.sin(turn)
    back = np.array([[c, s], [-s, c]])
    offs = np.arange(-REACH_MM - STRIP * STEP_MM, REACH_MM + STRIP * STEP_MM + 0.01, STEP_MM) + STEP_MM / 2
    points = np.stack([side.points for side in sides]) @ back + origin
    out = np.stack([side.out for side in sides]) @ back
    at = points[:, :, None] + out[:, :, None] * offs[None, None, :, None]
    values = sampled(image, view.pixels(at.reshape(-1, 2))).reshape(len(sides), ALONG, len(offs), -1)
    scores = _step_scores(values)
    places = np.arange(scores.shape[1]) * STEP_MM - REACH_MM - STEP_MM / 2
    worth = np.minimum(WORTH * (scores - PLAIN), MOST) - (places / LOOSE_MM) ** 2 / 2
    best = worth.argmax(1)
    return Seen(places[best], float(worth[np.arange(len(sides)), best].sum()))


def _step_scores(values: Floats) -> Floats:
    """Return for each side and place how much better two colours explain the strips beside it than one does."""
    import numpy as np

    sums = np.cumsum(values.sum(1), axis=1)
    squares = np.cumsum((values**2).sum(axis=(1, 3)), axis=1)
    sums = np.pad(sums, ((0, 0), (1, 0), (0, 0)))
    squares = np.pad(squares, ((0, 0), (1, 0)))
    n = float(STRIP * ALONG)
    inner, outer = sums[:, STRIP:-STRIP] - sums[:, : -2 * STRIP], sums[:, 2 * STRIP :] - sums[:, STRIP:-STRIP]
    total = squares[:, 2 * STRIP :] - squares[:, : -2 * STRIP]
    one = total - ((inner + outer) ** 2).sum(2) / (2 * n)
    two = total - ((inner**2).sum(2) + (outer**2).sum(2)) / n
    least = 2 * n * UNEVEN
    return np.asarray(np.log((np.maximum(one, 0) + least) / (np.maximum(two, 0) + least)))
