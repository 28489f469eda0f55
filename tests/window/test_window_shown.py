"""The whole window: painted in each palette, a case in every pane, nothing cut, nothing jumping."""

from __future__ import annotations

from collections import Counter

import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit, QWidget

from counter import paths
from counter.desk import Case
from counter.window.parts.theme import DARK, LIGHT
from counter.window.parts.words import Words
from tests.conftest import settle
from tests.window.hands import CODE, CTRL, FULL, key, said


def test_nothing_shows_as_a_window_of_its_own(qapp, windows):
    """A widget shown before it has a parent flashes up beside the window and takes the keyboard from it."""

    class Watch(QObject):
        seen: list[str] = []  # noqa: RUF012 - one watch a test

        def eventFilter(self, watched, event):
            if event.type() == QEvent.Type.Show and watched.isWidgetType() and watched.isWindow():
                self.seen.append(type(watched).__name__)
            return False

    watch = Watch()
    qapp.installEventFilter(watch)
    window = windows()
    for fields in ({"marks": CODE}, {"looks": FULL.looks}, {"looks": {"pins": "2"}}, {"broken": True}):
        window.counter.change(**fields)
        qapp.processEvents()
    window.counter.change(chosen="G24q-2/18/quad", beside="G24q-3/26/quad")
    window.counter.next_customer()
    window.set_theme("dark")
    qapp.processEvents()
    qapp.removeEventFilter(watch)
    assert Watch.seen == ["MainWindow"]


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
@pytest.mark.parametrize(
    "case", [None, FULL, Case(looks={"glass": "clear", "pins": "2"})], ids=["empty", "full", "uv"]
)
def test_the_whole_window_is_painted_in_its_palette(windows, theme, case):
    picture = windows(theme.name, case).grab().toImage()
    assert (picture.width(), picture.height()) == (1280, 800)
    assert picture.pixelColor(2, 2).name().upper() == theme.desk
    assert len({picture.pixel(x, y) for x in range(0, 1280, 7) for y in range(0, 800, 7)}) > 20


def test_two_beside_each_other_are_painted(windows):
    window = windows(case=Case(chosen="G24q-2/18/quad", beside="G24q-3/26/quad", looks={"glass": "white"}))
    assert window.detail.other_face.isVisible()
    assert not window.grab().isNull()


@pytest.mark.parametrize("units", ["mm", "in"])
def test_units_change_every_length(window, units):
    window.set_units("in" if units == "mm" else "mm")
    window.counter.change(chosen="G24q-2/18/quad")
    window.set_units(units)
    words = {shape.text for shape in window.detail.face.drawing.shapes if hasattr(shape, "text")}
    assert any(text.endswith(units) for text in words)
    assert not any(text.endswith({"mm": "in", "in": "mm"}[units]) for text in words)


def test_the_palette_can_change_while_open(window):
    window.set_theme("dark")
    QApplication.processEvents()
    assert window.grab().toImage().pixelColor(2, 2).name().upper() == DARK.desk
    window.set_theme("light")
    QApplication.processEvents()
    assert window.grab().toImage().pixelColor(2, 2).name().upper() == LIGHT.desk


def test_a_case_is_shown_in_every_pane(windows):
    window = windows(case=FULL)
    for look, value in FULL.looks.items():
        row = window.looks.rows[look]
        if hasattr(row, "buttons"):
            assert [one.value for one in row.buttons if one.isChecked()] == [value]
        else:
            assert row.field.text() == (f"{value:g} mm" if isinstance(value, float) else value)
    assert window.marks.field.text() == CODE
    fixture = window.fixture
    assert fixture.holder.currentData() == "G24q-2"
    assert fixture.ballast.currentData() == "electronic"
    assert fixture.use.currentData() == "lighting"
    assert fixture.watts.text() == "18, 26"
    assert fixture.space.text() == "160"
    assert (fixture.choices["damp"].currentText(), fixture.choices["cold"].currentText()) == ("yes", "not asked")
    assert window.answer.base.text() == "G24q-2"
    assert window.grid.model.cards[0].base == "G24q-2"


def test_a_place_not_set_is_said_until_it_is(window):
    assert window.answer.place.isVisible()
    window.counter.ask_for_place()
    assert "law not checked" in window.side.law.says.text()
    QApplication.activePopupWidget().close()
    window.counter.set_place("us-ca")
    assert not window.answer.place.isVisible()
    assert "not checked" not in window.side.law.says.text()


@pytest.mark.parametrize(
    ("verdict", "signal", "after"),
    [
        ("sell", "WARNING", "after reading the warning"),
        ("sell", "NOTICE", ""),
        ("sell", None, ""),
        ("ask first", "WARNING", ""),
    ],
)
def test_a_sale_beside_a_warning_comes_after_it(window, verdict, signal, after):
    window.answer.show_answer("G23", "9 W", verdict, signal, "Look first.")
    assert window.answer.stamp.after == after


@pytest.mark.parametrize("content", [None, "{ broken", "[]", "{}"], ids=["gone", "broken", "list", "empty"])
def test_a_broken_catalogue_is_a_designed_state(windows, tmp_path, monkeypatch, content):
    folder = tmp_path / "resources"
    folder.mkdir()
    if content is not None:
        (folder / "catalogue.json").write_text(content)
    monkeypatch.setattr(paths, "resources", lambda: folder)
    window = windows()
    assert window.answer.lamp.text() == "The catalogue could not be read"
    assert "counter check" in window.detail.tell.text()
    everything = said(window)
    assert "Drawing …" not in everything, "nothing is coming any more"
    for inside in ("Traceback", "pydantic", "ValidationError"):
        assert inside not in everything
    for which in (Qt.Key.Key_F2, Qt.Key.Key_Escape):
        key(window, which)
    key(window, Qt.Key.Key_Z, CTRL)
    window.set_units("in")
    window.set_theme("dark")
    assert not window.grab().isNull()


def test_nothing_to_press_is_smaller_than_a_finger(windows):
    window = windows(case=FULL)
    small = [
        (type(one).__name__, one.accessibleName() or one.toolTip())
        for row in window.looks.rows.values()
        for one in getattr(row, "buttons", [])
        if one.width() < 36 or one.height() < 36
    ]
    assert small == []


def test_every_field_and_picture_has_a_name_for_a_screen_reader(window):
    nameless = [
        (type(one).__name__, one.objectName())
        for kind in (QLineEdit, QComboBox, QAbstractButton)
        for one in window.findChildren(kind)
        if one.isVisibleTo(window)
        and not one.objectName().startswith("qt_")
        and not (one.accessibleName() or one.toolTip() or getattr(one, "text", str)())
        and not isinstance(one.parentWidget(), QLineEdit)
    ]
    assert nameless == []


def test_no_pane_jumps_as_results_change(window):
    before = (window.size(), window.looks.geometry(), window.grid.geometry(), window.marks.geometry())
    for case in (FULL, Case(looks={"glass": "clear"}), Case(marks="CFQ26W/G24q/841", looks={"pins": "2"})):
        window.counter.change(**{name: getattr(case, name) for name in ("looks", "marks", "fixture", "use")})
        QApplication.processEvents()
        QApplication.processEvents()
        assert (window.size(), window.looks.geometry(), window.grid.geometry(), window.marks.geometry()) == before


def test_nothing_in_the_answer_is_cut_at_the_smallest_size(windows):
    window = windows(case=FULL)
    window.resize(window.minimumSizeHint())
    QApplication.processEvents()
    for widget in (window.answer.base, window.answer.stamp, window.answer.next, window.answer.menu):
        box = widget.rect().translated(widget.mapTo(window, QPoint(0, 0)))
        assert window.rect().contains(box), type(widget).__name__
        assert isinstance(widget, QWidget)


class Paints(QObject):
    """Counts how often each of some widgets is painted."""

    def __init__(self, widgets):
        super().__init__()
        self.of = Counter()
        for one in widgets:
            one.installEventFilter(self)

    def eventFilter(self, watched, event):
        self.of[watched] += event.type() == QEvent.Type.Paint
        return False


@pytest.mark.parametrize("code", ["CFQ26W/G24q/841", "F32T8/841"])
def test_an_answer_is_painted_once_when_all_of_it_has_its_place(window, qapp, code):
    window.counter.change(marks="CFT9W/G23/827")
    settle(qapp)
    words = window.findChildren(Words)
    seen = Paints([*words, window.marks.parts.viewport()])
    window.counter.change(marks=code)
    settle(qapp)
    assert sum(seen.of[one] for one in words) > 10
    assert [type(one).__name__ for one, times in seen.of.items() if times > 1] == []
