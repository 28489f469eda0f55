"""The tables of resources/marks.json; the file is read once, on first use."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from counter import paths


@cache
def tables() -> dict[str, Any]:
    """Return the shipped tables; their shape is kept by tests/marks/test_marks_tables.py."""
    data: dict[str, Any] = json.loads((paths.resources() / "marks.json").read_text(encoding="utf-8"))
    return data
