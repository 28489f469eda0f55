"""One open question with the answers that can be pressed right there: yes, no, a use, or words that say nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import QBoxLayout, QGridLayout, QPushButton, QSizePolicy, QWidget

from counter.language import marked, tr
from counter.window.parts import early
from counter.window.parts.checked import show_checked
from counter.window.parts.sizes import high, wide
from counter.window.parts.theme import TARGET
from counter.window.parts.words import caption, tip

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QKeyEvent, QMouseEvent, QPaintEvent, QResizeEvent

    from counter.fit import Ask

PAD_PX = 10
MOST_ANSWERS, IN_A_ROW = 4, 2
LEAST_PX, MOST_LINES = 56, 2  # of an answer; of a question beside its answers
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
        self._heights: dict[int, int] = {}  # by width: one pass over the layouts asks a dozen times
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setMinimumHeight(TARGET)

    def show_words(self, question: str, why: str) -> None:
        """Show a question, its reason as the tooltip."""
        self.setAccessibleName(question)
        self.setAccessibleDescription(why)
        self.setToolTip(tip(why))
        if question == self.words:
            return
        self.words = question
        self._heights.clear()
        self.updateGeometry()
        self.update()

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        if width not in self._heights:
            room = QRect(0, 0, width - 2 * PAD_PX, 2000)
            words = self.fontMetrics().boundingRect(room, WRAPS, self.words)
            self._heights[width] = max(TARGET, words.height() + 10)
        return self._heights[width]

    def changeEvent(self, event: QEvent) -> None:
        self._heights.clear()
        super().changeEvent(event)

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
    """A question, and below it what can be answered with one press; the answer given stays pressed."""

    pressed = Signal(str)
    answered = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.ask: Ask | None = None
        self.given: Answer | None = None
        self.question = AskButton()
        self.question.clicked.connect(lambda: self.pressed.emit(self.ask.about if self.ask is not None else ""))
        self.buttons = [AnswerButton() for _ in range(MOST_ANSWERS)]
        self._answers: tuple[tuple[str, Answer], ...] = ()
        row = QGridLayout()
        row.setSpacing(6)
        for at, button in enumerate(self.buttons):
            button.setMinimumHeight(TARGET)
            button.setCheckable(True)
            button.toggled.connect(lambda on, i=at: self._press(i, on))
        row.setColumnStretch(IN_A_ROW, 1)
        self._answers_box, self._box, self._in_a_row = row, QBoxLayout(QBoxLayout.Direction.TopToBottom, self), 0
        self._put_in_rows(IN_A_ROW)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(4)
        self._box.addWidget(self.question, 1)
        self._box.addLayout(row)
        self.hide()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._arrange(event.size().width())
        super().resizeEvent(event)

    def _put_in_rows(self, in_a_row: int) -> None:
        if in_a_row != self._in_a_row:
            self._in_a_row = in_a_row
            for at, button in enumerate(self.buttons):
                self._answers_box.addWidget(button, at // in_a_row, at % in_a_row)

    def _arrange(self, width: int) -> None:
        """Let the answers stand beside the question where it has room for its words, else below it.

        Answers too long for two in a row stand one below the other, so that none is cut.
        """
        shown = [button.minimumWidth() for button in self.buttons[: len(self._answers)]]
        longest = sum(max(shown[column::IN_A_ROW], default=0) for column in range(IN_A_ROW))
        self._put_in_rows(IN_A_ROW if longest + self._answers_box.spacing() <= width else 1)
        beside = width - self._answers_box.sizeHint().width() - self._box.spacing()
        fits = beside > 0 and self.question.heightForWidth(beside) <= high(self.font(), MOST_LINES) + 10
        early.set_upright(self._box, not (fits and self._answers))

    @property
    def is_open(self) -> bool:
        """Whether it shows a question that is still to be answered."""
        return self.ask is not None and self.given is None and self.isEnabled()

    def asks_of(self, other: Ask) -> bool:
        """Whether it asks the same, whatever the answers would now lead to."""
        return self.ask is not None and self.ask.model_copy(update={"outcomes": other.outcomes}) == other

    def _press(self, at: int, on: bool) -> None:
        """Take an answer; one that was given already is neither given again nor taken back by a second press."""
        answer = self._answers[at][1]
        is_new = on and answer != self.given
        self.given = answer
        self._show_given()
        if is_new:
            self.answered.emit(answer)

    def _show_given(self) -> None:
        for button, (_, answer) in zip(self.buttons, self._answers, strict=False):
            show_checked(button, answer == self.given)

    def show_ask(self, ask: Ask | None) -> None:
        """Show a question to be answered, or nothing."""
        is_shown = self.is_open and ask is not None and self.asks_of(ask)
        self.ask, self.given = ask, None
        if is_shown:
            return
        self.setVisible(ask is not None)
        self.setEnabled(True)
        if ask is None:
            return
        self.question.show_words(ask.question, ask.why)
        self._answers = answers_of(ask)[:MOST_ANSWERS]
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(self._answers))
            if at < len(self._answers):
                button.setText(caption(self._answers[at][0]))
                button.setFixedWidth(max(LEAST_PX, wide(button.font(), self._answers[at][0]) + 2 * PAD_PX))
                button.setToolTip(tr(SAYS_NOTHING) if self._answers[at][1].kind == "explained" else "")
        self._show_given()
        self._arrange(self.width())
