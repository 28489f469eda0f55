"""The pictures of the training room: each shown and grabbed once in both palettes, and what they say."""

import itertools

import pytest
from PySide6.QtGui import QColor

from counter.training import KINDS, Feedback, Freshness, draw_cards
from counter.window.parts.theme import DARK, LIGHT, SIGNALS
from counter.window.training.card_page import CardPage
from counter.window.training.card_views import after, before
from counter.window.training.choices import ChoiceButton
from counter.window.training.filling import faces
from counter.window.training.pairs_view import Pair, PairsView
from counter.window.training.reason_box import OutcomeMark
from counter.window.training.round_bar import TimeLine
from counter.window.training.session import Given
from counter.window.training.shelf_view import OUTLINE_PX, ShelfView
from counter.window.training.summary_page import again

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
THEMES = pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])


@pytest.fixture(scope="module")
def deck(catalogue):
    """Return three cards of each kind."""
    return {kind: draw_cards(catalogue, 5, 3, [kind]) for kind in KINDS if kind != "caution"}


def settle(qapp):
    for _ in range(4):  # a layout asked for while others are made waits for the next round
        qapp.processEvents()


def given(card, choice):
    worth = 0.0 if choice is None else card.worth[choice]
    rating = "good" if worth >= 1 else "again"
    return Given(card, choice, Feedback(worth >= 1, worth, rating, card.why, card.answer, worth < 1))


def wrong(card):
    return card.worth.index(min(card.worth))


def colours(widget):
    picture = widget.grab().toImage()
    return {
        picture.pixelColor(x, y).name() for x in range(0, picture.width(), 2) for y in range(0, picture.height(), 2)
    }


@pytest.fixture
def page(qtbot, catalogue):
    def make(theme=LIGHT, size=(1280, 720)):
        made = CardPage(theme)
        qtbot.addWidget(made)
        made.build(catalogue)
        made.resize(*size)
        made.show()
        return made

    return make


@THEMES
@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "caution"])
def test_every_kind_is_painted_before_and_after(page, deck, kind, theme):
    shown = page(theme)
    for card in deck[kind]:
        shown.show_card(card, "title")
        open_picture = shown.grab().toImage()
        shown.show_outcome(given(card, wrong(card)), None)
        assert shown.grab().toImage() != open_picture


@pytest.mark.parametrize("kind", ["name-base", "which-of-two"])
def test_a_look_alike_stands_beside_with_the_difference_marked(catalogue, deck, kind):
    for card in deck[kind]:
        shown = after(catalogue, card, wrong(card))
        assert card.values[wrong(card)] in shown.second.caption
        assert shown.first.marked == shown.second.marked


def test_a_turned_notch_is_shown_upright_afterwards(catalogue, deck):
    card = next(card for card in deck["notch-side"] if card.draw.turned_deg)
    assert before(catalogue, card).second is None
    shown = after(catalogue, card, None)
    assert shown.second.marked == {"notch"}
    assert shown.second.face.box != shown.first.face.box or card.draw.turned_deg == 180


@pytest.mark.parametrize("kind", ["read-code", "worn-code"])
def test_a_code_gives_its_parts_away_only_afterwards(catalogue, deck, kind):
    for card in deck[kind]:
        assert before(catalogue, card).spans == ()
        assert after(catalogue, card, 0).spans


def test_glass_decides_between_uvc_and_lighting(catalogue, deck):
    for card in deck["uv-or-light"]:
        decides = [one.key for one in after(catalogue, card, 0).looks if one.decides]
        assert decides == (["glass"] if "glass" in card.case.looks else [])


def test_nothing_moves_when_the_answer_comes(page, deck, qapp):
    shown = page()
    for card in (deck[kind][0] for kind in deck):
        shown.show_card(card, "title")
        settle(qapp)
        places = [button.geometry() for button in shown.choices.buttons]
        face = shown.picture.face.geometry()
        shown.show_outcome(given(card, wrong(card)), None)
        settle(qapp)
        assert [button.geometry() for button in shown.choices.buttons] == places
        assert shown.picture.face.geometry() == face


@THEMES
@pytest.mark.parametrize("is_right", [True, False])
def test_right_and_wrong_use_no_safety_colour(page, deck, theme, is_right):
    card = deck["name-base"][0]
    shown = page(theme)
    shown.show_card(card, "title")
    shown.show_outcome(given(card, card.answer if is_right else wrong(card)), None)
    assert colours(shown).isdisjoint({ground.lower() for ground, _ in SIGNALS.values()})


def test_only_what_is_right_is_ticked(qtbot):
    mark = OutcomeMark(LIGHT)
    qtbot.addWidget(mark)
    mark.show_outcome(True)
    assert LIGHT.ink.lower() in colours(mark)
    mark.show_outcome(False)
    assert mark.isHidden()
    assert LIGHT.ink.lower() not in colours(mark)


@pytest.mark.parametrize("width", [380, 560, 900])
def test_a_long_choice_gets_the_lines_it_needs(qtbot, width):
    button = ChoiceButton(LIGHT, 1)
    qtbot.addWidget(button)
    button.show_choice("electronic ballast " * 12)
    room = button.fontMetrics().boundingRect(0, 0, button._text_width(width), 2000, 0x1000, button.text())
    assert button.heightForWidth(width) >= room.height()
    assert button._text_width(width) + 44 + button.fontMetrics().horizontalAdvance("your answer") <= width


@THEMES
def test_pairs_of_bases_are_drawn_and_others_told(qtbot, catalogue, theme):
    drawn = faces(catalogue)
    view = PairsView(theme)
    qtbot.addWidget(view)
    view.resize(520, 300)
    view.show_pairs(
        (
            Pair("G23 taken for GX23", "2 times", "one notch", "G23", (drawn["G23"], drawn["GX23"])),
            Pair("“left” taken for “right”", "1 time", "", ""),
        )
    )
    view.show()
    first, second = view.rows
    assert all(sketch.isVisible() for sketch in first.sketches)
    assert not any(sketch.isVisible() for sketch in second.sketches)
    assert (first.learn.isVisible(), second.learn.isVisible()) == (True, False)
    with qtbot.waitSignal(view.lesson_wanted) as asked:
        first.learn.click()
    assert asked.args == ["G23"]
    assert len(colours(view)) > 3


def kept(family, state, filled=0.5):
    return Freshness(family=family, state=state, days=3, filled=filled, met=3, points=6)


@pytest.fixture
def shelf(qtbot, catalogue):
    def make(rows, theme=LIGHT, width=600, ready=frozenset()):
        view = ShelfView(theme)
        qtbot.addWidget(view)
        view.resize(width, 400)
        view.show_shelf(tuple(rows), faces(catalogue), ready)
        view.show()
        return view

    return make


def ink(widget):
    picture = widget.grab().toImage()
    dark = QColor(LIGHT.ink).lightness()
    seen = (picture.pixelColor(x, y).lightness() for x in range(picture.width()) for y in range(OUTLINE_PX))
    return sum(abs(light - dark) < 24 for light in seen)


def test_an_outline_pales_as_it_is_forgotten(shelf):
    view = shelf([kept("G23", state, 0.0) for state in ("fresh", "fading", "gone", "new")])
    inks = [ink(place) for place in view.places]
    assert inks[0] > 0
    assert inks[0] > inks[1] >= inks[2] >= inks[3] == 0


@THEMES
def test_the_ground_rises_with_what_is_known(shelf, theme):
    view = shelf([kept("G23", "fresh", filled) for filled in (0.1, 0.9)], theme)
    tinted = []
    for place in view.places:
        picture = place.grab().toImage()
        tinted.append(sum(picture.pixelColor(5, y).name() == theme.tint.lower() for y in range(picture.height())))
    assert tinted[1] > 5 * tinted[0] > 0


def test_the_shelf_says_its_days_and_who_is_ready(shelf):
    view = shelf([kept("G23", "fading"), kept("2G7", "fresh")], ready=frozenset({"2G7"}))
    assert [place.accessibleName() for place in view.places] == [
        "G23: fading, 3 days left; not ready yet",
        "2G7: fresh for 3 days; ready for the counter",
    ]


@pytest.mark.parametrize("width", [300, 620, 1500])
def test_places_stand_side_by_side_and_inside(shelf, qapp, catalogue, width):
    view = shelf([kept(family, "fresh") for family in faces(catalogue)], width=width)
    settle(qapp)
    boxes = [place.geometry() for place in view.places]
    assert all(one.right() <= view.width() for one in boxes)
    assert not any(one.intersects(other) for one, other in itertools.combinations(boxes, 2))


def test_the_time_line_says_its_share(qtbot):
    line = TimeLine(LIGHT)
    qtbot.addWidget(line)
    line.show_share(0.25)
    line.grab()
    assert line.accessibleName() == "25% of the time"


def test_the_summary_tells_each_card_missed_once(deck):
    card, other = deck["name-base"][:2]
    told = again([given(card, wrong(card)), given(other, other.answer), given(card, None)])
    assert told.count(card.why) == 1
    assert "you did not know" in told
    assert other.why not in told
    assert again([given(other, other.answer)]) == "Nothing to look at again."
