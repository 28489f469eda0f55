"""Fit a card's outline on the glass to a bank card, once for each screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.measure import screens
from counter.window.parts.picture import Picture
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtCore import QSettings
    from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent

    from counter.window.parts.theme import Theme

CARD_MM = (85.60, 53.98)  # ISO/IEC 7810, ID-1
CORNER_MM = 3.18
ROOM_PX = 12
HOW = marked(
    "Hold a bank card flat on the glass, its left upper corner in that of the outline. Fit the right edge with the "
    "mouse or with the arrow keys; with Shift in larger steps. Look at it straight on."
)


class CardOutline(Picture):
    """A card's outline that grows and shrinks by arrow keys or by dragging its right edge."""

    changed = Signal(float)  # logical pixels a millimetre

    def __init__(self, theme: Theme, px_per_mm: float) -> None:
        super().__init__()
        self.theme, self.px_per_mm = theme, px_per_mm
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("Outline of a bank card; arrow keys change its size"))
        self.setMinimumSize(480, 320)

    def sizeHint(self) -> QSize:
        return QSize(620, 400)

    def card(self) -> QRectF:
        """Return the outline in this widget's pixels."""
        return QRectF(ROOM_PX, ROOM_PX, CARD_MM[0] * self.px_per_mm, CARD_MM[1] * self.px_per_mm)

    def set_size(self, px_per_mm: float) -> None:
        """Draw the card at another size, within what any screen can be."""
        ratio = self.devicePixelRatioF()
        self.px_per_mm = min(max(px_per_mm, screens.LEAST / ratio), screens.MOST / ratio)
        self.update()
        self.changed.emit(self.px_per_mm)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Right: 1, Qt.Key.Key_Up: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Down: -1}.get(
            Qt.Key(event.key()), 0
        )
        if not step:
            super().keyPressEvent(event)
            return
        pixels = 5.0 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 0.5
        self.set_size(self.px_per_mm + step * pixels / CARD_MM[0])

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if event.buttons() & Qt.MouseButton.LeftButton:
            self.set_size((event.position().x() - ROOM_PX) / CARD_MM[0])

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(self.theme.field))
        width = 3.0 if self.hasFocus() else 1.5
        painter.setPen(QPen(QColor(self.theme.accent), width))
        card, corner = self.card(), CORNER_MM * self.px_per_mm
        out = width / 2  # the line's inner edge is the card's edge
        painter.drawRoundedRect(card.adjusted(-out, -out, out, out), corner, corner)
        painter.end()


class CalibrateDialog(QDialog):
    """Asks for a card on the glass and keeps the size that fits."""

    calibrated = Signal()

    def __init__(self, theme: Theme, settings: QSettings, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("True size on this screen"))
        self.settings = settings
        screen = parent.screen()
        found = screens.kept(settings, screen) or screens.own_word(screen)
        self.outline = CardOutline(theme, screens.logical(min(max(found, screens.LEAST), screens.MOST), screen))
        self.said = Words(screens.said_of(settings, screen), wraps=True)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Save | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.keep)
        buttons.rejected.connect(self.reject)
        box = QVBoxLayout(self)
        box.addWidget(Words(tr(HOW), wraps=True))
        box.addWidget(self.outline, 1)
        box.addLayout(self._steps())
        box.addWidget(self.said)
        box.addWidget(buttons)
        self.outline.setFocus()

    def _steps(self) -> QHBoxLayout:
        line = QHBoxLayout()
        for words, step in ((tr("smaller"), -0.5), (tr("larger"), 0.5)):
            button = QPushButton(words)
            button.setAutoRepeat(True)
            button.setMinimumHeight(36)
            button.clicked.connect(
                lambda _=False, s=step: self.outline.set_size(self.outline.px_per_mm + s / CARD_MM[0])
            )
            line.addWidget(button)
        line.addStretch(1)
        return line

    def keep(self) -> None:
        """Keep the size for the screen that this stands on."""
        screen = self.screen()
        screens.keep(self.settings, screen, self.outline.px_per_mm * screen.devicePixelRatio())
        self.calibrated.emit()
        self.accept()
