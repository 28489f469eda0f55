"""Every shipped table names where each value comes from, and a fault in one is found."""

from __future__ import annotations

import json

import pytest

from counter import catalogue, paths

TABLES = ("cautions", "disposal", "label", "law", "light", "marks", "replacements", "training", "words")


@pytest.mark.parametrize("name", TABLES)
def test_shipped_table_is_sound(name):
    assert catalogue.check_file(paths.resources() / f"{name}.json") == ()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"source": "A book nobody read"}, "is not listed"),
        ({"confidence": "certain"}, "is no confidence"),
        ({"source": "practice", "confidence": "published"}, "does not go with the source"),
    ],
)
def test_fault_is_found(tmp_path, change, says):
    law = json.loads((paths.resources() / "law.json").read_text(encoding="utf-8"))
    law["rows"][2].update(change)
    file = tmp_path / "law.json"
    file.write_text(json.dumps(law), encoding="utf-8")
    (problem,) = catalogue.check_file(file)
    assert says in problem.what
    assert problem.path.startswith("rows[2].")


def test_checking_what_is_shipped_covers_every_table():
    shipped = {file.stem for file in paths.resources().glob("*.json")}
    own = {"lessons", "plain-words", "stock"}  # cases, words and columns of our own: no values of the trade
    assert shipped == {"catalogue", *own, *TABLES}
