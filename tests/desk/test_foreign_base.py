"""A base that the marks spell out and the catalogue lacks is named as what it is, never taken for another."""

from __future__ import annotations

import pytest

from counter.desk import Case, assess

FOREIGN = "base not in the catalogue"


@pytest.mark.parametrize(
    ("marks", "base"),
    [
        ("G12", "G12"),
        ("G12 35W", "G12"),
        ("E26 13W", "E26"),
        ("E27 23W", "E27"),
        ("GU10 50W", "GU10"),
        ("G5.3 50W", "G5.3"),
        ("GX5.3 50W", "GX5.3"),
        ("G5,3 50W", "G5.3"),
    ],
)
def test_a_foreign_base_stands_in_the_headline(catalogue, marks, base):
    found = assess(catalogue, Case(marks=marks))
    assert (found.headline, found.subline) == (base, FOREIGN)
    assert found.verdict != "sell"


@pytest.mark.parametrize(
    ("marks", "headline"),
    [
        ("CFQ26W/G24q/841", "G24q-3"),
        ("F32T8/841", "G13"),
        ("26W G24q-3", "G24q-3"),
        ("G5 13W", "G5"),
        ("G23.9W", "G23?"),
    ],
)
def test_a_base_of_the_catalogue_is_not_foreign(catalogue, marks, headline):
    found = assess(catalogue, Case(marks=marks))
    assert found.headline == headline
    assert found.subline != FOREIGN
