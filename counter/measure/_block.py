"""The block or post between the pins, and the notches in its edge, on a picture turned so that pins lie level."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base
    from counter.measure._card import Floats
    from counter.measure._view import View

PX_PER_MM = 10.0
SIZES = (0.95, 1.0, 1.05)  # of what the catalogue draws: parts vary, and drawings from memory more
RISES_MM = (4.0, 14.1, 0.5)  # how high a block may stand over the face: first, last, step
AWAY_MM, STEP_MM = 1.0, 0.25  # how far off its drawn place it is looked for
MOST_STEP = 35.0  # a step of colour larger than this is no clearer an edge
RIM_MM = 1.0
CLEAR_STEP = 5.0  # mean step along the four edges from which on there is a block for certain
LEAST_STEP = 1.0  # from which on its key is read: what dark plastic shows faintly is right four times in five
OFF_SURE_MM = 1.5  # the outline's middle this far off the pins' says on which side of them the block is
UNMET = 0.5  # what evidence for a look counts that the family is not known to have
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
DEEPER_MM = (2.8, 3.2, 3.6, 4.0, 4.4)  # where the block is itself again
MOST_UNLIKE = 40.0  # a step of colour larger than this is no clearer a notch
EDGE_OFF_MM, ASIDE_MM = (-0.3, 0.0, 0.3, 0.6), (-0.5, 0.0, 0.5)  # how far off the block's edges may be found
CERTAIN_NONE = 0.6
FAINT = 0.35  # evidence for a second notch beside a clear one


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
    looks: dict[str, float]  # how well each look, on its likelier edge, explains what is seen


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


class Drawn(NamedTuple):
    """A block as the catalogue draws it on the pins: size, its middle over the pins', the looks its family has."""

    width: float
    height: float
    off: float
    room: tuple[float, float]  # half the width and height of the base's outline
    looks: frozenset[str]


def drawn_blocks(bases: Sequence[Base]) -> list[Drawn]:
    """Return the distinct blocks of some bases, both ways up."""
    found: dict[tuple[float, float, float, tuple[float, float]], frozenset[str]] = {}
    for base in bases:
        centre, pins = base.face.centre, base.face.pins.at
        if centre is None or centre.shape != "rectangle":
            continue
        off = centre.offset_y_mm - sum(pin.y_mm for pin in pins) / len(pins)
        for way in {off, -off}:
            room = (base.face.outline.width_mm / 2, base.face.outline.height_mm / 2)
            key = (centre.width_mm, centre.height_mm, way, room)
            found[key] = found.get(key, frozenset()) | frozenset(base.family_notches)
    return [Drawn(*key, looks) for key, looks in found.items()]


def right_way_up(drawn: Sequence[Drawn], outline_off: float) -> list[Drawn]:
    """Leave out blocks on the side of the pins on which the rest of the base does not lie."""
    return [one for one in drawn if abs(outline_off) < OFF_SURE_MM or one.off * outline_off >= 0]


def find_block(level: Level, lean: Floats, drawn: Sequence[Drawn]) -> tuple[Block, Drawn] | None:
    """Return the place at which the edges of one of the drawn blocks are clearest, and which it is.

    `level` shows the face; `lean` says by how much a millimetre of height shifts things there, in the part's frame.
    """
    import numpy as np

    up = np.minimum(np.abs(level.image[:, 2:] - level.image[:, :-2]).sum(2), MOST_STEP)
    across = np.minimum(np.abs(level.image[2:] - level.image[:-2]).sum(2), MOST_STEP)
    up, across = np.pad(up, ((0, 0), (1, 1))), np.pad(across, ((1, 1), (0, 0)))
    best: tuple[Block, Drawn] | None = None
    steps, away = np.array(SIZES), np.arange(-AWAY_MM, AWAY_MM + 0.01, STEP_MM)
    for one in drawn:
        inside = _inside(level, one)
        sums = (
            np.cumsum(np.pad(up * inside, ((1, 0), (0, 0))), axis=0),
            np.cumsum(np.pad(across * inside, ((0, 0), (1, 0))), axis=1),
        )
        grid = np.meshgrid(one.width * steps, one.height * steps, away, away, np.arange(*RISES_MM), indexing="ij")
        w, h, dx, dy, rise = (values.ravel() for values in grid)
        cx, cy = dx + lean[0] * rise, one.off + dy + lean[1] * rise
        sides = _side_steps(level, *sums, cx, cy, w, h)
        clear = np.mean(sides, axis=0) + 0.3 * np.min(sides, axis=0) - 1.2 * (dx**2 + dy**2)
        at = int(clear.argmax())
        if best is None or clear[at] > best[0].clear:
            found = (float(values[at]) for values in (cx, cy, w, h, rise, clear))
            best = (Block(*found), one)
    return best


def _inside(level: Level, one: Drawn) -> Floats:
    """Return 0 on the edge of the base's outline, which is not the block's, and 1 elsewhere.

    A high block is seen beyond the outline where the camera looks aslant.
    """
    import numpy as np

    place = np.arange(len(level.image)) / PX_PER_MM - level.reach
    across, up = np.abs(place)[None] - one.room[0], np.abs(-place - one.off)[:, None] - one.room[1]
    return np.asarray(np.abs(np.maximum(across, up)) > RIM_MM, np.float32)


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


def read_key(level: Level, block: Block, drawn: Drawn) -> Key:
    """Return the look of the key: of all looks on a key edge the one that explains best what the edges show.

    A block that stands off the pins' middle has its key edge away from the pins; else either long edge may be it.
    """
    import numpy as np

    edges = (1, -1) if abs(drawn.off) < 1 else ((1,) if drawn.off > 0 else (-1,))
    plain = [_profile(level, block, edge, 0.0)[1] for edge in (1, -1)]
    spread = float(np.median([np.median(np.abs(one - np.median(one))) for one in plain])) * 1.5 + 1.0
    best: dict[tuple[str, int], float] = {}
    for edge in edges:
        for inward in EDGE_OFF_MM:
            x, unlike = _profile(level, block, edge, inward)
            for look, cuts in LOOKS.items():
                if look != "none":
                    score = max(_explains(x - aside, unlike, cuts, spread) for aside in ASIDE_MM)
                    score = min(score, score * (1.0 if look in drawn.looks else UNMET)) - 0.1 * abs(inward)
                    best[look, edge] = max(best.get((look, edge), -9.0), score)
    scores = sorted(((score, *key) for key, score in best.items()), reverse=True)
    first = _both_if_both(scores[0], best)
    other = next((one for one in scores[1:] if one[1:] != first[1:]), first)
    looks = {"none": CERTAIN_NONE} | {
        look: max(best[look, edge] for edge in edges) for look in LOOKS if look != "none"
    }
    looks[first[1]] = max(looks[first[1]], first[0])
    if first[0] < CERTAIN_NONE:
        return Key("none", edges[0], CERTAIN_NONE - first[0], looks)
    return Key(first[1], first[2], min(first[0] - CERTAIN_NONE, 2 * (first[0] - other[0])), looks)


def _both_if_both(first: tuple[float, str, int], best: dict[tuple[str, int], float]) -> tuple[float, str, int]:
    """Return two small notches for one where the other side shows one too, if fainter: light falls from one side."""
    opposite = {"small-left": "small-right", "small-right": "small-left"}.get(first[1])
    if opposite is None or best.get((opposite, first[2]), -9.0) < FAINT:
        return first
    return (first[0], "two-small", first[2])


def _profile(level: Level, block: Block, edge: int, inward: float) -> tuple[Floats, Floats]:
    """Return places along an edge and how unlike the strip inside that edge is to what lies deeper inside there.

    Left and right are as seen with that edge up. What lies deeper is under the same light; what changes from the
    strip to it all along the edge is light as well.
    """
    import numpy as np

    half = block.width / 2 - 0.5
    x = np.arange(-half, half + 0.01, 0.15)
    strip = _strip(level, block, edge, x, inward + np.arange(0.45, DEPTH_MM, 0.2))
    deeper = _strip(level, block, edge, x, inward + np.array(DEEPER_MM))
    unlike = strip - np.median(deeper, axis=1)[:, None]
    return x, np.minimum(np.linalg.norm(unlike, axis=2).mean(1), MOST_UNLIKE)


def _strip(level: Level, block: Block, edge: int, x: Floats, depths: Floats) -> Floats:
    """Return the colours along an edge at some depths inside of it: places x depths x colour."""
    import numpy as np

    from counter.measure._card import sampled

    ys = block.y + edge * (block.height / 2 - depths)
    at = np.stack(np.broadcast_arrays(level.column(block.x + x * edge)[:, None], level.row(ys)[None]), axis=-1)
    return sampled(level.image, at.reshape(-1, 2)).reshape(len(x), len(depths), -1)


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
    return float((0.5 * step + 0.5 * fill) / (2.0 * spread + 1.0 * rough + 2.0) + 0.1 * (len(each) - 1))
