"""Designations by the grammar, and a lamp's base against a holder's marking."""

import pytest

from counter.catalogue import parse_designation, parse_designations
from counter.fit._holder import compare


def test_every_base_of_the_catalogue_reads_back(catalogue):
    for base in catalogue.bases:
        parts = parse_designation(base.designation)
        assert (parts.text, parts.family) == (base.designation, base.family)


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("g24q3", "G24q-3"),
        ("GX 24 Q - 3", "GX24q-3"),
        ("G24q=3", "G24q-3"),
        ("2 gx 7", "2GX7"),
        ("W4,3x8,5d", "W4.3x8.5d"),
        ("FA8", "Fa8"),
        ("G10q/17x35", "G10q"),
        ("GX23-2", "GX23-2"),
        ("GRY10Q–3", "GRY10q-3"),
    ],
)
def test_spacing_and_capitals_do_not_matter(text, means):
    assert parse_designation(text).text == means


@pytest.mark.parametrize("text", ["", " ", "24", "holder", "G", "q-3", "💡", "G" * 10_000, "CFQ26W/G24q"])
def test_what_is_no_designation_is_none(text):
    assert parse_designation(text) is None


@pytest.mark.parametrize(
    "text", ["G24q-3 / GX24q-3", "G24q-3/GX24q-3", "g24q3, gx24q3", "G24q-3 or GX24q-3", "G24q-3\nGX24q-3"]
)
def test_a_holder_may_name_two_bases(text):
    assert [one.text for one in parse_designations(text)] == ["G24q-3", "GX24q-3"]


@pytest.mark.parametrize(
    ("lamp", "holder", "says"),
    [
        ("G24q-3", None, "unknown"),
        ("G24q-3", "  ", "unknown"),
        ("G24q-3", "???", "unreadable"),
        ("G24q-3", "g24q-3", "same"),
        ("G24q-3", "G24q", "family"),
        ("G24q-3", "G24", "family"),
        ("G24q-3", "GX24q-3", "modifier"),
        ("G24q-3", "GX24q", "modifier"),
        ("GX24q-3", "G24q", "modifier"),
        ("G24q-3", "G24q-2", "key"),
        ("G24q-3", "G24q-7", "key"),
        ("G24q-3", "G24d-3", "pins"),
        ("G24d-3", "G24q", "pins"),
        ("G24q-3", "G24q-3 / GX24q-3", "same"),
        ("GX24q-3", "G24q-3/GX24q-3", "same"),
        ("G23", "GX23", "modifier"),
        ("GX23", "GX23-2", "key"),
        ("GX23-2", "GX23", "key"),
        ("G23", "2G7", "pins"),
        ("GR8", "GR10q", "pins"),
        ("2G11", "2G10", "base"),
        ("G13", "G24q-3", "base"),
        ("G5", "G13", "base"),
        ("G24d-1", "GU24", "modifier"),  # U says it: no other 24 goes in
        ("G24q-3", "G24q-", "family"),
        ("G24q-3", "E27", "base"),
    ],
)
def test_compare(catalogue, lamp, holder, says):
    assert compare(catalogue, catalogue.base_by_name[lamp], holder).says == says
