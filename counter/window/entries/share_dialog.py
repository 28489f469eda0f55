"""Another shop's layer, held against one's own: what is new, and where both differ, whose counts."""

from __future__ import annotations

import json
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QCheckBox, QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter import entries
from counter.language import figure, tr, trn
from counter.window.entries.leaves import column
from counter.window.parts.scroll_column import ScrollColumn
from counter.window.parts.sizes import be_large, ems
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.shop import Meeting, Met

MOST_SHOWN = 400  # letters of one entry


class ShareDialog(QDialog):
    """Says which of our entries are to go on counting; whatever is chosen, nothing is lost."""

    taken = Signal(list)  # keys of meetings where ours count

    def __init__(self, met: Met, name: str, catalogue: Catalogue, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("From another shop: {file}").format(file=name))
        self.met, self.catalogue = met, catalogue
        self.ours: dict[tuple[str, ...], QCheckBox] = {}
        self.area = ScrollColumn(tr("Where both differ"), spacing=10)
        box = QVBoxLayout(self)
        self.said = Words(self._summary(), wraps=True)
        box.addWidget(self.said)
        box.addWidget(self.area, 1)
        for meeting in met.meetings:
            self.area.column.addWidget(self._meeting(meeting))
        self.area.column.addStretch(1)
        box.addLayout(self._foot())
        self.take.setDefault(True)
        be_large(self, 110, 34)

    def _summary(self) -> str:
        met = self.met
        lines = [
            trn("{count} entry is new here.", "{count} entries are new here.", len(met.new)).format(
                count=len(met.new)
            ),
            tr("{count} were known already.").format(count=met.known),
        ]
        if met.meetings:
            lines.append(tr("Where both differ, choose whose counts; the other stays in the store."))
        return " ".join(lines)

    def _meeting(self, meeting: Meeting) -> QWidget:
        inside = QWidget()
        box = column(inside, 3)
        box.addWidget(Words(self._about(meeting), "title", wraps=True))
        group = QButtonGroup(inside)
        ours, theirs = meeting.ours, meeting.theirs
        sides = ((tr("ours"), said_of(ours, theirs), True), (tr("theirs"), said_of(theirs, ours), False))
        for words, said, is_ours in sides:
            line = QHBoxLayout()
            choice = QCheckBox(words)  # one of two by its group; Fusion's round ones cannot be seen on dark ground
            choice.setAccessibleName(f"{self._about(meeting)}: {words}")
            choice.setMinimumWidth(ems(self.font(), 14))
            choice.setChecked(meeting.later_is_ours == is_ours)
            group.addButton(choice)
            line.addWidget(choice, 0, Qt.AlignmentFlag.AlignTop)
            line.addWidget(Words(said, wraps=True), 1)
            box.addLayout(line)
            if is_ours:
                self.ours[meeting.key] = choice
        return inside

    def _about(self, meeting: Meeting) -> str:
        """Return what a meeting is about."""
        return entries.thing_words(meeting.section, meeting.about, self.catalogue)

    def _foot(self) -> QHBoxLayout:
        foot = QHBoxLayout()
        self.all_ours, self.all_theirs = QPushButton(tr("Ours everywhere")), QPushButton(tr("Theirs everywhere"))
        self.all_ours.clicked.connect(partial(self._choose, ours=True))
        self.all_theirs.clicked.connect(partial(self._choose, ours=False))
        for button in (self.all_ours, self.all_theirs):
            button.setEnabled(bool(self.ours))
            foot.addWidget(button)
        foot.addStretch(1)
        self.take = QPushButton(tr("Take it in"))
        self.take.setEnabled(bool(self.met.new))
        self.take.clicked.connect(self._take)
        close = QPushButton(tr("Take nothing in"))
        close.clicked.connect(self.reject)
        foot.addWidget(self.take)
        foot.addWidget(close)
        return foot

    def _choose(self, _: bool = False, *, ours: bool) -> None:
        for meeting in self.met.meetings:
            button = self.ours[meeting.key]
            for one in button.group().buttons():
                one.setChecked((one is button) == ours)

    def _take(self) -> None:
        self.take.setEnabled(False)
        self.taken.emit([key for key, button in self.ours.items() if button.isChecked()])


def said_of(entry: dict[str, Any], other: dict[str, Any]) -> str:
    """Return what one side says otherwise than the other, by whom, when, how, and how far readings spread."""
    added = entry.get("added")
    by = added if isinstance(added, dict) else entry
    spread = entry.get("plus_minus")
    told = (
        str(by.get("who") or tr("nobody named")),
        str(by.get("on") or tr("day not known")),
        str(entry.get("how") or ""),
        tr("spread ± {spread}").format(spread=figure(spread)) if isinstance(spread, (int, float)) else "",
    )
    return "\n".join((*_differing(entry, other), ", ".join(filter(None, told))))


def _differing(entry: dict[str, Any], other: dict[str, Any]) -> list[str]:
    if "part" in entry:
        return [_short(entry["value"])]
    names = [name for name in entry if name != "added" and entry[name] != other.get(name)]
    return [f"{entries.label_of(name)}: {_short(entry[name])}" for name in names]


def _short(value: Any) -> str:
    """Return a value in words, without where it comes from; what is more than one is written as the file has it."""
    plain = value["value"] if isinstance(value, dict) and "value" in value else value
    if isinstance(plain, (int, float)) and not isinstance(plain, bool):
        return figure(plain)
    words = plain if isinstance(plain, str) else json.dumps(plain, ensure_ascii=False)
    return words if len(words) <= MOST_SHOWN else f"{words[:MOST_SHOWN]} …"
