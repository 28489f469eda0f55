"""One line above the counter for the first minutes: a guided first case, and the shop's place asked for once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout

from counter.language import tr
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.desk import Case
    from counter.window.main_window import MainWindow

SEEN, PLACE_ASKED = "first_case_seen", "place_asked"  # settings: each is offered or asked once

Press = tuple[str, "Callable[[], None]"]


class FirstLine(QFrame):
    """Words and at most two buttons; hidden while there is nothing to say."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.words, self.count = Words(wraps=True), Words(role="quiet")
        self.first, self.second = QPushButton(), QPushButton()
        self._presses: tuple[Press, ...] = ()
        self.first.clicked.connect(lambda: self._press(0))
        self.second.clicked.connect(lambda: self._press(1))
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 8, 16, 8)
        row.setSpacing(16)
        row.addWidget(self.count)
        row.addWidget(self.words, 1)
        row.addWidget(self.first)
        row.addWidget(self.second)
        self.hide()

    def say(self, words: str, *presses: Press, count: str = "") -> None:
        """Show words with what can be pressed beside them; no words, no line."""
        self.words.setText(words)
        self.count.setText(count)
        self.count.setVisible(bool(count))
        self._presses = presses
        for at, button in enumerate((self.first, self.second)):
            button.setVisible(at < len(presses))
            button.setText(presses[at][0] if at < len(presses) else "")
        self.setVisible(bool(words))

    def _press(self, at: int) -> None:
        if at < len(self._presses):
            self._presses[at][1]()


class FirstCase(QObject):
    """Leads through the first case; follows whatever is pressed, and can be skipped at every step."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self.window = window
        self.is_on = False
        self.line = FirstLine()
        whole = window.centralWidget()
        box = whole.layout() if whole is not None else None
        if isinstance(box, QVBoxLayout):
            box.insertWidget(0, self.line)

    def offer(self) -> None:
        """Offer the first case, if it never was; then ask for the shop's place, if that never was."""
        settings = self.window.settings
        if self.is_on:
            return
        if not settings.value(SEEN, ""):
            self.line.say(
                tr("First time here? A guided case on an invented lamp takes two minutes. It stays in the menu."),
                (tr("Show me"), self.start),
                (tr("No, thanks"), self.skip),
            )
        elif not settings.value(PLACE_ASKED, "") and not settings.value("place", ""):
            self.line.say(
                tr(
                    "Where is the shop? What the law still lets you sell, and what becomes of a broken lamp, differ "
                    "from place to place. This is asked once; the menu has it too."
                ),
                (tr("Choose the place"), self._choose_place),
                (tr("Not now"), self._put_off_place),
            )
        else:
            self.line.say("")

    def start(self) -> None:
        """Start with an empty case; the case left behind comes back by undo."""
        self.window.settings.setValue(SEEN, "yes")
        self.is_on = True
        self.window.counter.next_customer()
        self.follow(self.window.case)

    def skip(self) -> None:
        """End wherever it stands, and ask for the place next."""
        self.window.settings.setValue(SEEN, "yes")
        self.is_on = False
        self.offer()

    def follow(self, case: Case | None) -> None:
        """Show the step that the case has come to."""
        if not self.is_on or case is None:
            return
        from counter.training import STEPS, step_of

        at = step_of(case)
        step = STEPS[at]
        leave: Press = (tr("Done") if step.is_read_only else tr("Skip the rest"), self.skip)
        presses = (leave,) if step.is_read_only else ((tr("Do it for me"), self._do), leave)
        count = tr("{step} of {all}").format(step=at + 1, all=len(STEPS))
        self.line.say(tr(step.words), *presses, count=count)

    def _do(self) -> None:
        from counter.training import STEPS, step_of

        case = self.window.case
        if case is not None:
            fields: dict[str, Any] = STEPS[step_of(case)].done(case)
            self.window.counter.change(**fields)

    def _choose_place(self) -> None:
        self._put_off_place()
        self.window.counter.ask_for_place()

    def _put_off_place(self) -> None:
        self.window.settings.setValue(PLACE_ASKED, "yes")
        self.line.say("")


def offer_first_case(window: MainWindow) -> None:
    """Offer what is offered once in the first minutes; nothing where the catalogue could not be read."""
    if window.is_awake:
        window.counter.training.first.offer()


def start_first_case(window: MainWindow) -> None:
    """Start the guided first case: for the menu."""
    if window.is_awake:
        window.counter.training.first.start()
