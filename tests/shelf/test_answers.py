"""What the shelf answers a case with: exact first, then acceptable, and the unsafe with its reason."""

from __future__ import annotations

import pytest

from counter import desk, shelf, shop
from counter.desk import Case
from counter.shelf import Row, plan_import
from counter.shop import open_store
from tests.shelf.conftest import HEADINGS

LINES = (
    ("A1", "CFQ26W/G24q/830", "A1", "5", "8", ""),
    ("A2", "CFQ26W/G24q/835", "A2", "0", "8", ""),
    ("A3", "CFQ26W/G24q/835", "A3", "7", "8", ""),
    ("B1", "CFQ18W/G24q/835", "B1", "9", "7", ""),
    ("C1", "CFQ26W/G24d/835", "C1", "9", "7", ""),
    ("D1", "LED PLUG-IN G24q 9W 3500K TYPE A", "D1", "3", "12", ""),
    ("E1", "WIRE NUT", "E1", "3", "1", ""),
)
KNOWN = Case(
    marks="CFQ26W/G24q/835",
    looks={"glass": "white", "pins": "4", "legs": "4"},
    fixture={"holder": "G24q-3", "ballast": "electronic", "ballast_watts": (26,)},
    use="lighting",
)


@pytest.fixture
def store(shop_data, matcher):
    rows = [Row(1, HEADINGS), *(Row(at, cells) for at, cells in enumerate(LINES, 2))]
    made = open_store(shop_data)
    shelf.put(made, plan_import("x", rows, shelf.columns_of(rows), matcher))
    return made


def test_exact_first_what_is_there_first_then_the_rest(store, catalogue):
    found = shelf.answers(store, catalogue, KNOWN, desk.assess(catalogue, KNOWN))
    ranks = {one.item.code: one.rank for one in found}
    assert [one.item.code for one in found][:3] == ["A3", "A2", "A1"]
    assert (ranks["A3"], ranks["A1"], ranks["D1"]) == ("exact", "other colour", "ask first")
    assert "E1" not in ranks


@pytest.mark.parametrize("code", ["B1", "C1"])
def test_what_must_not_go_in_is_found_and_says_why(store, catalogue, code):
    found = desk.assess(catalogue, KNOWN)
    (one,) = shelf.judge_items(catalogue, KNOWN, found, shelf.find(store, code))
    assert (one.rank, one.verdict) == ("not for this", "do not sell")
    assert one.why


def test_without_a_case_the_shelf_is_only_searched(store, catalogue):
    case = Case()
    assert shelf.answers(store, catalogue, case, desk.assess(catalogue, case)) == []
    (one,) = shelf.judge_items(catalogue, case, desk.assess(catalogue, case), shelf.find(store, "A1"), searched=True)
    assert one.verdict is None


def test_shelf_says_what_the_desk_says_of_that_lamp(store, catalogue):
    """An item is never offered more freely than the desk would sell that lamp for the same fixture."""
    found = desk.assess(catalogue, KNOWN)
    strict = {"sell": 0, "ask first": 1, "do not sell": 2}
    for one in shelf.judge_items(catalogue, KNOWN, found, shop.all_items(store)):
        if one.item.lamp is not None:
            alone = desk.assess(
                catalogue, KNOWN.model_copy(update={"chosen": one.item.lamp, "marks": "", "looks": {}})
            )
            assert strict[one.verdict] >= (alone.verdict == "do not sell") * 2
