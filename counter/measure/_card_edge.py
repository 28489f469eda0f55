"""The upper edge of a card's side: a slanted camera sees the card's thickness, and another edge, below it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from counter.measure._card import Floats

SAMPLES, PER_PX = 80, 2  # along a side, and across it
ROOM_PX, BESIDE_PX = 3.0, 4.0  # how far off the edge is looked for, and what is seen beside it
BLURS_PX = (1.1, 1.5, 2.0)  # of an edge, standard deviation: lens, sensor and what smoothed the picture since
LEAST_SEEN_PX = 0.4  # of a card's side, below which nobody sees one
TOGETHER = 16  # places along a side that are looked at as one
NOISE = 3.0  # of colours, standard deviation
DARKER, OR_SO = 0.65, 0.25  # a card's side beside its face: light comes from above
GREY = 128.0  # what no colour is in two of Lab's three numbers


class Edge(NamedTuple):
    """Points of an upper edge, pixels, and how much better it explains each than no edge does."""

    points: Floats
    weight: Floats


def upper_edge(lab: Floats, start: Floats, end: Floats, normal: Floats, below: float, room: float) -> Edge:
    """Return where the upper edge of a side lies that was found between two corners.

    `normal` points outward, `below` is how far outside of it the lower edge is seen (less than 0: hidden), pixels.
    What is seen across it are three colours, of the face, the side and the counter, or two; a side is as dark as
    sides are, so that of one step of colour it is known which edge it is.
    """
    import numpy as np

    from counter.measure._card import sampled

    below = below if below > LEAST_SEEN_PX else 0.0
    along = np.linspace(room, 1 - room, SAMPLES)
    at = np.arange(-(below + ROOM_PX + BESIDE_PX), ROOM_PX + below + BESIDE_PX, 1 / PER_PX)
    line = start + (end - start) * along[:, None]
    values = sampled(lab, (line[:, None] + normal * at[None, :, None]).reshape(-1, 2))
    values = values.reshape(SAMPLES, len(at), -1) - (0, GREY, GREY)
    face = float(np.median(values[:, at < -below - ROOM_PX, 0]))
    places = np.arange(-below - ROOM_PX, ROOM_PX + 0.01, 0.5 / PER_PX)
    blurred = [_costs(values, at, places, below, face, blur) for blur in BLURS_PX]
    costs = min(blurred, key=lambda one: float(one.mean(0).min()))
    shared = _together(costs)
    best = shared.argmin(1)
    off = places[best] + _bottom(shared, best) * 0.5 / PER_PX
    return Edge(line + normal * off[:, None], shared.max(1) - shared.min(1))


def _costs(values: Floats, at: Floats, places: Floats, below: float, face: float, blur: float) -> Floats:
    """Return for each spot along the side, and each place that its edge may have, the squares that are left over."""
    import numpy as np

    def inside(place: float) -> Floats:  # the logistic curve is close to the normal's
        return np.asarray(1 / (1 + np.exp(1.702 * (at - place) / blur)))

    whole = (values**2).sum((1, 2))
    costs = []
    for place in places:
        inner, outer = inside(place), 1 - inside(place + below)
        parts = np.stack([inner, outer] if not below else [inner, outer, 1 - inner - outer], axis=1)
        costs.append(whole - _explained(values, parts, face))
    return np.stack(costs, axis=1) / NOISE**2


def _explained(values: Floats, parts: Floats, face: float) -> Floats:
    """Return the squares that parts of one colour explain: face, counter and, where it is seen, a darker side."""
    import numpy as np

    square = parts.T @ parts + 1e-9 * np.eye(parts.shape[1])
    if parts.shape[1] > 2:
        way = np.array([-DARKER, 0, 1]) * NOISE / (OR_SO * max(face, 2 * NOISE))
        square += np.outer(way, way)
    seen = np.einsum("ixc,xp->icp", values, parts)
    return np.asarray(np.einsum("icp,pq,icq->i", seen, np.linalg.inv(square), seen, optimize=True))


def _together(costs: Floats) -> Floats:
    """Return the mean over neighbouring places along the side."""
    import numpy as np

    sums = np.cumsum(np.pad(costs, ((1, 0), (0, 0))), axis=0)
    here = np.arange(len(costs))
    low, high = np.maximum(here - TOGETHER // 2, 0), np.minimum(here + TOGETHER // 2, len(costs))
    return np.asarray((sums[high] - sums[low]) / (high - low)[:, None])


def _bottom(rows: Floats, best: Floats) -> Floats:
    from counter.measure._card import peak

    return peak(-rows, best)
