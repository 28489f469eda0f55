"""The window's menu: colours, lengths, and what keys do too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from counter.window.saved_cases import open_saved

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.window.main_window import MainWindow

COLOURS = (("as the system", "system"), ("light", "light"), ("dark", "dark"))
LENGTHS = (("millimetres", "mm"), ("inches", "in"))


def menu_of(window: MainWindow) -> QMenu:
    """Return the menu of a window that is awake."""
    menu = QMenu(window)
    _choices(window, menu.addMenu("Colours"), COLOURS, window.theme_name, window.set_theme)
    _choices(window, menu.addMenu("Lengths"), LENGTHS, window.units, window.set_units)
    menu.addSeparator()
    menu.addAction("Training\tF4", window.counter.training.enter)
    menu.addAction("Shop's place …", window.counter.ask_for_place)
    window.counter.measuring.fill(menu)
    menu.addAction("Broken lamp\tCtrl+B", window.counter.toggle_broken)
    menu.addAction("Open a saved case …", lambda: open_saved(window))
    menu.addAction("Undo\tCtrl+Z", window.counter.undo)  # the key itself is a shortcut of the window
    menu.addAction("Close", window.close)
    return menu


def _choices(
    window: MainWindow, menu: QMenu, choices: tuple[tuple[str, str], ...], now: str, choose: Callable[[str], None]
) -> None:
    group = QActionGroup(window)
    for words, value in choices:
        action = QAction(words, window, checkable=True, checked=value == now)
        action.triggered.connect(lambda _=False, v=value: choose(v))
        group.addAction(action)
        menu.addAction(action)
