"""Buttons that stay pressed: a tool for those who cannot see toggles one without a click, so `toggled` is heard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker

if TYPE_CHECKING:
    from PySide6.QtWidgets import QAbstractButton


def show_checked(button: QAbstractButton, on: bool) -> None:
    """Show a button pressed or not, without telling anybody."""
    if button.isChecked() != on:
        with QSignalBlocker(button):
            button.setChecked(on)
