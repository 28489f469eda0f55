"""What can be ticked, chosen or written into shows its edge on both grounds: WCAG 2.2, 1.4.11 asks for 3 : 1."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QCheckBox,
    QListWidget,
    QPlainTextEdit,
    QRadioButton,
    QScrollBar,
    QSpinBox,
    QSplitter,
    QTabBar,
    QTableWidget,
    QVBoxLayout,
    QWidget,
)

from counter.window.parts.style import CounterStyle
from counter.window.parts.theme import DARK, LIGHT, palette


def luminance(colour):
    """Relative luminance as WCAG 2.2 defines it."""
    parts = (colour.redF(), colour.greenF(), colour.blueF())
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def strongest(widget, ground, columns):
    """The strongest contrast with the ground along a line through the middle, from the left edge inwards."""
    image = widget.grab().toImage()
    middle = image.height() // 2
    return max(contrast(image.pixelColor(x, middle), ground) for x in range(columns))


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("kind", [QCheckBox, QRadioButton, QPlainTextEdit, QListWidget, QTableWidget, QSpinBox])
def test_the_edge_of_what_is_pressed_or_written_into_is_seen(qapp, theme, kind):
    before = qapp.style().objectName(), qapp.palette()
    qapp.setStyle(CounterStyle())
    qapp.setPalette(palette(theme))
    try:
        whole, one = QWidget(), kind()
        one.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the edge of what is not in use is the faint one
        QVBoxLayout(whole).addWidget(one)
        whole.resize(200, 100)
        whole.show()
        qapp.processEvents()
        assert strongest(one, QColor(theme.desk), 4) >= 3
    finally:
        whole.close()
        qapp.setStyle(before[0])
        qapp.setPalette(before[1])


def test_the_number_in_a_box_stands_inside_of_it(qapp, windows):
    window = windows("dark")
    window.fixture.more.setChecked(True)
    qapp.processEvents()
    boxes = [one for one in window.fixture.findChildren(QSpinBox) if one.isVisible()]
    assert boxes
    for box in boxes:
        assert box.rect().contains(box.lineEdit().geometry())


def test_the_style_that_all_wear_answers_for_few(window, qapp):
    """What it overrides is asked in Python for each widget there is, some hundred times a key."""
    assert (
        vars(CounterStyle).keys().isdisjoint({"pixelMetric", "drawControl", "drawComplexControl", "sizeFromContents"})
    )
    worn = {type(one.style()) for kind in (QTabBar, QScrollBar, QSplitter) for one in window.findChildren(kind)}
    assert worn
    assert CounterStyle not in worn
