"""Says what changed to whoever listens instead of looking: the verdict is an alert, once it has come to rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QAccessibleEvent

from counter.language import tr

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

REST_MS = 500  # a code being typed changes the verdict at each character


class Alert(QObject):
    """Announces words of a widget; the same words are not said twice in a row."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self.widget = widget
        self.words = ""
        self.said: list[str] = []
        self._is_grave = False
        self._rest = QTimer(self, singleShot=True, interval=REST_MS)
        self._rest.timeout.connect(self.announce)

    def say(self, words: str, *, is_grave: bool) -> None:
        """Announce these words once nothing else has come for a moment; grave ones over all that is being read."""
        if words == self.words:
            return
        self.words, self._is_grave = words, is_grave
        self.widget.setAccessibleName(tr("Answer"))
        self.widget.setAccessibleDescription(words)
        self._rest.start()

    def announce(self) -> None:
        """Announce them now."""
        self._rest.stop()
        if self.said[-1:] == [self.words]:
            return
        self.said = [self.words]
        event = QAccessibleAnnouncementEvent(self.widget, self.words)
        loud = QAccessible.AnnouncementPoliteness.Assertive
        event.setPoliteness(loud if self._is_grave else QAccessible.AnnouncementPoliteness.Polite)
        QAccessible.updateAccessibility(event)
        QAccessible.updateAccessibility(QAccessibleEvent(self.widget, QAccessible.Event.Alert))
