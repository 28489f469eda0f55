"""One verdict everywhere: what "Instead" offers is held back by the same law, breakage and doubt as the stamp."""

from __future__ import annotations

from datetime import date

import pytest

from counter.desk import Case, CaseProblem, assess
from counter.desk._saved_case import read_case
from counter.fit import Fixture

FITTING = Fixture(holder="G24d-3", ballast="magnetic", ballast_watts=(26,))
MATCHED = Case(marks="CFQ26W/G24d/841", fixture=FITTING, use="lighting", on=date(2026, 11, 25))


@pytest.mark.parametrize("change", [{"place": "us-ca"}, {"broken": True}])
def test_nothing_fluorescent_is_offered_for_sale_where_the_stamp_asks(catalogue, change):
    assert "sell" in {one.verdict for one in assess(catalogue, MATCHED).replacements}
    found = assess(catalogue, MATCHED.model_copy(update=change))
    assert found.verdict == "ask first"
    assert "sell" not in {one.verdict for one in found.replacements}


def test_a_colour_that_cannot_be_read_is_not_named(catalogue):
    assert "K" not in assess(catalogue, Case(marks="CFQ26W/G24q/8*")).subline
    assert "4100" in assess(catalogue, Case(marks="CFQ26W/G24q/841")).subline


def test_a_place_nobody_knows_is_refused(catalogue, tmp_path):
    file = tmp_path / "case.json"
    file.write_text(MATCHED.model_copy(update={"place": "California"}).model_dump_json(), encoding="utf-8")
    with pytest.raises(CaseProblem, match="place"):
        read_case(file, catalogue)


@pytest.mark.parametrize("text", ["CFQ28W/G24q/841", "CFQ62W/G24q/841"])
def test_watts_that_do_not_fit_leave_the_base_that_was_read(catalogue, text):
    found = assess(catalogue, Case(marks=text))
    assert found.headline.startswith("G24q")
    assert catalogue.lamp_by_id[found.nearest].base.startswith("G24q")
    assert found.verdict != "sell"
