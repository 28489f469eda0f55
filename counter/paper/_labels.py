"""Bin labels: the outline, base, watts and code of what lies in a bin, on sheets of labels."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import figure
from counter.marks import format_code
from counter.outline import face_view
from counter.paper._sheet import PAGES, Placed, Sheet, Text
from counter.paper._words import watts_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Catalogue, Lamp

PAD_MM = 2.5
CAPITAL = 0.73  # of a letter's size, how high a capital is
MOST_LETTERS = 19  # of a code's line, in a room as wide as it is high
EDGE_MM = 5.0  # from a label's sides, which may be the paper's: nearer than that many printers print nothing


class BinLabel(NamedTuple):
    """What one label says beside its outline; `code` and `bin` are the shop's own, or empty."""

    lamp: str
    code: str = ""
    bin: str = ""


class LabelGrid(NamedTuple):
    """A sheet of labels, millimetres: the first label's corner from the left and top edge, sizes and pitches."""

    page: str
    columns: int
    rows: int
    left: float
    top: float
    width: float
    height: float
    pitch_x: float
    pitch_y: float

    @property
    def each(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows


# Sizes that label sheets are sold in everywhere: common practice, no source. The sheet's own package says its sizes.
GRIDS: dict[str, LabelGrid] = {
    "a4-24": LabelGrid("A4", 3, 8, 0.0, 0.5, 70.0, 37.0, 70.0, 37.0),
    "a4-21": LabelGrid("A4", 3, 7, 7.25, 15.15, 63.5, 38.1, 66.0, 38.1),
    "letter-30": LabelGrid("Letter", 3, 10, 4.76, 12.7, 66.675, 25.4, 69.85, 25.4),
    "letter-10": LabelGrid("Letter", 2, 5, 3.97, 12.7, 101.6, 50.8, 106.36, 50.8),
}


def labels_for(catalogue: Catalogue, bases: Iterable[str] = ()) -> tuple[BinLabel, ...]:
    """Return one label a lamp type, of some bases or of all; codes are the generic ones."""
    wanted = frozenset(bases)
    return tuple(
        BinLabel(lamp.id, generic_code(catalogue, lamp.id))
        for lamp in catalogue.lamps
        if not wanted or lamp.base in wanted
    )


def generic_code(catalogue: Catalogue, lamp: str) -> str:
    """Return the first generic code that there is for a lamp type, or nothing."""
    codes = (format_code(catalogue, lamp, system) for system in ("nema", "ansi-linear", "ansi-germicidal", "ilcos"))
    return next((code for code in codes if code), "")


def bin_labels(catalogue: Catalogue, labels: Sequence[BinLabel], grid: LabelGrid, skip: int = 0) -> tuple[Sheet, ...]:
    """Return sheets of labels; `skip` leaves places empty that were used up on the first sheet."""
    width, height = PAGES[grid.page]
    known = [label for label in labels if label.lamp in catalogue.lamp_by_id]
    places: list[BinLabel | None] = [*[None] * skip, *known]
    sheets = []
    for first in range(0, len(places), grid.each):
        items: list[Placed | Text] = []
        for at, label in enumerate(places[first : first + grid.each]):
            if label is not None:
                row, column = divmod(at, grid.columns)
                left = grid.left + column * grid.pitch_x
                items += _label(catalogue, label, left, height - grid.top - row * grid.pitch_y, grid)
        sheets.append(Sheet(width, height, tuple(items)))
    return tuple(sheets)


def _label(catalogue: Catalogue, label: BinLabel, left: float, top: float, grid: LabelGrid) -> list[Placed | Text]:
    lamp = catalogue.lamp_by_id[label.lamp]
    view = face_view(catalogue.base_of(lamp))
    tall, wide = grid.height - 2 * PAD_MM, grid.width * 0.37
    scale = min(1.0, wide / view.width_mm, tall / view.height_mm)
    middle = (left + EDGE_MM + wide / 2, top - grid.height / 2 - (view.box[1] + view.box[3]) / 2 * scale)
    x, room = left + EDGE_MM + wide + PAD_MM, grid.width - wide - PAD_MM - 2 * EDGE_MM
    lines = _lines(label, lamp, round(MOST_LETTERS * room / tall))
    step = tall / max(4.6, len(lines) * 1.05 + 1)
    y = top - grid.height / 2 + (len(lines) * 1.05 - CAPITAL) * step / 2
    items: list[Placed | Text] = [Placed(view, *middle, scale)]
    items.append(Text(x, y, lamp.base, step, bold=True, room_mm=room))
    for at, line in enumerate(lines, 1):
        items.append(Text(x, y - at * step * 1.05, line, step * 0.62, bold=at == 1, room_mm=room))
    return items


def _broken(code: str, most: int) -> list[str]:
    """Return a code in one line, or where that would be small letters, in two."""
    cuts = [at for at, sign in enumerate(code, 1) if sign in "/-" and at < len(code)]
    if not cuts or len(code) <= most:
        return [code]
    cut = min(cuts, key=lambda at: abs(at - len(code) / 2))
    return [code[:cut], code[cut:]]


def _lines(label: BinLabel, lamp: Lamp, most: int) -> list[str]:
    kind = {"uv-c": "UV-C", "uv-a": "UV-A", "led": "LED"}.get(lamp.kind, "")
    first = " · ".join(part for part in (watts_words(figure(lamp.watts.value)), kind) if part)
    return [line for line in (first, *_broken(label.code, most), label.bin) if line]
