"""Letters of a maker's own in the code: tell what they mean in this shop, or take that back."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QPoint, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QMenu, QPushButton, QVBoxLayout

from counter.language import marked, tr
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.desk import LettersAsked
    from counter.marks.letters import Choice

MOST = 3  # letters of one code that are offered; more are told from the first again
ORDINARY = marked("Ordinary lamp of this maker (Ctrl+T)")
ORDINARY_TIP = marked("The letters count as read. A doubt about ultraviolet stays until the glass is seen.")
FORGET = marked("Forget what {letters} means in this shop")
UNKNOWN = marked("the maker's own; not known in this shop")


class Offer(NamedTuple):
    """Letters of the code; `means` is what this shop says of them, "" where it says nothing yet."""

    letters: str
    means: str


class LettersRow(QFrame):
    """One button for each letters, its menu with all they can mean, and one press for the ordinary case.

    Where something speaks against what letters mean here, both sides stand above, and this lamp may be an exception.
    """

    taught = Signal(list, object)  # letters, what they mean
    forgotten = Signal(str)
    excepted = Signal(str)  # letters that mean nothing on this lamp
    undo_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.asks, self.says, self.kept = Words(wraps=True), Words(wraps=True), Words(wraps=True)
        self.asks.set_role("title")
        for words in (self.says, self.kept):
            words.set_role("quiet")
        self.buttons = [QPushButton() for _ in range(MOST)]
        self.ordinary = QPushButton(tr(ORDINARY))
        self.exception = QPushButton(tr("Still right; this lamp is an exception"))
        self.undo = QPushButton(tr("Take it back"))
        self.offers: tuple[Offer, ...] = ()
        self.asked: tuple[LettersAsked, ...] = ()
        self.choices: tuple[Choice, ...] = ()
        self.menu: QMenu | None = None
        self._lay_out()
        for at, button in enumerate(self.buttons):
            button.clicked.connect(lambda _=False, i=at: self._press(i))
        self.ordinary.clicked.connect(self.teach_ordinary)
        self.exception.clicked.connect(self._except)
        self.undo.clicked.connect(self.undo_wanted)
        self.ordinary.setToolTip(tr(ORDINARY_TIP))
        for widget in (self.asks, self.exception, self.kept, self.undo):
            widget.hide()
        self.setVisible(False)

    def _lay_out(self) -> None:
        row, foot = QHBoxLayout(), QHBoxLayout()
        for one in (row, foot):
            one.setContentsMargins(0, 0, 0, 0)
        for button in self.buttons:
            row.addWidget(button)
        row.addStretch(1)
        foot.addWidget(self.kept, 1)
        foot.addWidget(self.undo)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 2, 0, 2)
        box.setSpacing(4)
        box.addWidget(self.asks)
        box.addWidget(self.exception)
        box.addWidget(self.says)
        box.addLayout(row)
        box.addWidget(self.ordinary)
        box.addLayout(foot)

    def show_letters(
        self,
        offers: tuple[Offer, ...],
        choices: tuple[Choice, ...],
        asked: tuple[LettersAsked, ...] = (),
        *,
        can_undo: bool = False,
    ) -> None:
        """Show the letters of a code, those asked about first, then those not known."""
        about = {one.letters for one in asked}
        self.offers = tuple(sorted(offers, key=lambda one: (one.letters not in about, bool(one.means))))[:MOST]
        self.choices, self.asked = choices, asked
        unknown = [one.letters for one in self.offers if not one.means]
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(self.offers))
            if at < len(self.offers):
                self._label(button, self.offers[at])
        self.asks.setText(asked[0].says if asked else "")
        self.asks.setVisible(bool(asked))
        self.exception.setVisible(bool(asked) and asked[0].may_except)
        self.says.setText(tr("What do these letters mean in this shop?") if unknown else tr("Known in this shop:"))
        self.says.setVisible(bool(self.offers))
        self.ordinary.setVisible(bool(unknown) and not about & set(unknown))
        self.undo.setVisible(can_undo and bool(self.kept.text()))
        self._be_seen()

    def say_kept(self, words: str) -> None:
        """Say what became of a change; it stands until another code is shown."""
        self.kept.setText(words)
        self.kept.setVisible(bool(words))
        self.undo.setVisible(self.undo.isVisibleTo(self) and bool(words))
        self._be_seen()

    def _be_seen(self) -> None:
        self.setVisible(bool(self.offers or self.asked or self.kept.text()))

    def _except(self) -> None:
        for one in self.asked[:1]:
            self.excepted.emit(one.letters)

    def _label(self, button: QPushButton, offer: Offer) -> None:
        button.setText(f"{offer.letters} \N{HORIZONTAL ELLIPSIS}".replace("&", "&&"))
        said = offer.means or tr(UNKNOWN)
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
            forget = menu.addAction(tr(FORGET).format(letters=offer.letters))
            forget.triggered.connect(lambda: self.forgotten.emit(offer.letters))
            menu.addSeparator()
        group, where = "", menu
        for choice in self.choices:
            if choice.group != group:
                group = choice.group
                where = menu.addMenu(tr("Colour")) if group == "colour" else menu
                menu.addSeparator()
            where.addAction(choice.words).triggered.connect(
                lambda _=False, one=choice: self.taught.emit([offer.letters], one.means)
            )
        menu.popup(button.mapToGlobal(QPoint(0, button.height())))

    def teach_ordinary(self) -> None:
        """Take the letters not known as those of an ordinary lamp of this maker; nothing where there are none."""
        unknown = [one.letters for one in self.offers if not one.means]
        means = next((one.means for one in self.choices if one.group == "nothing"), None)
        if unknown and means is not None and self.ordinary.isVisibleTo(self):
            self.taught.emit(unknown, means)
