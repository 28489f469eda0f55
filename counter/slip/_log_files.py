"""The log as a file for a spreadsheet, and the month in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import shop
from counter.shelf import asked_words, money, safe_csv

if TYPE_CHECKING:
    from counter.shop import LoggedSlip, Store

HEADINGS = ("number", "at", "till", "base", "watts", "lamp", "verdict", "item", "quantity", "price", "customer")
ALL = 10_000_000


def log_csv(store: Store, *, with_names: bool) -> str:
    """Return the whole log as CSV, one line an item; names only where they are asked for."""
    rows = []
    for logged in reversed(shop.find_slips(store, limit=ALL)):
        rows += _lines(logged, with_names=with_names)
    return safe_csv(HEADINGS, rows)


def _lines(logged: LoggedSlip, *, with_names: bool) -> list[tuple[object, ...]]:
    head = (logged.number, logged.at, logged.till, logged.base, logged.watts, logged.lamp, logged.body.get("verdict"))
    name = logged.customer if with_names else ""
    items = logged.body.get("items") or [{}]
    return [(*head, one.get("code"), one.get("quantity"), money(one.get("price_cents")), name) for one in items]


def log_words(text: str) -> list[str]:
    """Return what was typed as the log is searched: a number and a day as they are, all else in its words."""
    return [word for part in text.split() for word in _words(part)]


def _words(part: str) -> list[str]:
    is_plain = part.startswith("#") or part.replace("-", "").isdigit()
    return [part] if is_plain else list(asked_words(part))
