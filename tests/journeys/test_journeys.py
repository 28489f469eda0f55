"""A clerk's sentences, end to end: the real window, real clicks and keys, the answer read from what it shows."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QDeadlineTimer, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel


class Clerk:
    """Hands, eyes and keyboard at the counter."""

    def __init__(self, window):
        self.window = window

    def sees(self, **looks):
        for look, value in looks.items():
            button = next(one for one in self.window.looks.rows[look].buttons if one.value == value)
            QTest.mouseClick(button, Qt.MouseButton.LeftButton)
        return self

    def types(self, field, text):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
        bound = QDeadlineTimer(5000)
        while not self.is_taken():
            assert not bound.hasExpired(), "what was typed was never taken"
            QApplication.processEvents()
        return self

    def is_taken(self):
        """Whether the pause that half-typed text gets is over, in every field."""
        return not any(timer.isActive() for timer in self.window.findChildren(QTimer) if timer.isSingleShot())

    def reads(self, code):
        return self.types(self.window.marks.field, code)

    def measures(self, **sizes):
        for look, text in sizes.items():
            self.types(self.window.looks.rows[look].field, text)
        return self

    def picks(self, combo, value):
        combo.setFocus()
        combo.setCurrentIndex(0)
        while combo.currentData() != value:
            before = combo.currentIndex()
            QTest.keyClick(combo, Qt.Key.Key_Down)
            assert combo.currentIndex() != before, f"{value} is not offered"
        return self

    def asks(self, holder=None, ballast=None, watts=None, use=None):
        fixture = self.window.fixture
        for combo, value in ((fixture.holder, holder), (fixture.ballast, ballast), (fixture.use, use)):
            if value:
                self.picks(combo, value)
        if watts:
            self.types(fixture.watts, watts)
        return self

    def presses(self, key, modifier=Qt.KeyboardModifier.NoModifier):
        QTest.keyClick(self.window.focusWidget() or self.window, key, modifier)
        QApplication.processEvents()
        return self

    @property
    def answer(self):
        bar = self.window.answer
        return bar.base.text(), bar.stamp.verdict if bar.stamp.isVisible() else None

    @property
    def told(self):
        """Everything that can be read in the window now."""
        return " ".join(label.text() for label in self.window.findChildren(QLabel) if label.isVisibleTo(self.window))

    @property
    def signals(self):
        return [caution.signal for caution in self.window.assessment.cautions]


@pytest.fixture
def clerk(window):
    return Clerk(window)


def test_clean_code_four_pin_quad_may_be_sold(clerk):
    clerk.sees(glass="white", legs="4", pins="4").reads("CFQ18W/G24q/841")
    assert clerk.answer == ("G24q-2", "ask first")
    clerk.asks(holder="G24q-2", ballast="electronic", watts="18, 26", use="lighting")
    clerk.window.fixture.go_to("emergency")
    for check in ("emergency", "dimmer"):
        QTest.keyClick(clerk.window.fixture.choices[check], Qt.Key.Key_N)
    assert clerk.window.assessment.verdict == "sell"
    assert clerk.answer == ("G24q-2", "sell")
    assert clerk.window.case.looks == {"glass": "white", "legs": "4", "pins": "4"}


def test_wrong_lamp_in_the_fixture_is_refused(clerk):
    clerk.reads("CFQ18W/G24q/841").sees(glass="white", legs="4").asks(holder="G24q-3", ballast="electronic")
    assert clerk.answer == ("G24q-2", "do not sell")
    assert "G24q-3" in clerk.told
    assert clerk.window.answer.chip.isVisible()


def test_clear_glass_two_pin_warns_of_uvc(clerk):
    clerk.sees(glass="clear", pins="2", legs="2")
    assert clerk.answer[1] == "ask first"
    assert clerk.signals[0] in ("WARNING", "DANGER")
    assert "UV-C" in clerk.told
    assert clerk.window.answer.chip.text() in ("WARNING", "DANGER")
    assert "UV-C" in clerk.window.answer.lamp.text()


def test_a_germicidal_lamp_for_light_is_refused(clerk):
    clerk.reads("GFT9W/G23").sees(glass="clear").asks(holder="G23", ballast="magnetic", use="lighting")
    assert clerk.answer == ("G23", "do not sell")
    assert clerk.window.answer.chip.text() == "DANGER"


def test_two_pin_lamp_on_electronic_ballast_is_refused(clerk):
    clerk.reads("CFQ18W/G24d/827").sees(legs="4", pins="2", glass="white").asks(holder="G24d-2", ballast="electronic")
    assert clerk.answer == ("G24d-2", "do not sell")
    assert "two-pin-on-electronic" in {caution.rule for caution in clerk.window.assessment.cautions}


def test_mains_lamp_in_a_ballast_fixture_is_refused(clerk):
    clerk.sees(legs="covered", pins="2").measures(pin_spacing_mm="24", watts="13").asks(ballast="magnetic")
    assert clerk.answer == ("GU24", "do not sell")


def test_no_code_measured_in_inches(clerk):
    clerk.sees(legs="4", pins="4", notch="small-left", glass="white").measures(length_mm='5 7/8"')
    assert clerk.window.case.looks["length_mm"] == 149.225
    assert clerk.window.answer.base.text().startswith("G24q-2")
    assert clerk.window.looks.rows["length_mm"].field.text() in ('5 7/8"', "149.225")


def test_a_slip_of_the_eye_is_survived(clerk):
    """Two pins seen where there are four: the marks speak against it, and one press puts it right."""
    clerk.sees(glass="white", legs="4", pins="2").reads("CFQ26W/G24q/841")
    assert clerk.window.marks.conflict.isVisible()
    assert clerk.answer[1] != "sell"
    QTest.mouseClick(clerk.window.marks.drop_look, Qt.MouseButton.LeftButton)
    assert clerk.window.answer.base.text() == "G24q-3"
    assert not clerk.window.marks.conflict.isVisible()


def test_the_next_customer_and_back_to_the_last(clerk):
    clerk.sees(glass="white", legs="4").reads("CFQ26W/G24q/841")
    before = clerk.window.case
    clerk.presses(Qt.Key.Key_F2)
    assert clerk.answer == ("", None)
    clerk.presses(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert clerk.window.case == before
    assert clerk.window.answer.base.text() == "G24q-3"
    assert clerk.window.marks.field.text() == "CFQ26W/G24q/841"


def test_a_broken_lamp_comes_first(clerk):
    clerk.reads("CFQ26W/G24q/841")
    clerk.presses(Qt.Key.Key_B, Qt.KeyboardModifier.ControlModifier)
    assert clerk.window.case.broken
    assert "broken" in {caution.rule for caution in clerk.window.assessment.cautions}
    assert "broken" in clerk.told.lower()
    clerk.presses(Qt.Key.Key_B, Qt.KeyboardModifier.ControlModifier)
    assert not clerk.window.case.broken


def test_two_of_a_family_side_by_side(clerk):
    clerk.reads("CFQ26W/G24q/841")
    compare = clerk.window.detail.compare
    at = next(i for i in range(compare.count()) if str(compare.itemData(i)).startswith("G24q-2/18"))
    clerk.picks(compare, compare.itemData(at))
    assert clerk.window.case.beside == "G24q-2/18/quad"
    assert clerk.window.detail.other_face.isVisible()
    assert "notch" in clerk.window.detail.face.marked


def test_all_by_the_keyboard_in_a_dozen_keys(clerk):
    alt = Qt.KeyboardModifier.AltModifier
    for letter, digit in (("C", "1"), ("G", "2"), ("P", "3"), ("N", "5")):
        clerk.presses(getattr(Qt.Key, f"Key_{letter}"), alt).presses(getattr(Qt.Key, f"Key_{digit}"))
    assert clerk.window.case.looks == {"glass": "white", "legs": "4", "pins": "4", "notch": "small-left"}
    assert clerk.window.answer.base.text().startswith("G24q-2")
