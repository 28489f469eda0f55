"""In the fixture: holder, ballast, watts and what the light is for; unknown is a normal answer to each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from counter.window.three_way import ThreeWay

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.fit import Fixture
    from counter.notes import LabelNote

PAUSE_MS = 250
WATTS_HINT, NOT_KNOWN = "as 18, 26", "not known"
BALLASTS = (
    ("unknown", NOT_KNOWN),
    ("magnetic", "magnetic"),
    ("electronic", "electronic"),
    ("dimming", "dimming"),
    ("led-driver", "LED driver"),
    ("bypassed", "bypassed"),
    ("none", "none needed"),
)
BALLAST_TIPS = {
    "bypassed": "The ballast was taken out and the mains led to the holder, as some LED lamps want it",
    "none": "Made without a ballast, for lamps that carry their own, as mains twist-lock lamps do",
}
USES = (
    ("unknown", "not asked yet"),
    ("lighting", "light to see by"),
    ("germicidal", "germicidal unit"),
    ("blacklight", "blacklight"),
)
# Alt and the digit lead to each; by now the letters are used up.
YES_NO = (
    ("enclosed", "&4 closed", "A closed fixture, from which the heat cannot get away."),
    ("damp", "&5 damp", "A damp place."),
    ("cold", "&6 cold", "A cold place."),
    ("base_up", "&7 base up", "The lamp hangs with its base above the glass."),
    ("emergency", "&8 battery", "A battery pack keeps the lamp lit when the power fails."),
    ("dimmer", "&9 dimmer", "A dimmer on the wall."),
    ("shunted", "&0 shunted", "The two contacts of each holder are joined inside."),
)

FROM_LABEL = "from the label"


class FixturePane(QFrame):
    """Shows the fixture of a case; emits the fields that changed as a dict."""

    changed = Signal(dict)
    use_changed = Signal(str)
    label_typed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.holder, self.ballast, self.use = QComboBox(), QComboBox(), QComboBox()
        self.watts = QLineEdit()
        self.watts.setPlaceholderText(WATTS_HINT)
        self.count = QSpinBox()
        self.count.setRange(0, 12)
        self.count.setSpecialValueText(NOT_KNOWN)
        self.label = QLineEdit()
        self.label.setPlaceholderText("type or paste the ballast label")
        self.label.setMaxLength(4000)
        self.choices = {key: ThreeWay(meaning) for key, _, meaning in YES_NO}
        self.space = QLineEdit()
        self.space.setPlaceholderText("mm or in")
        self.tube = QLineEdit()
        self.tube.setPlaceholderText("mm or in")
        self.room = QLineEdit()
        self.room.setPlaceholderText("as 840")
        self.read = QLabel(wordWrap=True, textFormat=Qt.TextFormat.PlainText)
        self.read.setProperty("role", "quiet")
        self.read.setVisible(False)
        self.problem = QLabel(wordWrap=True)
        self.problem.setVisible(False)
        self.more = QPushButton("More about the fi&xture")
        self.more.setCheckable(True)
        self.more.setFlat(True)
        self._more_box = QWidget()
        self._more_box.setVisible(False)
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._waiting: dict[str, str] = {}
        self._said: tuple[str, ...] = ()  # the fields that were last sent
        self._bad: dict[str, str] = {}  # fields whose text could not be read, and why
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        title = QLabel("In the fixture")
        title.setProperty("role", "title")
        head = QHBoxLayout()
        head.addWidget(title)
        head.addStretch(1)
        head.addWidget(self.more)
        grid = QGridLayout()
        grid.setVerticalSpacing(4)
        rows: tuple[tuple[str, QWidget], ...] = (
            ("&Holder", self.holder),
            ("&Ballast", self.ballast),
            ("L&ists, W", self.watts),
            ("&Used for", self.use),
        )
        for i, (words, widget) in enumerate(rows):
            caption = QLabel(words)
            caption.setBuddy(widget)
            widget.setAccessibleName(words.replace("&", ""))
            grid.addWidget(caption, i // 2, i % 2 * 2)
            grid.addWidget(widget, i // 2, i % 2 * 2 + 1)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(3, 1)
        self._fill_more()
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 8, 8, 8)
        box.setSpacing(4)
        box.addLayout(head)
        box.addLayout(grid)
        box.addWidget(self._more_box)
        box.addWidget(self.problem)

    def _fill_more(self) -> None:
        grid = QGridLayout(self._more_box)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(2)
        fields: tuple[tuple[str, str, QWidget], ...] = (
            ("Lamps, &qty", "Lamps on this ballast", self.count),
            ("&1 Other lamps", "Colour of the other lamps in the room, as 840 or 4000 K", self.room),
            ("&2 Fits length", "Room for the lamp's length", self.space),
            ("&3 Fits tube", "Room for the tube's diameter, clips included", self.tube),
        )
        self.label.setAccessibleName("Ballast label")
        label = QLabel("Label sa&ys")
        label.setBuddy(self.label)
        grid.addWidget(label, 0, 0)
        grid.addWidget(self.label, 0, 1, 1, 3)
        grid.addWidget(self.read, 1, 1, 1, 3)  # below the label: what was understood from it
        for i, (words, meaning, widget) in enumerate(fields):
            widget.setAccessibleName(meaning)
            widget.setToolTip(meaning)
            caption = QLabel(words)
            caption.setBuddy(widget)
            caption.setToolTip(meaning)
            grid.addWidget(caption, 2 + i // 2, i % 2 * 2)
            grid.addWidget(widget, 2 + i // 2, i % 2 * 2 + 1)
        for i, (key, words, meaning) in enumerate(YES_NO):
            choice = self.choices[key]
            choice.setAccessibleName(meaning)
            caption = QLabel(words)
            caption.setBuddy(choice)
            caption.setToolTip(choice.toolTip())
            grid.addWidget(caption, 4 + i // 2, i % 2 * 2)
            grid.addWidget(choice, 4 + i // 2, i % 2 * 2 + 1)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(3, 1)

    def _connect(self) -> None:
        self.changed.connect(self._remember_said)
        self.label_typed.connect(lambda _: self._remember_said({"label": ""}))
        self.more.toggled.connect(self._more_box.setVisible)
        self.holder.activated.connect(lambda i: self.changed.emit({"holder": self.holder.itemData(i)}))
        self.ballast.activated.connect(lambda i: self.changed.emit({"ballast": self.ballast.itemData(i)}))
        self.use.activated.connect(lambda i: self.use_changed.emit(self.use.itemData(i)))
        self.count.valueChanged.connect(lambda n: self.changed.emit({"lamp_count": n or None}))
        for key, field in (("ballast_watts", self.watts), *self._lengths(), ("room_k", self.room)):
            field.textEdited.connect(lambda text, k=key: self._later(k, text))
        self.label.textEdited.connect(lambda text: self._later("label", text))
        self._pause.timeout.connect(self._say)
        for key, choice in self.choices.items():
            choice.chosen.connect(lambda answer, k=key: self.changed.emit({k: answer}))

    def _lengths(self) -> tuple[tuple[str, QLineEdit], ...]:
        return ("space_mm", self.space), ("tube_room_mm", self.tube)

    def _remember_said(self, fields: dict[str, object]) -> None:
        self._said = tuple(fields)

    def _later(self, key: str, text: str) -> None:
        self._waiting[key] = text
        self._pause.start()

    def _say(self) -> None:
        waiting, self._waiting = self._waiting, {}
        label = waiting.pop("label", None)
        if waiting:
            self.changed.emit(waiting)
        if label is not None:
            self.label_typed.emit(label)

    def build(self, catalogue: Catalogue) -> None:
        """Fill the choices from the catalogue."""
        self.holder.addItem("not known", None)
        families = dict.fromkeys(base.family for base in catalogue.bases)
        for family in families:
            members = [base.designation for base in catalogue.bases if base.family == family]
            if members != [family] and len(members) > 1:
                self.holder.addItem(f"{family}, key not known", family)
            for designation in members:
                self.holder.addItem(designation, designation)
        for value, words in BALLASTS:
            self.ballast.addItem(words, value)
            self.ballast.setItemData(self.ballast.count() - 1, BALLAST_TIPS.get(value), Qt.ItemDataRole.ToolTipRole)
        for value, words in USES:
            self.use.addItem(words, value)

    def show_fixture(self, fixture: Fixture, use: str) -> None:
        """Show the case's fixture; fields under the hand are left alone."""
        self.holder.setCurrentIndex(max(self.holder.findData(fixture.holder), 0))
        self.ballast.setCurrentIndex(max(self.ballast.findData(fixture.ballast), 0))
        self.use.setCurrentIndex(max(self.use.findData(use), 0))
        self.count.blockSignals(True)
        self.count.setValue(fixture.lamp_count or 0)
        self.count.blockSignals(False)
        self._fill("ballast_watts", self.watts, ", ".join(f"{watts:g}" for watts in fixture.ballast_watts))
        self._fill("label", self.label, fixture.label)
        for key, field in self._lengths():
            length_mm = getattr(fixture, key)
            self._fill(key, field, f"{length_mm:g}" if length_mm else "")
        self._fill("room_k", self.room, f"{fixture.room_k}" if fixture.room_k else "")
        self._show_said(fixture)

    def _show_said(self, fixture: Fixture) -> None:
        """Show in each field left open what the label says for it; what was entered wins."""
        from counter.fit import parse_label  # pydantic comes with it; the first paint must not wait for that

        said = parse_label(fixture.label).fields if fixture.label.strip() else {}
        listed = ", ".join(f"{one:g}" for one in said.get("ballast_watts", ()))
        self.watts.setPlaceholderText(f"{listed} {FROM_LABEL}" if listed else WATTS_HINT)
        self.watts.setToolTip(f"{listed}\N{THIN SPACE}W {FROM_LABEL}; what you type wins." if listed else "")
        ballast = dict(BALLASTS).get(said.get("ballast", ""), "")
        self.ballast.setItemText(0, f"{ballast}, label" if ballast else BALLASTS[0][1])
        self.ballast.setToolTip(f"{ballast}, {FROM_LABEL}; what you choose wins." if ballast else "")
        for key, choice in self.choices.items():
            choice.show_answer(getattr(fixture, key), said.get(key))

    def _fill(self, key: str, field: QLineEdit, text: str) -> None:
        if not field.hasFocus() and key not in self._bad and field.text() != text:
            field.setText(text)

    def show_label(self, note: LabelNote | None) -> None:
        """Show what was understood from the label; each part and its meaning as a tooltip."""
        self.read.setVisible(note is not None)
        if note is not None:
            self.read.setText("\n".join((note.says, *note.problems)))
            self.read.setToolTip("\n".join(f"{span.text}: {span.means}" for span in note.spans))

    def show_problem(self, words: str) -> None:
        """Say what of the last change could not be read, or that all could; what was typed stays."""
        for key in self._said:
            self._bad.pop(key, None)
            if words:
                self._bad[key] = words
        standing = next(iter(self._bad.values()), words)
        self.problem.setText(standing)
        self.problem.setVisible(bool(standing))

    def field_of(self, about: str) -> QWidget | None:
        """Return the field a question is about."""
        places: dict[str, QWidget] = {
            "holder": self.holder,
            "ballast": self.ballast,
            "ballast_watts": self.watts,
            "use": self.use,
            "lamp_count": self.count,
            **dict(self._lengths()),
            "room_k": self.room,
            "label": self.label,
            **self.choices,
        }
        return places.get(about)

    def go_to(self, about: str) -> None:
        """Put the keyboard on the field a question is about."""
        target = self.field_of(about)
        if target is None:
            return
        if target not in (self.holder, self.ballast, self.watts, self.use):
            self.more.setChecked(True)
        target.setFocus()
        if isinstance(target, QComboBox):
            target.showPopup()

    def clear(self) -> None:
        """Empty the fields for the next customer."""
        self._pause.stop()
        self._waiting.clear()
        self._bad.clear()
        self.more.setChecked(False)
        self.show_problem("")
        for field in (self.watts, self.label, self.space, self.tube, self.room):
            field.setText("")
