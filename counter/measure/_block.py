"""The block or post between the pins, and the notches in its edge, on a picture turned so that pins lie level."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from counter.measure._card import Floats
    from counter.measure._view import View

PX_PER_MM = 10.0
WIDTHS_MM, HEIGHTS_MM = (7.0, 19.0, 0.5), (6.0, 17.5, 0.5)  # first, last, step
RISES_MM = (4.0, 14.0, 1.0)  # how high a block may stand over the face
OFF_MM = (-6.5, 6.5, 0.5)  # its middle over or under the pins'
CLEAR_STEP = 7.0  # colour step along the weakest side from which on there is a block for certain
LARGE, SMALL, PAIRED = (5.0, 2.2), (2.4, 1.8), (3.6, 2.2)  # widths and depths of notches, as the catalogue draws them

# Where notches of each look are on a key edge: offset from its middle and width, millimetres.
LOOKS: dict[str, tuple[tuple[float, float], ...]] = {
    "none": (),
    "one-large": ((0.0, LARGE[0]),),
    "two-large": ((-4.2, PAIRED[0]), (4.2, PAIRED[0])),
    "small-centre": ((0.0, SMALL[0]),),
    "small-left": ((-4.5, SMALL[0]),),
    "small-right": ((4.5, SMALL[0]),),
    "two-small": ((-4.5, SMALL[0]), (4.5, SMALL[0])),
}
DEPTH_MM = 1.3  # of the strip inside an edge in which notches are looked for
CERTAIN_NOTCH, CERTAIN_NONE = 0.9, 0.5


class Block(NamedTuple):
    """The block's top in the pins' frame (mm, x along the pins): middle, size, how clear its edges are."""

    x: float
    y: float
    width: float
    height: float
    rise: float
    clear: float


class Key(NamedTuple):
    """What the block's edges show: the look, which edge it is on (1 upper, -1 lower), and how clearly."""

    look: str
    edge: int
    clear: float
    second: str


class Level(NamedTuple):
    """A picture from straight above with the pins' line level, the origin between the pins in its middle."""

    image: Floats
    reach: float

    def column(self, x: Floats) -> Floats:
        """Return pixel columns of millimetres."""
        return (x + self.reach) * PX_PER_MM

    def row(self, y: Floats) -> Floats:
        """Return pixel rows of millimetres, y up."""
        return (self.reach - y) * PX_PER_MM


def levelled(image: Floats, view: View, middle: Floats, turn: float, reach: float, level_mm: float) -> Level:
    """Return the part around `middle` on a level, turned back by `turn` radians."""
    import cv2
    import numpy as np

    size = round(2 * reach * PX_PER_MM) + 1
    c, s = np.cos(turn), np.sin(turn)
    k = 1 / PX_PER_MM
    # pixel (column, row) to the part's frame (x, y), to the card's frame
    to_mm = np.array(
        [[c * k, s * k, -c * reach - s * reach + middle[0]], [s * k, -c * k, -s * reach + c * reach + middle[1]]]
    )
    matrix = view.homography(level_mm) @ np.vstack([to_mm, [0, 0, 1]])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    flat = cv2.warpPerspective(image, matrix, (size, size), flags=flags, borderMode=cv2.BORDER_REPLICATE)
    return Level(cv2.GaussianBlur(flat, (0, 0), 1.2), reach)


def find_block(level: Level, lean: Floats, most_width: float) -> Block | None:
    """Return the rectangle around the pins' middle whose four edges are clearest.

    `level` shows the face; `lean` says by how much a millimetre of height shifts things there, in the part's frame;
    `most_width` is the room between the pins. Of every size, height and place the weakest edge counts.
    """
    import numpy as np

    up = np.abs(level.image[:, 2:] - level.image[:, :-2]).sum(2)
    across = np.abs(level.image[2:] - level.image[:-2]).sum(2)
    up = np.cumsum(np.pad(np.minimum(up, 60), ((1, 0), (1, 1))), axis=0)
    across = np.cumsum(np.pad(np.minimum(across, 60), ((1, 1), (1, 0))), axis=1)
    widths = np.arange(*WIDTHS_MM)
    widths = widths[widths < most_width]
    heights, offs = np.arange(*HEIGHTS_MM), np.arange(*OFF_MM)
    best: Block | None = None
    for rise in np.arange(*RISES_MM):
        w, h, y = (one.ravel() for one in np.meshgrid(widths, heights, offs, indexing="ij"))
        cx, cy = np.full_like(y, lean[0] * rise), y + lean[1] * rise
        sides = _side_steps(level, up, across, cx, cy, w, h)
        weakest = np.min(sides, axis=0) + 0.25 * np.mean(sides, axis=0) - 0.25 * np.abs(y)
        at = int(weakest.argmax()) if len(weakest) else -1
        if at >= 0 and (best is None or weakest[at] > best.clear):
            best = Block(float(cx[at]), float(cy[at]), float(w[at]), float(h[at]), float(rise), float(weakest[at]))
    return best


def _side_steps(
    level: Level, up: Floats, across: Floats, cx: Floats, cy: Floats, w: Floats, h: Floats
) -> list[Floats]:
    """Return the mean step of colour along left, right, upper and lower edge of many rectangles at once."""
    import numpy as np

    most = len(level.image) - 1

    def pixel(values: Floats) -> Floats:
        return np.clip(np.rint(values), 0, most).astype(int)

    left, right = pixel(level.column(cx - w / 2)), pixel(level.column(cx + w / 2))
    top, low = pixel(level.row(cy + h / 2)), pixel(level.row(cy - h / 2))
    tall, wide = np.maximum(low - top, 1), np.maximum(right - left, 1)
    return [
        (up[low, left] - up[top, left]) / tall,
        (up[low, right] - up[top, right]) / tall,
        (across[top, right] - across[top, left]) / wide,
        (across[low, right] - across[low, left]) / wide,
    ]


def read_key(level: Level, block: Block, allowed: tuple[int, ...] = (1, -1)) -> Key:
    """Return the look of the key: of all looks on either long edge the one that explains best what the edges show."""
    import numpy as np

    scores: list[tuple[float, str, int]] = []
    profiles = {edge: _profile(level, block, edge) for edge in allowed}
    spread = float(np.median([np.median(np.abs(p - np.median(p))) for _, p in profiles.values()])) * 1.5 + 1.0
    for edge, (x, unlike) in profiles.items():
        for look, cuts in LOOKS.items():
            if look != "none":
                scores.append((_explains(x, unlike, cuts, spread), look, edge))
    scores.sort(reverse=True)
    first = scores[0]
    other = next((one for one in scores[1:] if one[1:] != first[1:]), first)
    if first[0] < CERTAIN_NONE:
        return Key("none", 1, CERTAIN_NONE - first[0], first[1])
    return Key(first[1], first[2], min(first[0], 2 * (first[0] - other[0]) + 0.4), other[1])


def _profile(level: Level, block: Block, edge: int) -> tuple[Floats, Floats]:
    """Return places along an edge and how unlike the block's top the strip inside that edge is there.

    Left and right are as seen with that edge up.
    """
    import numpy as np

    from counter.measure._card import sampled

    half = block.width / 2 - 0.5
    x = np.arange(-half, half + 0.01, 0.15)
    depths = np.arange(0.45, DEPTH_MM, 0.2)
    ys = block.y + edge * (block.height / 2 - depths)
    at = np.stack(np.broadcast_arrays(level.column(block.x + x * edge)[:, None], level.row(ys)[None]), axis=-1)
    strip = sampled(level.image, at.reshape(-1, 2)).reshape(len(x), len(depths), -1)
    inner = np.arange(-0.25, 0.26, 0.05)
    gx, gy = np.meshgrid(block.x + inner * block.width * 1.4, block.y + inner * block.height)
    top = sampled(level.image, np.column_stack([level.column(gx.ravel()), level.row(gy.ravel())]))
    plain = np.median(top, axis=0)
    return x, np.linalg.norm(strip - plain, axis=2).mean(1)


def _explains(x: Floats, unlike: Floats, cuts: tuple[tuple[float, float], ...], spread: float) -> float:
    """Return by how much the strip differs inside the cuts from outside, in about two and a half deviations."""
    import numpy as np

    inside = np.zeros(len(x), bool)
    border = np.zeros(len(x), bool)
    each = []
    for offset, width in cuts:
        cut = np.abs(x - offset) < width / 2 - 0.3
        if not cut.any():
            return -9.0
        each.append(float(unlike[cut].mean()))
        inside |= cut
        border |= np.abs(np.abs(x - offset) - width / 2) < 0.5
    outside = ~inside & ~border
    if not outside.any():
        return -9.0
    plain, rough = float(unlike[outside].mean()), float(unlike[outside].std())
    step = min(each) - plain  # of two notches the fainter one counts
    fill = sum(each) / len(each) - plain
    return float((0.5 * step + 0.5 * fill) / (2.5 * spread + 1.2 * rough + 3.0) + 0.1 * (len(each) - 1))
