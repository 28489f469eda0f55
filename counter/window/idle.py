"""What the first key and the first look of the day need, made ready while nobody asks for anything.

Tables behind reading and judging are made when first asked for; asked for by the first key, that key would wait for
them. So cases like those to come are answered once, one at a time, after the first paint; the answers are dropped.
What stands then stays for the day, and the collector of garbage need not walk over it again: that took up to 40 ms of
a key now and then.
"""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

from counter.window.training.warm import Warmer

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.window.main_window import MainWindow

CODE = "CFQ26W/G24q/841"
WORN = "F11XK/8?5"
GERMICIDAL = "GFT9W/G23"


def make_ready(window: MainWindow) -> Warmer:
    """Begin, in slices between which keys and paints are served."""
    warmer = Warmer()
    warmer.setParent(window)
    warmer.start(slices(window))
    return warmer


def slices(window: MainWindow) -> Iterator[None]:
    """Yield after each slice of work."""
    from counter import desk

    if not window.is_awake:
        return
    fixture = desk.Fixture(holder="G23", ballast="magnetic")
    for case in (
        desk.Case(marks=CODE[0]),
        desk.Case(marks=CODE),
        desk.Case(marks=WORN),
        desk.Case(looks={"legs": "4"}),
        desk.Case(looks={"glass": "clear", "legs": "2"}, marks="9W"),
        desk.Case(marks=GERMICIDAL, use="lighting", fixture=fixture),
    ):
        window.counter.assess(case)
        yield
    gc.freeze()
