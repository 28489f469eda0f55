"""Folding: one way to write each letter, blank and hyphen, and every place still known."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counter.words import fold


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("9W  magnetic\tballast\nremoved", "9w magnetic ballast removed"),
        ("re-\nmoved", "removed"),
        ("a 7-\nwatt", "a 7-watt"),
        ("bal\xad\nlast", "ballast"),
        ("by\xadpass", "bypass"),
        ("G24q-\n3", "g24q-3"),
        ("rated,\nlisted (\nUL", "rated, listed ( ul"),
        ("２６Ｗ ＬＥＤ", "26w led"),
        ("by‑pass – direct", "by-pass - direct"),
        ("Électronique außer", "electronique ausser"),
        ("5½ in", "5 1/2 in"),
        ("a\u200bb", "ab"),
        ("  two  ", "two"),
        ("", ""),
    ],
)
def test_fold(typed, plain):
    assert fold(typed).plain == plain


@given(st.text(max_size=80))
def test_every_stretch_points_into_what_was_typed(text):
    folded = fold(text)
    assert len(folded.places) == len(folded.plain)
    assert list(folded.places) == sorted(folded.places)
    assert all(0 <= place < len(text) for place in folded.places)
    for at in range(len(folded.plain)):
        if folded.plain[at] != " ":
            assert folded.as_typed(at, at + 1) != ""


@given(st.text(max_size=60))
def test_folding_twice_is_folding_once(text):
    once = fold(text).plain
    assert fold(once).plain == once


def test_a_stretch_of_nothing_points_nowhere():
    assert fold("abc").span(2, 2) == (0, 0)
    assert fold("abc").as_typed(2, 2) == ""
