"""Figures as shop systems write them: 1,234.50, 1.234,50 €, (3), 12 pcs."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter.shelf._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterable

_FIGURE = re.compile(r"[-+(]?\s*[\d][\d.,'\u00a0\u202f ]*")
_UNIT = re.compile(
    r"(?i)^(ea|pcs?|pc|stk|st|stück|units?|x|d|days?|tage|h|hrs?|hours?|std|eur|usd|cad|gbp|chf|[€$£]|\.)*$"
)
_GROUPED = re.compile(r"\d{1,3}([.,]\d{3})+")


def is_unknown(text: str) -> bool:
    """Whether a cell says that nothing is known: empty, a dash, "call"."""
    return text.strip().lower() in tables()["unknown"]


def decimal_comma(texts: Iterable[str]) -> bool:
    """Whether a column writes its decimals behind a comma, as most of its cells that can tell do."""
    votes = 0
    for text in texts:
        dot, comma = text.rfind("."), text.rfind(",")
        if dot >= 0 and comma >= 0:
            votes += 1 if comma > dot else -1
        elif dot >= 0 or comma >= 0:
            tail = re.sub(r"\D", "", text[max(dot, comma) + 1 :])
            if len(tail) in (1, 2):
                votes += 1 if comma >= 0 else -1
    return votes > 0


def figure(text: str, comma: bool) -> float | None:
    """Return a figure; None where the cell says that it is not known.

    Raises:
        ValueError: it is neither.
    """
    if is_unknown(text):
        return None
    found = _FIGURE.search(text)
    if found is None or not _UNIT.match(
        (text[: found.start()] + text[found.end() :]).replace(" ", "").replace(")", "")
    ):
        raise ValueError(text)
    digits = re.sub(r"[^\d.,]", "", found[0]).rstrip(".,")
    is_negative = found[0].lstrip()[0] in "-("
    value = float(_plain(digits, comma))
    return -value if is_negative else value


def _plain(digits: str, comma: bool) -> str:
    """Write digits with a point for decimals and nothing between thousands."""
    if "," in digits and "." in digits:
        is_comma = digits.rfind(",") > digits.rfind(".")
    elif comma:
        is_comma = True
    else:
        is_comma = "," in digits and not _GROUPED.fullmatch(digits)
    thousands, decimal = (".", ",") if is_comma else (",", ".")
    return digits.replace(thousands, "").replace(decimal, ".")


def cents(text: str, comma: bool) -> int | None:
    """Return money in whole hundredths.

    Raises:
        ValueError: it is no figure.
    """
    value = figure(text, comma)
    return None if value is None else round(value * 100)
