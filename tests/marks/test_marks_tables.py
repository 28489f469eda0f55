"""resources/marks.json: every row has its source, and the tables fit the catalogue and each other."""

from __future__ import annotations

from typing import get_args

import pytest

from counter import marks
from counter.catalogue import Confidence

TABLES = marks.tables()


def rows(node, path=""):
    """Yield every table row that names a source or a confidence, with where it stands."""
    if isinstance(node, dict):
        if "confidence" in node:
            yield path, node
        for key, value in node.items():
            yield from rows(value, f"{path}/{key}")
    elif isinstance(node, list):
        for at, value in enumerate(node):
            yield from rows(value, f"{path}/{at}")


def test_head():
    assert (TABLES["format"], TABLES["version"]) == ("lamp-counter/marks", 1)


@pytest.mark.parametrize(("path", "row"), list(rows(TABLES)), ids=[path for path, _ in rows(TABLES)])
def test_row_has_a_known_source_and_confidence(path, row):
    assert row["confidence"] in get_args(Confidence)
    if "source" in row:
        assert row["source"] in TABLES["sources"]


@pytest.mark.parametrize(
    "path",
    [
        ("nema", "prefixes"),
        ("nema", "shapes"),
        ("linear", "heads"),
        ("linear", "suffixes"),
        ("linear", "germicidal_suffixes"),
        ("linear", "leg_spacing"),
        ("linear", "tube_left_out"),
        ("linear", "circular_watts"),
        ("colour", "letters"),
    ],
    ids="/".join,
)
def test_every_row_of_a_system_has_a_source(path):
    table = TABLES[path[0]][path[1]]
    assert table
    assert all(row["source"] in TABLES["sources"] for row in table)


def test_shapes_are_the_catalogues(shipped):
    shapes = {lamp.shape for lamp in shipped.lamps} - {None}
    assert shapes == set(TABLES["shapes"])
    for lamp in shipped.lamps:
        if lamp.shape:
            assert TABLES["shapes"][lamp.shape]["legs"] == lamp.legs, lamp.id


def test_dropped_x_names_bases_of_the_catalogue(shipped):
    families = {base.family for base in shipped.bases}
    pairs = TABLES["dropped_x"]["pairs"]
    assert {*pairs, *pairs.values()} <= families


def test_lookalikes_are_pairs_with_a_cost():
    for pair, cost in TABLES["lookalikes"]["pairs"].items():
        assert len(pair) == 2
        assert 0 < cost < TABLES["noise"]["substitute"]
