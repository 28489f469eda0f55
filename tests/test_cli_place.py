"""Places on the command line: added, shown with who and when, taken out again, on each kind of store."""

from __future__ import annotations

import json

import pytest

from counter.cli import main

LAW = ("--what", "sale of new lamps", "--text", "Invented Lamps Act, section 4", "--read", "2026-11-28")


@pytest.fixture
def run(capsys, shop_data):
    """Return a runner of commands on each kind of store: status, JSON object, standard error."""

    def call(*arguments):
        status = main(["--data", str(shop_data), "place", *map(str, arguments), "--json"])
        out, err = capsys.readouterr()
        return status, json.loads(out) if out else None, err

    return call


def law(run, place, *more):
    return run("law", place, "--lamps", "linear-t8", *LAW, "--read-as", "text", "--who", "Kim", *more)


def test_a_place_with_its_law_is_shown_with_the_text_the_day_and_who(run):
    assert run("add", "nz", "New Zealand", "--who", "Kim")[0] == 0
    status, kept, _ = law(run, "nz", "--ends", "2026-01-01")
    assert (status, kept["section"]) == (0, "law")
    _, found, _ = run("show", "nz")
    (row,) = (row for row in found["law"] if row["place"] == "nz")
    expected = {"law": "Invented Lamps Act, section 4", "read": "2026-11-28", "who": "Kim", "ends": "2026-01-01"}
    assert {key: row[key] for key in expected} == expected
    assert {one["number"] for one in found["own"]} == {1, kept["number"]}


def test_what_is_taken_out_no_longer_counts(run):
    run("add", "nz", "New Zealand", "--who", "Kim")
    number = law(run, "nz")[1]["number"]
    assert run("out", number, "--who", "Ben")[1] == {"out": [number]}
    assert not [row for row in run("show", "nz")[1]["law"] if row["place"] == "nz"]
    assert run("out", number, "--who", "Ben")[0] == 1


def test_used_lamps_of_a_shipped_place(run):
    told = ("--title", "Depot", "--says", "To the depot.", "--text", "Page of the city", "--read", "2026-11-28")
    assert run("used", "uk", *told, "--read-as", "summary", "--who", "Kim")[0] == 0
    (note,) = (one for one in run("show", "uk")[1]["disposal"] if one["title"] == "Depot")
    assert "Only a summary" in note["text"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("add", "uk", "Britain", "--who", "Kim"), "shipped already"),
        (("show", "atlantis"), "not known"),
        (("law", "atlantis", "--lamps", "linear-t8", *LAW, "--read-as", "text", "--who", "Kim"), "no place"),
        (("law", "uk", "--lamps", "linear-t99", *LAW, "--read-as", "text", "--who", "Kim"), "linear-t99"),
    ],
)
def test_what_cannot_be_kept_says_why(run, arguments, said):
    status, found, err = run(*arguments)
    assert (status, found) == (2, None)
    assert said in err
    assert run("show")[1]["places"][-1]["code"] == "world"
