"""Words of stock lists, from resources/stock.json: what columns are called, what is no lamp."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from counter import paths


@cache
def tables() -> dict[str, Any]:
    """Return the shipped words."""
    found: dict[str, Any] = json.loads((paths.resources() / "stock.json").read_text("utf-8"))
    return found


@cache
def heading_of() -> dict[str, str]:
    """Return the field that a heading names, by the heading as `plain_heading` writes it."""
    return {word.replace("-", " "): field for field, words in tables()["columns"].items() for word in words}


@cache
def goods_of() -> dict[str, str]:
    """Return what kind of goods a word names that is no lamp."""
    return {word: goods for goods, words in tables()["other_goods"].items() for word in words}
