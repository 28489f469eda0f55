"""Rows of the shelf: what is there, where and for how much; what must not go in is struck through."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPalette
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from counter.language import marked, tr
from counter.shelf import ShelfAnswer, money, stock_words
from counter.window.parts.sizes import wide
from counter.window.parts.words import tip

if TYPE_CHECKING:
    from collections.abc import Sequence

    Index = QModelIndex | QPersistentModelIndex

PAD = 8
ANSWER = Qt.ItemDataRole.UserRole
WHY = ANSWER + 1
STRUCK = "not for this"
RANK_WORDS = {
    "exact": marked("exact"),
    "other colour": marked("other colour"),
    "may go in": marked("may go in"),
    "ask first": marked("ask first"),
    STRUCK: marked("not for this"),
}


class ShelfModel(QAbstractListModel):
    """The answers in view."""

    def __init__(self) -> None:
        super().__init__()
        self.answers: list[ShelfAnswer] = []
        self.needed = 1
        self.on_slip: frozenset[tuple[str, str]] = frozenset()  # code and bin of each

    def show_answers(self, answers: Sequence[ShelfAnswer], needed: int) -> None:
        """Show other answers."""
        self.beginResetModel()
        self.answers, self.needed = list(answers), needed
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008 - Qt's own signature
        return 0 if parent.isValid() else len(self.answers)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        one = self.answers[index.row()]
        why = " · ".join(filter(None, (self.slip_words(one), rank_words(one), one.why)))
        if role == WHY:
            return why
        if role == ANSWER:
            return one
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip("\n".join(filter(None, (*head_of(one), "   ".join(tail_of(one, self.needed)), why))))
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return ", ".join(filter(None, (*head_of(one), *tail_of(one, self.needed), why)))
        return None

    def slip_words(self, one: ShelfAnswer) -> str:
        """Say that an item is on the slip, if it is."""
        return tr("on the slip") if (one.item.code, one.item.bin) in self.on_slip else ""


def rank_words(one: ShelfAnswer) -> str:
    """Return how an item answers the case; nothing where only searched for."""
    return tr(RANK_WORDS.get(one.rank or "", ""))


def head_of(one: ShelfAnswer) -> tuple[str, str]:
    """Return code and description."""
    return one.item.code, one.item.description


def tail_of(one: ShelfAnswer, needed: int) -> tuple[str, ...]:
    """Return what stands at the right: how many, where, for how much, in what pack, when it can be had."""
    item = one.item
    pack = tr("pack of {pack}").format(pack=item.pack) if item.pack and item.pack > 1 else ""
    return tuple(filter(None, (stock_words(item, needed), item.bin, money(item.price_cents), pack)))


class RowPlaces(NamedTuple):
    """Where the parts of a row stand."""

    head: QRect
    tail: QRect
    what: QRect
    why: QRect


def row_places(rect: QRect, metrics: QFontMetrics, head_px: int) -> RowPlaces:
    """Return the three lines of a row: its code with how many and where, what it is, and why or why not."""
    line = metrics.height()
    left, width = rect.left() + PAD, rect.width() - 2 * PAD
    first, second, third = (QRect(left, rect.top() + PAD // 2 + at * line, width, line) for at in range(3))
    head = min(head_px, width)
    return RowPlaces(first.adjusted(0, 0, head - width, 0), first.adjusted(head + PAD, 0, 0, 0), second, third)


class ShelfDelegate(QStyledItemDelegate):
    """Paints a row; keeps nothing."""

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(200, 3 * option.fontMetrics.height() + PAD)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        one, model = index.data(ANSWER), index.model()
        needed = model.needed if isinstance(model, ShelfModel) else 1
        painter.save()
        is_chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if is_chosen:
            painter.fillRect(option.rect, option.palette.highlight())
        role = QPalette.ColorRole.HighlightedText if is_chosen else QPalette.ColorRole.Text
        painter.setPen(option.palette.color(role))
        is_struck = one.rank == STRUCK
        bold = QFont(option.font)
        bold.setBold(True)
        places = row_places(option.rect, option.fontMetrics, wide(bold, one.item.code) + 2)
        _line(painter, option, places.head, one.item.code, bold=True, struck=is_struck)
        _line(painter, option, places.tail, "   ".join(tail_of(one, needed)), struck=is_struck, to_right=True)
        _line(painter, option, places.what, one.item.description, struck=is_struck)
        _line(painter, option, places.why, str(index.data(WHY)))
        painter.setPen(option.palette.color(QPalette.ColorRole.Mid))
        painter.drawLine(option.rect.bottomLeft(), option.rect.bottomRight())
        painter.restore()


def _line(
    painter: QPainter,
    option: QStyleOptionViewItem,
    place: QRect,
    words: str,
    *,
    bold: bool = False,
    struck: bool = False,
    to_right: bool = False,
) -> None:
    font = QFont(option.font)
    font.setBold(bold)
    font.setStrikeOut(struck)
    painter.setFont(font)
    shown = QFontMetrics(font).elidedText(words, Qt.TextElideMode.ElideRight, place.width())
    side = Qt.AlignmentFlag.AlignRight if to_right else Qt.AlignmentFlag.AlignLeft
    painter.drawText(place, side | Qt.AlignmentFlag.AlignVCenter, shown)
