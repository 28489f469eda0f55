"""What may go in instead, and below it why the others may not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from counter.language import marked, tr
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.side.note_list import Note, NoteList, words_label
from counter.window.side.replacement_card import ReplacementCard

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.fit import Replacement

NO_LAMP = marked("Once a lamp is named, or what is printed on the holder, what may go in stands here.")
ALL_REFUSED = marked("Nothing listed here may go into this fixture.")
NO_HOLDER = marked("Enter what is printed on the holder: the lamp that it takes then stands here.")


LEAST_SHARED = 3  # cards that wait for one answer, from which on it is said once above them


class InsteadPane(ScrollColumn):
    """Replacements as cards, best first; the refused ones as a list with the reason."""

    beside = Signal(str)

    def __init__(self) -> None:
        super().__init__(tr("Instead"))
        self.empty = words_label(tr(NO_LAMP), "quiet")
        self.cards: list[ReplacementCard] = []
        self.shared = words_label(role="title")
        self.refused = NoteList(tr("Why not these"))
        self._cards_box = QVBoxLayout()
        self._cards_box.setSpacing(6)
        self._cards_box.addWidget(self.shared)
        self.column.addWidget(self.empty)
        self.column.addLayout(self._cards_box)
        self.column.addWidget(self.refused)
        self.column.addStretch(1)

    def show_replacements(
        self, found: tuple[Replacement, ...], in_hand: str | None, *, is_holder_known: bool = True
    ) -> None:
        """Show what there is; where no lamp may go in and the holder is not known, ask for it."""
        offered = [one for one in found if one.verdict != "do not sell"]
        while len(self.cards) < len(offered):
            card = ReplacementCard()
            card.beside.connect(self.beside)
            self.cards.append(card)
            self._cards_box.addWidget(card)
        shared = self._show_shared(offered)
        for i, card in enumerate(self.cards):
            card.setVisible(i < len(offered))
            if i < len(offered):
                card.show_replacement(offered[i], in_hand, shared)
        is_open = bool(found) and not is_holder_known and not any(one.lamp is not None for one in offered)
        self.empty.setText(tr(NO_HOLDER if is_open else ALL_REFUSED if found else NO_LAMP))
        self.empty.setVisible(is_open or not offered)
        self.refused.show_notes(refusals(one for one in found if one.verdict == "do not sell"))
        self.to_top()

    def _show_shared(self, offered: list[Replacement]) -> str:
        """Say above the cards that ask first what most of them wait for, and return it."""
        shared = waited_for(offered)
        self.shared.setText(shared)
        self.shared.setVisible(bool(shared))
        first = next((at for at, one in enumerate(offered) if one.verdict == "ask first"), 0)
        if self._cards_box.indexOf(self.shared) != first:
            self._cards_box.insertWidget(first, self.shared)
        return shared


def waited_for(offered: Iterable[Replacement]) -> str:
    """Return the reason, or its beginning, that most of those that ask first share; nothing where few do."""
    asking = [one.reason for one in offered if one.verdict == "ask first"]
    shared = {reason: sum(one.startswith(reason) for one in asking) for reason in asking}
    best = max(shared, key=lambda reason: shared[reason], default="")
    return best if best and shared[best] >= LEAST_SHARED else ""


def refusals(refused: Iterable[Replacement]) -> tuple[Note, ...]:
    """Return the refused ones; those refused for the same reason stand together."""
    by_reason: dict[str, list[str]] = {}
    for one in refused:
        by_reason.setdefault(one.reason, []).append(one.title)
    return tuple(Note("\n".join(titles), reason) for reason, titles in by_reason.items())
