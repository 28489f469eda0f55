"""Where a pin's end is, to a part of a pixel: end, glint and side are laid on what is seen around it.

What lies beside a pin is not of one colour: a pin stands near the edge of its base, its end is seen before the
counter, the block or a shadow. So what is around is taken by sectors, each of a colour of its own; the side is
followed for a short way only, since a block may hide its foot.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.measure._models import PIN_TALL_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.measure._card import Floats
    from counter.measure._pins import Spot
    from counter.measure._view import View

PX_PER_MM = 8.0
RING_MM, SECTORS, LEAST_PX = 0.5, 8, 8  # how far around a pin is looked at, in how many sectors of how many pixels
SHORT = 0.8  # of the radius: a lean of less shows the foot beside the end
BACK, LEAST_BACK_MM = 1.6, 1.2  # how far along a longer side is looked at: of the radius, and at least
BLURS_MM = (0.10, 0.17, 0.26)  # of edges, standard deviation
RADII = (0.93, 1.0, 1.07)  # of the pin's own, which is known to so much
GLINT = 0.47  # of the radius: an end is rounded, and brightest in its middle
GRAIN = 4.0  # square of the colour steps that an even surface has
ALONG_MM, ACROSS_MM = 1.0, 0.4  # how far from where it was found a pin's end is looked for
FINE_MM, COARSE_MM = (0.13, 0.06, 0.03), (0.2,)  # steps of the search, the first over all of it
CLOSER = 0.8  # by how much scores are higher than those of the maps: what is no pin seldom reaches 1.4


class Around(NamedTuple):
    """What is seen around a pin: places along its lean (u, away from the foot) and across, colours, sectors."""

    u: Floats
    v: Floats
    values: Floats  # N x 3
    sectors: Floats  # S x N
    lean_mm: float  # how far the foot is seen from the end


class Laid(NamedTuple):
    """An end laid on it: logarithm of the squares left over, times half the pixels; where, how large, how blurred."""

    cost: float
    du: float
    dv: float
    radius: float
    blur: float


def sharpened(image: Floats, view: View, spot: Spot, tall_mm: float) -> Spot:
    """Return the spot moved to where a pin's end explains best what is seen, for pins of that height."""
    return _seen_as(image, view, spot, tall_mm, FINE_MM)


def looked_at(image: Floats, view: View, spot: Spot) -> Spot:
    """Return the spot moved about there, with how pin-like it is."""
    return _seen_as(image, view, spot, PIN_TALL_MM, COARSE_MM)


def _seen_as(image: Floats, view: View, spot: Spot, tall_mm: float, steps: Sequence[float]) -> Spot:
    """Return the spot where a pin fits best, by ever finer steps; its score says how much better than none it does.

    The score is the logarithm of the ratio of the squares left over, without a pin and with it.
    """
    import numpy as np

    at = np.array([spot.x, spot.y])
    lean = view.lean(at)
    long = float(np.hypot(*lean))
    ways = np.array([lean, (-lean[1], lean[0])]) / max(long, 1e-9)
    around = _around(image, view, at, ways, spot.radius, long * tall_mm)
    best = _laid(around, spot.radius, steps)
    x, y = at + np.array([best.du, best.dv]) @ ways
    none = float(_costs(around, around.sectors[None])[0])
    return spot._replace(x=float(x), y=float(y), score=2 * (none - best.cost) / len(around.u))


def _around(image: Floats, view: View, at: Floats, ways: Floats, radius: float, lean_mm: float) -> Around:
    import numpy as np

    from counter.measure._card import sampled

    is_short = lean_mm <= SHORT * radius
    reach = radius + RING_MM
    back = lean_mm + reach if is_short else min(lean_mm, max(BACK * radius, LEAST_BACK_MM))
    lean_mm = lean_mm if is_short else np.inf
    us, vs = np.arange(-back, reach + ALONG_MM / 2, 1 / PX_PER_MM), np.arange(-reach, reach, 1 / PX_PER_MM)
    u, v = _grid(us, vs)
    near = np.hypot(u - np.clip(u, -lean_mm, 0), v) < reach + (0.0 if is_short else 0.4) * (u > 0)
    u, v = u[near], v[near]
    values = sampled(image, view.pixels(at + np.stack([u, v], axis=1) @ ways, PIN_TALL_MM))
    which = np.floor(np.arctan2(v, u) / (2 * np.pi) * SECTORS + 0.5) % SECTORS
    sectors = np.array([which == one for one in range(SECTORS) if (which == one).sum() > LEAST_PX], np.float32)
    return Around(u, v, values, sectors, lean_mm)


def _laid(around: Around, radius: float, steps: Sequence[float]) -> Laid:
    """Return the best of coarse steps, and of ever finer ones around it."""
    import numpy as np

    along, across = (np.arange(-reach, reach + 0.01, steps[0]) for reach in (ALONG_MM, ACROSS_MM))
    best = _as_large(around, _best(around, *_grid(along, across), radius, BLURS_MM[1]), radius)
    for step in steps[1:]:
        du, dv = _grid(*2 * [np.arange(-2, 3) * step])
        best = _as_large(around, _best(around, best.du + du, best.dv + dv, best.radius, best.blur), radius)
    return best


def _grid(along: Floats, across: Floats) -> tuple[Floats, Floats]:
    import numpy as np

    du, dv = np.meshgrid(along, across, indexing="ij")
    return du.ravel(), dv.ravel()


def _as_large(around: Around, laid: Laid, radius: float) -> Laid:
    """Return it as large and as blurred as explains it best."""
    import numpy as np

    du, dv = np.array([laid.du]), np.array([laid.dv])
    return min(_best(around, du, dv, radius * part, blur) for part in RADII for blur in BLURS_MM)


def _best(around: Around, du: Floats, dv: Floats, radius: float, blur: float) -> Laid:
    """Return the best of many places of an end."""
    costs = _costs(around, _parts(around, du, dv, radius, blur))
    at = int(costs.argmin())
    return Laid(float(costs[at]), float(du[at]), float(dv[at]), radius, blur)


def _costs(around: Around, parts: Floats) -> Floats:
    """Return what is left over where each part has a colour of its own, of parts by place."""
    import numpy as np

    square = parts @ parts.transpose(0, 2, 1) + 0.01 * np.eye(parts.shape[1])
    seen = parts @ around.values
    left = float((around.values**2).sum()) - (seen * np.linalg.solve(square, seen)).sum((1, 2))
    return np.asarray(np.log(np.maximum(left, 0) / len(around.u) + GRAIN) * len(around.u) / 2)


def _parts(around: Around, du: Floats, dv: Floats, radius: float, blur: float) -> Floats:
    """Return how much of each pixel is end, side, glint, and of each sector: places x parts x pixels."""
    import numpy as np

    def within(inward: Floats) -> Floats:  # the logistic curve is close to the normal's
        return np.asarray(1 / (1 + np.exp(np.clip(-1.702 * inward / blur, -30, 30))))

    u, v = around.u - du[:, None], around.v - dv[:, None]
    off = np.hypot(u, v)
    end, glint = within(radius - off), within(radius * GLINT - off)
    pin = np.maximum(within(radius - np.hypot(u - np.clip(u, -around.lean_mm, 0), v)), end)
    beside = (1 - pin)[:, None] * around.sectors
    return np.concatenate([np.stack([end, pin - end, glint], axis=1), beside], axis=1).astype(np.float32)
