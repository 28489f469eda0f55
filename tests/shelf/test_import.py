"""An import on both databases: what goes in, what is kept aside with its reason, what changes, what comes back."""

from __future__ import annotations

import pytest

from counter import shelf, shop
from counter.shelf import Matcher, Row, plan_import
from counter.shelf._columns import Columns
from counter.shelf._find import safe_csv
from counter.shop import Cancelled, open_store
from tests.shelf.conftest import HEADINGS, LINES, WRITERS

PRESENT = [Row(1, HEADINGS), *(Row(at, cells) for at, cells in enumerate(LINES, 2))]


@pytest.fixture
def store(shop_data):
    return open_store(shop_data)


@pytest.fixture
def put(store, matcher):
    """Return a function that imports rows."""

    def run(rows=PRESENT, **more):
        plan = plan_import("stock.csv", rows, shelf.columns_of(rows, store), matcher)
        shelf.put(store, plan, **more)
        return plan

    return run


@pytest.mark.parametrize("name", WRITERS)
def test_report_is_as_promised(write_list, name, matcher):
    report = shelf.import_report(shelf.read_plan(write_list(name), matcher, None))
    assert (report["lines"], report["matched"], report["rejected"]) == (4, 2, [])
    assert [(one["line"], one["reason"]) for one in report["unmatched"]] == [
        (4, "a ballast, not a lamp"),
        (5, "nothing in it reads as a lamp"),
    ]


def test_lines_that_are_no_items_are_rejected_with_their_reason(matcher):
    rows = [*PRESENT, Row(6, ("", "", "A1", "3")), Row(7, ("x9", "thing", "A1", "lots", "1")), Row(8, HEADINGS)]
    plan = plan_import("stock.csv", rows, shelf.columns_of(rows), matcher)
    assert [(one.line, one.reason) for one in plan.rejected] == [
        (6, "it has neither a code nor a description"),
        (7, "its quantity “lots” is no figure"),
    ]
    assert len(plan.items) == 4


def test_list_without_codes_or_descriptions_is_refused(matcher):
    with pytest.raises(shelf.ListProblem, match="Say which one"):
        plan_import("stock.csv", PRESENT, Columns(at={"bin": 2}), matcher)


SEARCHED = [
    ("cfq", ["TV100"]),
    ("26", ["TV100", "TV101", "TV102"]),
    ("g24q 8", ["TV100", "TV101"]),
    ("24q", ["TV100", "TV101", "TV102"]),
    ("a01-3", ["TV101"]),
    ("2000000000015", ["TV100"]),
    ("tv103", ["TV103"]),
    ("rohre", ["TV101"]),
    ("röhre", ["TV101"]),
    ("' OR 1=1 --", []),
    ('"*', ["TV100", "TV102", "TV103", "TV101"]),
    ("nothing such", []),
]


@pytest.mark.parametrize(("text", "codes"), SEARCHED)
def test_search_finds_by_how_words_begin(store, put, text, codes):
    put()
    assert sorted(item.code for item in shelf.find(store, text)) == sorted(codes)


def test_exact_comes_first_and_what_is_there_before_what_is_not(store, put):
    put([Row(1, HEADINGS), Row(2, LINES[1]), Row(3, LINES[0]), Row(4, ("26", "wire", "B1", "1", "2", ""))])
    assert [item.code for item in shelf.find(store, "26")] == ["26", "TV100", "TV101"]


def test_item_keeps_everything(store, put):
    put()
    (item,) = shelf.find(store, "TV101")
    report = shelf.item_report(item)
    assert report["quantity"] == 0
    assert report["price"] == 1008.75
    assert (report["bin"], report["base"], report["watts"], report["kind"]) == (
        "A01-3",
        "G24q-3",
        26,
        "fluorescent",
    )


def test_second_import_says_what_it_changes_before_it_does(store, put, matcher):
    put()
    rows = [
        Row(1, HEADINGS),
        Row(2, (*LINES[0][:3], "9", "8.50", "")),
        Row(3, LINES[1]),
        Row(4, ("N1", "new", "", "1")),
    ]
    plan = plan_import("second.csv", rows, shelf.columns_of(rows), matcher)
    found = shelf.changes(shop.all_items(store), plan)
    assert (found.added, found.gone, found.changed, found.same) == (1, 2, 1, 1)
    assert "TV100 · A01-2: quantity 12 → 9" in found.shown
    assert len(shop.all_items(store)) == 4


def test_old_list_comes_back(store, put):
    put()
    put([Row(1, HEADINGS), Row(2, ("N1", "only this", "", "1"))])
    assert [item.code for item in shelf.find(store, "")] == ["N1"]
    back = shop.bring_back(store)
    assert (back.name, back.lines, back.is_current) == ("stock.csv", 4, True)
    assert [item.code for item in shelf.find(store, "cfq")] == ["TV100"]
    assert shelf.find(store, "only") == []
    assert shop.bring_back(store) is None


def test_only_a_few_lists_are_kept(store, put):
    for _ in range(5):
        put()
    assert len(shop.lists(store)) == 3
    with store.reading() as connection:
        from sqlalchemy import text

        assert connection.scalar(text("SELECT count(*) FROM stock")) == 12


def test_cancelled_import_leaves_the_present_list(store, put):
    put()
    with pytest.raises(Cancelled):
        put([Row(1, HEADINGS), Row(2, ("N1", "only this", "", "1"))], progress=lambda done: False)
    assert len(shop.all_items(store)) == 4


def test_cancelled_reading_puts_nothing_in(matcher):
    with pytest.raises(Cancelled):
        plan_import("stock.csv", PRESENT, shelf.columns_of(PRESENT), matcher, progress=lambda done, of: False)


def test_columns_once_set_are_remembered_for_these_headings(store, put, matcher):
    rows = [Row(1, ("Nr", "Text", "Was")), Row(2, ("9", "CFQ26W/G24q/835", "x"))]
    guessed = shelf.columns_of(rows, store)
    set_by_hand = guessed.model_copy(update={"at": {"code": 2, "description": 1}})
    shelf.put(store, plan_import("a.csv", rows, set_by_hand, matcher))
    assert shelf.columns_of(rows, store).at == {"code": 2, "description": 1}


def test_match_by_hand_counts_now_and_in_every_later_list(store, put, catalogue):
    put()
    facts = {"base": "G23", "watts": 9.0, "kind": "fluorescent"}
    changed = shop.match_by_hand(store, [shelf.key_of("TV103")], "G23/9/twin", facts, "Kim")
    assert changed == 1
    assert shop.current_list(store).matched == 3
    assert shelf.find(store, "tv103")[0].lamp == "G23/9/twin"
    later = Matcher(catalogue, by_hand=shop.hands(store))
    assert plan_import("b.csv", PRESENT, shelf.columns_of(PRESENT), later).matched == 3


def test_demo_list_is_marked_and_goes_without_a_trace(store, put):
    put()
    put(is_demo=True)
    assert shop.current_list(store).is_demo
    assert shop.drop_demo(store) == 1
    assert not shop.current_list(store).is_demo


DANGEROUS = ["=HYPERLINK(1)", "+cmd|' /C calc'!A0", "-1+2", "@SUM(A1)", "\t=1", "\r=1"]


@pytest.mark.parametrize("text", DANGEROUS)
def test_no_cell_of_an_export_is_a_formula(text):
    (cell,) = safe_csv(["x"], [[text]]).splitlines()[1:2] if "\r" not in text else [safe_csv(["x"], [[text]])[3:]]
    assert cell.lstrip('"').startswith("'")


def test_figures_of_an_export_stay_figures():
    assert safe_csv(["x", "y"], [[-3.5, "+49"]]).splitlines()[1] == "-3.5,+49"


def test_apostrophe_of_an_export_comes_off_again(matcher):
    rows = [Row(1, HEADINGS), Row(2, ("'=1+1", "'-x", "A1", "1", "1", ""))]
    (item,) = plan_import("x.csv", rows, shelf.columns_of(rows), matcher).items
    assert (item["code"], item["description"]) == ("=1+1", "-x")
