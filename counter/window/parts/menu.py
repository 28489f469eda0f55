"""The window's menu: colours, lengths, and what keys do too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu

from counter.language import current, languages, tr
from counter.window.about_dialog import AboutDialog
from counter.window.saved_cases import open_saved
from counter.window.training.first_case import start_first_case

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
    spoken = tuple((name, code) for code, name in languages().items())
    _choices(window, menu.addMenu(tr("Language")), spoken, current(), window.counter.set_language)
    menu.addSeparator()
    menu.addAction("Training\tF4", window.counter.training.enter)
    menu.addAction(tr("Guided first case"), lambda: start_first_case(window))
    menu.addAction("Shop's place …", window.counter.ask_for_place)
    window.counter.measuring.fill(menu)
    menu.addAction("Broken lamp\tCtrl+B", window.counter.toggle_broken)
    menu.addAction("Open a saved case …", lambda: open_saved(window))
    menu.addAction("Undo\tCtrl+Z", window.counter.undo)  # the key itself is a shortcut of the window
    menu.addAction("About …", lambda: AboutDialog(window).open())
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
