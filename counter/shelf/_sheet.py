"""A shop system's export as rows of text: CSV, TSV or semicolons in whatever encoding, XLSX, XLS, ODS."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, NamedTuple

from counter.files import read_bytes, reason
from counter.language import tr

if TYPE_CHECKING:
    from pathlib import Path

WORKBOOKS = (".xlsx", ".xlsm", ".xlsb", ".xls", ".ods")
DELIMITERS = (";", "\t", ",", "|")
LARGEST = 200_000_000  # bytes
SAMPLE_LINES = 200
LONGEST_CELL = 2000  # characters; a longer cell is no stock line


class ListProblem(ValueError):  # noqa: N818 - expected, said as what, where, way out
    """A list that cannot be read."""


class Row(NamedTuple):
    """One row, and the line of the file, or row of the sheet, that it begins on; both count from 1."""

    line: int
    cells: tuple[str, ...]


def read_sheet(path: Path) -> list[Row]:
    """Return all rows that hold anything.

    Raises:
        ListProblem: it cannot be read, or holds nothing.
    """
    try:
        raw = read_bytes(path, LARGEST)
    except OSError as error:
        raise ListProblem(f"{path}: {reason(error)}") from None
    rows = _book_rows(raw, path.name) if path.suffix.lower() in WORKBOOKS else text_rows(raw)
    if not rows:
        told = tr("{file} holds no lines. Export the list again, with its headings.")
        raise ListProblem(told.format(file=path.name))
    return rows


def text_rows(raw: bytes) -> list[Row]:
    """Return the rows of a text file; which sign parts its cells is seen from its first lines."""
    text = decoded(raw)
    if "\0" in text:
        raise ListProblem(tr("This is no text and no workbook. Export the list as CSV or XLSX."))
    lines = text.splitlines()
    first = lines[0].strip().lower() if lines else ""
    skipped = 0
    if first.startswith("sep=") and len(first) == 5:  # a line that some spreadsheets write for themselves
        text, skipped = text.split("\n", 1)[1] if "\n" in text else "", 1
        sign = first[4]
    else:
        sign = delimiter_of(lines[:SAMPLE_LINES])
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign)
    rows, begins = [], 1
    try:
        for cells in reader:
            row = Row(begins + skipped, tuple(cell.strip()[:LONGEST_CELL] for cell in cells))
            begins = reader.line_num + 1
            if any(row.cells):
                rows.append(row)
    except csv.Error as error:
        told = tr("Line {line}: {problem}. Export the list again.")
        raise ListProblem(told.format(line=reader.line_num, problem=error)) from None
    return rows


def decoded(raw: bytes) -> str:
    """Return text: by its byte order mark, else UTF-8 where it is that, else Windows-1252."""
    for mark, encoding in ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16")):
        if raw.startswith(mark):
            return raw.decode(encoding, "replace")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        return raw.decode("cp1252", "replace")


def delimiter_of(lines: list[str]) -> str:
    """Return the sign that parts the same number of cells, more than one, in most lines; ties as listed above."""

    def evenness(sign: str) -> tuple[float, int]:
        counts = [len(row) for row in csv.reader(lines, delimiter=sign) if row]
        usual = max(set(counts), key=counts.count) if counts else 1
        return (counts.count(usual) / len(counts) if usual > 1 else 0.0, usual)

    return max(DELIMITERS, key=evenness)


def _book_rows(raw: bytes, name: str) -> list[Row]:
    """Return the rows of the sheet that holds most: others are notes."""
    from python_calamine import CalamineError, CalamineWorkbook  # 20 ms that text files need not pay

    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(raw))
        sheets = [book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names]
    except (CalamineError, ValueError) as error:
        words = str(error).splitlines()[0][:120] if str(error) else type(error).__name__
        told = tr("{file} is no workbook that can be read ({why}). Save it again as XLSX.")
        raise ListProblem(told.format(file=name, why=words)) from None
    rows = max(sheets, key=len, default=[])
    made = (Row(at, tuple(cell_text(cell) for cell in cells)) for at, cells in enumerate(rows, 1))
    return [row for row in made if any(row.cells)]


def cell_text(cell: object) -> str:
    """Return a cell of a workbook as text: 26.0 is 26, and a long barcode keeps all its figures."""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else repr(cell)
    return str(cell).strip()[:LONGEST_CELL]
