"""One thing that may go in instead: verdict, reason, and the cautions that go with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from counter.window.answer_bar import STAMP_WORDS, SignalChip
from counter.window.side.note_list import words_label

if TYPE_CHECKING:
    from counter.fit import Caution, Replacement

VERDICT_HEIGHT_PX = 24


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
        self.verdict = QLabel()
        self.verdict.setProperty("role", "verdict")
        self.verdict.setFixedHeight(VERDICT_HEIGHT_PX)
        self.title, self.reason = words_label(role="title"), words_label()
        self.hold = QPushButton("hold beside")
        self.hold.setProperty("flat", True)
        self.hold.setToolTip("Draw it beside the lamp in hand, differences marked")
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

    def show_replacement(self, one: Replacement, in_hand: str | None) -> None:
        """Show a replacement; the lamp in hand is not held beside itself."""
        self.lamp = one.lamp or ""
        self.verdict.setText(STAMP_WORDS[one.verdict])
        self.verdict.setProperty("firm", one.verdict == "sell")
        self.verdict.style().polish(self.verdict)
        self.title.setText(one.title)
        self.reason.setText(one.reason)
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
