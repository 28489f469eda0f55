"""Everything that can be done from a menu or by a key, once: menus, keys and the sheet of keys come from here."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from counter.language import current, languages, tr
from counter.window.dialogs.settings import COLOURS, LENGTHS
from counter.window.parts.words import caption
from counter.window.side.side_tabs import TABS
from counter.window.training.first_case import start_first_case

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.window.counter_room import Counter
    from counter.window.shelf.shop_desk import ShopDesk

MENUS = ("File", "Case", "Stock", "View", "Training", "Help")


class Command(NamedTuple):
    """One thing to do: the menu it stands in, its words, its keys, and what does it."""

    menu: str
    words: str
    keys: tuple[str, ...]
    do: Callable[[], object]


def commands_of(room: Counter) -> tuple[Command, ...]:
    """Return every command of a counter."""
    window, desk, stock = room.window, room.desk_cases, room.shop
    tabs = tuple(
        Command("View", name, (f"Ctrl+{at}",), partial(room.side.open, at - 1))
        for at, (name, _) in enumerate(TABS, 1)
    )
    return (
        Command("File", "Open a case …", ("Ctrl+O",), desk.ask_open),
        Command("File", "Save the case …", ("Ctrl+S",), desk.ask_save),
        Command("File", "Settings …", ("Ctrl+,",), room.show_settings),
        Command("File", "Quit", ("Ctrl+Q",), window.close),
        Command("Case", "Next customer", ("F2",), room.next_customer),
        Command("Case", "Undo", ("Ctrl+Z",), room.undo),
        Command("Case", "Redo", ("Ctrl+Shift+Z", "Ctrl+Y"), room.redo),
        Command("Case", "Copy the answer as text", ("Ctrl+Shift+C",), room.copy_answer),
        Command("Case", "Put this case aside", ("F6",), stock.parked.park),
        Command("Case", "Back to the case that waits longest", ("F7",), stock.parked.back),
        Command("Case", "Slip …", ("Ctrl+P",), stock.write_slip),
        Command("Case", "Slips, and the month …", ("Ctrl+L",), stock.open_log),
        *_stock_commands(stock),
        Command("Case", "Broken lamp", ("Ctrl+B",), room.toggle_broken),
        Command("View", "Marks", ("Ctrl+M",), room.marks.take_focus),
        Command("View", "Holder", ("Ctrl+H",), room.fixture.holder.setFocus),  # closed: letters then choose at once
        Command("View", "Filter the outlines", ("Ctrl+F",), room.grid.filter.setFocus),
        Command("View", "Outlines", ("Ctrl+G",), room.grid.view.setFocus),
        Command("View", "Fold or unfold the unlikely", ("Ctrl+U",), room.grid.unfold.click),
        *tabs,
        Command("View", "Law of the shop's place …", (), room.ask_for_place),
        Command("Training", "Training room", ("F4",), lambda: room.training.enter()),
        Command("Training", "Guided first case", (), partial(start_first_case, window)),
        Command("Help", "Help on this pane", ("F1",), room.show_help),
        Command("Help", "Keys", ("Shift+F1",), room.show_keys),
        Command("Help", "About", (), room.show_about),
    )


def _stock_commands(stock: ShopDesk) -> tuple[Command, ...]:
    return (
        Command("Stock", "Search the shelf", ("Ctrl+J",), stock.search),
        Command("Stock", "Import stock list …", (), stock.import_list),
        Command("Stock", "Bring the list before this one back", (), stock.bring_back),
        Command("Stock", "Cost over the years …", (), stock.open_cost),
        Command("Stock", "Own sales weigh, or not, in identifying", (), stock.toggle_sales),
        Command("Stock", "Load the demo shop", (), stock.load_demo),
        Command("Stock", "Take the demo shop out", (), stock.drop_demo),
    )


def menu_of(room: Counter, commands: tuple[Command, ...]) -> QMenu:
    """Return the menu behind the three bars; its actions' keys work in the whole window."""
    window = room.window
    whole = QMenu(window)
    by_name = {name: whole.addMenu(f"&{name}") for name in MENUS}
    for one in commands:
        action = QAction(caption(one.words), whole)
        action.setShortcuts([QKeySequence(keys) for keys in one.keys])
        action.triggered.connect(lambda _=False, do=one.do: do())
        by_name[one.menu].addAction(action)
        window.addAction(action)
    room.measuring.fill(whole)
    last = by_name["File"].addMenu("Last customers")
    last.aboutToShow.connect(lambda: room.desk_cases.fill_last(last))
    view = by_name["View"]
    view.addSeparator()
    colours, lengths, spoken = (view.addMenu(words) for words in ("Colours", "Lengths", tr("Language")))
    named = tuple((name, code) for code, name in languages().items())
    view.aboutToShow.connect(lambda: _fill(spoken, named, current(), room.set_language))
    view.aboutToShow.connect(lambda: _fill(colours, COLOURS, window.theme_name, window.set_theme))
    view.aboutToShow.connect(lambda: _fill(lengths, LENGTHS, window.units, window.set_units))
    return whole


def _fill(menu: QMenu, choices: tuple[tuple[str, str], ...], now: str, choose: Callable[[str], None]) -> None:
    menu.clear()
    group = QActionGroup(menu)
    for words, value in choices:
        action = QAction(words, menu, checkable=True, checked=value == now)
        action.triggered.connect(lambda _=False, v=value: choose(v))
        group.addAction(action)
        menu.addAction(action)
