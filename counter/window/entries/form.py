"""A form from the fields of a model: groups within groups, lists of rows, and values with where they come from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPushButton, QWidget

from counter.language import tr
from counter.window.entries.leaves import ChoiceRow, FieldRow, ManyRow, TextRow, YesRow, column
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.entries import Fault, Field

FROM = ("source", "confidence", "note")  # where a value comes from, below the value itself
MEASURED = {"source": "shop", "confidence": "confirmed"}
GOES_WITH = {  # how sure a value of these sources can be, the likeliest first; of all others, that it was read
    "shop": ("confirmed",),
    "practice": ("practice",),
    "memory": ("memory-medium", "memory-low", "memory-high"),
    "inferred": ("memory-medium", "memory-low", "memory-high"),
}
READ = ("published", "reproduced")
LEAVES = {"text": TextRow, "number": TextRow, "date": TextRow, "choice": ChoiceRow, "many": ManyRow, "yes": YesRow}


def row_for(field: Field, depth: int = 0) -> FieldRow:
    """Return the row of a field, by its kind."""
    if field.kind == "list":
        return ListRow(field, depth)
    if field.kind == "group":
        is_one = field.is_sourced and any(one.name == "value" for one in field.inner)
        return ValueRow(field, depth) if is_one else GroupRow(field, depth)
    return LEAVES[field.kind](field, depth)


class GroupRow(FieldRow):
    """Fields under one name; a group that need not be there is switched on first."""

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__(field, depth)
        self.inside = QWidget()
        box = column(self.inside)
        sourced = [one for one in field.inner if one.name in FROM]
        self.inner = {one.name: row_for(one, depth + 1) for one in (*_without(field.inner, sourced), *sourced)}
        for row in self.inner.values():
            row.changed.connect(self.changed)
            box.addWidget(row)
        self.switch = QCheckBox(tr("known"))
        self.switch.setAccessibleName(tr("{field} is known").format(field=field.label))
        self.switch.toggled.connect(self._switch)
        self.place(self.switch)
        self.grid.addWidget(self.inside, 2, 0, 1, 3)
        self.switch.setVisible(not field.is_needed)
        self.inside.setVisible(field.is_needed)
        if field.is_sourced:
            self._fill_inner(MEASURED)

    def _switch(self, on: bool) -> None:
        self.inside.setVisible(on)
        self.changed.emit()

    def is_on(self) -> bool:
        """Whether the group is there."""
        return self.field.is_needed or self.switch.isChecked()

    def value(self) -> Any:
        if not self.is_on():
            return None
        found = {name: row.value() for name, row in self.inner.items()}
        return {name: one for name, one in found.items() if one is not None}

    def fill(self, value: Any) -> None:
        known = value if isinstance(value, dict) else {}
        self.switch.setChecked(bool(known))
        self._fill_inner(known or (MEASURED if self.field.is_sourced else {}))

    def _fill_inner(self, known: dict[str, Any]) -> None:
        for name, row in self.inner.items():
            row.fill(known.get(name))

    def row_at(self, path: tuple[str | int, ...]) -> FieldRow:
        row = self.inner.get(str(path[0])) if path else None
        return row.row_at(path[1:]) if row is not None and self.is_on() else self

    def rows(self) -> list[FieldRow]:
        return [self, *(inner for row in self.inner.values() for inner in row.rows())]


def _without(fields: Iterable[Field], others: list[Field]) -> list[Field]:
    return [one for one in fields if one not in others]


class ValueRow(GroupRow):
    """One value in its line; where it comes from stands below once there is one."""

    def __init__(self, field: Field, depth: int) -> None:
        FieldRow.__init__(self, field, depth)
        self.inner = {one.name: row_for(one._replace(label=f"{field.label}, {one.label}"), 0) for one in field.inner}
        top, self.below, source, note = QWidget(), QWidget(), QWidget(), QWidget()
        self._line(top, [name for name in self.inner if name not in FROM])
        self._line(source, ["source", "confidence"])
        self._line(note, ["note"])
        box = column(self.below, 2)
        box.addWidget(source)
        box.addWidget(note)
        for row in self.inner.values():
            row.changed.connect(self._changed)
        self.place(top)
        self.grid.addWidget(self.below, 2, 1, 1, 2)
        self._filled: Any = None  # the value that was there before, until another is typed, and its source
        self._source: Any = None
        self._is_filling = False
        self._fill_inner(MEASURED)
        self.below.setVisible(field.is_needed)

    def _line(self, inside: QWidget, names: list[str]) -> None:
        line = QHBoxLayout(inside)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(8)
        for name in names:
            row = self.inner[name]
            plain = next(one.label for one in self.field.inner if one.name == name)
            row.name.setVisible(False)
            row.grid.setHorizontalSpacing(6 if row.field.unit else 0)
            if name != "value":
                line.addWidget(Words(plain, "quiet"))
            line.addWidget(row, 1)

    def _changed(self) -> None:
        if self._is_filling:
            return
        self._is_filling = True
        self._own_the_value()
        self._as_sure_as_its_source()
        self._is_filling = False
        self.below.setVisible(self.is_on())
        self.changed.emit()

    def _own_the_value(self) -> None:
        """A value typed over another's is the shop's: a standard did not say it."""
        value = self.inner["value"].value()
        if value == self._filled:
            return
        if self._filled is not None and self.inner["source"].value() == self._source:
            for name, said in {**MEASURED, "note": None}.items():
                self.inner[name].fill(said)
        self._filled = None

    def _as_sure_as_its_source(self) -> None:
        can_be = GOES_WITH.get(str(self.inner["source"].value()), READ)
        if self.inner["confidence"].value() not in can_be:
            self.inner["confidence"].fill(can_be[0])

    def is_on(self) -> bool:
        return self.field.is_needed or self.inner["value"].value() not in (None, "")

    def fill(self, value: Any) -> None:
        known = value if isinstance(value, dict) else {}
        self._is_filling = True
        self._fill_inner(known or MEASURED)
        self._is_filling = False
        self._filled, self._source = known.get("value"), known.get("source")
        self.below.setVisible(self.is_on())

    def row_at(self, path: tuple[str | int, ...]) -> FieldRow:
        return self  # its parts stand in one line: what is wrong with one is said below all

    def rows(self) -> list[FieldRow]:
        return [self]


class ListRow(FieldRow):
    """Rows that can be added and taken away."""

    def __init__(self, field: Field, depth: int) -> None:
        super().__init__(field, depth)
        self.deep = depth
        self.inner: list[FieldRow] = []
        self.inside = QWidget()
        self.box = column(self.inside)
        self.add = QPushButton(tr("Add one"))
        self.add.clicked.connect(lambda: self._add(None))
        self.place(self.add)
        self.grid.addWidget(self.inside, 2, 0, 1, 3)

    def _add(self, value: Any) -> None:
        (item,) = self.field.inner
        row = row_for(item._replace(is_needed=True, label=f"{len(self.inner) + 1}"), self.deep + 1)
        row.fill(value)
        row.changed.connect(self.changed)
        gone = QPushButton(tr("Take away"))
        gone.clicked.connect(lambda: self._take(row))
        row.grid.addWidget(gone, 0, 3)
        self.inner.append(row)
        self.box.addWidget(row)
        self.changed.emit()

    def _take(self, row: FieldRow) -> None:
        self.inner.remove(row)
        row.setParent(None)
        row.deleteLater()
        self.changed.emit()

    def value(self) -> Any:
        return [row.value() for row in self.inner] or ([] if self.field.is_needed else None)

    def fill(self, value: Any) -> None:
        for row in list(self.inner):
            self._take(row)
        for one in value if isinstance(value, list) else []:
            self._add(one)

    def row_at(self, path: tuple[str | int, ...]) -> FieldRow:
        at = path[0] if path else None
        return self.inner[at].row_at(path[1:]) if isinstance(at, int) and at < len(self.inner) else self

    def rows(self) -> list[FieldRow]:
        return [self, *(inner for row in self.inner for inner in row.rows())]


class Form(GroupRow):
    """The whole form of an entry: what it holds as JSON, and faults at their fields."""

    def __init__(self, field: Field) -> None:
        super().__init__(field._replace(is_needed=True), -1)
        self.name.setVisible(False)
        self.grid.setContentsMargins(0, 0, 0, 0)

    def show_faults(self, faults: Iterable[Fault]) -> None:
        """Show each fault at its field, the nearest there is."""
        at: dict[FieldRow, list[Fault]] = {}
        for one in faults:
            at.setdefault(self.row_at(one.path), []).append(one)
        for row in self.rows():
            row.say_wrong(at.get(row, []))
