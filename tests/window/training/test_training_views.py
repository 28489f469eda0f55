"""The pictures of the training room: each shown and grabbed once in both palettes, and what they say."""

import itertools
from datetime import UTC, datetime, timedelta

import pytest
from PySide6.QtCore import QSize

from counter.training import KINDS, CurvePoint, Feedback, Standing, Tally, confusion, draw_cards
from counter.window.parts.theme import DARK, LIGHT, SIGNALS
from counter.window.training.card_page import CardPage
from counter.window.training.card_views import after, before
from counter.window.training.choices import ChoiceButton
from counter.window.training.confusion_view import CELL_LEAST, CELL_MOST, ConfusionView, grid_of
from counter.window.training.memory_view import MemoryView
from counter.window.training.ready_view import ReadyView, columns_of
from counter.window.training.reason_box import OutcomeStamp
from counter.window.training.round_bar import TimeLine
from counter.window.training.session import Given
from counter.window.training.summary_page import again

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
THEMES = pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
NOW = datetime(2031, 3, 3, tzinfo=UTC)


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


def test_right_weighs_more_than_wrong(qtbot):
    def ink(word, is_solid):
        stamp = OutcomeStamp(LIGHT)
        qtbot.addWidget(stamp)
        stamp.show_outcome(word, is_solid)
        picture = stamp.grab().toImage()
        return sum(picture.pixelColor(x, y).name() == LIGHT.ink.lower() for x in range(150) for y in range(38))

    assert ink("RIGHT", True) > 2 * ink("NOT RIGHT", False)


@pytest.mark.parametrize("width", [380, 560, 900])
def test_a_long_choice_gets_the_lines_it_needs(qtbot, width):
    button = ChoiceButton(LIGHT, 1)
    qtbot.addWidget(button)
    button.show_choice("electronic ballast " * 12)
    room = button.fontMetrics().boundingRect(0, 0, button._text_width(width), 2000, 0x1000, button.text())
    assert button.heightForWidth(width) >= room.height()
    assert button._text_width(width) + 44 + button.fontMetrics().horizontalAdvance("your answer") <= width


@pytest.mark.parametrize(("count", "size"), [(2, (560, 420)), (25, (600, 440)), (25, (320, 240)), (9, (900, 700))])
def test_cells_are_square_and_keep_apart(count, size):
    grid = grid_of(count, 90, QSize(*size))
    first, last = grid.box(0, 0), grid.box(count - 1, count - 1)
    assert CELL_LEAST <= first.width() == first.height() <= CELL_MOST
    assert last.left() - first.left() == pytest.approx((count - 1) * grid.cell)


@THEMES
def test_the_matrix_names_the_confusion(qtbot, theme, catalogue, deck, answers):
    view = ConfusionView(theme)
    qtbot.addWidget(view)
    view.resize(560, 420)
    view.show_confusion(confusion(answers, "notch"), {"small-left": "left", "small-right": "right"})
    assert view.accessibleDescription() == "left taken for right: 2; right taken for left: 1"
    assert len(colours(view)) > 3


@pytest.fixture
def answers():
    from counter.training import Answer

    def one(asked, said, at):
        return Answer(
            at=NOW + timedelta(minutes=at), round="r", card="c", point="notch-side/G24q", kind="notch-side",
            family="G24q", axis="notch", asked=asked, said=said, worth=float(asked == said), seconds=3, rating="good",
            is_first=True, is_critical=False,
        )  # fmt: skip

    said = [("small-left", "small-right")] * 2 + [("small-right", "small-left"), ("small-left", "small-left")]
    return tuple(one(*pair, at) for at, pair in enumerate(said))


@THEMES
def test_curve_and_days_are_painted_and_told(qtbot, theme):
    view = MemoryView(theme)
    qtbot.addWidget(view)
    view.resize(560, 168)
    empty = view.grab().toImage()
    view.show_memory(tuple(CurvePoint(day, 0.97**day) for day in range(31)), (3, 0, 1), 0.9)
    assert view.grab().toImage() != empty
    assert view.accessibleDescription().startswith("100% known today, 40% in 30 days")


def standing(family, low, *, is_ready):
    tally = {"right": 40, "asked": 40}
    plain, critical = Tally(**tally, low=low, bar=0.8), Tally(**tally, low=low, bar=0.9)
    return Standing(family=family, plain=plain, critical=critical, unseen=0, is_ready=is_ready)


@THEMES
def test_a_bar_past_its_mark_is_ink(qtbot, theme):
    view = ReadyView(theme)
    qtbot.addWidget(view)
    view.resize(600, 200)
    view.show_standings((standing("G23", 0.5, is_ready=False),))
    before_it = colours(view)
    view.show_standings((standing("G23", 0.95, is_ready=True),))
    assert theme.bar.lower() in before_it - colours(view)
    assert view.accessibleDescription() == "G23: ready"


@pytest.mark.parametrize("width", [420, 620, 900])
def test_columns_of_the_standing_do_not_overlap(width):
    found = columns_of(width, 80)
    edges = [found.name, found.plain, found.critical, found.unseen, found.ready]
    assert all(one[0] + one[1] <= other[0] for one, other in itertools.pairwise(edges))
    assert found.ready[0] + found.ready[1] <= width


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
