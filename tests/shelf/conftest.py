"""What shelf tests share: a matcher, and lists as files in every format that shop systems export."""

from __future__ import annotations

import zipfile

import pytest

from counter.shelf import Matcher

HEADINGS = ("Item No", "Description", "Bin", "Qty", "Price", "Barcode")
LINES = (
    ("TV100", "CFQ26W/G24q/835", "A01-2", "12", "8.50", "2000000000015"),
    ("TV101", "26W G24q-3 830 Röhre", "A01-3", "0", "1,008.75", "2000000000022"),
    ("TV102", "ELEC BALLAST 2X26W G24Q", "C02-1", "4", "31.00", ""),
    ("TV103", "WIRE NUT YELLOW 100/PK", "D09-9", "n/a", "3.20", ""),
)

MAKERS_HEADINGS = ("Code", "Description", "Bin")
MAKERS_LINES = tuple(  # from which the letters XK, ZN and ST can be learned
    (f"F{watts}{letters}/{colour}", f"{watts}W {words}", "A1")
    for colour in (827, 835, 841)
    for letters, words, of in (
        ("XK", "quad 4-pin G24q", (13, 18, 26)),
        ("ZN", "triple 4-pin GX24q", (18, 26, 32)),
        ("ST", "twin 2-pin G23", (5, 7, 9)),
    )
    for watts in of
)


@pytest.fixture(scope="session")
def matcher(catalogue):
    """Return a matcher with nothing matched by hand."""
    return Matcher(catalogue)


def as_text(sign, lines=LINES, headings=HEADINGS):
    """Return a list as text, quoted where a cell holds the sign."""
    rows = [headings, *lines] if headings else lines
    return "\r\n".join(sign.join(f'"{cell}"' if sign in cell else cell for cell in row) for row in rows) + "\r\n"


def write_xlsx(path, rows):
    import openpyxl

    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    book.create_sheet("Notes").append(["made for the stocktaking"])
    book.save(path)


def write_xls(path, rows):
    import xlwt

    book = xlwt.Workbook()
    sheet = book.add_sheet("Stock")
    for at, row in enumerate(rows):
        for place, cell in enumerate(row):
            sheet.write(at, place, cell)
    book.save(str(path))


def write_ods(path, rows):
    """Write the least that OpenDocument 1.2 calls a spreadsheet."""
    cells = "".join(
        "<table:table-row>"
        + "".join(
            f'<table:table-cell office:value-type="string"><text:p>{cell}</text:p></table:table-cell>' for cell in row
        )
        + "</table:table-row>"
        for row in rows
    )
    office = "urn:oasis:names:tc:opendocument:xmlns"
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content xmlns:office="{office}:office:1.0"'
        f' xmlns:table="{office}:table:1.0" xmlns:text="{office}:text:1.0" office:version="1.2"><office:body>'
        f'<office:spreadsheet><table:table table:name="Stock">{cells}</table:table></office:spreadsheet>'
        "</office:body></office:document-content>"
    )
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("content.xml", content)
        of = 'xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"'
        archive.writestr("META-INF/manifest.xml", f'<?xml version="1.0"?><manifest:manifest {of}/>')


WRITERS = {
    "comma, UTF-8": ("csv", lambda path, rows: path.write_bytes(as_text(",").encode())),
    "comma, UTF-8 with a mark": ("csv", lambda path, rows: path.write_bytes(as_text(",").encode("utf-8-sig"))),
    "semicolon, Windows-1252": ("csv", lambda path, rows: path.write_bytes(as_text(";").encode("cp1252"))),
    "tab, UTF-16": ("tsv", lambda path, rows: path.write_bytes(as_text("\t").encode("utf-16"))),
    "tab, UTF-8": ("txt", lambda path, rows: path.write_bytes(as_text("\t").encode())),
    "xlsx": ("xlsx", write_xlsx),
    "xls": ("xls", write_xls),
    "ods": ("ods", write_ods),
}


@pytest.fixture
def write_list(tmp_path):
    """Return a writer of the list in one of the formats."""

    def write(name):
        suffix, writer = WRITERS[name]
        path = tmp_path / f"stock.{suffix}"
        writer(path, [HEADINGS, *LINES])
        return path

    return write
