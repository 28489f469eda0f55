"""The pin gauge: every pin pattern at full size, and a card's outline to check the printer by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.language import marked, tr
from counter.outline import Disc, Drawing, Path, Shape, box_of
from counter.outline import face_view as face_of
from counter.paper._sheet import MARGIN_MM, PAGES, Placed, Sheet, Text, check_bar, wrapped
from counter.paper._words import check_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base, Catalogue

    Row = list[tuple[str, Drawing]]

LETTERS_MM = 2.4
GAP_MM, LEAST_MM, MOST_SPARE_MM = 6.0, 3.5, 24.0  # between pictures, between rows, and what a page with room adds
CROSS_MM = 2.6  # half the length of the cross through a pin's middle
HEAD_MM = 18.0
BAR_MM = 14.0
NOTE = marked(
    "Hold the base on its picture, pins on the circles. Dashed pictures are not confirmed: a lamp that misses one by "
    "a little may still be it."
)


def pin_gauge(catalogue: Catalogue, page: str = "A4") -> tuple[Sheet, ...]:
    """Return the gauge on as many pages as it takes, one picture for bases whose pins stand alike."""
    width, height = PAGES[page]
    room = height - 2 * MARGIN_MM - HEAD_MM - BAR_MM
    parts = [(_names(bases), gauge_view(bases[0])) for bases in alike(catalogue)]
    pages = _paged(_rows(parts, width - 2 * MARGIN_MM), room)
    return tuple(
        Sheet(width, height, (*_frame(width, height, number, len(pages)), *_page(rows, height, room)))
        for number, rows in enumerate(pages, 1)
    )


def _tall(row: Row) -> float:
    return max(view.height_mm for _, view in row) + LETTERS_MM * 2 + LEAST_MM


def _paged(rows: Sequence[Row], room: float) -> list[list[Row]]:
    pages: list[list[Row]] = [[]]
    for row in rows:
        if pages[-1] and sum(map(_tall, [*pages[-1], row])) > room:
            pages.append([])
        pages[-1].append(row)
    return pages


def _page(rows: Sequence[Row], height: float, room: float) -> list[Placed | Text]:
    spare = min((room - sum(map(_tall, rows))) / max(len(rows), 1), MOST_SPARE_MM)
    items: list[Placed | Text] = []
    y = height - MARGIN_MM - HEAD_MM
    for row in rows:
        items += _row(row, y)
        y -= _tall(row) + spare
    return items


def alike(catalogue: Catalogue) -> list[list[Base]]:
    """Return bases in groups whose pins stand on the same places with the same outline."""
    groups: dict[object, list[Base]] = {}
    for base in (one for one in catalogue.bases if one.face.is_known):
        at = tuple(sorted((round(pin.x_mm, 2), round(pin.y_mm, 2)) for pin in base.face.pins.at))
        groups.setdefault((at, base.face.outline.width_mm, base.face.outline.height_mm), []).append(base)
    return list(groups.values())


def gauge_view(base: Base) -> Drawing:
    """Return outline, centre and open pins with a cross in each, so that the real pin can be seen to sit on it."""
    shapes = body_shapes(base)
    pins = base.face.pins
    size = base.face.pin_diameter_mm
    radius = (size.value if size is not None else 2.0) / 2
    for pin in pins.at:
        shapes.append(Disc("pins", pin.x_mm, pin.y_mm, radius, "detail", "none", dashed=pins.is_unsure))
        for dx, dy in ((CROSS_MM, 0.0), (0.0, CROSS_MM)):
            ends = ((pin.x_mm - dx, pin.y_mm - dy), (pin.x_mm + dx, pin.y_mm + dy))
            shapes.append(Path("cross", ends, "thin"))
    box = box_of(tuple(shapes))
    return Drawing(tuple(shapes), box, box)


def body_shapes(base: Base) -> list[Shape]:
    """Return outline and centre in thin lines, without the key: bases of one pattern differ in it."""
    bare = base.model_copy(update={"face": base.face.model_copy(update={"notches": None})})
    kept = [shape for shape in face_of(bare).shapes if shape.part in ("outline", "block")]
    return [shape._replace(pen="thin", fill="none") for shape in kept if isinstance(shape, (Path, Disc))]


def body_view(base: Base) -> Drawing:
    """Return outline and centre alone, for a screen on which the pins can be moved."""
    shapes = tuple(body_shapes(base))
    box = box_of(shapes)
    return Drawing(shapes, box, box)


def _names(bases: Sequence[Base]) -> str:
    families = dict.fromkeys(base.family for base in bases)
    return ", ".join(families)


def _rows(parts: Row, room: float) -> list[Row]:
    rows: list[Row] = [[]]
    for part in sorted(parts, key=lambda one: one[1].height_mm):
        if rows[-1] and sum(_wide(one) for one in [*rows[-1], part]) > room:
            rows.append([])
        rows[-1].append(part)
    return rows


def _wide(part: tuple[str, Drawing]) -> float:
    return max(part[1].width_mm, min(len(part[0]), 18) * LETTERS_MM * 0.6) + GAP_MM


def _row(row: Row, top: float) -> list[Placed | Text]:
    items: list[Placed | Text] = []
    x = MARGIN_MM
    tall = max(view.height_mm for _, view in row)
    for name, view in row:
        room = _wide((name, view)) - GAP_MM
        left, bottom, right, high = view.box
        middle = x + room / 2
        items.append(Placed(view, middle - (left + right) / 2, top - tall / 2 - (bottom + high) / 2))
        items.append(Text(middle, top - tall - LETTERS_MM * 1.5, name, LETTERS_MM, "middle", True, room_mm=room + 4))
        x += room + GAP_MM
    return items


def _frame(width: float, height: float, number: int, pages: int) -> list[Placed | Text]:
    top = height - MARGIN_MM
    items: list[Placed | Text] = [Text(MARGIN_MM, top - 6, tr("Pin gauge, full size"), 6.0, bold=True)]
    if pages > 1:
        page = tr("{page} of {pages}").format(page=number, pages=pages)
        items.append(Text(width - MARGIN_MM, top - 6, page, 2.6, "right", quiet=True))
    note = wrapped(tr(NOTE), 2.6, width - 2 * MARGIN_MM)
    items += [Text(MARGIN_MM, top - 11 - at * 3.6, line, 2.6, quiet=True) for at, line in enumerate(note)]
    return items + check_bar(MARGIN_MM, MARGIN_MM + 6, check_words(), 2.3)
