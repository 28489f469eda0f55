"""The answer at a glance: which base, may it be sold, what is wrong; readable from two metres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.parts import early
from counter.window.parts.fitted import FittedWords
from counter.window.parts.panel import Panel
from counter.window.parts.sizes import ems, grown, high, kept_by_letters, wide
from counter.window.parts.theme import SIGNALS, SMALL_TARGET, TARGET
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent, QResizeEvent

    from counter.window.parts.theme import Theme

ONE_NAME, TWO_NAMES = 2.3, 1.5  # times the window's own letters: "G24q-2", "GX24q-3 or G24q-3?"
STAMP_WORDS = {"sell": marked("MAY BE SOLD"), "ask first": marked("ASK FIRST"), "do not sell": marked("DO NOT SELL")}
PLACE_NOT_SET = marked("Place not set: law not checked. Set it")
# A sale beside one of these signals is one after it was read.
AFTER = {
    "DANGER": marked("after reading the danger"),
    "WARNING": marked("after reading the warning"),
    "CAUTION": marked("after reading the caution"),
}
WIDEST_BASE = "GX24q-3?"
LAMP_LINES, LAMP_EMS, CAUTION_EMS, CAUTION_LINES = 2, 14, 36, 2
LARGEST_PX = 16_777_215
NEXT, NEXT_SHORT, SHORT_UNDER_EMS = marked("Next customer  F2"), marked("Next  F2"), 160


class Stamp(Words):
    """The verdict as a stamp: its weight, not its hue, says how firm it is."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.theme = theme
        self.verdict: str | None = None
        self.after = ""
        self.setAccessibleName(tr("No verdict yet"))
        policy = QSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        policy.setRetainSizeWhenHidden(True)  # so that nothing moves when a verdict comes
        self.setSizePolicy(policy)

    def sizeHint(self) -> QSize:
        return stamp_size(self.font())

    def show_verdict(self, verdict: str | None, signal: str | None = None) -> None:
        """Show a verdict, or nothing yet; a sale beside a warning says that the warning comes first."""
        self.verdict = verdict
        self.after = tr(AFTER.get(signal or "", "")) if verdict == "sell" else ""
        self.setAccessibleName(self._said())
        self.update()

    def _said(self) -> str:
        if self.verdict is None:
            return tr("No verdict yet")
        words = tr(STAMP_WORDS[self.verdict]).lower()
        if not self.after:
            return tr("Verdict: {verdict}").format(verdict=words)
        return tr("Verdict: {verdict}, {after}").format(verdict=words, after=self.after)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.verdict is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        solid = self.verdict == "do not sell"
        colour = QColor(self.theme.accent if self.verdict == "sell" else self.theme.ink)
        box = QRectF(self.rect()).adjusted(2, 2, -2, -2)
        self._frame(painter, box, colour, solid)
        painter.setFont(stamp_font(self.font()))
        painter.setPen(QColor(self.theme.paper) if solid else colour)
        after = high(small_font(self.font())) + 3 if self.after else 0
        painter.drawText(box.adjusted(0, 0, 0, -after), early.CENTRE, tr(STAMP_WORDS[self.verdict]))
        if self.after:
            painter.setFont(small_font(self.font()))
            painter.drawText(box.adjusted(0, box.height() - after - 3, 0, -3), early.CENTRE, self.after)
        painter.end()

    def _frame(self, painter: QPainter, box: QRectF, colour: QColor, solid: bool) -> None:
        pen = early.pen(colour.name(), 3)
        if self.verdict == "ask first":
            pen.setDashPattern([3, 2])
        path = QPainterPath()
        path.addRoundedRect(box, 4, 4)
        if solid:
            painter.fillPath(path, early.brush(colour.name()))
        painter.strokePath(path, pen)


def stamp_font(font: QFont) -> QFont:
    """Return the letters of the verdict itself."""
    return grown(font, 1.55, QFont.Weight.Bold)


def small_font(font: QFont) -> QFont:
    """Return the letters of what is said below it."""
    small = QFont(font)
    small.setPointSizeF(max(font.pointSizeF() * 0.75, 8.0))
    return small


@kept_by_letters
def stamp_size(font: QFont) -> QSize:
    """Return the room of a stamp, whichever its verdict."""
    large, small = stamp_font(font), small_font(font)
    across = max(
        *(wide(large, tr(words)) for words in STAMP_WORDS.values()),
        *(wide(small, tr(words)) for words in AFTER.values()),
    )
    return QSize(across + 24, high(large) + high(small) + 10)


class SignalChip(Words):
    """A signal word on its safety colour."""

    def __init__(self) -> None:
        super().__init__()
        self.signal = ""
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.Bold)
        self.setFont(bold)
        # At most its own size: a layout then centres it, where naming an alignment would cost the start 40 ms.
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Maximum)

    def sizeHint(self) -> QSize:
        return QSize(wide(self.font(), self.text()) + 16, high(self.font()) + 4)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def show_signal(self, signal: str | None) -> None:
        """Show DANGER, WARNING, CAUTION or NOTICE, or hide."""
        self.setVisible(signal is not None)
        if signal is not None and signal != self.signal:
            self.signal = signal
            self.setText(tr(signal))

    def paintEvent(self, event: QPaintEvent) -> None:
        ground, lettering = SIGNALS.get(self.signal, ("#000000", "#FFFFFF"))
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        path = QPainterPath()
        path.addRoundedRect(QRectF(self.rect()), 2, 2)
        painter.fillPath(path, early.brush(ground))
        painter.setPen(QColor(lettering))
        painter.drawText(self.rect(), early.CENTRE, self.text())
        painter.end()


class AnswerBar(Panel):
    """Base and lamp in large letters, the first caution, the stamp, and the way to the next customer.

    Everything keeps its place whatever the answer is: from two metres one looks where it stood before.
    """

    next_customer = Signal()
    place_wanted = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.base, self.lamp = Words(), FittedWords(LAMP_LINES, 0)
        self._lamp = self._stock = ""
        self.caution = FittedWords(CAUTION_LINES, ems(self.font(), CAUTION_EMS))
        self.chip = SignalChip()
        self.stamp = Stamp(theme)
        self.next = QPushButton(tr(NEXT))
        self.next.setAccessibleName(tr("Next customer"))
        self.next.setToolTip(tr("Start over. Ctrl+Z brings this customer back."))
        self.next.setMinimumHeight(TARGET)
        self.place = QPushButton(tr(PLACE_NOT_SET))
        self.place.setProperty("flat", True)
        self.place.setToolTip(tr("The shop's place decides which law is looked at (Settings, Shop in)"))
        self.menu = QToolButton()
        self.menu.setText("☰")
        self.menu.setToolTip(tr("Menu (F10)"))
        self.menu.setAccessibleName(tr("Menu"))
        self.menu.setFixedSize(max(40, ems(self.font(), 3)), max(TARGET, high(self.font()) + 8))
        self.menu.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.next.clicked.connect(self.next_customer)
        self._lay_out()
        self.place.clicked.connect(self.place_wanted)
        self.place.setVisible(False)
        self.show_answer("", tr("Nothing looked at yet"), None, None, "")

    def _lay_out(self) -> None:
        self.base.setFont(grown(self.font(), ONE_NAME, QFont.Weight.Bold))
        self.base.setMinimumWidth(wide(self.base.font(), WIDEST_BASE))
        self.lamp.setFixedWidth(ems(grown(self.font(), 1.3), LAMP_EMS))
        for button in (self.next, self.place):
            button.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        said = QVBoxLayout()
        said.setSpacing(2)
        warned = QHBoxLayout()
        warned.setSpacing(10)
        warned.addWidget(self.chip)
        warned.addWidget(self.caution, 1)
        said.addLayout(warned, 1)
        said.addWidget(self.place)
        self._said = QWidget()
        said.setContentsMargins(0, 0, 0, 0)
        self._said.setLayout(said)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(16, 4, 8, 4)
        self._grid.setHorizontalSpacing(14)
        self._grid.addWidget(self.base, 0, 0)
        self._grid.addWidget(self.lamp, 0, 1)
        self._grid.addWidget(self.stamp, 0, 3)
        self._grid.addWidget(self.menu, 0, 5)
        self._grid.setColumnStretch(2, 1)
        self._arranged: tuple[bool, bool] | None = None
        self._arrange(LARGEST_PX)

    def _widest(self) -> int:
        """Return the width that all of it takes in one row."""
        parts = (self.stamp, self.next, self.menu)
        fixed = sum(part.sizeHint().width() for part in parts) + self.lamp.width()
        fixed += max(wide(self.chip.font(), tr(signal)) for signal in SIGNALS) + 16  # also while none is shown
        return fixed + self.base.minimumWidth() + self.caution.sizeHint().width() + 6 * 14 + 30

    def _arrange(self, width: int) -> None:
        """Stand in one row, or where letters are large and the screen is not, in two."""
        is_compact = width < self._widest()
        is_above = not is_compact or width >= self._least() + self.next.sizeHint().width() + 14
        if (is_compact, is_above) == self._arranged:
            return
        self._arranged = is_compact, is_above
        self._grid.addWidget(self._said, *((1, 0, 1, 4) if is_compact else (0, 2, 1, 1)))
        self._grid.addWidget(self.next, *((0, 4, 1, 1) if is_above else (1, 4, 1, 2)))
        row = max(self.stamp.sizeHint().height(), high(grown(self.font(), 1.3), LAMP_LINES)) + 12
        below = high(self.font(), CAUTION_LINES) + SMALL_TARGET + 8
        one = max(row, high(self.font(), 2) + max(SMALL_TARGET, high(self.font()) + 8) + 12)
        self.setFixedHeight(row + below if is_compact else one)

    def resizeEvent(self, event: QResizeEvent) -> None:
        width = event.size().width()
        self.next.setText(tr(NEXT_SHORT if width < ems(self.font(), SHORT_UNDER_EMS) else NEXT))
        self._arrange(width)
        super().resizeEvent(event)

    def minimumSizeHint(self) -> QSize:
        """Return the width of two rows: of one, no window could be made narrow enough to want two."""
        return QSize(self._least(), self.height())

    def _least(self) -> int:
        parts = (self.stamp, self.menu)
        fixed = sum(part.sizeHint().width() for part in parts) + self.lamp.width()
        return fixed + self.base.minimumWidth() + 5 * 14 + 24

    def show_answer(
        self, base: str, lamp: str, verdict: str | None, signal: str | None, caution: str, ask: str = ""
    ) -> None:
        """Show the answer; empty words where there is none yet. Of caution and question the latter is never cut."""
        self.base.setText(base)
        size = ONE_NAME if len(base) <= len(WIDEST_BASE) else TWO_NAMES
        self.base.setFont(grown(self.font(), size, QFont.Weight.Bold))
        self.base.setVisible(bool(base))
        if lamp != self._lamp:  # what the shelf has is of the lamp before
            self._lamp, self._stock = lamp, ""
        self._show_lamp()
        self.stamp.show_verdict(verdict, signal)
        self.stamp.setVisible(verdict is not None)
        self.chip.show_signal(signal)
        self.caution.setText(caution, ask)

    def show_stock(self, words: str) -> None:
        """Say under the lamp's name what the shelf has of it."""
        self._stock = words
        self._show_lamp()

    def _show_lamp(self) -> None:
        self.lamp.setText("\n".join(filter(None, (self._lamp, self._stock))))

    def show_place(self, is_set: bool) -> None:
        """Say that the law is not checked while the shop's place is not set; the words are the way to set it."""
        self.place.setVisible(not is_set)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.stamp.theme = theme
        self.stamp.update()
