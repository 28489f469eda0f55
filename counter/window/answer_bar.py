"""The answer at a glance: which base, may it be sold, what is wrong; readable from two metres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Signal
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from counter.window.parts import early
from counter.window.parts.theme import SIGNALS

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

    from counter.window.parts.theme import Theme

READ_FIRST = ("DANGER", "WARNING", "CAUTION")  # a sale beside one of them is one after it was read
AFTER_PX = 16  # the height of the small line in the stamp
ONE_NAME, TWO_NAMES = 2.3, 1.5  # times the window's own size: "G24q-2", "GX24q-3 or G24q-3?"
ONE_NAME_LETTERS = 8
STAMP_WORDS = {"sell": "MAY BE SOLD", "ask first": "ASK FIRST", "do not sell": "DO NOT SELL"}


PLACE_NOT_SET = "Place not set: law not checked. <a href='place'>Set it</a> (menu, Shop's place)"


class Stamp(QWidget):
    """The verdict as a stamp: its weight, not its hue, says how firm it is."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.verdict: str | None = None
        self.after = ""
        self.setFixedSize(190, 48)
        self.setAccessibleName("Verdict")

    def show_verdict(self, verdict: str | None, signal: str | None = None) -> None:
        """Show a verdict, or nothing yet; a sale beside a warning says that the warning comes first."""
        self.verdict = verdict
        is_warned = verdict == "sell" and signal in READ_FIRST
        self.after = f"after reading the {signal.lower()}" if signal is not None and is_warned else ""
        self.setAccessibleDescription(f"{verdict or 'no verdict yet'} {self.after}".strip())
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.verdict is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        solid = self.verdict == "do not sell"
        colour = QColor(self.theme.accent if self.verdict == "sell" else self.theme.ink)
        pen = early.pen(colour.name(), 3)
        if self.verdict == "ask first":
            pen.setDashPattern([3, 2])
        box = QRectF(self.rect()).adjusted(3, 3, -3, -3)
        path = QPainterPath()
        path.addRoundedRect(box, 4, 4)
        if solid:
            painter.fillPath(path, early.brush(colour.name()))
        painter.strokePath(path, pen)
        font = QFont(self.font())
        font.setPointSizeF(self.font().pointSizeF() * 1.55)
        font.setWeight(QFont.Weight.Bold)
        painter.setFont(font)
        painter.setPen(QColor(self.theme.paper) if solid else colour)
        if self.after:
            painter.drawText(box.adjusted(0, 2, 0, -AFTER_PX), early.CENTRE, STAMP_WORDS[self.verdict])
            painter.setFont(self.font())
            painter.drawText(box.adjusted(0, box.height() - AFTER_PX - 3, 0, -3), early.CENTRE, self.after)
        else:
            painter.drawText(box, early.CENTRE, STAMP_WORDS[self.verdict])
        painter.end()


class SignalChip(QLabel):
    """A signal word on its safety colour."""

    def __init__(self) -> None:
        super().__init__()
        # At most its own size: a layout then centres it, where naming an alignment would cost the start 40 ms.
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Maximum)

    def show_signal(self, signal: str | None) -> None:
        """Show DANGER, WARNING, CAUTION or NOTICE, or hide."""
        self.setVisible(signal is not None)
        if signal is not None and signal != self.text():
            ground, lettering = SIGNALS[signal]
            self.setText(signal)
            self.setStyleSheet(
                f"background:{ground}; color:{lettering}; font-weight:700; padding:2px 8px; border-radius:2px;"
            )


class AnswerBar(QFrame):
    """Base and lamp in large letters, the stamp, the first caution, and the way to the next customer."""

    next_customer = Signal()
    place_wanted = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.base, self.lamp, self.caution = QLabel(), QLabel(), QLabel()
        self.chip = SignalChip()
        self.stamp = Stamp(theme)
        self.next = QPushButton("Next customer  F2")
        self.next.setToolTip("Start over. Ctrl+Z brings this customer back.")
        self.place = QLabel()
        self.menu = QToolButton()
        self.menu.setText("☰")
        self.menu.setToolTip("Units, light or dark, the shop's place, training (F10)")
        self.menu.setAccessibleName("Menu")
        self.menu.setFixedSize(40, 36)
        self.menu.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.next.clicked.connect(self.next_customer)
        self._lay_out()
        self.place.linkActivated.connect(lambda _: self.place_wanted.emit())
        self.place.setVisible(False)
        self.show_answer("", "Nothing looked at yet", None, None, "")

    def _lay_out(self) -> None:
        big = QFont(self.font())
        big.setPointSizeF(self.font().pointSizeF() * ONE_NAME)
        big.setWeight(QFont.Weight.Bold)
        self.base.setFont(big)
        middle = QFont(self.font())
        middle.setPointSizeF(self.font().pointSizeF() * 1.3)
        self.lamp.setFont(middle)
        self.caution.setFont(middle)
        self.caution.setWordWrap(True)
        for label in (self.caution, self.place):
            label.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.next.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        words = QVBoxLayout()
        words.setSpacing(0)
        warned = QHBoxLayout()
        warned.setSpacing(10)
        warned.addWidget(self.chip)
        warned.addWidget(self.caution, 1)
        words.addLayout(warned)
        words.addWidget(self.place)
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 6, 8, 6)
        row.setSpacing(16)
        row.addWidget(self.base)
        row.addWidget(self.lamp)
        row.addWidget(self.stamp)
        row.addLayout(words, 1)
        row.addWidget(self.next)
        row.addWidget(self.menu)
        self.setFixedHeight(72)

    def show_answer(self, base: str, lamp: str, verdict: str | None, signal: str | None, caution: str) -> None:
        """Show the answer; empty words where there is none yet."""
        self.base.setText(base)
        font = self.base.font()
        font.setPointSizeF(self.font().pointSizeF() * (ONE_NAME if len(base) <= ONE_NAME_LETTERS else TWO_NAMES))
        self.base.setFont(font)
        self.base.setVisible(bool(base))
        self.lamp.setText(lamp)
        self.stamp.show_verdict(verdict, signal)
        self.stamp.setVisible(verdict is not None)
        self.chip.show_signal(signal)
        self.caution.setText(caution)
        self.caution.setVisible(bool(caution))

    def show_place(self, is_set: bool) -> None:
        """Say that the law is not checked while the shop's place is not set, with the way to set it."""
        self.place.setText("" if is_set else PLACE_NOT_SET)
        self.place.setVisible(not is_set)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.stamp.theme = theme
        self.stamp.update()
