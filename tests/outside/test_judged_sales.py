"""Sales judged by hand before the program was asked: a lamp by its code, a holder, a ballast with its label, a use.

Common practice and memory, no source. `|` stands between verdicts that are both right; `stricter` marks where the
program holds back more than was judged, which it may, and sells nothing that was not to be sold.
"""

from __future__ import annotations

import csv
from pathlib import Path
from typing import TYPE_CHECKING, cast

import pytest

from counter import catalogue
from counter.desk import fit_code
from counter.fit import VERDICTS, Fixture

if TYPE_CHECKING:
    from counter.fit import Use

SHIPPED = catalogue.load()
with (Path(__file__).parent / "judged_sales.csv").open(encoding="utf-8") as file:
    JUDGED = list(csv.DictReader(file, delimiter=";"))


def _said(row: dict[str, str]) -> str:
    watts = tuple(map(float, row["watts"].split(",")))
    told = {"holder": row["holder"], "ballast": row["ballast"], "ballast_watts": watts}
    return fit_code(SHIPPED, row["code"], Fixture.model_validate(told), cast("Use", row["use"])).verdict


@pytest.mark.parametrize("row", JUDGED, ids=lambda row: f"{row['code']}-{row['holder']}-{row['watts']}-{row['use']}")
def test_a_sale_is_judged_as_by_hand(row: dict[str, str]) -> None:
    said, right = _said(row), row["verdict"].split("|")
    if row["stricter"]:
        assert VERDICTS.index(said) > max(map(VERDICTS.index, right))
    else:
        assert said in right
