"""Dates, lots and colour rendering beside a code are named, and take nothing from it."""

import pytest

from counter import marks

CODES = ("CFQ26W/G24q/841", "F32T8/841", "FT36W/2G11/835", "CFT9W/G23/827")


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize(
    "aside", ["82 CRI", "CRI 82", "Ra 80", "lot A7", "LOT NO. 4711", "05/21", "11/2023", "date 0521"]
)
def test_it_changes_nothing(shipped, code, aside):
    alone, beside = marks.read(shipped, code), marks.read(shipped, f"{code} {aside}")
    assert (beside.unread, beside.is_split) == ((), False)
    assert beside.likelihood == alone.likelihood
    (told,) = (span for span in beside.readings[0].spans if span.part == "aside")
    assert told.text == aside


@pytest.mark.parametrize("text", ["05/21", "CRI 80", "lot 7"])
def test_alone_it_is_read_as_anything_else_is(shipped, text):
    found = marks.read(shipped, text)
    assert all(span.part != "aside" for one in found.readings for span in one.spans)


@pytest.mark.parametrize("beside", ["13/41", "05/21W", "9W/30", "UV 05", "LOTUV", "CRI"])
def test_what_may_be_more_is_no_aside(shipped, beside):
    found = marks.read(shipped, f"CFQ26W/G24q {beside}")
    assert all(span.part != "aside" for one in found.readings for span in one.spans)
