"""Asks before what was typed and not kept is lost, when its dialog is closed or the window is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QMessageBox

from counter.language import tr

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class UnsavedDialog(QDialog):
    """A dialog that says what would be lost; Escape, its own button and the window's end all ask first."""

    def unsaved(self) -> str:
        """Say what would be lost; nothing where nothing would."""
        raise NotImplementedError

    def reject(self) -> None:
        words = self.unsaved()
        if not words or ask(self, words):
            super().reject()


def ask(dialog: QDialog, words: str) -> bool:
    """Ask whether something may be lost."""
    box = QMessageBox(QMessageBox.Icon.NoIcon, dialog.windowTitle(), words, parent=dialog)  # Qt's sign is blue
    box.setTextFormat(Qt.TextFormat.PlainText)
    lose = box.addButton(tr("Close all the same"), QMessageBox.ButtonRole.DestructiveRole)
    box.setDefaultButton(box.addButton(tr("Go back"), QMessageBox.ButtonRole.RejectRole))
    box.exec()
    return box.clickedButton() is lose


def close_dialogs(window: QWidget) -> bool:
    """Close what is open over a window, so that nothing typed there is lost unsaid; False where one stays."""
    return all(one.close() for one in window.findChildren(QDialog) if one.isVisible())
