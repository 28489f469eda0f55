"""F1: a page on each pane, opened at the one in use."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import marked, tr
from counter.window.dialogs.sheet import Sheet

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class Page(NamedTuple):
    """What a pane is for, and how it is used."""

    title: str
    lines: tuple[str, ...]


PAGES: dict[str, Page] = {
    "answer": Page(
        marked("The answer"),
        (
            marked("Which base, whether it may be sold, and the gravest caution, always in the same place."),
            marked("A firm frame: may be sold. Dashes: ask first. A solid block: do not sell."),
            marked("«?» behind a base: it is the likeliest, and not sure yet."),
        ),
    ),
    "looks": Page(
        marked("In your hand"),
        (
            marked(
                "Press what you see; a second press takes it back. One wrong press never rules a lamp out for good."
            ),
            marked("▸ marks what to look at next; the reason stands on top."),
            marked(
                'Sizes: millimetres, or inches like 5 7/8" or 1/2. A bare number is in the unit of Settings, '
                "Lengths; "
                "where only the other unit makes a lamp of it, you are asked."
            ),
            marked(
                "Alt and the underlined letter go to a look, a digit presses a picture, 0 says can't tell, arrows "
                "walk."
            ),
        ),
    ),
    "outlines": Page(
        marked("Outlines"),
        (
            marked("Bases, the most likely first, with a bar for how likely. Arrows open what they highlight."),
            marked("Opening an outline only shows it. «This is the lamp», below the drawing, says that you know."),
            marked(
                "Filter by base or watts (Ctrl+F); Esc clears it. A right click compares an outline with "
                "the one shown."
            ),
        ),
    ),
    "detail": Page(
        marked("The drawing"),
        (
            marked("Pins toward you, the notched side up, all to one scale. A dash stands where a value is unsure."),
            marked("A press on the coloured word shows the source, and lets the shop confirm the value."),
            marked("Compared with: a second lamp to the same scale; only what differs is coloured."),
        ),
    ),
    "marks": Page(
        marked("Marks"),
        (
            marked("Type what is printed, in any order. ? is one character nobody can read, * a rubbed stretch."),
            marked("Each part is explained where it stands; Tab goes to the parts, arrows walk."),
            marked("Enter on a doubtful part lets you choose what it was."),
        ),
    ),
    "fixture": Page(
        marked("In the fixture"),
        (
            marked(
                "What the lamp goes into. Unknown is a normal answer: what matters is asked for beside the cautions."
            ),
            marked(
                "Type or paste the ballast label under «More»: what it says fills the fields; what you enter wins."
            ),
        ),
    ),
    "side": Page(
        marked("Cautions, instead, light, law"),
        (
            marked(
                "Cautions, the gravest first, each with why and what to do. Questions stand above; a press answers."
            ),
            marked(
                "Instead: what may go in, and why not the others. Light: exposure before UV lamps, colours of others."
            ),
            marked(
                "Law: dated tables for the shop's place. Check the current text. A broken lamp: Ctrl+B, step by step."
            ),
        ),
    ),
}


def help_at(parent: QWidget, pane: str) -> Sheet:
    """Show the page of a pane first, and the others below it."""
    sheet = Sheet(tr("Help"), parent)
    order = [pane, *(name for name in PAGES if name != pane)] if pane in PAGES else list(PAGES)
    for name in order:
        sheet.say(tr(PAGES[name].title), "title")
        for line in PAGES[name].lines:
            sheet.say(tr(line))
    sheet.finish()
    return sheet
