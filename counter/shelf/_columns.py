"""Which column holds what: by its heading, else by what stands in it."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING

from pydantic import Field

from counter.catalogue import Model
from counter.shelf._numbers import figure, is_unknown
from counter.shelf._tables import heading_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.shelf._sheet import Row

FIELDS = ("code", "description", "bin", "quantity", "price", "barcode", "supplier", "pack", "lead_days", "life_h")
SAMPLE = 300
HEADING_WITHIN = 15  # rows; above the headings there may be a title, a date, an address
_CODE = re.compile(r"(?=.*\d)(?=.*[A-Za-z])[\w./+\-#]{3,40}")
_BARCODE = re.compile(r"\d{8}|\d{12,14}")
_BIN = re.compile(r"[A-Za-z]{1,2}[-. ]?\d{1,3}([-. /]?[A-Za-z]?\d{0,3}){0,3}")


class Columns(Model):
    """Where a list's headings stand and which column, from 0, holds what. `heading_row` is None where it has none."""

    heading_row: int | None = None
    headings: tuple[str, ...] = ()
    at: dict[str, int] = Field(default_factory=dict)

    @property
    def signature(self) -> str:
        """Return what this list's headings are known by; empty for a list without."""
        return " | ".join(map(plain_heading, self.headings))


def plain_heading(text: str) -> str:
    """Write a heading without case, signs and doubled spaces."""
    return " ".join(re.sub(r"[^\w\s-]", " ", text.lower().replace("_", " ").replace("-", " ")).split())


def guess_columns(rows: Sequence[Row]) -> Columns:
    """Return the likely columns of a list; where nothing speaks for one, it is left out."""
    heading = _heading_row(rows)
    headings = rows[heading].cells if heading is not None else ()
    body = rows[(heading + 1 if heading is not None else 0) :][:SAMPLE]
    at: dict[str, int] = {}
    for place, text in enumerate(headings):
        field = heading_of().get(plain_heading(text))
        if field is not None:
            at.setdefault(field, place)
    _by_content(at, body, set(at.values()))
    return Columns(heading_row=heading, headings=headings, at=at)


def _heading_row(rows: Sequence[Row]) -> int | None:
    """Return the row, from 0, in which most cells are known headings; one known among few is enough."""
    known = [sum(plain_heading(cell) in heading_of() for cell in row.cells) for row in rows[:HEADING_WITHIN]]
    best = max(range(len(known)), key=known.__getitem__, default=None)
    if best is None or known[best] == 0:
        return None
    filled = sum(bool(cell) for cell in rows[best].cells)
    return best if known[best] >= 2 or known[best] * 3 >= filled else None


def _by_content(at: dict[str, int], body: Sequence[Row], taken: set[int]) -> None:
    """Fill in columns that no heading named, most certain first, where over half of the cells look so."""
    width = max((len(row.cells) for row in body), default=0)
    cells = {
        place: [c for row in body if place < len(row.cells) and (c := row.cells[place])] for place in range(width)
    }
    for field, test in (("barcode", _is_barcode), ("code", _is_code), ("description", _is_words), ("bin", _is_bin)):
        if field not in at:
            best = max(
                (place for place in cells if place not in taken), key=lambda p: _share(cells[p], test), default=None
            )
            if best is not None and _share(cells[best], test) > 0.5:
                at[field] = best
                taken.add(best)
    if not at.keys() & {"quantity", "price"}:
        _figures(at, cells, taken)


def _figures(at: dict[str, int], cells: dict[int, list[str]], taken: set[int]) -> None:
    numeric = [place for place in cells if place not in taken and _share(cells[place], _is_figure) > 0.8]
    for place in numeric:
        with_decimals = _share(cells[place], lambda text: bool(re.search(r"[.,]\d{2}\b", text))) > 0.5
        at.setdefault("price" if with_decimals else "quantity", place)


def _share(cells: Sequence[str], test: object) -> float:
    assert callable(test)
    return sum(map(test, cells)) / len(cells) if cells else 0.0


def _is_barcode(text: str) -> bool:
    return bool(_BARCODE.fullmatch(text))


def _is_code(text: str) -> bool:
    return " " not in text and bool(_CODE.fullmatch(text)) and not _BIN.fullmatch(text)


def _is_words(text: str) -> bool:
    return len(text) >= 8 and " " in text and any(map(str.isalpha, text))


def _is_bin(text: str) -> bool:
    return bool(_BIN.fullmatch(text))


def _is_figure(text: str) -> bool:
    try:
        return is_unknown(text) or figure(text, comma="," in text) is not None
    except ValueError:
        return False


def repeated_headings(row: Row, columns: Columns) -> bool:
    """Whether a row only repeats the headings, as printed lists do at every page."""
    return bool(columns.headings) and Counter(row.cells) == Counter(columns.headings)
