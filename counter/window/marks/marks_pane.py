"""The marks: type or paste what is printed; each part explained where it stands, readings, contradictions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QFont, QFontDatabase
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QMenu, QPushButton, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.marks.code_strip import CodeStrip
from counter.window.marks.letters_row import LettersRow, Offer
from counter.window.outlines.card_delegate import percent
from counter.window.parts.row_table import Row, RowTable
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.desk import Assessment, Conflict
    from counter.marks import Reading, Span
    from counter.marks.letters import Choice
    from counter.window.parts.theme import Theme

PAUSE_MS = 0  # keys that wait already are taken together; a longer pause would only be seen as slowness
MOST_READINGS = 3
LONGEST = 20_000
HINT = marked(
    "Type it as it stands, in any order: CFQ26W/G24q/841, FSQ-26-E-G24q=3, F32T8/841, TC-DEL, or 26W 4-pin 841.\n"
    "? stands for a character nobody can read, * for a rubbed stretch: CF?26W/G24q/8*"
)
SYSTEM_WORDS = {
    "nema": marked("generic code"),
    "ilcos": "ILCOS",
    "ansi-linear": marked("tube code"),
    "ansi-germicidal": marked("germicidal code"),
    "base": marked("base designation"),
    "colour": marked("colour code"),
    "barcode": marked("barcode"),
    "house": marked("house code"),
    "partial": marked("trade words"),
}


class MarksPane(QFrame):
    """Asks for the marks text to change, a look to be dropped, or a doubtful character to be settled."""

    typed = Signal(str)
    look_dropped = Signal(str)
    letters_taught = Signal(list, object)  # letters, what they mean in this shop
    letters_forgotten = Signal(str)

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("what is printed, like CFQ26W/G24q/841"))
        self.field.setClearButtonEnabled(True)
        self.field.setMaxLength(LONGEST)
        self.field.setAccessibleName(tr("Marks on the lamp"))
        self.field.setToolTip(tr("Ctrl+M or Alt+K. ? for a character nobody can read, * for a stretch."))
        self.strip = CodeStrip(theme)
        self.strip.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.letters = LettersRow()
        self.parts = RowTable(theme, mono=True, bold_middle=False)
        self.parts.setAccessibleName(tr("Parts of the marks"))
        self.problems, self.sold = Words(wraps=True), Words(wraps=True)
        self.readings = [QPushButton() for _ in range(MOST_READINGS)]
        self.hint = Words(tr(HINT), wraps=True)
        self.hint.set_role("quiet")
        self.conflict = QFrame()
        self.conflict_words = Words(wraps=True)
        self.drop_look, self.drop_marks = QPushButton(), QPushButton(tr("Misread: remo&ve the marks"))
        self._conflict_look = ""
        self._shown: tuple[object, ...] = ()
        self._spans: tuple[str, tuple[object, ...]] = ("", ())
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(lambda: self.typed.emit(self.field.text()))
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        title = Words(tr("Mar&ks"))
        title.setBuddy(self.field)
        title.set_role("title")
        mono = QFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
        mono.setPointSizeF(self.font().pointSizeF() * 1.2)
        self.field.setFont(mono)
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 8, 8, 8)
        box.setSpacing(4)
        box.addWidget(title)
        box.addWidget(self.field)
        self.area = ScrollColumn(tr("What the marks say"), spacing=4)
        for widget in (self.hint, self.strip, self.sold, self.problems, self.letters, self._make_conflict()):
            self.area.column.addWidget(widget)
        for button in self.readings:
            button.setVisible(False)
            self.area.column.addWidget(button)
        self.area.column.addWidget(self.parts)
        self.area.column.addStretch(1)
        box.addWidget(self.area, 1)
        for widget in (self.strip, self.sold):
            widget.setVisible(False)

    def _make_conflict(self) -> QWidget:
        self.conflict.setVisible(False)
        row = QHBoxLayout()
        row.addWidget(self.drop_look)
        row.addWidget(self.drop_marks)
        box = QVBoxLayout(self.conflict)
        box.setContentsMargins(0, 2, 0, 2)
        box.addWidget(self.conflict_words)
        box.addLayout(row)
        self.conflict_words.set_role("title")
        return self.conflict

    def _connect(self) -> None:
        self.field.textEdited.connect(lambda _: self._pause.start())
        self.field.returnPressed.connect(self._say_now)
        self.strip.pressed.connect(self._press_part)
        self.letters.taught.connect(self.letters_taught)
        self.letters.forgotten.connect(self.letters_forgotten)
        self.drop_look.clicked.connect(lambda: self.look_dropped.emit(self._conflict_look))
        self.drop_marks.clicked.connect(lambda: self._retype(""))
        for button in self.readings:
            button.clicked.connect(lambda _=False, b=button: self._retype(str(b.property("code"))))

    def _say_now(self) -> None:
        self._pause.stop()
        self.typed.emit(self.field.text())

    def _retype(self, text: str) -> None:
        self.field.setText(text)
        self._say_now()

    def show_marks(self, text: str, found: Assessment, choices: tuple[Choice, ...] = (), *, can_undo: bool) -> None:
        """Show what the marks say; the field is only touched when the text came from elsewhere.

        `choices` are what a maker's own letters can be told to mean; `can_undo`, whether the last telling can be
        taken back.
        """
        if self.field.text() != text and not self._pause.isActive():
            self.field.setText(text)
        shown = (text, found.readings, found.conflicts, found.problems, found.letters, found.sold, choices, can_undo)
        if self._shown == shown:
            return
        if self._shown and self._shown[0] != text:
            self.letters.say_kept("")
        self._shown = shown
        self.hint.setVisible(not text.strip())
        best = found.readings[0] if found.readings else None
        spans = best.spans if best is not None else ()
        self.strip.show_reading(text if best is not None and len(text) <= 60 else "", spans)
        offers = _offers(best) if best is not None and choices else ()
        self.letters.show_letters(offers, choices, found.letters, can_undo=can_undo)
        self.parts.show_rows(_part_rows(best) if best is not None else ())
        self.parts.setVisible(bool(spans))
        self._show_readings(found.readings)
        self._show_conflict(found.conflicts)
        self._say(self.sold, "\n".join(one.says for one in found.sold[:2]))
        self._say(self.problems, "\n".join(found.problems[:3]))

    def _say(self, where: Words, words: str) -> None:
        where.setText(words)
        where.setVisible(bool(words))

    def _show_readings(self, readings: tuple[Reading, ...]) -> None:
        listed = readings if len(readings) > 1 or (readings and readings[0].assumptions) else ()
        for i, button in enumerate(self.readings):
            button.setVisible(i < len(listed))
            if i < len(listed):
                reading = listed[i]
                system = tr(SYSTEM_WORDS.get(reading.system, reading.system))
                button.setText(f"{reading.canonical}   {percent(reading.probability)}   {system}")
                button.setToolTip("\n".join(reading.assumptions) or tr("exactly as typed"))
                button.setProperty("code", reading.canonical)

    def _show_conflict(self, conflicts: tuple[Conflict, ...]) -> None:
        self.conflict.setVisible(bool(conflicts))
        if conflicts:
            first = conflicts[0]
            self._conflict_look = first.look
            self.conflict_words.setText(first.text)
            self.drop_look.setText(tr("I l&ooked wrong"))

    def _press_part(self, index: int) -> None:
        """Offer what a doubtful part can be, or what a maker's own letters can mean."""
        spans = self.strip.spans
        if index < len(spans) and not spans[index].choices and self.letters.open_for(spans[index].text):
            return
        self._offer_characters(index)

    def _offer_characters(self, index: int) -> None:
        spans = self.strip.spans
        if index >= len(spans) or not spans[index].choices:
            return
        span = spans[index]
        menu = QMenu(self)
        for choice in span.choices:
            action = menu.addAction(choice)
            action.setData(self.strip.code[: span.start] + choice + self.strip.code[span.end :])
        menu.triggered.connect(lambda action: self._retype(str(action.data())))
        menu.popup(self.strip.mapToGlobal(self.strip.rect().bottomLeft()))

    def clear(self) -> None:
        """Empty the field for the next customer."""
        self._pause.stop()
        self.field.setText("")  # not clear(): the field could undo that, and bring back a code without its case

    def take_focus(self) -> None:
        """Put the keyboard into the field."""
        self.field.setFocus()
        self.field.selectAll()

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.strip.theme = theme
        self.strip.update()
        self.parts.set_theme(theme)


def _offers(reading: Reading) -> tuple[Offer, ...]:
    """Return the letters of a reading that this shop can give, or gave, a meaning."""
    found = {span.text: span for span in reading.spans if span.part in ("maker", "letters")}
    return tuple(Offer(text, span.means if span.part == "letters" else "") for text, span in found.items())


def _part_rows(reading: Reading) -> tuple[Row, ...]:
    return tuple(Row(span.text, _meaning(span)) for span in reading.spans)


def _meaning(span: Span) -> str:
    if not span.assumed:
        return span.means
    return tr("{meaning} (taken as {assumed})").format(meaning=span.means, assumed=span.assumed)
