"""F1: a page on each pane, opened at the one in use."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.window.dialogs.sheet import Sheet

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class Page(NamedTuple):
    """What a pane is for, and how it is used."""

    title: str
    lines: tuple[str, ...]


PAGES: dict[str, Page] = {
    "answer": Page(
        "The answer",
        (
            "Which base, whether it may be sold, and the gravest caution. It stays where it is, whatever it says.",
            "A firm frame: may be sold. Dashes: ask first. A solid block: do not sell.",
            "«?» behind a base: it is the likeliest, and not sure yet.",
        ),
    ),
    "looks": Page(
        "In your hand",
        (
            "Press what you see; a second press takes it back. Nothing is ever struck out by one look.",
            "▸ marks the look most worth taking now, with its reason on top.",
            'Sizes: millimetres, or inches as 5 7/8" or 1/2. A bare number is in the unit of Settings, Lengths;',
            "where only the other unit makes a lamp of it, you are asked.",
            "Alt and the underlined letter go to a look, a digit presses a picture, 0 says can't tell, arrows walk.",
        ),
    ),
    "outlines": Page(
        "Outlines",
        (
            "Bases, the likeliest family first, with a bar for how likely. Arrows open what they highlight.",
            "Opening an outline only shows it. «This is the lamp», below the drawing, says that you know.",
            "Filter by base or watts (Ctrl+F); Esc clears it. A right click holds an outline beside.",
        ),
    ),
    "detail": Page(
        "The drawing",
        (
            "Pins toward you, key edge up, all to one scale. A dash stands where a value is unsure.",
            "A press on the coloured word shows the source, and lets the shop confirm the value.",
            "Beside it: a second lamp to the same scale; only what differs is coloured.",
        ),
    ),
    "marks": Page(
        "Marks",
        (
            "Type what is printed, in any order. ? is one character nobody can read, * a rubbed stretch.",
            "Each part is explained where it stands; Tab goes to the parts, arrows walk.",
            "Enter on a doubtful part lets you choose what it was.",
        ),
    ),
    "fixture": Page(
        "In the fixture",
        (
            "What the lamp goes into. Unknown is a normal answer: what matters is asked for beside the cautions.",
            "Type or paste the ballast label under «More»: what it says fills the fields; what you enter wins.",
        ),
    ),
    "side": Page(
        "Cautions, instead, light, law",
        (
            "Cautions, the gravest first, each with why and what to do. Questions stand above; a press answers.",
            "Instead: what may go in, and why not the others. Light: exposure before UV lamps, colours of others.",
            "Law: dated tables for the shop's place. Check the current text. A broken lamp: Ctrl+B, step by step.",
        ),
    ),
}


def help_at(parent: QWidget, pane: str) -> Sheet:
    """Show the page of a pane first, and the others below it."""
    sheet = Sheet("Help", parent)
    order = [pane, *(name for name in PAGES if name != pane)] if pane in PAGES else list(PAGES)
    for name in order:
        sheet.say(PAGES[name].title, "title")
        for line in PAGES[name].lines:
            sheet.say(line)
    sheet.finish()
    return sheet
