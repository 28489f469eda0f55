"""Files that shop systems export: every format gives the same rows, and columns are found."""

from __future__ import annotations

import re

import pytest

from counter.shelf import ListProblem, Row, columns_of, read_sheet
from counter.shelf._numbers import cents, decimal_comma, figure
from counter.shelf._sheet import text_rows
from tests.shelf.conftest import HEADINGS, LINES, WRITERS, as_text


@pytest.mark.parametrize("name", WRITERS)
def test_every_format_gives_the_same_rows(write_list, name):
    rows = read_sheet(write_list(name))
    assert [row.cells for row in rows] == [HEADINGS, *LINES]
    assert [row.line for row in rows] == [1, 2, 3, 4, 5]


def test_figures_of_a_workbook_keep_all_their_digits(tmp_path):
    import openpyxl

    book = openpyxl.Workbook()
    book.active.append(["SKU", "Barcode", "Qty", "Price"])
    book.active.append(["a1", 2000000000015, 26.0, 8.5])
    book.save(tmp_path / "stock.xlsx")
    assert read_sheet(tmp_path / "stock.xlsx")[1].cells == ("a1", "2000000000015", "26", "8.5")


def test_line_numbers_count_lines_of_the_file():
    rows = text_rows(b'code,description\n\na1,"two\nlines"\nb2,one\n')
    assert [row.line for row in rows] == [1, 2, 5] or [row.line for row in rows] == [1, 3, 5]
    assert rows[1].cells == ("a1", "two\nlines")


def test_line_that_names_the_sign_is_heeded():
    assert text_rows(b"sep=;\r\ncode;text, with commas\r\na;b\r\n")[0] == Row(2, ("code", "text, with commas"))


@pytest.mark.parametrize(
    ("content", "suffix"),
    [(b"", "csv"), (b"PK\x03\x04 cut off", "xlsx"), (b"\x00\x01\x02\x00", "csv"), (b"x", "ods")],
)
def test_what_is_no_list_is_said(tmp_path, content, suffix):
    path = tmp_path / f"stock.{suffix}"
    path.write_bytes(content)
    with pytest.raises(ListProblem):
        read_sheet(path)


def test_missing_file_is_said(tmp_path):
    with pytest.raises(ListProblem, match=r"nothing\.csv"):
        read_sheet(tmp_path / "nothing.csv")


# -- columns

HEADED = [
    ("Item No,Description,Bin,Qty,Price,Barcode", ["code", "description", "bin", "quantity", "price", "barcode"]),
    ("Artikelnummer,Bezeichnung,Lagerplatz,Bestand,VK-Preis,EAN", None),
    ("SKU,Product_Name,Location,QOH,Unit Price,UPC", None),
    ("Référence,Désignation,Emplacement,Quantité,Prix,Code barres", None),
]


@pytest.mark.parametrize(("headings", "_"), HEADED)
def test_headings_name_the_columns(headings, _):
    rows = text_rows(as_text(",", headings=tuple(headings.split(","))).encode())
    found = columns_of(rows)
    assert found.heading_row == 0
    assert found.at == {"code": 0, "description": 1, "bin": 2, "quantity": 3, "price": 4, "barcode": 5}


def test_columns_without_headings_are_known_by_what_stands_in_them():
    rows = [
        Row(n, (f"2000000000{n:02d}5", f"TVK-{n}B", f"LAMP number {n} of the shelf", f"A0{n}-1", str(n), f"{n}.50"))
        for n in range(1, 9)
    ]
    found = columns_of(rows)
    assert found.heading_row is None
    assert found.at == {"barcode": 0, "code": 1, "description": 2, "bin": 3, "quantity": 4, "price": 5}


def test_title_above_the_headings_is_passed_over():
    rows = [Row(1, ("Stock of the shop",)), Row(2, ("as of Monday",)), Row(3, HEADINGS), Row(4, LINES[0])]
    assert columns_of(rows).heading_row == 2


# -- figures

FIGURES = [
    ("1,234.50", False, 1234.5),
    ("1.234,50 €", True, 1234.5),
    ("$12.50", False, 12.5),
    ("12 pcs", False, 12),
    ("(3)", False, -3),
    ("-3", False, -3),
    ("1,234", False, 1234),
    ("12,5", False, 12.5),
    ("1.234", True, 1234),
    ("1 234", False, 1234),
    ("", False, None),
    ("call", False, None),
]


@pytest.mark.parametrize(("text", "comma", "value"), FIGURES)
def test_figures_as_shop_systems_write_them(text, comma, value):
    assert figure(text, comma) == value


@pytest.mark.parametrize("text", ["abc", "12 doors", "1-2", "x12y", "=1+1"])
def test_what_is_no_figure_is_refused(text):
    with pytest.raises(ValueError, match=re.escape(text)):
        figure(text, comma=False)


def test_money_is_whole_hundredths():
    assert cents("0.29", comma=False) == 29
    assert cents("1.008,75", comma=True) == 100875


def test_column_says_which_sign_its_decimals_have():
    assert decimal_comma(["1,50", "1.200,00", "3"])
    assert not decimal_comma(["1.50", "1,200.00", "3"])
