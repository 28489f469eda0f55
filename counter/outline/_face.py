"""The face view: pins toward you, notched side up, all of it from the catalogue's numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from counter.language import tr
from counter.outline._shapes import Disc, Drawing, Label, Measure, Path, Point, Shape, box_of, drawing, rectangle
from counter.outline._words import length_words

if TYPE_CHECKING:
    from counter.catalogue import Base, Centre, Notch, Outline

Units = Literal["mm", "in"]
FULL_ROOM_MM = (4.0, 15.0, 4.0, 6.0)  # dimension lines below, which way is up above
PLAIN_PIN_MM = 2.0  # drawn dashed where the diameter is not known


def face_view(
    base: Base, *, full: bool = False, units: Units = "mm", turned_deg: float = 0.0, tube_mm: float | None = None
) -> Drawing:
    """Return the face of a base; `full` adds dimension lines, the words of doubt and which way is up.

    `turned_deg` turns the whole face anticlockwise, for the training cards on left and right. `tube_mm` is the
    thickness of the tube that a cap at each end closes: a T12 has wider caps than a T8 on the same pins.
    """
    if not base.face.is_known:
        return _not_known(base, full=full)
    outline = _outline(base, tube_mm)
    shapes: list[Shape] = [_edge(outline)]
    shapes += _centre_lines(outline)
    if base.face.centre is not None:
        shapes += _centre(base, base.face.centre)
    shapes += _pins(base)
    box = box_of(tuple(shapes))
    if full:
        shapes += _dimensions(base, outline, box, units)
        shapes += _up(base, box)
    made = drawing(tuple(shapes), FULL_ROOM_MM if full else (0, 0, 0, 0))
    return turned(made, turned_deg) if turned_deg else made


def _not_known(base: Base, *, full: bool) -> Drawing:
    """Return a dashed edge about a question mark: a base of which nobody has said how it looks."""
    edge = base.face.outline
    half_width, half_height = edge.width_mm / 2, edge.height_mm / 2
    corners = rectangle(-half_width, -half_height, half_width, half_height)
    shapes: list[Shape] = [Path("outline", corners, "detail", "paper", closed=True, corner_mm=4, dashed=True)]
    shapes.append(Label("notch", 0, 0, "?"))
    if full:
        shapes.append(Label("up", 0, -half_height - 5, tr("not known"), quiet=True))
    return drawing(tuple(shapes), FULL_ROOM_MM if full else (0, 0, 0, 0))


def _outline(base: Base, tube_mm: float | None) -> Outline:
    outline = base.face.outline
    if tube_mm is None or base.mount != "two-ends" or outline.shape != "circle":
        return outline
    return outline.model_copy(update={"width_mm": tube_mm, "height_mm": tube_mm})


def _edge(outline: Outline) -> Shape:
    """Return the edge in a solid line: nearly all edges are from memory, and a dash at each would say nothing.

    How sure its width is, its dimension says.
    """
    if outline.shape == "circle":
        return Disc("outline", 0, outline.offset_y_mm, outline.width_mm / 2, "outline", "paper")
    return Path("outline", _corners(outline), "outline", "paper", closed=True, corner_mm=outline.corner_mm)


def _corners(outline: Outline) -> tuple[Point, ...]:
    half_width, half_height, dy = outline.width_mm / 2, outline.height_mm / 2, outline.offset_y_mm
    return rectangle(-half_width, dy - half_height, half_width, dy + half_height)


def _centre_lines(outline: Outline) -> list[Shape]:
    half_width, half_height = outline.width_mm / 2 + 2, outline.height_mm / 2 + 2
    return [
        Path("centre-line", ((-half_width, 0), (half_width, 0)), "centre"),
        Path("centre-line", ((0, -half_height), (0, half_height)), "centre"),
    ]


def _centre(base: Base, centre: Centre) -> list[Shape]:
    if centre.shape == "circle":
        return [Disc("block", 0, centre.offset_y_mm, centre.width_mm / 2, "detail", "tint")]
    notches = base.face.notches
    cuts = notches.at if notches is not None else ()
    edge = _cut_edge(centre, cuts)
    half_width, half_height = centre.width_mm / 2, centre.height_mm / 2
    bottom = centre.offset_y_mm - half_height
    body = Path(
        "block",
        ((-half_width, bottom), *edge, (half_width, bottom)),
        "detail",
        "tint",
        closed=True,
    )
    shapes: list[Shape] = [body]
    if notches is None:
        if base.family_notches:
            shapes.append(_unknown_key(centre))
        return shapes
    return shapes + [
        Path("notch", _notch_points(centre, notch), "accent", "paper", dashed=notches.is_unsure) for notch in cuts
    ]


def _unknown_key(centre: Centre) -> Label:
    top = centre.offset_y_mm + centre.height_mm / 2
    return Label("notch", 0, top - centre.height_mm / 2, "?")


def _cut_edge(centre: Centre, cuts: tuple[Notch, ...]) -> tuple[Point, ...]:
    half_width = centre.width_mm / 2
    top = centre.offset_y_mm + centre.height_mm / 2
    points: list[Point] = [(-half_width, top)]
    for notch in sorted(cuts, key=lambda one: one.offset_mm):
        points += _notch_points(centre, notch)
    return (*points, (half_width, top))


def _notch_points(centre: Centre, notch: Notch) -> tuple[Point, ...]:
    top = centre.offset_y_mm + centre.height_mm / 2
    left, right = notch.offset_mm - notch.width_mm / 2, notch.offset_mm + notch.width_mm / 2
    return ((left, top), (left, top - notch.depth_mm), (right, top - notch.depth_mm), (right, top))


def _pins(base: Base) -> list[Shape]:
    diameter = base.face.pin_diameter_mm
    radius = (diameter.value if diameter is not None else PLAIN_PIN_MM) / 2
    return [Disc("pins", pin.x_mm, pin.y_mm, radius, "detail", "ink") for pin in base.face.pins.at]


def _measured_pair(base: Base) -> tuple[Point, Point] | None:
    """Return the two pins whose distance comes nearest to the catalogue's pin spacing."""
    at = [(pin.x_mm, pin.y_mm) for pin in base.face.pins.at]
    spacing = base.pin_spacing_mm
    if spacing is None or len(at) < 2:
        return None
    pairs = [(a, b) for i, a in enumerate(at) for b in at[i + 1 :]]

    def miss(pair: tuple[Point, Point]) -> tuple[float, float]:
        (ax, ay), (bx, by) = pair
        distance: float = ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5
        return (round(abs(distance - spacing.value), 1), ay + by)

    first, second = min(pairs, key=miss)
    return (first, second) if first <= second else (second, first)


def _dimensions(base: Base, outline: Outline, box: tuple[float, float, float, float], units: Units) -> list[Shape]:
    shapes: list[Shape] = []
    pair = _measured_pair(base)
    spacing = base.pin_spacing_mm
    if pair is not None and spacing is not None:
        shapes.append(
            Measure(
                "pin_spacing",
                pair[0],
                pair[1],
                box[1] - min(pair[0][1], pair[1][1]) - 5,
                _drawn_words(pair, spacing.is_unsure or base.face.pins.is_unsure, units),
                dashed=spacing.is_unsure,
            )
        )
    half, y = outline.width_mm / 2, outline.offset_y_mm
    words = ("≈ " if outline.is_unsure else "") + length_words(outline.width_mm, units)
    shapes.append(Measure("outline", (-half, y), (half, y), box[1] - 11 - y, words, dashed=outline.is_unsure))
    return shapes


def _drawn_words(pair: tuple[Point, Point], is_unsure: bool, units: Units) -> str:
    """Return the distance of two pins as they are drawn."""
    (ax, ay), (bx, by) = pair
    words = length_words(((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5, units)
    return f"≈ {words}" if is_unsure else words


def _up(base: Base, box: tuple[float, float, float, float]) -> list[Shape]:
    face = base.face
    if face.centre is None or (face.notches is None and not base.family_notches):
        return []
    return [Label("up", 0, box[3] + 3.5, tr("▲ notched side up"), quiet=True)]


def face_doubt(base: Base) -> str:
    """Return what is not sure about a face's key and pins, in a few words; nothing where all is published."""
    if not base.face.is_known:
        return tr("how it looks is not known")
    return " · ".join(words for words in (_key_doubt(base), _pin_doubt(base)) if words)


def _key_doubt(base: Base) -> str:
    notches = base.face.notches
    if notches is None:
        return tr("key not known") if base.family_notches else ""
    if not notches.at or not notches.is_unsure:
        return ""
    return tr("key: common practice") if notches.confidence == "practice" else tr("key from memory")


def _pin_doubt(base: Base) -> str:
    """Say that pins stand where nobody measured them: they are drawn solid all the same, to be counted."""
    return tr("pins unconfirmed") if base.face.pins.is_unsure else ""


def turned(face: Drawing, degrees: float) -> Drawing:
    """Return the drawing turned anticlockwise about the origin, its corners kept."""
    from math import cos, radians, sin

    c, s = cos(radians(degrees)), sin(radians(degrees))

    def turn(point: Point) -> Point:
        return (round(point[0] * c - point[1] * s, 4), round(point[0] * s + point[1] * c, 4))

    shapes: list[Shape] = []
    for shape in face.shapes:
        if isinstance(shape, Path):
            shapes.append(
                Path(
                    shape.part,
                    tuple(turn(p) for p in shape.points),
                    shape.pen,
                    shape.fill,
                    shape.closed,
                    shape.corner_mm,
                    shape.dashed,
                )
            )
        elif isinstance(shape, Disc):
            x, y = turn((shape.x_mm, shape.y_mm))
            shapes.append(Disc(shape.part, x, y, shape.radius_mm, shape.pen, shape.fill, shape.dashed))
        elif isinstance(shape, Label) and shape.part == "notch":
            # Other words speak of up and down and would lie; that the key is not known stays true.
            shapes.append(Label(shape.part, *turn((shape.x_mm, shape.y_mm)), shape.text, shape.align, shape.quiet))
    return drawing(tuple(shapes))
