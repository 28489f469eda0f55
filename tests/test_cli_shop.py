"""Stock, slips and store on the command line, by the contract's names."""

from __future__ import annotations

import json

import pytest

from counter.cli import main
from counter.shop import add_slip, find_slips, open_store
from tests.shelf.conftest import HEADINGS, LINES, as_text
from tests.shop.test_log import SOLD, slip


@pytest.fixture
def run(capsys, shop_data):
    """Return a runner of commands on each kind of store: status, JSON object, standard error."""

    def call(*arguments):
        status = main(["--data", str(shop_data), *map(str, arguments), "--json"])
        out, err = capsys.readouterr()
        return status, json.loads(out) if out else None, err

    return call


@pytest.fixture
def listed(run, tmp_path):
    path = tmp_path / "stock.csv"
    path.write_text(as_text(";"), "utf-8")
    return run("stock", "import", path)


def test_import_reports_by_the_contract(listed):
    status, found, _ = listed
    assert status == 0
    assert (found["lines"], found["matched"], found["rejected"]) == (4, 2, [])
    assert found["unmatched"][0].keys() == {"line", "text", "reason"}


def test_find_reports_by_the_contract(run, listed):
    status, found, _ = run("stock", "find", "cfq26w")
    assert status == 0
    (item,) = found["items"]
    assert {key: item[key] for key in ("code", "bin", "quantity", "price", "base", "watts", "kind")} == {
        "code": "TV100",
        "bin": "A01-2",
        "quantity": 12,
        "price": 8.5,
        "base": "G24q-3",
        "watts": 26,
        "kind": "fluorescent",
    }
    assert run("stock", "find", "nothing such")[:2] == (1, {"items": []})


def test_slips_report_by_the_contract(run, shop_data):
    assert run("slips")[0] == 1
    add_slip(open_store(shop_data), slip("a", body={"items": [SOLD], "cautions": [], "headline": "x"}), [SOLD])
    status, found, _ = run("slips", "g24q")
    assert status == 0
    (one,) = found["slips"]
    assert one.keys() >= {"number", "at", "base", "watts", "items", "cautions"}
    assert (one["number"], one["base"], one["watts"]) == (1, "G24q-3", 26)


def test_store_is_described_checked_backed_up_and_brought_back(run, listed, tmp_path):
    assert run("store")[1]["rows"]["stock"] == 4
    assert run("store", "check")[:2] == (0, {"problems": []})
    assert run("store", "back-up", tmp_path / "b.db")[0] == 0
    assert run("store", "restore", tmp_path / "b.db")[0] == 0
    assert run("stock", "find", "tv100")[0] == 0
    assert run("store", "move", tmp_path / "moved.db")[0] == 0


BAD = [
    ("stock", "import", "nothing.csv"),
    ("store", "back-up"),
    ("store", "move"),
    ("store", "check", "what"),
    ("store", "move", "http://somewhere"),
    ("stock",),
    ("slips", "--forget-before", "soon"),
    ("slips", "nordberg", "--forget", "Kim"),
]


@pytest.mark.parametrize("arguments", BAD)
def test_bad_input_is_one_line(run, arguments):
    status, found, err = run(*arguments)
    assert (status, found) == (2, None)
    assert err.count("\n") == 1
    assert "Traceback" not in err


def test_a_question_makes_no_store(run, shop_data):
    run("stock", "find", "x")
    assert not shop_data.exists()


def test_headings_and_lines_are_of_one_list():
    assert len(HEADINGS) == len(LINES[0])


def test_names_are_forgotten_by_command(run, shop_data):
    assert run("slips", "--forget", "Ola")[:2] == (1, {"forgotten": 0})
    store = open_store(shop_data)
    add_slip(store, slip("a"), [], "Ola Nordberg", "ola nordberg")
    add_slip(store, slip("b", day="2024-01-01"), [], "Kim", "kim")
    assert run("slips", "--forget", "OLA  Nordberg")[:2] == (0, {"forgotten": 1})
    assert run("slips", "--forget", "Ola Nordberg")[0] == 1
    assert run("slips", "--forget-before", "2025-01-01")[:2] == (0, {"forgotten": 1})
    assert [one.customer for one in find_slips(store)] == ["", ""]
