"""The window in another language while it runs: everything that shows words is made anew over the same case.

Renaming each pane in place would need a second method beside each place where words are set, and whoever forgot one
would leave a word behind. Made anew, the window goes the way of a start, so that nothing can be left; what the hand
holds is carried over here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.window.counter_room import fill
from counter.window.parts.languages import speak

if TYPE_CHECKING:
    from counter.catalogue import Loaded
    from counter.desk import History
    from counter.slip import SlipItem
    from counter.window.arrangement import Widths
    from counter.window.main_window import MainWindow


class InHand(NamedTuple):
    """What the clerk has before them and must find again: the case with its history, and how the panes stood."""

    loaded: Loaded
    history: History
    items: dict[tuple[str, str], SlipItem]
    widths: Widths
    filtered: str
    searched: str
    needed: int
    tab: int
    is_more_open: bool
    is_guided: bool
    is_offered: bool
    is_in_room: bool


def speak_anew(window: MainWindow, code: str) -> None:
    """Speak a language from now on, in every widget there is."""
    held = _in_hand(window)
    window.setUpdatesEnabled(False)
    try:
        window.counter.put_away()
        speak(code)
        size = window.places.size()
        window.furnish()
        window.places.resize(size)  # else the columns would be counted in a window of no width
        fill(window, held.loaded, held.history)
        _give_back(window, held)
    finally:
        window.setUpdatesEnabled(True)


def _in_hand(window: MainWindow) -> InHand:
    counter, room = window.counter, window.counter.training.room
    first = counter.training.first
    return InHand(
        loaded=counter.loaded,
        history=counter.history,
        items=counter.shop.writer.items,
        widths=window.places.widths(),
        filtered=window.grid.filter.text(),
        searched=window.side.shelf.field.text(),
        needed=window.side.shelf.needed.value(),
        tab=window.side.shown(),
        is_more_open=window.fixture.more.isChecked(),
        is_guided=first.is_on,
        is_offered=not first.is_on and first.line.isVisibleTo(window),
        is_in_room=room is not None and room.isVisible(),
    )


def _give_back(window: MainWindow, held: InHand) -> None:
    counter = window.counter
    counter.shop.writer.items.update(held.items)
    window.grid.filter.setText(held.filtered)
    window.side.shelf.needed.setValue(held.needed)
    window.side.shelf.field.setText(held.searched)
    window.fixture.more.setChecked(held.is_more_open)
    window.side.open_quietly(held.tab)
    window.places.take_widths(held.widths)
    first = counter.training.first
    first.is_on = held.is_guided
    first.follow(counter.case)
    if held.is_offered:
        first.offer()
    if held.is_in_room:
        counter.training.enter()
