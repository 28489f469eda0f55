"""Letters of a maker's own in the code: tell what they mean in this shop, or take that back."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QPoint, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QMenu, QPushButton, QVBoxLayout

from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.marks.letters import Choice

MOST = 3  # letters of one code that are offered; more are told from the first again
ORDINARY = "Ordinary lamp of this maker"
FORGET = "Forget what {letters} means in this shop"


class Offer(NamedTuple):
    """Letters of the code; `means` is what this shop says of them, "" where it says nothing yet."""

    letters: str
    means: str


class LettersRow(QFrame):
    """One button for each letters, its menu with all they can mean, and one press for the ordinary case."""

    taught = Signal(list, object)  # letters, what they mean
    forgotten = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.says = Words(wraps=True)
        self.says.set_role("quiet")
        self.buttons = [QPushButton() for _ in range(MOST)]
        self.ordinary = QPushButton(ORDINARY)
        self.offers: tuple[Offer, ...] = ()
        self.choices: tuple[Choice, ...] = ()
        self.menu: QMenu | None = None
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        for at, button in enumerate(self.buttons):
            button.clicked.connect(lambda _=False, i=at: self._press(i))
            row.addWidget(button)
        row.addStretch(1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 2, 0, 2)
        box.setSpacing(4)
        box.addWidget(self.says)
        box.addLayout(row)
        box.addWidget(self.ordinary)
        self.ordinary.clicked.connect(self._teach_ordinary)
        self.ordinary.setToolTip(
            "The letters count as read. A doubt about ultraviolet stays until the glass is seen."
        )
        self.setVisible(False)

    def show_letters(self, offers: tuple[Offer, ...], choices: tuple[Choice, ...]) -> None:
        """Show the letters of a code, those not known first."""
        self.offers = tuple(sorted(offers, key=lambda one: bool(one.means)))[:MOST]
        self.choices = choices
        unknown = [one.letters for one in self.offers if not one.means]
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(self.offers))
            if at < len(self.offers):
                self._label(button, self.offers[at])
        self.says.setText("What do these letters mean in this shop?" if unknown else "Taught in this shop:")
        self.ordinary.setVisible(bool(unknown))
        self.setVisible(bool(self.offers))

    def _label(self, button: QPushButton, offer: Offer) -> None:
        button.setText(f"{offer.letters} \N{HORIZONTAL ELLIPSIS}".replace("&", "&&"))
        said = offer.means or "the maker's own; not known in this shop"
        button.setToolTip(said)
        button.setAccessibleName(f"{offer.letters}: {said}")

    def open_for(self, letters: str) -> bool:
        """Open the menu of letters in the code, as a press on them in the strip does; say whether they have one."""
        at = next((i for i, one in enumerate(self.offers) if one.letters == letters), None)
        if at is not None:
            self._press(at)
        return at is not None

    def _press(self, at: int) -> None:
        offer, button = self.offers[at], self.buttons[at]
        menu = self.menu = QMenu(self)
        if offer.means:
            forget = menu.addAction(FORGET.format(letters=offer.letters))
            forget.triggered.connect(lambda: self.forgotten.emit(offer.letters))
            menu.addSeparator()
        group, where = "", menu
        for choice in self.choices:
            if choice.group != group:
                group = choice.group
                where = menu.addMenu("Colour") if group == "colour" else menu
                menu.addSeparator()
            where.addAction(choice.words).triggered.connect(
                lambda _=False, one=choice: self.taught.emit([offer.letters], one.means)
            )
        menu.popup(button.mapToGlobal(QPoint(0, button.height())))

    def _teach_ordinary(self) -> None:
        means = next(one.means for one in self.choices if one.group == "nothing")
        self.taught.emit([one.letters for one in self.offers if not one.means], means)
