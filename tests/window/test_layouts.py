"""Layouts as functions: nothing outside its frame, nothing over another, and brackets where the characters are."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from counter.marks import Span
from counter.outline import box_of
from counter.window.marks.code_strip import SIDE, parts_of
from counter.window.outlines.card_delegate import card_layout, card_size, percent
from counter.window.outlines.cards import cards_of
from counter.window.parts import pen
from counter.window.parts.theme import DARK, LIGHT, SIGNALS
from counter.window.side.cautions_pane import figure_words
from tests.conftest import settle

THIN = "\N{THIN SPACE}"


@pytest.mark.parametrize("points", [8, 9, 12, 18, 24])
@pytest.mark.parametrize("wider", [0, 24, 80, 240])
def test_the_parts_of_a_card_lie_in_its_frame_and_apart(qapp, wider, points):
    font = QFont(qapp.font())
    font.setPointSizeF(points)
    size = card_size(font)
    layout = card_layout(QRectF(10, 20, size.width() + wider, size.height()), font)
    parts = [layout.face, layout.side, layout.name, layout.words, layout.bar, layout.percent]
    for part in parts:
        assert layout.frame.contains(part)
        assert part.width() > 20
        assert part.height() > 4
    for one, other in combinations([layout.face, layout.side, layout.name, layout.words, layout.bar], 2):
        assert not one.intersects(other)
    assert not layout.bar.intersects(layout.percent)


def test_a_card_moves_as_a_whole(qapp):
    font = qapp.font()
    here, there = card_layout(QRectF(0, 0, 180, 146), font), card_layout(QRectF(300, 150, 180, 146), font)
    for name in ("frame", "face", "side", "name", "words", "bar", "percent", "flag"):
        assert getattr(here, name).translated(300, 150) == getattr(there, name)


SHARES = [
    (0, "<|1|%"),
    (0.0099, "<|1|%"),
    (0.01, "1|%"),
    (0.434, "43|%"),
    (0.99, "99|%"),
    (0.991, ">|99|%"),
    (1, ">|99|%"),
]


@pytest.mark.parametrize(("share", "words"), SHARES)
def test_a_share_never_claims_certainty(share, words):
    assert percent(share) == words.replace("|", THIN)


@pytest.mark.parametrize("wide", [6.0, 9.5])
def test_brackets_stand_under_their_characters(wide):
    spans = tuple(Span(start=a, end=b, text="x" * (b - a), means="", part="") for a, b in ((0, 2), (2, 3), (7, 12)))
    parts = parts_of(spans, wide)
    assert [part.span for part in parts] == [0, 1, 2]
    for part, span in zip(parts, spans, strict=True):
        assert (part.box.left(), part.box.right()) == pytest.approx(
            (SIDE + span.start * wide, SIDE + span.end * wide)
        )


def test_no_spans_no_brackets():
    assert parts_of((), 8.0) == ()


@pytest.mark.parametrize(
    ("figure", "unit", "words"),
    [
        (3, "wattages", "3 wattages"),
        (1234567, "W", "1|234|567|W"),
        (0.5, None, "0.5"),
    ],
)
def test_figures_in_words(figure, unit, words):
    assert figure_words(figure, unit) == words.replace("|", THIN)


def test_a_drawing_is_fitted_into_its_box(catalogue):
    from counter.outline import face_view

    box = QRectF(5, 7, 120, 80)
    for base in catalogue.bases:
        face = face_view(base)
        view = pen.fitting(face, box)
        left, bottom, right, top = box_of(face.shapes)
        corners = [view.point(left, bottom), view.point(right, top)]
        assert all(box.adjusted(-0.01, -0.01, 0.01, 0.01).contains(corner) for corner in corners), base.designation


def test_up_is_up_and_left_is_left():
    view = pen.View(2.0, 100.0, 50.0)
    assert (view.point(-10, 5).x(), view.point(-10, 5).y()) == (80, 40)


def test_one_card_a_base_and_kind_and_shares_that_add_up(catalogue):
    from counter.desk import Case, assess

    for case in (Case(), Case(looks={"legs": "4"}), Case(marks="CFQ26W/G24q")):
        found = assess(catalogue, case)
        cards = cards_of(catalogue, found.candidates, {}, found.outlines)
        assert len({(card.base, card.kind) for card in cards}) == len(cards)
        assert sum(card.share for card in cards) == pytest.approx(1)
    assert cards[0].base == "G24q-3"


def _luminance(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    """Contrast ratio as WCAG 2 defines it."""
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
def test_words_can_be_read_on_every_ground(theme):
    for ground in (theme.desk, theme.paper, theme.field, theme.accent_soft):
        assert contrast(theme.ink, ground) >= 4.5
    for ground in (theme.desk, theme.paper, theme.field):
        assert contrast(theme.muted, ground) >= 4.5, ground
        assert contrast(theme.accent, ground) >= 4.5, ground
    assert contrast(theme.on_accent, theme.accent) >= 4.5
    for ground in (theme.paper, theme.field):  # WCAG 2.2, 1.4.11: the edge of what can be pressed or typed into
        assert contrast(theme.edge, ground) >= 3


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
def test_kinds_of_glass_differ_from_each_other_and_from_the_ground(theme):
    assert contrast(theme.glass, theme.dark_glass) >= 4.5
    assert contrast(theme.on_glass, theme.glass) >= 4.5
    assert contrast(theme.on_dark_glass, theme.dark_glass) >= 4.5
    for ground in (theme.field, theme.paper):
        assert max(contrast(theme.glass, ground), contrast(theme.on_glass, ground)) >= 4.5, "its outline is seen"


@pytest.mark.parametrize("signal", SIGNALS)
def test_signal_words_can_be_read_and_mean_nothing_else(signal):
    ground, lettering = SIGNALS[signal]
    assert contrast(ground, lettering) >= 4.5
    for theme in (LIGHT, DARK):
        roles = {getattr(theme, name) for name in theme.__slots__ if name != "name"}
        assert ground not in roles


@pytest.mark.parametrize("language", ["", "es"])
def test_the_smallest_screen_shows_it_whole(windows, language):
    window = windows()
    if language:
        window.set_language(language)
    window.resize(1024, 768)
    settle(QApplication.instance())
    assert window.width() == 1024
    assert window.places._whole.horizontalScrollBar().maximum() == 0
    if language:
        window.set_language("en")
