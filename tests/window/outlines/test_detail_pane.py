"""The outline drawn large: what choosing it settles."""

from __future__ import annotations

import pytest

from counter.desk import Case
from tests.window.hands import CODE

SEEN = Case(looks={"glass": "white", "watts": "26"})  # what the button alone does not say


def test_the_clerk_says_which_lamp_it_is_by_the_button(windows):
    window = windows(case=SEEN)
    window.counter.open_outline("G24q-3/26/quad")
    window.detail.choose.click()
    assert (window.case.chosen, window.assessment.is_settled) == ("G24q-3/26/quad", True)
    window.counter.open_outline("G24q-2/18/quad")
    assert (window.case.chosen, window.detail.choose.isChecked()) == (None, False)


@pytest.mark.parametrize(
    ("case", "says"),
    [
        (Case(looks={"pins": "2"}, marks=CODE), "These marks say 4 pins, you saw 2"),
        (Case(looks={"glass": "clear"}), "germicidal"),
        (Case(marks="UV LAMP"), "UV"),
    ],
)
def test_a_lamp_that_the_button_does_not_settle_says_why(windows, case, says):
    window = windows(case=case)
    window.counter.open_outline("G23/9/twin" if "glass" in case.looks else "G24q-2/18/quad")
    assert not window.detail.why_open.isVisible()
    window.detail.choose.click()
    assert not window.assessment.is_settled
    assert window.detail.why_open.isVisible()
    assert says in window.detail.why_open.text()


def test_a_settled_lamp_needs_no_reason(windows):
    window = windows(case=SEEN)
    window.counter.open_outline("G24q-3/26/quad")
    window.detail.choose.click()
    assert not window.detail.why_open.isVisible()
