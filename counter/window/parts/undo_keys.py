"""Undo and redo where the keyboard is in a field: the field's own typing first, then the case."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QWidget


class UndoKeys(QObject):
    """Lets the keys through to the window where a field has nothing to undo; a QLineEdit takes them all."""

    def watch(self, window: QWidget) -> None:
        """Look after every field of a window."""
        for field in window.findChildren(QLineEdit):
            field.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.ShortcutOverride or not isinstance(watched, QLineEdit):
            return False
        if not isinstance(event, QKeyEvent):
            return False
        undo, redo = QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo
        spent = (event.matches(undo) and not watched.isUndoAvailable()) or (
            event.matches(redo) and not watched.isRedoAvailable()
        )
        if spent:
            event.ignore()
        return spent
