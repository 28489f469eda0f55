"""Cases that wait: F6 puts this one aside, F7 brings back the one that waits longest; they survive a restart."""

from __future__ import annotations

import secrets
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton, QStatusBar

from counter import shop
from counter.desk import Case
from counter.language import tr
from counter.slip import SlipItem
from counter.window.shelf.slip_reopen import case_of_today

if TYPE_CHECKING:
    from counter.shop import Parked
    from counter.window.counter_room import Counter

WIDEST = 34  # letters of a headline on a button


class ParkedBar(QObject):
    """Shows a button a case at the foot of the window; no bar where none waits."""

    def __init__(self, counter: Counter) -> None:
        super().__init__(counter)
        self.counter = counter
        self.bar: QStatusBar | None = None
        self.buttons: list[QPushButton] = []
        self.show_parked()

    def park(self) -> None:
        """Put this case aside and begin with the next customer; an empty case is not worth keeping."""
        counter, case = self.counter, self.counter.case
        if case == counter.fresh_case():
            return
        head = (
            f"{counter.assessment.headline} {counter.assessment.subline}".strip() or case.marks or tr("nothing named")
        )
        if len(shop.parked(counter.data)) >= shop.MOST_PARKED:
            counter.looks.show_problem("", tr("Not put aside: {count} cases wait.").format(count=shop.MOST_PARKED))
            return
        at = datetime.now(UTC).isoformat(timespec="milliseconds")
        items = tuple(item.model_dump(mode="json") for item in counter.shop.writer.items.values())
        kept = shop.Parked(secrets.token_hex(8), at, head[:120], case.model_dump(mode="json"), items)
        try:
            shop.park(counter.data, kept)
        except OSError as problem:
            counter.looks.show_problem("", tr("Not put aside: {problem}").format(problem=problem))
            return
        counter.next_customer()
        self.show_parked()

    def back(self, key: str = "") -> None:
        """Bring a case back, the longest waiting where none is named; the present one takes its place."""
        waiting = shop.parked(self.counter.data)
        one = next((found for found in waiting if not key or found.key == key), None)
        if one is None:
            return
        case = _case(one)
        if case is None:
            said = tr("“{headline}” was put aside by a later version of this program; it waits on.")
            self.counter.looks.show_problem("", said.format(headline=one.headline))
            return
        shop.unpark(self.counter.data, one.key)  # first: with nine that wait there is room for the present one
        self.park()
        self.counter.take_case(case_of_today(self.counter, case))
        self.counter.shop.writer.take(tuple(map(SlipItem.model_validate, one.items)))
        self.show_parked()

    def show_parked(self) -> None:
        """Show a button for each case that waits."""
        waiting = shop.parked(self.counter.data)
        if waiting and self.bar is None:
            self.bar = self.counter.window.statusBar()
            self.bar.setSizeGripEnabled(False)
            self.bar.setContentsMargins(6, 0, 8, 6)  # level with the panels above
        self.close()
        self.buttons = [self._button(at, one) for at, one in enumerate(waiting)]
        if self.bar is not None:
            self.bar.setVisible(bool(waiting))

    def close(self) -> None:
        """Take the buttons out of the window's bar, which stays when another counter takes over."""
        for button in self.buttons:
            button.deleteLater()

    def _button(self, at: int, one: Parked) -> QPushButton:
        head = one.headline if len(one.headline) <= WIDEST else one.headline[: WIDEST - 1] + "…"
        button = QPushButton(f"{'F7  ' if at == 0 else ''}{head}".replace("&", "&&"))
        button.setToolTip(tr("Waits. Press to bring this customer back; the present one waits meanwhile."))
        button.clicked.connect(lambda _=False, key=one.key: self.back(key))
        assert self.bar is not None
        self.bar.addWidget(button)
        return button


def _case(one: Parked) -> Case | None:
    from pydantic import ValidationError

    try:
        return Case.model_validate(one.case)
    except ValidationError:  # of a later version: it cannot be shown, and stays out of the way
        return None
