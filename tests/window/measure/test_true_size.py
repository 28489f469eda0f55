"""True size: a card on the glass is 85.60 mm at every scale factor; a screen that lies is told of."""

from __future__ import annotations

import subprocess
import sys

import pytest
from PySide6.QtCore import QPointF, QRectF, QSettings, QSize, QSizeF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtTest import QTest

from counter.window.measure import screens
from counter.window.measure.calibrate_dialog import CalibrateDialog, CardOutline
from counter.window.measure.glass_gauge import GlassGauge
from counter.window.parts.theme import LIGHT


class Screen:
    """What is asked of a screen."""

    def __init__(self, ratio=1.0, dpi=96.0, serial="1"):
        self.ratio, self.dpi, self.serial = ratio, dpi, serial

    def manufacturer(self):
        return "M"

    def model(self):
        return "X"

    def serialNumber(self):
        return self.serial

    def name(self):
        return "A-1"

    def size(self):
        return QSize(round(3840 / self.ratio), round(2160 / self.ratio))

    def devicePixelRatio(self):
        return self.ratio

    def physicalDotsPerInch(self):
        return self.dpi

    def physicalSize(self):
        return QSizeF(600, 340)


@pytest.fixture
def settings(tmp_path):
    return QSettings(str(tmp_path / "window.ini"), QSettings.Format.IniFormat)


def test_a_screen_is_not_calibrated_until_it_was(settings):
    assert screens.kept(settings, Screen()) is None
    assert "Not calibrated" in screens.said_of(settings, Screen())


def test_what_was_found_is_kept_for_this_screen_alone_whatever_its_scale_factor(settings):
    screens.keep(settings, Screen(1.0), 6.4)
    assert screens.kept(settings, Screen(1.0)) == pytest.approx(6.4)
    assert screens.kept(settings, Screen(1.5)) == pytest.approx(6.4)
    assert screens.kept(settings, Screen(serial="2")) is None


@pytest.mark.parametrize("nonsense", ["", "abc", "nan", "0", "-3", "1e9"])
def test_a_damaged_setting_is_no_calibration(settings, nonsense):
    settings.setValue(f"{screens.GROUP}/{screens.name_of(Screen())}", nonsense)
    assert screens.kept(settings, Screen()) is None


def test_a_screen_that_lies_about_its_size_is_said(settings):
    screens.keep(settings, Screen(), 6.4)
    assert "not used" in screens.said_of(settings, Screen(dpi=96))
    assert "not used" not in screens.said_of(settings, Screen(dpi=6.4 * 25.4))


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
def test_a_card_is_a_card_wide_to_half_a_pixel(qapp, ratio):
    """Painted with a calibrated 6.4 device pixels a millimetre and measured in the picture's own pixels."""
    device = 6.4
    outline = CardOutline(LIGHT, device / ratio)
    depths = ink_across(outline, ratio, outline.card().center().y())
    ground = QColor(LIGHT.field).lightness()
    inked = [x for x, depth in enumerate(depths) if depth > max(depths) / 4]
    full = abs(ground - QColor(LIGHT.accent).lightness())
    (left, ink), (right, other) = (_line(depths, near, full) for near in (inked[0], inked[-1]))
    inner = (right - other / 2) - (left + ink / 2)  # the lines' inner edges are the card's
    assert inner == pytest.approx(85.60 * device, abs=0.5)


def ink_across(widget, ratio, y):
    """Return how unlike the ground each pixel of a row is, painted on a screen of this scale factor."""
    widget.resize(700, 500)
    image = QImage(round(700 * ratio), round(500 * ratio), QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    painter = QPainter(image)
    widget.render(painter, QPointF(0, 0).toPoint())
    painter.end()
    row = round(y * ratio)
    ground = image.pixelColor(2, row).lightness()
    return [abs(ground - image.pixelColor(x, row).lightness()) for x in range(image.width())]


def _line(depths, near, full):
    """Return where a line has its middle and how wide it is, to parts of a pixel, by its ink."""
    around = range(near - 8, near + 9)
    ink = sum(depths[x] for x in around)
    return sum(x * depths[x] for x in around) / ink, ink / full


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
def test_pins_of_the_gauge_are_their_distance_apart(qapp, ratio):
    device = 6.4
    gauge = GlassGauge(LIGHT, device / ratio)
    gauge.resize(700, 500)
    gauge.show_pins([(-11.5, 0.0), (11.5, 0.0)])
    depths = ink_across(gauge, ratio, gauge.point(0, 1.6).y())  # over the circles: the crosses' upright arms alone
    inked = [x for x, depth in enumerate(depths) if depth > max(depths) / 4]
    assert _line(depths, inked[-1], 1)[0] - _line(depths, inked[0], 1)[0] == pytest.approx(23 * device, abs=0.5)


def test_arrow_keys_and_mouse_change_the_outline(qtbot):
    outline = CardOutline(LIGHT, 4.0)
    qtbot.addWidget(outline)
    QTest.keyClick(outline, Qt.Key.Key_Right)
    assert outline.card().width() == pytest.approx(4.0 * 85.6 + 0.5)
    QTest.keyClick(outline, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert outline.card().width() == pytest.approx(4.0 * 85.6 - 4.5)
    assert isinstance(outline.card(), QRectF)


def test_the_size_that_fits_is_kept_for_the_screen(qtbot, settings, window):
    dialog = CalibrateDialog(LIGHT, settings, window)
    dialog.outline.set_size(4.2)
    dialog.keep()
    screen = window.screen()
    assert screens.kept(settings, screen) == pytest.approx(4.2 * screen.devicePixelRatio())


def test_keys_take_and_move_a_pin(qtbot):
    gauge = GlassGauge(LIGHT, 4.0)
    qtbot.addWidget(gauge)
    gauge.show_pins([(-4.0, 0.0), (4.0, 0.0)])
    QTest.keyClick(gauge, Qt.Key.Key_Space)
    QTest.keyClick(gauge, Qt.Key.Key_Right)
    QTest.keyClick(gauge, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert gauge.pins == [(-4.0, 0.0), (4.1, 1.0)]


def test_a_window_that_is_awake_has_not_loaded_what_pictures_need(tmp_path):
    code = (
        "import sys; from pathlib import Path; from counter.app import make_application\n"
        "from counter.window.main_window import MainWindow\n"
        "app = make_application(['x']); window = MainWindow(Path(sys.argv[1])); window.show(); window.wake()\n"
        "print({'cv2', 'numpy', 'zxingcpp', 'counter.measure', 'counter.paper'} & set(sys.modules))\n"
    )
    said = subprocess.run([sys.executable, "-c", code, tmp_path], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "set()"
