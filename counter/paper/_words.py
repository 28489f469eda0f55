"""Words that stand on several sheets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue import notch_look
from counter.language import figure, marked, tr

if TYPE_CHECKING:
    from counter.catalogue import Base

NOTCHES = {
    "none": marked("no notch"),
    "one-large": marked("one large notch"),
    "two-large": marked("two large notches"),
    "small-centre": marked("small notch, middle"),
    "small-left": marked("small notch, left"),
    "small-right": marked("small notch, right"),
    "two-small": marked("two small notches"),
}


def check_words() -> str:
    """Say what the bar is for."""
    return tr(
        "This bar is {mm} mm, the width of a bank card. If a card does not match it: print at 100 %, not “fit”."
    ).format(mm=figure(85.6, ".2f"))


def notch_words(base: Base) -> tuple[str, str]:
    """Say the key of a base, and its doubt; either may be empty."""
    notches = base.face.notches
    if notches is None:
        return tr("key not known") if base.family_notches else "", ""
    is_doubtful = notches.is_unsure and bool(notches.at)
    return tr(NOTCHES[notch_look(notches.at)]), tr("not sure") if is_doubtful else ""


def watts_words(watts: str) -> str:
    """Write watts, or several of them, with their unit."""
    return f"{watts}\N{THIN SPACE}W"


def length_words(mm: float) -> str:
    """Write millimetres with the language's decimal sign."""
    return f"{figure(mm)}\N{THIN SPACE}mm"
