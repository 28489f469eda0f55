"""The shipped figures: every row says where it comes from and how sure it is."""

from __future__ import annotations

import json
from itertools import pairwise
from typing import Any

from counter import paths
from counter.light._tables import tables

CONFIDENCES = {"published", "reproduced", "practice", "memory-high", "memory-medium", "memory-low"}


def rows(node: Any) -> list[dict[str, Any]]:
    if isinstance(node, list):
        return [row for item in node for row in rows(item)]
    if isinstance(node, dict):
        held = [row for item in node.values() for row in rows(item)]
        return held or [node]
    return []


def test_every_row_has_a_source_and_a_confidence() -> None:
    data = json.loads((paths.resources() / "light.json").read_text(encoding="utf-8"))
    found = rows(data["uv"]) + rows(data["colour"])
    assert len(found) > 90
    for row in found:
        assert row["source"] in data["sources"], row
        assert row["confidence"] in CONFIDENCES, row


def test_the_weighting_rises_in_wavelength_without_a_gap() -> None:
    nm = [row.nm for row in tables().weighting]
    assert (nm[0], nm[-1]) == (180, 400)
    assert all(0 < b - a <= 10 for a, b in pairwise(nm))


def test_the_words_rise_and_the_last_has_no_end() -> None:
    *ends, last = [row.below_mired for row in tables().match_words]
    assert last is None
    assert all(a < b for a, b in pairwise([0.0, *(e for e in ends if e is not None)]))


def test_nominal_temperatures_lie_in_their_ranges() -> None:
    for row in tables().letters:
        assert row.cct_range_k[0] <= row.cct_k <= row.cct_range_k[1], row
