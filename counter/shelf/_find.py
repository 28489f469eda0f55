"""Search on the shelf, and lists that leave the program."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Any

from counter import shop
from counter.language import figure as spelled
from counter.language import grouped, tr, trn
from counter.shelf._numbers import figure
from counter.shelf._plan import FORMULA
from counter.shelf._words import asked_words, folded

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.shop import StockItem, Store

SHOWN = 60


def find(store: Store, text: str, limit: int = SHOWN) -> list[StockItem]:
    """Return what is found by code, description, bin or barcode, best first: exact, then what is there, by line."""
    asked = folded(text.strip())
    found = shop.find_items(store, asked_words(text))
    return sorted(found, key=lambda item: _order(item, asked))[:limit]


def _order(item: StockItem, asked: str) -> tuple[bool, bool, bool, int]:
    exact = asked in (folded(item.code), folded(item.barcode), folded(item.bin))
    return (not exact, not folded(item.code).startswith(asked), not is_there(item), item.line)


def is_there(item: StockItem) -> bool:
    """Whether any of it is on the shelf, as far as the list says."""
    return item.quantity is not None and item.quantity > 0


def item_report(item: StockItem) -> dict[str, Any]:
    """Return an item as `counter stock find --json` prints it."""
    return {
        "code": item.code,
        "description": item.description,
        "bin": item.bin,
        "quantity": item.quantity,
        "price": None if item.price_cents is None else item.price_cents / 100,
        "base": item.base,
        "watts": item.watts,
        "kind": item.kind,
        "lamp": item.lamp,
        "barcode": item.barcode,
        "pack": item.pack,
        "lead_days": item.lead_days,
        "supplier": item.supplier,
    }


def money(price_cents: int | None) -> str:
    """Write money without a currency, which the list does not name."""
    return "" if price_cents is None else grouped(price_cents / 100, ",.2f")


def stock_words(item: StockItem, needed: int = 1) -> str:
    """Say how many are there against how many are needed, and where."""
    if item.quantity is None:
        return tr("how many: not known")
    if item.quantity <= 0 and item.lead_days:
        told = trn(
            "out of stock, special order: {days} day", "out of stock, special order: {days} days", item.lead_days
        )
        return told.format(days=item.lead_days)
    if item.quantity <= 0:
        return tr("out of stock")
    there = spelled(item.quantity)
    if item.quantity >= needed:
        return tr("{count} there").format(count=there)
    return tr("{count} there of {needed} needed").format(count=there, needed=needed)


def safe_csv(headings: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return rows as CSV in which no cell is a formula: a spreadsheet would run it when the file is opened."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(headings)
    writer.writerows([_neutral(cell) for cell in row] for row in rows)
    return out.getvalue()


def _neutral(cell: object) -> str:
    text = "" if cell is None else str(cell)
    if not text.startswith(FORMULA):
        return text
    try:
        figure(text, comma=False)
    except ValueError:
        return f"'{text}"
    return text if text.strip("+-.,0123456789 ") == "" else f"'{text}"
