"""Paints one card of the outline grid: face, side, name, likelihood; its geometry is a pure function."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem

from counter.window.outlines.cards import KIND_WORDS, kind_words
from counter.window.parts import early, pen
from counter.window.parts.sizes import high, kept_by_letters, wide

if TYPE_CHECKING:
    from PySide6.QtGui import QPixmap

    from counter.window.outlines.cards import Card
    from counter.window.parts.theme import Theme

CARD_ROLE = early.USER_ROLE
CARD_HEIGHT = 146
DRAWING_PX = 92  # of a card's height, with its margins
CARD_LEAST_WIDTH = 166
FACE_SCALE = 2.3  # pixels a millimetre, the same for every face that fits its box
SIDE_SCALE = 0.42
MARGIN = 8.0
QUIET = 0.72  # of the ink, still over AA contrast on both palettes
MOST_KEPT = 600  # painted drawings; every width met while a splitter is dragged makes its own


class CardLayout(NamedTuple):
    """Where the parts of a card lie, in the card's own pixels."""

    frame: QRectF
    face: QRectF
    side: QRectF
    name: QRectF
    words: QRectF
    bar: QRectF
    percent: QRectF
    flag: QRectF


@kept_by_letters
def card_size(font: QFont) -> QSize:
    """Return the least size of a card whose words fit in these letters."""
    kind = max(wide(small_of(font), f" {kind_words(one)}") for one in KIND_WORDS)
    words = max(wide(bold_of(font), "GRY10q-3") + kind, CARD_LEAST_WIDTH - 22)
    return QSize(words + 22, max(CARD_HEIGHT, DRAWING_PX + _words_height(font)))


def bold_of(font: QFont) -> QFont:
    """Return the letters of a card's base."""
    bold = QFont(font)
    bold.setPointSizeF(font.pointSizeF() * 1.15)
    bold.setWeight(QFont.Weight.DemiBold)
    return bold


def small_of(font: QFont) -> QFont:
    """Return the letters of a card's other words."""
    return pen.small_font(font, 0.92)


def _words_height(font: QFont) -> int:
    return high(bold_of(font)) + 2 * high(small_of(font)) + 5


def card_layout(rect: QRectF, font: QFont) -> CardLayout:
    """Return the layout of a card in `rect` with letters of `font`; painting, size and tests share it."""
    frame = rect.adjusted(3, 3, -3, -3)
    left, top, width = frame.left() + MARGIN, frame.top() + MARGIN, frame.width() - 2 * MARGIN
    name, line = high(bold_of(font)), high(small_of(font))
    text_top = frame.bottom() - _words_height(font) - 2
    drawing_height = text_top - top - 2
    side_width, share = 44.0, wide(small_of(font), "> 99 %") + 2
    foot = text_top + name + line
    return CardLayout(
        frame=frame,
        face=QRectF(left, top, width - side_width - 6, drawing_height),
        side=QRectF(left + width - side_width, top, side_width, drawing_height),
        name=QRectF(left, text_top, width, name),
        words=QRectF(left, text_top + name, width, line),
        bar=QRectF(left, foot + line / 2, width - share - 6, 6),
        percent=QRectF(left + width - share, foot + 2, share, line),
        flag=QRectF(left, text_top, width, name),
    )


class CardDelegate(QStyledItemDelegate):
    """Paints cards; drawings are painted once a base, lamp, theme and screen, then only copied."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.shows_share = False
        self.chosen_row = -1
        self.size = QSize(CARD_LEAST_WIDTH, CARD_HEIGHT)
        self._painted: dict[tuple[str, str, str, float], QPixmap] = {}

    def forget(self) -> None:
        """Drop every kept picture, as when the catalogue changed."""
        self._painted.clear()

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return self.size

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        card: Card = index.data(CARD_ROLE)
        rect = QRectF(option.rect)
        layout = card_layout(rect, option.font)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._frame(painter, layout, self.chosen_row == index.row())
        self._drawings(painter, layout, card)
        self._words(painter, layout, card, option.font)
        if self.shows_share:
            self._likelihood(painter, layout, card)
        painter.restore()

    def _frame(self, painter: QPainter, layout: CardLayout, selected: bool) -> None:
        path = QPainterPath()
        path.addRoundedRect(layout.frame, 4, 4)
        painter.fillPath(path, early.brush(self.theme.accent_soft if selected else self.theme.field))
        painter.strokePath(path, early.pen(self.theme.accent if selected else self.theme.edge, 2 if selected else 1))

    def _drawings(self, painter: QPainter, layout: CardLayout, card: Card) -> None:
        ratio = painter.device().devicePixelRatio()
        for name, drawing, box, scale in (
            (f"face {card.base} {card.face.width_mm:g}", card.face, layout.face, FACE_SCALE),
            (f"side {card.lamp}", card.side, layout.side, SIDE_SCALE),
        ):
            key = (name, self.theme.name, f"{box.width():g}x{box.height():g}", ratio)
            if key not in self._painted:
                if len(self._painted) >= MOST_KEPT:
                    self._painted.clear()
                self._painted[key] = pen.pixmap(drawing, box, scale, ratio, self.theme)
            painter.drawPixmap(box.topLeft(), self._painted[key])

    def _words(self, painter: QPainter, layout: CardLayout, card: Card, font: QFont) -> None:
        painter.setFont(bold_of(font))
        # The painter comes with the palette's ink; quiet words are the same ink, thinned.
        painter.drawText(layout.name, early.LEFT | early.VCENTRE, card.base)
        painter.setFont(small_of(font))
        if card.kind in KIND_WORDS:
            flag = early.RIGHT | early.VCENTRE
            painter.drawText(layout.flag, flag, kind_words(card.kind))
        painter.setOpacity(QUIET)
        painter.drawText(layout.words, early.LEFT | early.VCENTRE, f"{card.watts} · {card.words}")
        painter.setOpacity(1)

    def _likelihood(self, painter: QPainter, layout: CardLayout, card: Card) -> None:
        painter.fillRect(layout.bar, QColor(self.theme.line))
        filled = QRectF(layout.bar)
        filled.setWidth(layout.bar.width() * card.share)
        painter.fillRect(filled, QColor(self.theme.ink))
        painter.drawText(layout.percent, early.RIGHT | early.VCENTRE, percent(card.share))


def percent(share: float) -> str:
    """Return a probability in words that never claims certainty: `< 1 %`, `43 %`, `> 99 %`."""
    if share < 0.01:
        return "<\N{THIN SPACE}1\N{THIN SPACE}%"
    if share > 0.99:
        return ">\N{THIN SPACE}99\N{THIN SPACE}%"
    return f"{share * 100:.0f}\N{THIN SPACE}%"
