"""Everything that can be done from a menu or by a key, once: menus, keys and the sheet of keys come from here."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from counter.language import current, languages, marked, tr
from counter.window.dialogs.settings import COLOURS, LENGTHS
from counter.window.parts.flash import reach
from counter.window.parts.words import caption
from counter.window.side.side_tabs import TABS
from counter.window.training.first_case import start_first_case

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.window.counter_room import Counter
    from counter.window.shelf.shop_desk import ShopDesk

FILE, CASE, STOCK = marked("&File"), marked("&Case"), marked("&Stock")
CATALOGUE, MEASURE, PAPER = marked("C&atalogue"), marked("&Measure"), marked("&Paper")
VIEW, TRAINING, HELP = marked("&View"), marked("&Training"), marked("&Help")
MENUS = (FILE, CASE, STOCK, CATALOGUE, VIEW, MEASURE, PAPER, TRAINING, HELP)


class Command(NamedTuple):
    """One thing to do: the menu of MENUS it stands in, its words as spoken, its keys, and what does it."""

    menu: str
    words: str
    keys: tuple[str, ...]
    do: Callable[[], object]


def commands_of(room: Counter) -> tuple[Command, ...]:
    """Return every command of a counter."""
    window, desk, stock = room.window, room.desk_cases, room.shop
    tabs = tuple(
        Command(VIEW, tr(name), (f"Ctrl+{at}",), partial(room.side.open, at - 1))
        for at, (name, _) in enumerate(TABS, 1)
    )
    return (
        Command(FILE, tr("Open a case …"), ("Ctrl+O",), desk.ask_open),
        Command(FILE, tr("Save the case …"), ("Ctrl+S",), desk.ask_save),
        Command(FILE, tr("Settings …"), ("Ctrl+,",), room.show_settings),
        Command(FILE, tr("Quit"), ("Ctrl+Q",), window.close),
        Command(CASE, tr("Next customer"), ("F2",), room.next_customer),
        Command(CASE, tr("Undo"), ("Ctrl+Z",), room.undo),
        Command(CASE, tr("Redo"), ("Ctrl+Shift+Z", "Ctrl+Y"), room.redo),
        Command(CASE, tr("Copy the answer as text"), ("Ctrl+Shift+C",), room.copy_answer),
        Command(CASE, tr("Put this case aside"), ("F6",), stock.parked.park),
        Command(CASE, tr("Oldest case set aside"), ("F7",), stock.parked.back),
        Command(CASE, tr("Slip …"), ("Ctrl+P",), stock.write_slip),
        Command(CASE, tr("Slips, and the month …"), ("Ctrl+L",), stock.open_log),
        *_stock_commands(stock),
        Command(CATALOGUE, tr("The shop's own entries …"), (), room.open_entries),
        Command(CATALOGUE, tr("Give to another shop …"), (), lambda: room.sharing().ask_export()),
        Command(CATALOGUE, tr("Take in from another shop …"), (), lambda: room.sharing().ask_merge()),
        Command(CASE, tr("Letters: ordinary lamp of this maker"), ("Ctrl+T",), room.marks.letters.teach_ordinary),
        Command(CASE, tr("Broken lamp"), ("Ctrl+B",), room.toggle_broken),
        Command(VIEW, tr("Marks"), ("Ctrl+M",), room.marks.take_focus),
        # Closed: letters then choose at once.
        Command(VIEW, tr("Holder"), ("Ctrl+H",), partial(reach, room.fixture.holder)),
        Command(VIEW, tr("Filter the outlines"), ("Ctrl+F",), partial(reach, room.grid.filter)),
        Command(VIEW, tr("Outlines"), ("Ctrl+G",), partial(reach, room.grid.view)),
        Command(VIEW, tr("Hide or show the unlikely"), ("Ctrl+U",), room.grid.unfold.click),
        *tabs,
        Command(VIEW, tr("Law of the shop's place …"), (), room.ask_for_place),
        Command(TRAINING, tr("Training room"), ("F4",), lambda: room.training.enter()),
        Command(TRAINING, tr("Guided first case"), (), partial(start_first_case, window)),
        Command(HELP, tr("Help on this pane"), ("F1",), room.show_help),
        Command(HELP, tr("Keys"), ("Shift+F1",), room.show_keys),
        Command(HELP, tr("About"), (), room.show_about),
    )


def _stock_commands(stock: ShopDesk) -> tuple[Command, ...]:
    return (
        Command(STOCK, tr("Search the shelf"), ("Ctrl+J",), stock.search),
        Command(STOCK, tr("Import stock list …"), (), stock.import_list),
        Command(STOCK, tr("Back to the stock list before this one"), (), stock.bring_back),
        Command(STOCK, tr("Makers' letters, and what the list teaches …"), (), stock.learner.open),
        Command(STOCK, tr("Cost over the years …"), (), stock.open_cost),
        Command(STOCK, tr("Let the shop's own sales count in identifying, or not"), (), stock.toggle_sales),
        Command(STOCK, tr("Load the demo shop"), (), stock.load_demo),
        Command(STOCK, tr("Remove the demo shop"), (), stock.drop_demo),
    )


def menu_of(room: Counter, commands: tuple[Command, ...]) -> QMenu:
    """Return the menu behind the three bars; its actions' keys work in the whole window."""
    window = room.window
    whole = QMenu(window)
    by_name = {name: whole.addMenu(tr(name)) for name in MENUS}
    for one in commands:
        action = QAction(caption(one.words), whole)
        action.setShortcuts([QKeySequence(keys) for keys in one.keys])
        action.triggered.connect(lambda _=False, do=one.do: do())
        by_name[one.menu].addAction(action)
        window.addAction(action)
    room.measuring.fill(by_name[MEASURE], by_name[PAPER])
    last = by_name[FILE].addMenu(tr("Last customers"))
    last.aboutToShow.connect(lambda: room.desk_cases.fill_last(last))
    view = by_name[VIEW]
    view.addSeparator()
    colours, lengths, spoken = (view.addMenu(words) for words in (tr("Colours"), tr("Lengths"), tr("Language")))
    named = tuple((name, code) for code, name in languages().items())
    view.aboutToShow.connect(lambda: _fill(spoken, named, current(), window.set_language))
    view.aboutToShow.connect(lambda: _fill(colours, COLOURS, window.theme_name, window.set_theme))
    view.aboutToShow.connect(lambda: _fill(lengths, LENGTHS, window.units, window.set_units))
    return whole


def _fill(menu: QMenu, choices: tuple[tuple[str, str], ...], now: str, choose: Callable[[str], None]) -> None:
    menu.clear()
    group = QActionGroup(menu)
    for words, value in choices:
        action = QAction(tr(words), menu, checkable=True, checked=value == now)
        action.triggered.connect(lambda _=False, v=value: choose(v))
        group.addAction(action)
        menu.addAction(action)
