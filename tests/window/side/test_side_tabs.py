"""The tabs beside the cautions: each widget shown and grabbed once in both palettes, and what they say."""

from datetime import date

import pytest
import shiboken6
from PySide6.QtCore import QPointF, QRectF, QSize, Qt

from counter import desk
from counter.desk._history import History
from counter.fit import Replacement, questions
from counter.window.fixture.fixture_pane import BALLASTS, FixturePane
from counter.window.main_window import MainWindow
from counter.window.parts.swatch import Swatch
from counter.window.parts.theme import DARK, LIGHT, THEMES
from counter.window.side import uv_curve
from counter.window.side.exposure_box import thousands
from counter.window.side.instead_pane import InsteadPane, refusals
from counter.window.side.side_tabs import TABS, SideTabs

# The screen that needs no screen says what it cannot do whenever a window or a list of choices is shown.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

CASES = {
    "empty": {},
    "lighting": {
        "marks": "CFQ18W/G24q/841",
        "fixture": {"holder": "G24q-2", "ballast": "electronic", "ballast_watts": [18], "room_k": 3000},
        "use": "lighting",
        "place": "us-ca",
        "on": date(2026, 11, 25),
    },
    "germicidal": {"looks": {"legs": "2", "pins": "2", "glass": "clear", "watts": "9"}},
    "blacklight": {"marks": "F15T8/BLB"},
    "bypassed": {"marks": "F32T8/841", "fixture": {"holder": "G13", "ballast": "bypassed"}, "use": "lighting"},
    "broken": {"marks": "F32T8/841", "broken": True},
}
CAUTIONS, INSTEAD, LIGHT_TAB, LAW, SHELF = range(len(TABS))


@pytest.fixture
def shown(qapp, catalogue):
    """Return a maker of tabs that show one case."""
    kept = []

    def make(name, tab=CAUTIONS, theme=LIGHT):
        tabs = SideTabs(theme)
        tabs.build(catalogue)
        case = desk.Case.model_validate(CASES[name])
        tabs.show_assessment(desk.assess(catalogue, case), case)
        tabs.open(tab)
        tabs.resize(372, 500)
        tabs.show()
        kept.append(tabs)
        return tabs

    yield make
    # Not by deleteLater: without an event loop they would pile up.
    for tabs in kept:
        shiboken6.delete(tabs)


@pytest.fixture(scope="module")
def one_window(qapp, tmp_path_factory):
    """Return a window that all tests here share: making one is the slow part."""
    made = MainWindow(tmp_path_factory.mktemp("window"), "light")
    made.show()
    made.wake()
    yield made
    made.close()
    shiboken6.delete(made)


@pytest.fixture
def window(one_window):
    """Return the shared window, empty, with no place set and no history."""
    one_window.activateWindow()  # keys go to the active window only
    one_window.counter.set_place("")
    one_window.counter.next_customer()
    one_window.counter.history = History(one_window.counter.history.case)
    return one_window


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
@pytest.mark.parametrize("name", CASES)
def test_every_tab_paints_every_case(shown, name, theme):
    tabs = shown(name, theme=theme)
    for tab in range(len(TABS)):
        tabs.open(tab)
        picture = tabs.grab().toImage()
        colours = {picture.pixel(x, y) for x in range(0, picture.width(), 3) for y in range(0, picture.height(), 3)}
        assert len(colours) > 5, TABS[tab]


def test_counts_stand_on_the_tabs(shown):
    tabs = shown("lighting")
    found, _ = tabs._shown
    offered = [one for one in found.replacements if one.verdict != "do not sell"]
    assert tabs.tabs.tabText(CAUTIONS) == f"Cautions · {len(found.cautions)}"
    assert tabs.tabs.tabText(INSTEAD) == f"Instead · {len(offered)}"


def test_only_the_tab_in_view_is_filled(shown):
    tabs = shown("lighting", LIGHT_TAB)
    assert tabs.instead.cards == []
    tabs.open(INSTEAD)
    assert tabs.instead.cards


def test_offers_are_cards_and_refusals_have_reasons(shown):
    tabs = shown("bypassed", INSTEAD)
    assert all(card.verdict.text() == "ASK FIRST" for card in tabs.instead.cards if not card.isHidden())
    rows = [row for row in tabs.instead.refused.rows if not row.isHidden()]
    assert any("32 W linear" in row.head.text() and "mains" in row.text.text() for row in rows)


def test_cautions_of_a_replacement_stand_on_its_card(shown):
    tabs = shown("bypassed", INSTEAD)
    lines = [line for line in tabs.instead.cards[0].lines if not line.isHidden()]
    assert [line.chip.text() for line in lines] == ["WARNING"]
    assert "licensed electrician" in lines[0].words.text()


def test_same_reason_is_said_once(shown):
    found, _ = shown("bypassed")._shown
    refused = [one for one in found.replacements if one.verdict == "do not sell"]
    reasons = {one.reason for one in refused}
    assert len(refusals(refused)) == len(reasons) < len(refused)


def test_hold_beside_asks_for_that_lamp(qtbot, shown):
    tabs = shown("germicidal", INSTEAD)
    card = next(card for card in tabs.instead.cards if not card.hold.isHidden())
    with qtbot.waitSignal(tabs.instead.beside) as asked:
        qtbot.mouseClick(card.hold, Qt.MouseButton.LeftButton)
    assert asked.args == [card.lamp]


def test_exposure_rows_and_notes(shown):
    box = shown("germicidal", LIGHT_TAB).light.exposure
    assert [row[0].text() for row in box.rows] == ["arm's length", "across the counter", "across a room"]
    assert all(word in box.notes.text() for word in ("reflections", "several", "254"))


def test_blacklight_has_no_curve_but_says_what_is_not_known(shown):
    box = shown("blacklight", LIGHT_TAB).light.exposure
    assert box.curve.isHidden()
    assert [box.rows[at][0].text() for at in (0, 4)] == ["Eyes", "Eyes and skin"]
    assert "spectrum is not known" in box.notes.text()
    assert "Not known:" in box.notes.text()


def test_room_and_lamp_stand_side_by_side(shown):
    box = shown("lighting", LIGHT_TAB).light.colours
    assert (box.lamp.name.text(), box.room.name.text()) == ("This lamp: 841", "The room: 3000 K")
    assert box.rows[0][1][0].text() == "830"


def test_law_shows_the_ended_sale_and_to_check(shown):
    law = shown("lighting", LAW).law
    assert "ended on 1 January 2025" in law.rows.rows[0].head.text()
    assert law.check.text().startswith("Check the current text")
    assert law.place.currentText() == "California"


def test_broken_lamp_has_numbered_steps(shown):
    law = shown("broken", LAW).law
    assert law.broken.isChecked()
    assert law.steps.rows[0].text.text().startswith("1. Everybody leaves")
    assert shown("lighting", LAW).law.steps.isHidden()


def test_axes_are_logarithmic(catalogue):
    note = desk.assess(catalogue, desk.Case.model_validate(CASES["germicidal"])).light.uvc
    axes = uv_curve.axes_of(note, QRectF(40, 10, 200, 100))
    assert axes.point(note.curve[0][0], axes.time_s[0]) == QPointF(40, 110)
    assert axes.point(note.curve[-1][0], axes.time_s[1]) == QPointF(240, 10)
    step = axes.point(2, 60).x() - axes.point(1, 60).x()
    assert axes.point(4, 60).x() - axes.point(2, 60).x() == pytest.approx(step)
    assert all(axes.rect.contains(axes.point(*point)) for point in note.curve)


def test_long_lamp_has_a_near_field_in_the_curve(catalogue):
    note = desk.assess(
        catalogue, desk.Case(chosen="G13/30/linear/uv-c", looks={"glass": "clear", "watts": "30"})
    ).light.uvc
    assert note.near_field_limit_m > note.rows[0].distance_m
    assert [row.valid for row in note.rows] == [False, False, True]


def test_swatch_is_the_colour_it_was_given(qtbot):
    swatch = Swatch(DARK, QSize(20, 20))
    qtbot.addWidget(swatch)
    swatch.show_colour("#ffd1a3", "830")
    assert swatch.grab().toImage().pixelColor(10, 10).name() == "#ffd1a3"
    assert swatch.accessibleName() == "830"


def test_thousands():
    assert thousands(10_000) == "10\N{THIN SPACE}000"


# -- in the window


def test_keys_open_the_tabs(qtbot, window):
    for at in (LAW, INSTEAD, LIGHT_TAB, CAUTIONS):
        qtbot.keyClick(window, Qt.Key(Qt.Key.Key_1 + at), Qt.KeyboardModifier.ControlModifier)
        assert window.side.tabs.currentIndex() == at


def test_place_is_remembered_and_goes_into_each_new_case(window):
    window.side.open(LAW)
    place = window.side.law.place
    place.setCurrentIndex(place.findData("us-wa"))
    place.activated.emit(place.currentIndex())
    assert window.case.place == "us-wa"
    window.counter.next_customer()
    assert (window.case.place, window.case.on) == ("us-wa", date.today())
    window.settings.sync()
    again = MainWindow(window.data, "light")
    again.wake()
    assert again.case.place == "us-wa"
    shiboken6.delete(again)


def test_place_is_no_step_of_history(window):
    window.counter.change(marks="F32T8/841")
    window.counter.set_place("us-ca")
    window.counter.undo()
    assert (window.case.marks, window.case.place) == ("", "us-ca")


def test_broken_lamp_by_key_and_back(qtbot, window):
    keys = (Qt.Key.Key_B, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(window, *keys)
    assert window.case.broken
    assert window.side.tabs.currentIndex() == LAW
    assert window.answer.caution.text().startswith("A broken lamp lets out mercury.")
    qtbot.keyClick(window, *keys)
    assert not window.case.broken


def test_broken_button(qtbot, window):
    window.side.open(LAW)
    qtbot.mouseClick(window.side.law.broken, Qt.MouseButton.LeftButton)
    assert window.case.broken
    window.counter.undo()
    assert not window.side.law.broken.isChecked()


def test_next_customer_goes_back_to_cautions(window):
    window.side.open(LIGHT_TAB)
    window.counter.next_customer()
    assert window.side.tabs.currentIndex() == CAUTIONS


@pytest.mark.parametrize("about", questions())
def test_every_question_leads_to_its_field(window, about):
    window.activateWindow()
    window.cautions.ask_pressed.emit(about)
    assert window.focusWidget() is window.fixture.field_of(about)


def test_every_look_asked_for_has_a_row(window):
    assert {one.key for one in window.catalogue.looks} <= set(window.looks.rows)


def test_label_read_stands_under_it(qtbot, catalogue):
    pane = FixturePane()
    qtbot.addWidget(pane)
    pane.build(catalogue)
    fixture = {"label": "Electronic ballast 2x26W"}
    pane.show_label(desk.assess(catalogue, desk.Case(fixture=fixture)).label)
    assert pane.read.text() == "read: 2 × 26\N{THIN SPACE}W, electronic"
    pane.show_label(None)
    assert pane.read.isHidden()


def test_every_ballast_has_an_entry():
    from typing import get_args

    from counter.fit import Ballast

    assert {value for value, _ in BALLASTS} == set(get_args(Ballast))


def test_opened_fields_fit_a_small_screen(window):
    window.counter.change(marks="CFQ26W/G24q/830", fixture=desk.Case(fixture={"label": "2x26W"}).fixture)
    window.fixture.more.setChecked(True)
    window.resize(1280, 800)
    assert window.minimumSizeHint().height() <= 800


def test_tube_room_is_read_in_mm(window):
    window.counter.change_fixture({"tube_room_mm": "16"})
    assert window.case.fixture.tube_room_mm == 16


def test_what_most_wait_for_is_said_once_above_them(qapp):
    pane, asked = InsteadPane(), "Ask first: What feeds it?"
    reasons = ("Base matches.", asked, asked, f"{asked} Fewer watts.", "Needs a list.")
    found = tuple(
        Replacement(title="a lamp", verdict="ask first" if at else "sell", reason=one)
        for at, one in enumerate(reasons)
    )
    pane.show_replacements(found, None)
    assert pane.shared.text() == asked
    assert [card.reason.text() for card in pane.cards] == ["Base matches.", "", "", "Fewer watts.", "Needs a list."]
    pane.show_replacements(found[:3], None)
    assert pane.shared.isHidden()
    assert [card.reason.text() for card in pane.cards[:3]] == list(reasons[:3])
