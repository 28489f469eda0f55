"""One thing that may go in instead: verdict, reason, and the cautions that go with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QPainter, QPalette, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from counter.language import tr
from counter.window.answer_bar import STAMP_WORDS, SignalChip
from counter.window.parts.sizes import high, wide
from counter.window.parts.words import Words
from counter.window.side.note_list import words_label

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

    from counter.fit import Caution, Replacement


class VerdictTag(Words):
    """The verdict in a small frame: a firm one in the accent, one that asks first in dashes."""

    def __init__(self) -> None:
        super().__init__()
        font = QFont(self.font())
        font.setWeight(QFont.Weight.Bold)
        self.setFont(font)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.is_firm = False

    def show_verdict(self, verdict: str) -> None:
        """Show a verdict."""
        self.is_firm = verdict == "sell"
        self.setForegroundRole(QPalette.ColorRole.Link if self.is_firm else QPalette.ColorRole.WindowText)
        self.setText(tr(STAMP_WORDS[verdict]))

    def sizeHint(self) -> QSize:
        return QSize(wide(self.font(), self.text()) + 14, high(self.font()) + 6)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colour = self.palette().color(self.foregroundRole())
        painter.setPen(QPen(colour, 1, Qt.PenStyle.SolidLine if self.is_firm else Qt.PenStyle.DashLine))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 2, 2)
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())
        painter.end()


class CautionLine(QWidget):
    """A caution in one breath: signal word, then what to say or do."""

    def __init__(self) -> None:
        super().__init__()
        self.chip, self.words = SignalChip(), words_label()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 2, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.chip, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.words, 1)

    def show_caution(self, caution: Caution, reason: str) -> None:
        """Show what to do; what the reason has said already is not said twice."""
        says = "" if caution.says in reason else f"{caution.says} "
        self.chip.show_signal(caution.signal)
        self.words.setText(f"{says}→ {caution.do}")


class ReplacementCard(QFrame):
    """A replacement that is not refused."""

    beside = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.lamp = ""
        self.verdict = VerdictTag()
        self.title, self.reason = words_label(role="title"), words_label()
        self.hold = QPushButton(tr("compare"))
        self.hold.setProperty("flat", True)
        self.hold.setToolTip(tr("Draw it beside the lamp in hand, with what differs in colour"))
        self.hold.clicked.connect(lambda: self.beside.emit(self.lamp))
        self.lines: list[CautionLine] = []
        head = QHBoxLayout()
        head.addWidget(self.verdict)
        head.addStretch(1)
        head.addWidget(self.hold)
        self._box = QVBoxLayout(self)
        self._box.setContentsMargins(8, 6, 8, 6)
        self._box.setSpacing(3)
        self._box.addLayout(head)
        self._box.addWidget(self.title)
        self._box.addWidget(self.reason)

    def show_replacement(self, one: Replacement, in_hand: str | None, said: str = "") -> None:
        """Show a replacement, without what is said above it; the lamp in hand is not held beside itself."""
        self.lamp = one.lamp or ""
        self.verdict.show_verdict(one.verdict)
        self.title.setText(one.title)
        reason = one.reason.removeprefix(said).strip() if said and one.verdict == "ask first" else one.reason
        self.reason.setText(reason)
        self.reason.setVisible(bool(reason))
        self.hold.setVisible(bool(self.lamp) and self.lamp != in_hand)
        self._show_cautions(one)

    def _show_cautions(self, one: Replacement) -> None:
        while len(self.lines) < len(one.cautions):
            line = CautionLine()
            self.lines.append(line)
            self._box.addWidget(line)
        for i, line in enumerate(self.lines):
            line.setVisible(i < len(one.cautions))
            if i < len(one.cautions):
                line.show_caution(one.cautions[i], one.reason)
