"""The grid of outlines: cards best first, the unlikely ones folded away until asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QSize, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QListView, QPushButton, QVBoxLayout

from counter.language import tr
from counter.window.outlines.card_delegate import CARD_ROLE, CardDelegate, card_size, percent
from counter.window.outlines.cards import kind_words
from counter.window.parts import early
from counter.window.parts.panel import Panel
from counter.window.parts.sizes import ems, upright_least
from counter.window.parts.words import Words, tip

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QResizeEvent

    from counter.window.outlines.cards import Card
    from counter.window.parts.theme import Theme

SCROLL_BAR_PX = 14
EDGE_PX = 8
FOOT_PX, TALLEST_PX = 16, 16_777_215  # the second is Qt's own for no limit
NARROW_EMS = 66  # in less the tools stand below the title
FOLD_UNDER = 0.004  # cards below this share are folded away once anything is known


class CardModel(QAbstractListModel):
    """Adapts a tuple of cards to Qt; owns no rule."""

    def __init__(self) -> None:
        super().__init__()
        self.cards: tuple[Card, ...] = ()

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.cards)

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = early.DISPLAY_ROLE) -> Any:
        if not index.isValid():
            return None
        card = self.cards[index.row()]
        if role == CARD_ROLE:
            return card
        if role in (early.DISPLAY_ROLE, early.ACCESSIBLE_TEXT_ROLE):
            kind = kind_words(card.kind) or tr("for lighting")  # a white and a germicidal one must read differently
            return f"{card.base}, {kind}, {card.watts}, {card.words}, {percent(card.share)}"
        if role == early.ACCESSIBLE_DESCRIPTION_ROLE:
            return tr("speaks against it: {looks}").format(looks=", ".join(card.against)) if card.against else ""
        if role == early.TOOLTIP_ROLE and card.against:
            return tip(tr("Against it: {looks}").format(looks=", ".join(card.against)))
        return None

    def show(self, cards: Sequence[Card]) -> None:
        """Replace all cards."""
        self.beginResetModel()
        self.cards = tuple(cards)
        self.endResetModel()


class CardView(QListView):
    """A list in columns that always fill the width, so that no ragged margin is left."""

    turned = Signal(QModelIndex)

    def resizeEvent(self, event: QResizeEvent) -> None:
        least = card_size(self.font())
        card = QSize(self._room() // self.columns(), least.height())
        self.setGridSize(card)
        delegate = self.itemDelegate()
        if isinstance(delegate, CardDelegate):
            delegate.size = card
        super().resizeEvent(event)
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())

    def currentChanged(
        self, now: QModelIndex | QPersistentModelIndex, before: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().currentChanged(now, before)
        self.turned.emit(now)  # as the selection model's own signal does, which the first paint need not know

    def _room(self) -> int:
        # Always as if the scroll bar were there: one that comes and goes would change the columns with it. And one
        # pixel less: Qt takes a last card that ends on the edge to the next row.
        return self.width() - SCROLL_BAR_PX - 1

    def columns(self) -> int:
        """Return how many cards stand side by side."""
        return max(self._room() // card_size(self.font()).width(), 1)


class OutlineGrid(Panel):
    """Search field, cards, and a line that says how many are folded away."""

    picked = Signal(str)
    compared = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._all: tuple[Card, ...] = ()
        self._chosen: str | None = None
        self._unfolded = False
        self._fresh = True
        self._fits = False
        self._is_telling = False  # a highlight set from outside is no hand's
        self.model = CardModel()
        self.delegate = CardDelegate(theme)
        self.view = self._make_view()
        self.filter = QLineEdit(placeholderText=tr("Filter, like 26"))
        self.filter.setAccessibleName(tr("Filter the outlines"))
        self.filter.setMaximumWidth(ems(self.font(), 34))
        self.filter.setMinimumWidth(ems(self.font(), 14))
        self.count = Words()
        self.count.set_role("quiet")
        self.unfold = QPushButton()
        self.unfold.setCheckable(True)
        self.unfold.setFlat(True)
        self._lay_out()
        self.filter.textChanged.connect(self._refill)
        self.unfold.toggled.connect(self._set_unfolded)

    def _make_view(self) -> CardView:
        view = CardView()
        view.setModel(self.model)
        view.setItemDelegate(self.delegate)
        view.setViewMode(QListView.ViewMode.IconMode)
        view.setMovement(QListView.Movement.Static)
        view.setResizeMode(QListView.ResizeMode.Adjust)
        view.setUniformItemSizes(True)
        view.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        view.setProperty("horizontalScrollBarPolicy", early.NO_SCROLL_BAR)
        view.setProperty("frameShape", early.NO_FRAME)
        view.setProperty("on_paper", True)
        view.setAccessibleName(tr("Outlines, most likely first"))
        view.turned.connect(self._follow)
        view.clicked.connect(self._pick)
        view.activated.connect(self._pick)
        view.setProperty("contextMenuPolicy", early.ASK_FOR_MENU)
        view.customContextMenuRequested.connect(self._compare_at)
        return view

    def _lay_out(self) -> None:
        title = Words(tr("Outlines"))
        title.set_role("title")
        said, tools = QHBoxLayout(), QHBoxLayout()
        said.addWidget(title)
        said.addWidget(self.count)
        said.addStretch(1)
        tools.addStretch(1)
        tools.addWidget(self.unfold)
        tools.addWidget(self.filter)
        self._top = top = QHBoxLayout()
        top.addLayout(said)
        top.addLayout(tools, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(EDGE_PX, EDGE_PX, EDGE_PX, EDGE_PX)
        box.addLayout(top)
        box.addWidget(self.view, 1)
        self.setTabOrder(self.filter, self.view)

    def resizeEvent(self, event: QResizeEvent) -> None:
        is_narrow = event.size().width() < ems(self.font(), NARROW_EMS)
        early.set_upright(self._top, is_narrow)
        super().resizeEvent(event)
        if self._fits:
            self._fit()

    def minimumSizeHint(self) -> QSize:
        """Return the width of the narrow form: of the wide one, no column could be made narrow enough for it."""
        return QSize(upright_least(self._top) + 2 * EDGE_PX, super().minimumSizeHint().height())

    def show_cards(self, cards: Sequence[Card], chosen: str | None = None, *, fresh: bool = True) -> None:
        """Show cards best first; `fresh` says that nothing is known yet, so nothing is folded away."""
        if (tuple(cards), fresh) != (self._all, self._fresh):
            self._all, self._fresh = tuple(cards), fresh
            self.delegate.shows_share = not fresh  # before anything is known the bars would say nothing
            self._chosen = chosen
            self._refill()
        elif chosen != self._chosen and not any(card.lamp == chosen for card in self.model.cards):
            self._chosen = chosen
            self._refill()  # what is drawn is not folded away
        self.select(chosen)

    def set_fitting(self, on: bool) -> None:
        """Be only as tall as the rows of cards, or as tall as there is room."""
        self._fits = on
        self._fit()

    def _fit(self) -> None:
        rows = max(-(-len(self.model.cards) // self.view.columns()), 1)
        tall = rows * card_size(self.font()).height() + self.view.y() + FOOT_PX
        self.setMaximumHeight(tall if self._fits else TALLEST_PX)

    def say_unreadable(self) -> None:
        """Say that no drawings are coming."""
        self.count.setText(tr("No drawings: the catalogue could not be read."))

    def _mark(self, now: QModelIndex) -> None:
        self.delegate.chosen_row = now.row()

    def _follow(self, now: QModelIndex) -> None:
        """Open what the arrows highlight: highlight, drawing and what «This is the lamp» chooses are one."""
        self._mark(now)
        if now.isValid() and not self._is_telling:
            self._pick(now)

    def _visible(self) -> tuple[Card, ...]:
        words = self.filter.text().strip().lower().split()
        if words:
            return tuple(card for card in self._all if all(word in _searchable(card) for word in words))
        if self._fresh or self._unfolded:
            return self._all
        return tuple(card for card in self._all if card.share >= FOLD_UNDER or card.lamp == self._chosen)

    def _refill(self) -> None:
        shown = self._visible()
        self.model.show(shown)
        hidden = len(self._all) - len(shown)
        self.unfold.setVisible(not self._fresh and (hidden > 0 or self._unfolded) and not self.filter.text().strip())
        self.unfold.setText(tr("Hide unlikely") if self._unfolded else tr("Show {hidden} more").format(hidden=hidden))
        if not self._all:
            self.count.setText(tr("Drawing …"))
        elif not shown:
            self.count.setText(tr("No base or watts like that. Clear the filter to see all."))
        else:
            self.count.setText(self._said(len(shown)))
        self.select(self._chosen)
        if self._fits:
            self._fit()

    def _said(self, shown: int) -> str:
        if self.filter.text().strip():
            return tr("filtered, {shown} of {all}").format(shown=shown, all=len(self._all))
        return (
            tr("most likely first")
            if not self._fresh
            else tr("all {shown}, nothing looked at yet").format(shown=shown)
        )

    def _set_unfolded(self, on: bool) -> None:
        self._unfolded = on
        self._refill()

    def select(self, lamp: str | None) -> None:
        """Mark the card of a lamp type without telling anybody."""
        self._chosen = lamp
        rows = (row for row, card in enumerate(self.model.cards) if lamp is not None and card.lamp == lamp)
        index = self.model.index(next(rows, -1))
        self._is_telling = True
        self.view.setCurrentIndex(index)
        self._is_telling = False
        self._mark(index)  # a reset model forgets its current row without saying so

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.delegate.theme = theme
        self.view.viewport().update()

    def _pick(self, index: QModelIndex) -> None:
        self.picked.emit(self.model.cards[index.row()].lamp)

    def _compare_at(self, at: Any) -> None:
        index = self.view.indexAt(at)
        if index.isValid():
            self.compared.emit(self.model.cards[index.row()].lamp)


def _searchable(card: Card) -> str:
    return f"{card.base} {card.watts} {card.words} {card.kind}".lower()
