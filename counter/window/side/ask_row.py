"""One open question with the answers that can be pressed right there: yes, no, a use, or words that say nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.parts.theme import TARGET
from counter.window.parts.words import caption, tip

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent

    from counter.fit import Ask

PAD_PX = 10
MOST_ANSWERS, IN_A_ROW = 4, 2
SHOWN = 9  # letters of a word on its button
WRAPS = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter) | int(Qt.TextFlag.TextWordWrap)
YES_NO_FIELDS = frozenset({"came_out", "dimmer", "emergency", "shunted"})
USES = (
    (marked("light to see by"), "lighting"),
    (marked("germicidal unit"), "germicidal"),
    (marked("blacklight"), "blacklight"),
)
SAYS_NOTHING = marked("Read: it says nothing of the lamp, as a maker's name. With Shift: never ask here again.")


class Answer(NamedTuple):
    """What a press says: `kind` is told, field, use, explained or broken; `about` what it answers."""

    kind: str
    about: str
    value: object


def answers_of(ask: Ask) -> tuple[tuple[str, Answer], ...]:
    """Return the answers that can be pressed, each with its words."""
    if ask.words:
        return _of_words(ask)
    if ask.key:
        return _yes_or_no("told", ask.key)
    if ask.about in YES_NO_FIELDS:
        return _yes_or_no("field", ask.about)
    if ask.about == "use":
        return tuple((tr(words), Answer("use", "use", value)) for words, value in USES)
    if ask.about == "broken":
        return ((tr("cleaned up"), Answer("broken", "broken", False)),)
    return ()


def _yes_or_no(kind: str, about: str) -> tuple[tuple[str, Answer], ...]:
    return (tr("yes"), Answer(kind, about, True)), (tr("no"), Answer(kind, about, False))


def _of_words(ask: Ask) -> tuple[tuple[str, Answer], ...]:
    """Return one press for each word, and before them one for all."""
    each = tuple(
        (tr("“{short}” says nothing").format(short=_short(word)), Answer("explained", ask.about, (word,)))
        for word in ask.words
    )
    every = ((tr("none of them says anything"), Answer("explained", ask.about, ask.words)),)
    return each if len(each) == 1 else (*every, *each)


def _short(word: str) -> str:
    return word if len(word) <= SHOWN else f"{word[: SHOWN - 1]}…"


class AskButton(QPushButton):
    """A question to the customer or about the lamp; a press leads to its field. Wraps, as its words are long."""

    def __init__(self) -> None:
        super().__init__()
        self.words = ""
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setMinimumHeight(TARGET)

    def show_words(self, question: str, why: str) -> None:
        """Show a question, its reason as the tooltip."""
        self.setAccessibleName(question)
        self.setAccessibleDescription(why)
        self.setToolTip(tip(why))
        self.words = question
        self.updateGeometry()
        self.update()

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        room = QRect(0, 0, width - 2 * PAD_PX, 2000)
        return max(TARGET, self.fontMetrics().boundingRect(room, WRAPS, self.words).height() + 10)

    def sizeHint(self) -> QSize:
        return QSize(200, self.heightForWidth(max(self.width(), 200)))

    def minimumSizeHint(self) -> QSize:
        return QSize(80, TARGET)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.ButtonText))
        painter.drawText(self.rect().adjusted(PAD_PX, 0, -PAD_PX, 0), WRAPS, self.words)
        painter.end()


class AnswerButton(QPushButton):
    """An answer to press, once: the second press of a double click, or a key held, would answer the next question."""

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.isAutoRepeat():
            event.accept()
        else:
            super().keyPressEvent(event)


class AskRow(QWidget):
    """A question, and below it what can be answered with one press."""

    pressed = Signal(str)
    answered = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.about = ""
        self.question = AskButton()
        self.question.clicked.connect(lambda: self.pressed.emit(self.about))
        self.buttons = [AnswerButton() for _ in range(MOST_ANSWERS)]
        self._answers: tuple[tuple[str, Answer], ...] = ()
        row = QGridLayout()
        row.setSpacing(6)
        for at, button in enumerate(self.buttons):
            button.setMinimumHeight(TARGET)
            button.clicked.connect(lambda _=False, i=at: self.answered.emit(self._answers[i][1]))
            row.addWidget(button, at // IN_A_ROW, at % IN_A_ROW)
        row.setColumnStretch(IN_A_ROW, 1)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addWidget(self.question)
        box.addLayout(row)
        self.hide()

    def show_ask(self, ask: Ask | None) -> None:
        """Show a question, or nothing."""
        self.setVisible(ask is not None)
        if ask is None:
            return
        self.about = ask.about
        self.question.show_words(ask.question, ask.why)
        self._answers = answers_of(ask)[:MOST_ANSWERS]
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(self._answers))
            if at < len(self._answers):
                button.setText(caption(self._answers[at][0]))
                button.setToolTip(tr(SAYS_NOTHING) if self._answers[at][1].kind == "explained" else "")
