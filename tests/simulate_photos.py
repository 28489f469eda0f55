"""Photographs that were never taken: bases as textured solids beside a bank card, seen by a camera that we know.

    python -m tests.simulate_photos [COUNT] [FIRST_SEED]      measure COUNT of them and print how well
    python -m tests.simulate_photos --look OUT.png SEED        one of them, to be looked at

Faces are the catalogue's own drawings with what real parts do to them: every size a little off, edges worn, mould
lettering, scratches, shadows, glare, blur, noise, JPEG. Pins stand 6 to 8 mm high and posts 6 to 12 mm, so that a
slanted camera sees their sides and their tips nearer than their feet. Heights, lighting and wear are judgement, no
source. The card lies within about a millimetre of the face's own level, as the program asks for it.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from time import process_time

import cv2
import numpy as np

from counter.catalogue import Notch, load, notch_look
from counter.measure import faces_of, likely_of, measure_bytes

SHIFT = 4  # fractional bits of polygon corners
CARD = (85.60, 53.98)
STEEPEST_DEG = 35.0
SIDES = ("small-left", "small-right")


@dataclass(frozen=True)
class Photo:
    """A picture as bytes, and what is true of it."""

    jpeg: bytes
    base: str
    pins: tuple[tuple[float, float], ...]  # face view of the part itself, millimetres
    spacing: float | None  # of the pair that the catalogue's spacing speaks of
    notch: str | None
    tilt_deg: float


@dataclass
class Camera:
    """A pinhole: world (millimetres, z toward the camera) to pixels."""

    matrix: np.ndarray  # 3x4

    def __call__(self, points, z):
        points = np.asarray(points, float)
        world = np.column_stack([points, np.full(len(points), z), np.ones(len(points))])
        seen = world @ self.matrix.T
        return seen[:, :2] / seen[:, 2:]


def camera_at(rng, size, target, reach):
    width, height = size
    focal = rng.uniform(0.7, 1.1) * width
    tilt, azimuth, roll = (
        np.radians(rng.uniform(0, STEEPEST_DEG)),
        rng.uniform(0, 2 * np.pi),
        rng.uniform(0, 2 * np.pi),
    )
    distance = focal * reach / (0.46 * height * rng.uniform(0.78, 1.0))
    forward = -np.array([np.sin(tilt) * np.cos(azimuth), np.sin(tilt) * np.sin(azimuth), np.cos(tilt)])
    side = np.array([np.cos(roll), np.sin(roll), 0.0])
    side -= forward * (side @ forward)
    side /= np.linalg.norm(side)
    down = np.cross(forward, side)
    rotation = np.vstack([side, down, forward])
    at = np.array([*target, 0.0]) - forward * distance
    inner = np.array([[focal, 0, width / 2], [0, focal, height / 2], [0, 0, 1]])
    return Camera(inner @ np.column_stack([rotation, -rotation @ at])), float(np.degrees(tilt))


# -- shapes of the part, millimetres


def rounded(width, height, corner, centre=(0.0, 0.0)):
    corner = min(corner, width / 2 - 0.01, height / 2 - 0.01)
    points = []
    for quarter, (sx, sy) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        angles = np.radians(np.linspace(quarter * 90, quarter * 90 + 90, 9))
        middle = (sx * (width / 2 - corner), sy * (height / 2 - corner))
        points += [(middle[0] + corner * np.cos(a), middle[1] + corner * np.sin(a)) for a in angles]
    return np.array(points) + centre


def disc(x, y, radius, steps=28):
    angles = np.linspace(0, 2 * np.pi, steps, endpoint=False)
    return np.column_stack([x + radius * np.cos(angles), y + radius * np.sin(angles)])


def block_with(rng, centre, cuts, wear):
    """Return the block's outline with its notches, corners worn."""
    half_w, half_h = centre.width_mm / 2, centre.height_mm / 2
    top, low = centre.offset_y_mm + half_h, centre.offset_y_mm - half_h
    if centre.shape == "circle":
        return disc(0, centre.offset_y_mm, half_w, 60)
    points = [(-half_w, low), (-half_w, top)]
    for cut in sorted(cuts, key=lambda one: one.offset_mm):
        left, right = cut.offset_mm - cut.width_mm / 2, cut.offset_mm + cut.width_mm / 2
        chip = [rng.uniform(0, wear) for _ in range(4)]
        points += [(left - chip[0], top), (left, top - chip[1]), (left, top - cut.depth_mm)]
        points += [(right, top - cut.depth_mm), (right, top - chip[2]), (right + chip[3], top)]
    points += [(half_w, top), (half_w, low)]
    return np.array(points)


def worn(rng, base):
    """Return the part's own sizes: the catalogue's with what a mould and years do to them."""
    face = base.face
    pins = np.array([(pin.x_mm, pin.y_mm) for pin in face.pins.at]) + rng.normal(0, 0.08, (len(face.pins.at), 2))
    outline = face.outline.model_copy(
        update={
            "width_mm": face.outline.width_mm * rng.normal(1, 0.02),
            "height_mm": face.outline.height_mm * rng.normal(1, 0.02),
        }
    )
    if face.outline.shape == "circle":
        outline = outline.model_copy(update={"height_mm": outline.width_mm})
    centre = face.centre
    if centre is not None:
        centre = centre.model_copy(
            update={
                "width_mm": centre.width_mm * rng.normal(1, 0.02),
                "height_mm": centre.height_mm * rng.normal(1, 0.02),
            }
        )
    return pins, outline, centre, tuple(_worn_notch(rng, cut) for cut in _cuts(rng, base))


def _worn_notch(rng, cut):
    return Notch(
        size=cut.size,
        offset_mm=cut.offset_mm + rng.normal(0, 0.15),
        width_mm=cut.width_mm + rng.normal(0.1, 0.15),
        depth_mm=max(cut.depth_mm + rng.normal(-0.1, 0.15), 1.0),
    )


def _cuts(rng, base):
    """Return the base's notches, or where the catalogue knows none of its own, some that its family has."""
    if base.face.notches is not None:
        return base.face.notches.at
    if not base.family_notches or base.face.centre is None:
        return ()
    small = {"size": "small", "width_mm": 2.4, "depth_mm": 1.8}
    at = {
        "none": (),
        "one-large": (Notch(size="large", offset_mm=0, width_mm=5.0, depth_mm=2.2),),
        "two-large": tuple(Notch(size="large", offset_mm=x, width_mm=3.6, depth_mm=2.2) for x in (-4.2, 4.2)),
        "small-centre": (Notch(offset_mm=0, **small),),
        "small-left": (Notch(offset_mm=-4.5, **small),),
        "small-right": (Notch(offset_mm=4.5, **small),),
        "two-small": (Notch(offset_mm=-4.5, **small), Notch(offset_mm=4.5, **small)),
    }
    return at[str(rng.choice(base.family_notches))]


def measured_pair(base, pins):
    """Return the distance on the part between the two pins that the catalogue's spacing speaks of."""
    spacing = base.pin_spacing_mm
    if spacing is None or len(pins) < 2:
        return None
    at = np.array([(pin.x_mm, pin.y_mm) for pin in base.face.pins.at])
    pairs = [(i, j) for i in range(len(at)) for j in range(i + 1, len(at))]
    i, j = min(pairs, key=lambda p: (round(abs(np.linalg.norm(at[p[0]] - at[p[1]]) - spacing.value), 1),))
    return float(np.linalg.norm(pins[i] - pins[j]))


# -- paint


def fill(image, points, colour):
    cv2.fillPoly(
        image, [np.round(points * 2**SHIFT).astype(np.int32)], [float(c) for c in colour], cv2.LINE_AA, SHIFT
    )


def cloud(rng, shape, grain, strength):
    """Return a field of soft noise around 1."""
    small = rng.normal(0, 1, (max(shape[0] // grain, 2), max(shape[1] // grain, 2))).astype(np.float32)
    return 1 + strength * cv2.resize(small, shape[::-1], interpolation=cv2.INTER_CUBIC)


def counter_top(rng, shape):
    colour = rng.uniform(40, 215) * rng.uniform(0.8, 1.15, 3)
    image = np.ones((*shape, 3), np.float32) * colour
    grain = cloud(rng, shape, int(rng.integers(3, 90)), rng.uniform(0.01, 0.07))
    if rng.random() < 0.4:  # wood: long in one direction
        strip = rng.normal(0, 1, (shape[0] // 6, 4)).astype(np.float32)
        grain *= 1 + rng.uniform(0.02, 0.08) * cv2.resize(strip, shape[::-1], interpolation=cv2.INTER_CUBIC)
    return image * grain[..., None] * cloud(rng, shape, 400, 0.08)[..., None]


def contrasting(rng, colour, least):
    """Return a colour that an eye tells from another; a part that nobody can see is no test."""
    while True:
        mine = rng.uniform(25, 245) * rng.uniform(0.85, 1.1, 3)
        if abs(mine.mean() - np.mean(colour)) >= least:
            return mine


def paint_card(rng, image, camera, place, under):
    z = rng.normal(0, 0.7)
    colour = contrasting(rng, under, 28) if rng.random() < 0.5 else rng.uniform(20, 240, 3)
    if np.abs(colour - under).max() < 40:
        colour = contrasting(rng, under, 40)
    fill(image, camera(place(rounded(*CARD, 3.18)), z - 0.8), colour * 0.6)
    fill(image, camera(place(rounded(*CARD, 3.18)), z), colour)
    for _ in range(int(rng.integers(2, 7))):  # print
        size = rng.uniform(3, 30, 2)
        room = (np.array(CARD) - size) / 2 - 2
        middle = rng.uniform(-1, 1, 2) * np.maximum(room, 0)
        fill(image, camera(place(rounded(*size, rng.uniform(0, 6), middle)), z), rng.uniform(20, 240, 3))
    for column in range(16):  # figures, as strokes
        x = -34 + column * 4.3 + column // 4 * 1.2
        fill(image, camera(place(rounded(2.2, 3.6, 0.8, (x, -5))), z), colour * 0.35 + 60)


def paint_part(rng, image, camera, place, part, colour):
    pins, outline, centre, cuts, radius = part
    edge = (
        disc(0, outline.offset_y_mm, outline.width_mm / 2, 90)
        if outline.shape == "circle"
        else rounded(outline.width_mm, outline.height_mm, outline.corner_mm, (0, outline.offset_y_mm))
    )
    for z in np.linspace(-6, 0, 13):
        fill(image, camera(place(edge), z), colour * rng.uniform(0.55, 0.6))
    face = image.copy()
    fill(face, camera(place(edge), 0), colour)
    face *= cloud(rng, image.shape[:2], 30, 0.012)[..., None]
    mask = np.zeros(image.shape[:2], np.float32)
    fill(mask, camera(place(edge), 0), (1.0,))
    image[:] = image * (1 - mask[..., None]) + face * mask[..., None]
    lettering(rng, image, camera, place, edge, colour)
    tall_pin, tall_block = rng.uniform(6, 8), rng.uniform(6, 12)
    block = None if centre is None else block_with(rng, centre, cuts, rng.uniform(0, 0.5))
    shadow(rng, image, camera, place, [disc(*pin, radius) for pin in pins], block, (tall_pin, tall_block))
    solids = [(disc(*pin, radius), tall_pin, None) for pin in pins]
    if block is not None:
        solids.append((block, tall_block, colour))
    # Far ones first, as the camera sees them: what is nearer hides what is behind.
    solids.sort(key=lambda solid: -depth(camera, place(solid[0]).mean(0)))
    for points, tall, paint in solids:
        extrude(rng, image, camera, place(points), tall, paint)


def depth(camera, point):
    return float(camera.matrix[2] @ np.array([*point, 0.0, 1.0]))


def extrude(rng, image, camera, points, tall, colour):
    metal = rng.uniform(0.75, 1.0) * np.array([rng.uniform(150, 205), rng.uniform(185, 215), rng.uniform(205, 235)])
    top = metal if colour is None else colour * rng.uniform(0.94, 1.06)
    side = top * rng.uniform(0.45, 0.8)
    for z in np.arange(0, tall, 0.2):
        fill(image, camera(points, z), side)
    fill(image, camera(points, tall), top)
    if colour is None:  # a pin's end is round: bright in the middle
        middle = points.mean(0)
        fill(image, camera(middle + (points - middle) * 0.45 + 0.15, tall), np.minimum(top * 1.2, 255))


def shadow(rng, image, camera, place, pins, block, tall):
    toward = rng.uniform(0, 2 * np.pi)
    slope = rng.uniform(0.1, 0.5)
    dark = np.zeros(image.shape[:2], np.float32)
    for shape, high in [*((pin, tall[0]) for pin in pins), *(((block, tall[1]),) if block is not None else ())]:
        for part in np.linspace(0, 1, 8):
            step = part * high * slope * np.array([np.cos(toward), np.sin(toward)])
            fill(dark, camera(place(shape + step), 0), (1.0,))
    soft = cv2.GaussianBlur(dark, (0, 0), rng.uniform(2, 7))
    image *= 1 - rng.uniform(0.1, 0.45) * soft[..., None]


def lettering(rng, image, camera, place, edge, colour):
    """Mould marks and scratches on the face."""
    low, high = edge.min(0), edge.max(0)
    for _ in range(int(rng.integers(0, 8))):
        at = rng.uniform(low * 0.75, high * 0.75)
        fill(image, camera(place(rounded(*rng.uniform(0.4, 1.6, 2), 0.1, at)), 0), colour * rng.uniform(0.85, 1.1))
    for _ in range(int(rng.integers(0, 5))):
        ends = rng.uniform(low * 0.8, high * 0.8, (2, 2))
        a, b = (tuple(map(int, np.round(p * 2**SHIFT))) for p in camera(place(ends), 0))
        cv2.line(image, a, b, [float(c) for c in colour * rng.uniform(0.7, 1.15)], 1, cv2.LINE_AA, SHIFT)


def spoil(rng, image):
    """What lens, light and sensor do."""
    height, width = image.shape[:2]
    for _ in range(int(rng.integers(0, 3))):  # glare
        y, x = np.mgrid[0:height, 0:width].astype(np.float32)
        cx, cy = rng.uniform(0.2, 0.8) * width, rng.uniform(0.2, 0.8) * height
        sx, sy = rng.uniform(20, 90, 2)
        image += rng.uniform(30, 130) * np.exp(-(((x - cx) / sx) ** 2 + ((y - cy) / sy) ** 2) / 2)[..., None]
    image = cv2.GaussianBlur(image, (0, 0), rng.uniform(0.4, 1.8))
    if rng.random() < 0.3:  # the hand moved
        long = int(rng.integers(3, 7))
        kernel = np.zeros((long, long), np.float32)
        cv2.line(kernel, (0, int(rng.integers(0, long))), (long - 1, int(rng.integers(0, long))), 1.0)
        image = cv2.filter2D(image, -1, kernel / kernel.sum())
    image = image * rng.uniform(0.7, 1.1) + rng.normal(0, rng.uniform(1, 7), image.shape)
    return np.clip(image, 0, 255).astype(np.uint8)


def take(catalogue, seed, base=None, size=(1600, 1200)):
    """Return one photograph; the same seed gives the same one."""
    rng = np.random.default_rng(seed)
    base = base or catalogue.bases[int(rng.integers(len(catalogue.bases)))]
    pins, outline, centre, cuts = worn(rng, base)
    diameter = base.face.pin_diameter_mm
    radius = (diameter.value if diameter is not None else 2.0) / 2 + rng.normal(0, 0.03)
    half = max(outline.width_mm, outline.height_mm) / 2
    turn, card_turn, away = rng.uniform(0, 2 * np.pi, 3)
    card_at = (half + 50 + rng.uniform(4, 14)) * np.array([np.cos(away), np.sin(away)])
    if rng.random() < 0.7:  # mostly laid alongside
        card_turn, card_at = away + np.pi / 2, (half + 27 + rng.uniform(4, 14)) * card_at / np.linalg.norm(card_at)
    reach = max(half + 38, 58)
    while True:  # a card that is cut off gives no scale: whoever takes the picture sees to it
        camera, tilt = camera_at(rng, size, card_at * 0.45, reach)
        seen = np.vstack(
            [camera(placed(card_turn, card_at)(rounded(*CARD, 0.1)), 0), camera(disc(0, 0, half + 3), 0)]
        )
        if (seen > 14).all() and (seen < np.array(size) - 14).all():
            break
        reach *= 1.03
    image = counter_top(rng, size[::-1])
    under = image[::40, ::40].mean((0, 1))
    paint_card(rng, image, camera, placed(card_turn, card_at), under)
    colour = contrasting(rng, under, 22)
    if abs(colour.mean() - 180) < 25:  # pins are bright: on plastic of their own brightness an eye sees little too
        colour = colour * 0.75
    paint_part(rng, image, camera, placed(turn, (0, 0)), (pins, outline, centre, cuts, radius), colour)
    ready = spoil(rng, image)
    _, jpeg = cv2.imencode(".jpg", ready, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(70, 96))])
    # A key sits on a block with a key edge; the look of bases without a block is not asked for.
    notch = notch_look(cuts) if centre is not None and centre.shape != "circle" else None
    at = tuple((float(x), float(y)) for x, y in pins)
    return Photo(jpeg.tobytes(), base.designation, at, measured_pair(base, pins), notch, tilt)


def placed(turn, at):
    """Return the move of a part onto the counter; y of the face stays y, so nothing is mirrored."""
    c, s = np.cos(turn), np.sin(turn)
    return lambda points: np.asarray(points) @ np.array([[c, s], [-s, c]]) + np.asarray(at)


@dataclass(frozen=True)
class Verdict:
    """How one picture was measured."""

    seed: int
    base: str
    tilt_deg: float
    seconds: float  # of the processor
    found: bool  # as many pins as there are
    said_nothing: bool
    off_mm: float | None  # of the pin spacing
    tolerance_mm: float | None  # that was said of it
    notch: str | None
    said_notch: str | None
    rank: int | None  # of the base, from 1, in the list of designations
    face_rank: (
        int | None
    )  # the same of faces: bases drawn alike are one, of faces told equally likely the last counts


def judge(catalogue, seed, base=None):
    """Take a picture, measure it, hold the answer against the truth."""
    photo = take(catalogue, seed, catalogue.base_by_name[base] if base is not None else None)
    began = process_time()
    told = measure_bytes(catalogue, photo.jpeg)
    seconds = process_time() - began
    looks = told.looks
    rank = next((at for at, fit in enumerate(told.candidates, 1) if fit.base == photo.base), None)
    return Verdict(
        seed,
        photo.base,
        photo.tilt_deg,
        seconds,
        told.pattern is not None and len(told.pattern.pins) == len(photo.pins),
        told.pattern is None,
        _off(looks.get("pin_spacing_mm"), told.spacing_mm, photo.spacing),
        told.tolerances_mm.get("pin_spacing_mm"),
        photo.notch,
        looks.get("notch"),
        rank,
        face_rank(catalogue, told, photo.base),
    )


def _off(look, seen, true):
    """Return how far off the spacing is where it was said, from the unrounded measure."""
    return abs(seen - true) if look is not None and seen is not None and true is not None else None


def face_rank(catalogue, told, base):
    """Return the place of a base's face, from 1; of faces that are told equally likely, the last place of them."""
    likely = [
        (max(likely_of(catalogue.base_by_name[fit.base], told.pattern) for fit in face), [fit.base for fit in face])
        for face in faces_of(catalogue, told.candidates)
    ]
    mine = next((worth for worth, names in likely if base in names), None)
    return None if mine is None else sum(worth >= mine - 1e-9 for worth, _ in likely)


def report(verdicts) -> str:
    """Return the figures as text."""
    seen = [one for one in verdicts if not one.said_nothing]
    offs = sorted(one.off_mm for one in seen if one.off_mm is not None)
    seconds = sorted(one.seconds for one in verdicts)
    keyed = [one for one in verdicts if one.notch not in (None, "none")]
    said = [one for one in keyed if one.said_notch is not None]
    sided = [one for one in said if one.notch in SIDES]

    def share(what, of):
        return f"{100 * sum(map(bool, what)) / max(len(of), 1):.1f} % of {len(of)}"

    worst = {}
    for one in verdicts:
        worst.setdefault(one.base, []).append(one.face_rank is not None and one.face_rank <= 3)
    bad = sorted(((sum(marks) / len(marks), base) for base, marks in worst.items()))[:8]
    return "\n".join(
        [
            f"pictures {len(verdicts)}, measured {share([1] * len(seen), verdicts)}",
            f"pins counted right {share([one.found for one in seen], seen)} measured",
            "pin spacing off, mm: "
            + ", ".join(f"{p} % {offs[min(int(len(offs) * p / 100), len(offs) - 1)]:.2f}" for p in (50, 80, 90, 95))
            + f" (of {len(offs)})",
            f"notch look right where said {share([one.said_notch == one.notch for one in said], said)};",
            f"    said of {len(said)} of {len(keyed)} keyed",
            f"notch side right where said {share([one.said_notch == one.notch for one in sided], sided)},",
            f"    said of {len(sided)} of {sum(one.notch in SIDES for one in verdicts)} with a notch on one side",
            f"face in first three {share([(one.face_rank or 99) <= 3 for one in seen], seen)} measured,",
            f"    {share([(one.face_rank or 99) <= 3 for one in verdicts], verdicts)} in all",
            f"designation in first three {share([(one.rank or 99) <= 3 for one in verdicts], verdicts)} in all",
            f"seconds of the processor, median {seconds[len(seconds) // 2]:.2f},",
            f"    p90 {seconds[len(seconds) * 9 // 10]:.2f}",
            "weakest: " + ", ".join(f"{base} {part:.0%}" for part, base in bad),
        ]
    )


# What the shares must not fall below: a little under what some hundred pictures gave, so that a step back is noticed.
LEAST = {"measured": 0.98, "face in three of all": 0.96, "look right": 0.97, "side right": 0.97}
MOST_OFF_MM = 0.3  # of the pin spacing where it is said, at 95 %


def shares(verdicts) -> dict[str, float]:
    """Return the shares that `LEAST` speaks of."""

    def share(marks):
        marks = list(marks)
        return sum(marks) / max(len(marks), 1)

    said = [one for one in verdicts if one.notch not in (None, "none") and one.said_notch is not None]
    sided = [one for one in said if one.notch in SIDES]
    return {
        "measured": share(not one.said_nothing for one in verdicts),
        "face in three of all": share((one.face_rank or 99) <= 3 for one in verdicts),
        "look right": share(one.said_notch == one.notch for one in said),
        "side right": share(one.said_notch == one.notch for one in sided),
    }


def measured_well(verdicts) -> bool:
    """Whether all is as well as it was."""
    offs = sorted(one.off_mm for one in verdicts if one.off_mm is not None)
    found = shares(verdicts)
    return offs[int(len(offs) * 0.95)] <= MOST_OFF_MM and all(found[key] >= least for key, least in LEAST.items())


def main() -> None:
    catalogue = load()
    if sys.argv[1:2] == ["--look"]:
        with open(sys.argv[2], "wb") as out:  # noqa: PTH123 - a tool for the developer
            out.write(take(catalogue, int(sys.argv[3])).jpeg)
        return
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    count, first = (*numbers, *(200, 0)[len(numbers) :])
    verdicts = []
    for seed in range(first, first + count):
        verdicts.append(judge(catalogue, seed))
        if "--all" in sys.argv:
            print(verdicts[-1], flush=True)
        if len(verdicts) % 100 == 0:
            print(report(verdicts), flush=True)
    print(report(verdicts))


if __name__ == "__main__":
    main()
