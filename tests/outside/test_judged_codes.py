"""Codes of the trade with the lamp that each means, written down before the reader was asked.

All from memory, none from a source; `confidence` says how sure. `|` stands between readings that are all right.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from counter import catalogue, marks

SHIPPED = catalogue.load()
with (Path(__file__).parent / "judged_codes.csv").open(encoding="utf-8") as file:
    JUDGED = list(csv.DictReader(file, delimiter=";"))


@pytest.mark.parametrize("row", JUDGED, ids=lambda row: row["code"])
def test_a_code_is_read_as_it_was_judged(row: dict[str, str]) -> None:
    """Common practice, from memory."""
    lamp = marks.read(SHIPPED, row["code"]).readings[0].lamp
    right = {name: set(row[name].split("|")) for name in ("kind", "shape", "watts", "cct_k", "bases")}
    assert str(lamp.kind) in right["kind"]
    assert lamp.shape in right["shape"]
    assert f"{lamp.watts:g}" in right["watts"]
    assert (f"{lamp.cct_k:g}" if lamp.cct_k else "") in right["cct_k"]
    assert lamp.bases
    assert set(lamp.bases) <= right["bases"]


@pytest.mark.parametrize("code", ["CF13DD/830", "F64T12/CW"])
def test_a_code_that_is_not_known_is_said_to_be(code: str) -> None:
    """An older code for a quad of 13 W, and a slimline that the catalogue lacks: never silently another lamp."""
    assert marks.read(SHIPPED, code).problems
