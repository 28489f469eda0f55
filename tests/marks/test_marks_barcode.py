"""Barcodes: figures with a right check digit, or what to do about them."""

from __future__ import annotations

import pytest

from counter import marks


@pytest.mark.parametrize(
    ("text", "gtin"),
    [
        ("73513537\r\n", "73513537"),
        ("036000291452", "036000291452"),
        ("4 006381 333931", "4006381333931"),
        ("98412345678908", "98412345678908"),
        ("40063813?3931", "4006381333931"),
    ],
)
def test_barcode(shipped, text, gtin):
    (reading,) = marks.read(shipped, text).readings
    assert (reading.system, reading.canonical, reading.lamps) == ("barcode", gtin, ())
    assert reading.spans[-1].part == "check digit"


def test_wrong_check_digit_is_said(shipped):
    evidence = marks.read(shipped, "4006381333932")
    assert evidence.readings == ()
    assert evidence.problems == ("13 figures like a barcode, but the last should be 1: scan it again.",)
