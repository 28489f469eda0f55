"""Fields below each other, each behind its name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFormLayout

from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

LEAST_HIGH_PX = TARGET - 6  # as fields: Qt sets a lower name too far up beside one


def form_of(*rows: tuple[str, QWidget]) -> QFormLayout:
    """Return a form without margins; a name leads to its field, and is said for it."""
    form = QFormLayout()
    form.setContentsMargins(0, 0, 0, 0)
    for words, field in rows:
        name = Words(words)
        name.setMinimumHeight(LEAST_HIGH_PX)
        name.setBuddy(field)
        if not field.accessibleName():
            field.setAccessibleName(words.replace("&", ""))
        form.addRow(name, field)
    return form


def level(*forms: QFormLayout) -> None:
    """Let the fields of forms below each other begin at one line."""
    role = QFormLayout.ItemRole.LabelRole
    names = [one for form in forms for at in range(form.rowCount()) if (one := form.itemAt(at, role)) is not None]
    widest = max(one.sizeHint().width() for one in names)
    for name in filter(None, (one.widget() for one in names)):
        name.setMinimumWidth(widest)
