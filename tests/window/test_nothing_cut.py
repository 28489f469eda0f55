"""Nothing is cut or printed over: every screen, both themes, letters of 8 to 24 points, by font metrics."""

from __future__ import annotations

import re

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QPushButton, QScrollArea, QTabBar, QWidget

from counter.desk import Case
from counter.window.answer_bar import SignalChip, Stamp
from counter.window.looks.picture_button import FLAGS, PictureButton
from counter.window.looks.tiles import Tiles
from counter.window.outlines.card_delegate import bold_of, card_layout, small_of
from counter.window.outlines.cards import kind_words
from counter.window.parts import pen
from counter.window.parts.fitted import FittedWords
from counter.window.parts.row_table import RowTable
from counter.window.parts.words import Words
from counter.window.side.ask_row import AskButton
from counter.window.side.replacement_card import VerdictTag
from tests.window.hands import FULL

SIZES = [(1024, 768), (1280, 720), (1366, 768), (1440, 900), (1920, 1080), (2560, 1440)]
POINTS = [8, 9, 14, 24]
CASES = {
    "empty": Case(),
    "full": FULL,
    "uv": Case(looks={"glass": "clear", "pins": "2", "legs": "2"}, marks="9W", use="lighting"),
    "two": Case(looks={"legs": "4"}, chosen="G24q-2/18/quad", beside="GX24q-3/32/triple"),
}


def settle(qapp):
    """Nested layouts with large letters ask for each other's heights a few rounds more than others."""
    for _ in range(12):
        qapp.processEvents()


def spoken(text):
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&")


def cut_label(one):
    text = spoken(one.text())
    if not text or isinstance(one, (SignalChip, VerdictTag)):
        return one.width() < one.sizeHint().width() if text else False
    if isinstance(one, FittedWords):
        return False  # says itself that there is more
    if one.wordWrap():
        widest = max(one.fontMetrics().horizontalAdvance(word) for word in text.split())
        return one.height() < one.heightForWidth(one.width()) - 1 or widest > one.width() + 1
    return one.fontMetrics().horizontalAdvance(text.split("\n")[0]) > one.width() + 1


def cut_button(one):
    if isinstance(one, PictureButton):
        small = QFontMetrics(pen.small_font(one.font(), 0.8))
        box = small.boundingRect(0, 0, one.width() - 4, 999, FLAGS, one.words)
        return box.height() > one._word_height() or box.width() > one.width() - 1
    if isinstance(one, AskButton):
        return one.height() < one.heightForWidth(one.width()) - 1
    if isinstance(one, QPushButton) and one.height() < one.fontMetrics().height() + 4:
        return True
    if isinstance(one, QPushButton):
        return one.fontMetrics().horizontalAdvance(spoken(one.text())) + 6 > one.width()
    return False


def cut_tiles(one):
    """Pictures in a row below the last that there is room for."""
    return any(tile.geometry().bottom() > one.height() for tile in one._tiles)


def cut_table(one):
    left, middle, right = (QFontMetrics(font) for font in one._fonts())
    for row, box in zip(one.rows, one._boxes, strict=True):
        cells = ((left, row.left, box.left), (middle, row.middle, box.middle), (right, row.right, box.right))
        for metrics, words, area in cells:
            widest = max((metrics.horizontalAdvance(word) for word in words.split(" ")), default=0)
            if widest > area.width() + 1 or area.right() > one.width() + 1:
                return True
    return False


def cut_field(one):
    if one.height() < one.fontMetrics().height() + 4:
        return True
    room = one.width() - 12
    text = one.text() or one.placeholderText()
    return not one.text() and one.fontMetrics().horizontalAdvance(text) > room and len(text) < 24


def outside(one, window):
    """Whether a widget reaches sideways out of what it stands in, where nothing scrolls sideways."""
    above = one.parentWidget()
    while above is not None:
        if isinstance(above, QScrollArea) and above is not window.places._whole:
            at = one.mapTo(above.viewport(), QPoint(0, 0)).x()
            return at < -1 or at + one.width() > above.viewport().width() + 2
        above = above.parentWidget()
    at = one.mapTo(window, QPoint(0, 0)).x()
    inside = window.places._whole.isAncestorOf(one)
    return not inside and (at < -1 or at + one.width() > window.width() + 1)


def overprinted(window):
    """Pairs of labels or buttons of one parent that lie over each other."""
    found = []
    for parent in window.findChildren(QWidget):
        children = [
            one
            for one in parent.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)
            if isinstance(one, (Words, QAbstractButton, QLineEdit, QComboBox)) and one.isVisible()
        ]
        if isinstance(parent, (QLineEdit, QTabBar)):
            continue
        for i, one in enumerate(children):
            lying = [other for other in children[i + 1 :] if one.geometry().intersects(other.geometry())]
            found += [f"{name(one)} over {name(other)}" for other in lying]
    return found


def name(one):
    words = one.text() if hasattr(one, "text") else ""
    return f"{type(one).__name__} «{words[:30] or one.accessibleName()}» {one.width()}x{one.height()}"


def cut_cards(window):
    font = window.grid.view.font()
    layout = card_layout(QRect(QPoint(0, 0), window.grid.delegate.size).toRectF(), font)
    found = []
    for card in window.grid.model.cards:
        head = QFontMetrics(bold_of(font)).horizontalAdvance(card.base)
        flag = kind_words(card.kind)
        head += QFontMetrics(small_of(font)).horizontalAdvance(f" {flag}") if flag else 0
        words = QFontMetrics(small_of(font)).horizontalAdvance(f"{card.watts} · {card.words}")
        if head > layout.name.width() + 1 or words > layout.words.width() + 1:
            found.append(
                f"card {card.base} {flag} {card.watts} {card.words}: {head} {words} in {layout.name.width()}"
            )
    return found


CHECKS = (
    (Tiles, cut_tiles),
    (Words, cut_label),
    (QAbstractButton, cut_button),
    (RowTable, cut_table),
    (QLineEdit, cut_field),
)


def faults(window):
    found = [*overprinted(window), *cut_cards(window)]
    for kind, is_cut in CHECKS:
        found += [f"cut {name(one)}" for one in window.findChildren(kind) if one.isVisible() and is_cut(one)]
    found += [
        f"outside {name(one)}"
        for kind in (Words, QAbstractButton, QLineEdit, QComboBox, RowTable)
        for one in window.findChildren(kind)
        if one.isVisible() and not isinstance(one.parentWidget(), (QLineEdit, QTabBar)) and outside(one, window)
    ]
    found += [name(one) for one in window.findChildren(Stamp) if one.isVisible() and one.size() != one.sizeHint()]
    return found


def out_of_reach(window):
    """What must be had without scrolling the window: all of it, the glass, which harms, and the first question."""
    bars = window.places._whole.horizontalScrollBar(), window.places._whole.verticalScrollBar()
    found = ["the whole window is to be scrolled: "] if any(bar.maximum() for bar in bars) else []
    glass = window.looks.rows["glass"].buttons[1]
    if window.places.columns > 1 and glass.visibleRegion().boundingRect() != glass.rect():
        found.append("out of reach: glass ")
    asked = window.counter.assessment.doubts
    shown = window.answer.caution
    box = shown.contentsRect()
    font, fits = shown.fitting(box)
    words = shown.text() if fits else shown._shortened(box, QFontMetrics(font))
    if window.answer.stamp.verdict == "ask first" and not words.endswith(asked[0].ask):
        found.append(f"the question is cut: {words} ")
    return found


@pytest.fixture
def letters(qapp):
    before = QFont(qapp.font())

    def take(points):
        font = QFont(before)
        font.setPointSizeF(points)
        qapp.setFont(font)

    yield take
    qapp.setFont(before)


@pytest.mark.parametrize("points", POINTS)
def test_no_text_is_cut_on_any_screen(qapp, letters, windows, points):
    letters(points)
    assert_nothing_cut(qapp, windows("light"), SIZES)


@pytest.mark.parametrize("points", [9, 14])
def test_no_longer_word_of_spanish_is_cut(qapp, letters, windows, in_spanish, points):
    """On the narrowest screens and on a wide one; sizes come from the letters, so that others follow."""
    letters(points)
    assert_nothing_cut(qapp, windows("light"), [(1024, 768), (1366, 768), (1920, 1080)])


def assert_nothing_cut(qapp, window, sizes):
    found = []
    for width, height in sizes:
        window.resize(width, height)
        settle(qapp)
        assert (window.width(), window.height()) == (width, height), "the window is wider than the screen"
        for which, case in CASES.items():
            fields = {key: getattr(case, key) for key in ("looks", "marks", "fixture", "use", "chosen", "beside")}
            window.counter.change(**fields)
            window.set_theme("dark" if which in ("full", "two") else "light")
            settle(qapp)
            found += [f"{width}x{height} {which}: {one}" for one in (*faults(window), *out_of_reach(window))]
        window.fixture.more.setChecked(True)
        settle(qapp)
        found += [f"{width}x{height} more: {one}" for one in faults(window)]
        window.fixture.more.setChecked(False)
    kinds = sorted({re.sub(r"\d+x\d+$", "", one.split(": ", 1)[1]) for one in found})
    assert found == [], "\n".join([f"{len(found)} in all, {len(kinds)} kinds", *kinds[:30], *found[:10]])
