"""For whoever does not see it or does not use a mouse: names, roles, one stop a row, focus, sizes, plain words."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollBar,
    QSpinBox,
    QTabBar,
    QWidget,
)

from counter.desk import Case
from counter.window.parts import theme
from counter.window.parts.row_table import RowTable
from counter.window.parts.style import CounterStyle
from counter.window.parts.theme import SMALL_TARGET, TARGET
from counter.window.parts.words import Words, tip
from tests.conftest import settle
from tests.window.hands import FULL, button, key

UV = Case(looks={"glass": "clear", "pins": "2", "legs": "2"}, marks="9W")


def controls(window):
    for kind in (QAbstractButton, QLineEdit, QComboBox, QSpinBox):
        for one in window.findChildren(kind):
            inside = isinstance(one.parentWidget(), (QLineEdit, QComboBox, QSpinBox, QScrollBar, QTabBar))
            if one.isVisible() and not inside:
                yield one


def test_white_and_germicidal_outlines_read_differently(windows):
    window = windows(case=UV)
    view = QAccessible.queryAccessibleInterface(window.grid.view)
    names = [view.child(at).text(QAccessible.Text.Name) for at in range(view.childCount())]
    assert any("UV-C germicidal" in name for name in names)
    assert any("for lighting" in name for name in names)
    assert len(set(names)) == len(names)


def test_every_control_has_a_name_and_a_role(windows):
    window = windows(case=FULL)
    window.fixture.more.setChecked(True)
    settle(QApplication.instance())
    for one in controls(window):
        face = QAccessible.queryAccessibleInterface(one)
        assert face.text(QAccessible.Text.Name).strip(), type(one).__name__
        assert face.role() != QAccessible.Role.NoRole


def test_the_verdict_is_an_alert_once_it_has_come_to_rest(window):
    alert = window.counter.alert
    window.counter.change(looks={"glass": "clear", "pins": "2"})
    assert alert._rest.isActive(), "not at each character"
    alert.announce()
    assert "UV-C" in alert.words
    assert alert._is_grave
    assert window.answer.accessibleDescription() == alert.words
    assert window.answer.stamp.accessibleName() == "Verdict: ask first"


def tab_stops(window):
    window.marks.take_focus()
    seen = []
    for _ in range(200):
        key(window, Qt.Key.Key_Tab)
        if window.focusWidget() in seen:
            return seen
        seen.append(window.focusWidget())
    raise AssertionError("Tab never comes round")


def test_tab_stops_once_at_each_row_of_pictures(windows):
    window = windows(case=UV)
    seen = tab_stops(window)
    for name, row in window.looks.rows.items():
        if hasattr(row, "tiles"):
            assert sum(tile in seen for tile in row.tiles) == 1, name
    assert len(seen) < 60


def test_what_has_the_keyboard_shows_it(qapp, windows):
    window = windows(case=FULL)
    stops = tab_stops(window)
    blind = []
    for one in stops:
        window.marks.field.setFocus()
        settle(qapp)
        before = one.grab().toImage()
        one.setFocus(Qt.FocusReason.TabFocusReason)
        settle(qapp)
        if one is not window.marks.field and one.grab().toImage() == before:
            blind.append(f"{type(one).__name__} {one.accessibleName()}")
    assert blind == []


def test_targets_are_large_enough_for_a_finger(windows):
    window = windows(case=UV)
    small = [
        f"{type(one).__name__} {one.accessibleName() or getattr(one, 'text', str)()} {one.width()}x{one.height()}"
        for one in controls(window)
        if min(one.width(), one.height()) < SMALL_TARGET
    ]
    assert small == []
    pressed = [window.answer.next, window.answer.menu, window.detail.choose]
    pressed += [tile for row in window.looks.rows.values() for tile in getattr(row, "tiles", [])]
    assert all(min(one.width(), one.height()) >= TARGET for one in pressed if one.isVisible())


def test_parts_of_the_code_are_reached_by_keys(windows):
    window = windows(case=Case(marks="CF?26W/G24q/841"))
    strip = window.marks.strip
    strip.setFocus()
    heard = []
    for _ in strip.spans:
        heard.append(strip.accessibleDescription())
        key(window, Qt.Key.Key_Right)
    assert len(set(heard)) == len(strip.spans)
    doubtful = next(at for at, span in enumerate(strip.spans) if span.choices)
    strip.go_to(doubtful)
    key(window, Qt.Key.Key_Return)
    menu = QApplication.activePopupWidget()
    assert menu is not None
    choice = menu.actions()[0]
    menu.close()
    choice.trigger()
    assert "?" not in window.case.marks


def test_the_system_changing_to_dark_is_followed(qapp, windows, monkeypatch):
    window = windows()
    assert window.theme_name == "system"
    for scheme in (Qt.ColorScheme.Dark, Qt.ColorScheme.Light):  # the screen that needs no screen has none to change
        monkeypatch.setattr(theme, "_system_name", lambda one=scheme: one.name.lower())
        qapp.styleHints().colorSchemeChanged.emit(scheme)
        settle(qapp)
        assert window.theme.name == scheme.name.lower()
        assert window.palette().window().color().name().upper() == window.theme.desk


def test_high_contrast_is_followed(qapp, windows, monkeypatch):
    monkeypatch.setattr(theme, "_wants_contrast", lambda: True)
    window = windows("dark")
    assert (window.theme.ink, window.theme.paper, window.theme.edge) == ("#FFFFFF", "#000000", "#FFFFFF")
    assert not window.grab().isNull()


EVIL = '<img src="/dev/zero"><b>bold</b> & more'


def test_no_label_and_no_tip_guesses_markup(windows):
    window = windows(case=Case(marks=EVIL, looks={"legs": "4"}, fixture={"label": EVIL}))
    window.fixture.more.setChecked(True)
    room = window.counter.training._room()
    labels = [*window.findChildren(QLabel), *room.findChildren(QLabel)]
    assert len(labels) > 100
    for label in labels:
        assert isinstance(label, Words), (label.text(), type(label.parentWidget()).__name__)
        assert label.textFormat() == Qt.TextFormat.PlainText
    for one in window.findChildren(QWidget):
        words = one.toolTip()
        assert "<img" not in words
        assert "<" not in words.removeprefix("<qt>").removesuffix("</qt>").replace("<br>", "")


def test_a_tip_with_brackets_shows_them():
    assert tip("a < b\nc") == "<qt>a &lt; b<br>c</qt>"
    assert tip("plain & simple") == "plain & simple"


def test_our_style_is_worn(window, qapp):
    assert isinstance(qapp.style(), CounterStyle)
    assert qapp.styleSheet() == ""
    assert not any(one.styleSheet() for one in window.findChildren(QLabel))


def test_a_look_asked_for_is_brought_into_view_and_flashes_once(qapp, qtbot, windows):
    window = windows()
    window.resize(1024, 600)
    settle(qapp)
    window.counter.go_to("block")
    settle(qapp)
    row = window.looks.rows["block"]
    view = window.looks._scroll.viewport()
    at = row.mapTo(view, QPoint(0, 0))
    assert view.rect().intersects(QRect(at, row.size()))
    assert row.findChild(QWidget, "flash") is not None
    qtbot.waitUntil(lambda: row.findChild(QWidget, "flash") is None, timeout=3000)


def test_a_toggle_from_outside_is_a_press(window):
    """Tools for those who cannot see do a button's first action, which on one that stays pressed clicks nothing."""
    tile = button(window, "pins", "4")
    for on in (True, False):
        QAccessible.queryAccessibleInterface(tile).actionInterface().doAction("Toggle")
        assert (window.case.looks.get("pins") == "4") is on
    QAccessible.queryAccessibleInterface(window.side.law.broken).actionInterface().doAction("Toggle")
    assert window.case.broken


def test_drawings_are_pictures_and_say_what_they_show(windows):
    window = windows(case=FULL)
    face = QAccessible.queryAccessibleInterface(window.detail.face)
    assert face.role() == QAccessible.Role.Graphic
    assert face.text(QAccessible.Text.Name) == "Face of G24q-2, pins toward you"
    assert "Pins: 4" in face.text(QAccessible.Text.Description)
    window.counter.next_customer()
    assert not window.detail.face.accessibleName()


ROLE = QAccessible.Role
DRAWN = {  # every widget that paints itself, and what it is to whoever listens; None: nothing is lost without it
    "AskButton": ROLE.Button,
    "CalmCombo": ROLE.ComboBox,
    "CardOutline": ROLE.Graphic,
    "ChoiceButton": ROLE.Button,
    "CodeStrip": ROLE.StaticText,
    "DrawingView": ROLE.Graphic,
    "FittedWords": ROLE.StaticText,
    "GlassGauge": ROLE.Graphic,
    "MainWindow": None,  # has no marks of its own, and tells when it is painted first
    "Flash": None,  # of the widget that it frames for a moment
    "MonthView": ROLE.Graphic,
    "OutcomeMark": None,  # the words beside it say the same
    "Panel": None,
    "PictureButton": ROLE.CheckBox,
    "PictureView": ROLE.Graphic,
    "Ring": None,
    "RowTable": ROLE.Table,
    "ShelfPlace": ROLE.CheckBox,
    "SignalChip": ROLE.StaticText,
    "Sketch": None,  # the sentence beside it says how the lamp is held
    "Stamp": ROLE.StaticText,
    "Swatch": ROLE.Graphic,
    "TimeLine": ROLE.Graphic,
    "UvCurve": ROLE.Graphic,
    "VerdictTag": ROLE.StaticText,
}


def classes_of(kind):
    for one in kind.__subclasses__():
        yield one
        yield from classes_of(one)


def test_everything_that_paints_itself_has_a_role_a_name_and_a_state(windows):
    window = windows(case=FULL)
    window.side.open(1)
    window.counter.training._room()
    from counter.window.measure.calibrate_dialog import CardOutline
    from counter.window.measure.glass_gauge import GlassGauge
    from counter.window.measure.picture_view import PictureView
    from counter.window.slip.month_view import MonthView
    from counter.window.training.choices import ChoiceButton
    from counter.window.training.shelf_view import ShelfPlace

    alone = [CardOutline(window.theme, 4.0), MonthView(), ChoiceButton(window.theme, 1)]
    alone += [ShelfPlace(window.theme, window), GlassGauge(window.theme, 4.0), PictureView(window.theme)]
    drawn = {
        one for one in classes_of(QWidget) if one.__module__.startswith("counter.") and "paintEvent" in vars(one)
    }
    assert {one.__name__ for one in drawn} | {"Flash"} == DRAWN.keys()
    seen = [one for one in [*window.findChildren(QWidget), *alone] if DRAWN.get(type(one).__name__) is not None]
    assert {type(one).__name__ for one in seen} == {name for name, role in DRAWN.items() if role is not None}
    for one in seen:
        face = QAccessible.queryAccessibleInterface(one)
        assert face.role() == DRAWN[type(one).__name__], type(one).__name__
        if one.isVisible() and not isinstance(one, RowTable):
            said = face.text(QAccessible.Text.Name) or face.text(QAccessible.Text.Description)
            assert said or not getattr(one, "drawing", "words"), type(one).__name__
        if isinstance(one, QAbstractButton):
            assert bool(face.state().checked) == one.isChecked()
            assert bool(face.state().disabled) != one.isEnabled()


def test_facts_are_a_table_of_names_values_and_how_sure(windows):
    facts = windows(case=FULL).detail.facts
    table = QAccessible.queryAccessibleInterface(facts)
    parts = [table.child(at) for at in range(table.childCount())]
    heads = [one.text(QAccessible.Text.Name) for one in parts if one.role() == ROLE.ColumnHeader]
    cells = [one.text(QAccessible.Text.Name) for one in parts if one.role() == ROLE.Cell]
    assert heads == ["What", "Value", "How sure"]
    assert cells == [words for row in facts.rows for words in row[:3]]
    first = next(one for one in parts if one.role() == ROLE.Cell and one.text(QAccessible.Text.Name) == "Length")
    assert "≈ 146 mm, not sure" in first.text(QAccessible.Text.Description).replace("\N{THIN SPACE}", " ")
    facts.setFocus()
    key(facts.window(), Qt.Key.Key_Down)
    assert facts.currentIndex().row() == 1
