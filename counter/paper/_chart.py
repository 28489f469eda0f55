"""The wall chart: every base by family, all faces to one scale, on one page."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, NamedTuple

from counter.language import figure, marked, tr
from counter.outline import Drawing, face_view
from counter.paper._sheet import MARGIN_MM, PAGES, Placed, Sheet, Text, check_bar, lines, rule, wrapped
from counter.paper._words import check_words, notch_words, watts_words

if TYPE_CHECKING:
    from counter.catalogue import Base, Catalogue

SCALES = {
    "1:1": 1.0, "4:5": 0.8, "3:4": 0.75, "7:10": 0.7, "2:3": 2 / 3, "3:5": 0.6, "1:2": 0.5, "9:20": 0.45, "2:5": 0.4,
    "3:10": 0.3, "1:4": 0.25, "1:5": 0.2, "1:10": 0.1,
}  # fmt: skip
HEAD_MM, FOOT_MM = 24.0, 16.0
SMALLEST_MM, LARGEST_MM = 1.9, 2.8  # letters under a face, read from an arm's length
GAP_MM = 3.0
MOST_LETTERS = 16  # of a line under a face: longer ones go on in the next


class Cell(NamedTuple):
    """One base on the chart."""

    face: Drawing
    name: str
    below: tuple[str, ...]


class Block(NamedTuple):
    """One family: its cells stand side by side under one line."""

    family: str
    cells: tuple[Cell, ...]


class Measures(NamedTuple):
    """How large things are on one chart, millimetres of paper."""

    scale: float
    letters: float

    def width(self, cell: Cell) -> float:
        """Return the room that a cell takes across."""
        longest = max(map(len, (cell.name, *cell.below)))
        return max(cell.face.width_mm * self.scale, min(longest, MOST_LETTERS) * self.letters * 0.52) + GAP_MM

    def block(self, block: Block) -> tuple[float, float]:
        """Return the width and height of a family."""
        tall = max(cell.face.height_mm for cell in block.cells) * self.scale
        below = max(len(cell.below) for cell in block.cells)
        return sum(map(self.width, block.cells)) + GAP_MM, tall + (below * 1.3 + 4.0) * self.letters + GAP_MM


NOTE = marked(
    "All faces to one scale, {scale}: pins toward you, notched side up. What is dashed or has a question mark is not "
    "confirmed: look at the lamp itself. Base and watts belong together. The labels on lamp and ballast come first."
)


def wall_chart(catalogue: Catalogue, page: str = "A4") -> Sheet:
    """Return the chart of all bases on one page, at the largest scale that fits."""
    width, height = PAGES[page]
    blocks = _blocks(catalogue)
    letters = min(max(SMALLEST_MM * width / PAGES["A4"][0], SMALLEST_MM), LARGEST_MM)
    room = (width - 2 * MARGIN_MM, height - 2 * MARGIN_MM - HEAD_MM - FOOT_MM)
    for name in SCALES:
        sizes = Measures(SCALES[name], letters)
        rows = _rows(blocks, sizes, room[0])
        if sum(tall for tall, _ in rows) <= room[1]:
            break
    spare = max(room[1] - sum(tall for tall, _ in rows), 0.0) / len(rows)
    items = [*_head(width, height, name), *_foot()]
    y = height - MARGIN_MM - HEAD_MM
    for tall, row in rows:
        items += _row(row, y, sizes)
        y -= tall + min(spare, 12.0)
    return Sheet(width, height, tuple(items))


def _blocks(catalogue: Catalogue) -> list[Block]:
    families: dict[str, list[Cell]] = {}
    for base in catalogue.bases:
        families.setdefault(base.family, []).append(_cell(catalogue, base))
    return [Block(family, tuple(cells)) for family, cells in families.items()]


def _cell(catalogue: Catalogue, base: Base) -> Cell:
    lamps = catalogue.lamps_on[base.designation]
    watts = sorted({lamp.watts.value for lamp in lamps if lamp.kind == "fluorescent"})
    below = (
        watts_words(_few(watts)) if watts else "",
        *notch_words(base),
        tr("UV-C lamps too") if any(lamp.kind == "uv-c" for lamp in lamps) else "",
    )
    lines = tuple(line for text in below for line in textwrap.wrap(text, MOST_LETTERS))
    return Cell(face_view(base), base.designation, lines)


def _few(watts: list[float]) -> str:
    return ", ".join(map(figure, watts)) if len(watts) <= 4 else f"{figure(watts[0])}–{figure(watts[-1])}"


def _rows(blocks: list[Block], sizes: Measures, room: float) -> list[tuple[float, list[Block]]]:
    """Fill rows in order; a family too wide for a row goes on in the next, under its name again."""
    rows: list[tuple[float, list[Block]]] = []
    row: list[Block] = []
    for block in (part for whole in blocks for part in _parts(whole, sizes, room)):
        if row and sum(sizes.block(one)[0] for one in [*row, block]) > room:
            rows.append((max(sizes.block(one)[1] for one in row), row))
            row = []
        row.append(block)
    return [*rows, (max(sizes.block(one)[1] for one in row), row)]


def _parts(block: Block, sizes: Measures, room: float) -> list[Block]:
    parts: list[list[Cell]] = [[]]
    for cell in block.cells:
        if parts[-1] and sum(map(sizes.width, [*parts[-1], cell])) + GAP_MM > room:
            parts.append([])
        parts[-1].append(cell)
    return [Block(block.family, tuple(cells)) for cells in parts]


def _row(row: list[Block], top: float, sizes: Measures) -> list[Placed | Text]:
    items: list[Placed | Text] = []
    x = MARGIN_MM
    for block in row:
        wide = sizes.block(block)[0]
        items += _block(block, x, top, wide - GAP_MM, sizes)
        x += wide
    return items


def _block(block: Block, left: float, top: float, wide: float, sizes: Measures) -> list[Placed | Text]:
    size = sizes.letters
    tall = max(cell.face.height_mm for cell in block.cells) * sizes.scale
    items: list[Placed | Text] = [
        Text(left, top - size, block.family, size * 1.25, bold=True, quiet=True, room_mm=wide),
        lines([rule(left, top - size * 1.5, left + wide, top - size * 1.5)]),
    ]
    x = left
    for cell in block.cells:
        middle = x + (sizes.width(cell) - GAP_MM) / 2
        centre = sum(cell.face.box[1::2]) / 2 * sizes.scale
        items.append(Placed(cell.face, middle, top - size * 2.2 - tall / 2 - centre, sizes.scale))
        room = sizes.width(cell) - 0.6
        y = top - size * 2.2 - tall - size * 1.5
        items.append(Text(middle, y, cell.name, size * 1.15, "middle", bold=True, room_mm=room))
        for at, line in enumerate(cell.below, 1):
            items.append(Text(middle, y - at * size * 1.3, line, size, "middle", quiet=True, room_mm=room))
        x += sizes.width(cell)
    return items


def _head(width: float, height: float, scale: str) -> list[Placed | Text]:
    top = height - MARGIN_MM
    items: list[Placed | Text] = [Text(MARGIN_MM, top - 7, tr("Lamp bases"), 7.5, bold=True)]
    note = wrapped(tr(NOTE).format(scale=scale), 2.5, width - 2 * MARGIN_MM)
    items += [Text(MARGIN_MM, top - 12 - at * 3.4, line, 2.5, quiet=True) for at, line in enumerate(note)]
    return items


def _foot() -> list[Placed | Text]:
    return check_bar(MARGIN_MM, MARGIN_MM + 5, check_words(), 2.2)
