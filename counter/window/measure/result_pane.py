"""What was measured, in words: looks that are certain, the bases that fit, and what is not sure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from counter.language import SpokenNumber, figure, tr
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.measure import Fit, Measured

SHOWN = 5
NAMED = 3  # bases of one face that are named


class ResultPane(QWidget):
    """Shows a measurement; the button hands its looks over."""

    taken = Signal(dict)

    def __init__(self, catalogue: Catalogue) -> None:
        super().__init__()
        self.catalogue = catalogue
        self.looks, self.fits, self.problems = Words(wraps=True), Words(wraps=True), Words(wraps=True)
        self.problems.set_role("title")
        self.take = QPushButton(tr("Use these looks"))
        self.take.setMinimumHeight(36)
        self.take.setEnabled(False)
        self._told: dict[str, str | float] = {}
        self.take.clicked.connect(lambda: self.taken.emit(dict(self._told)))
        box = QVBoxLayout(self)
        self._heads = Words(tr("Certain")), Words(tr("Likeliest first"))
        for head, words in zip(self._heads, (self.looks, self.fits), strict=True):
            head.set_role("quiet")
            box.addWidget(head)
            box.addWidget(words)
        box.addWidget(self.problems)
        box.addStretch(1)
        box.addWidget(self.take)
        self.setMinimumWidth(260)
        self.show_measured(None)

    def show_measured(self, told: Measured | None, problem: str = "") -> None:
        """Show another measurement, or why there is none."""
        self._told = dict(told.looks) if told is not None else {}
        for head in self._heads:
            head.setVisible(told is not None)
        self.looks.setText(self._looks_words(told) if told is not None else "")
        self.fits.setText(self._fits_words(told) if told is not None else "")
        problems = [problem] if problem else list(told.problems) if told is not None else []
        codes = (
            [tr("Code in the picture: {code}").format(code=code) for code in told.codes] if told is not None else []
        )
        self.problems.setText("\n".join([*problems, *codes]))
        self.take.setEnabled(bool(self._told))

    def _fits_words(self, told: Measured) -> str:
        """Return a line a face, of all the bases that are drawn alike: no picture tells those apart."""
        from counter.measure import faces_of

        lines = []
        for face in faces_of(self.catalogue, told.candidates)[:SHOWN]:
            names = ", ".join(fit.base for fit in face[:NAMED]) + (" …" if len(face) > NAMED else "")
            lines.append(f"{names}: {self._off_words(told, face[0])}")
        return "\n".join(lines) or "–"

    def _off_words(self, told: Measured, fit: Fit) -> str:
        """Say how far the pins lie off a base's, apart from its block and key; of more or fewer pins, that."""
        from counter.measure import fit_base

        base, pattern = self.catalogue.base_by_name[fit.base], told.pattern
        if pattern is None or len(pattern.pins) != len(base.face.pins.at):
            return tr("another number of pins")
        pins = fit_base(base, pattern.model_copy(update={"block": None, "notch": None}))
        return tr("pins off by {off:.2f} mm").format(off=SpokenNumber(pins.residual_mm))

    def _looks_words(self, told: Measured) -> str:
        lines = []
        for key, answer in told.looks.items():
            look = self.catalogue.look_by_key[key]
            label = next(
                (tr(value.label) for value in look.values if value.value == answer),
                f"{figure(answer) if isinstance(answer, float) else answer}\N{THIN SPACE}mm",
            )
            off = told.tolerances_mm.get(key)
            lines.append(
                f"{tr(look.label)}: {label}" + (f" ± {figure(off)}\N{THIN SPACE}mm" if off is not None else "")
            )
        return "\n".join(lines) or tr("nothing yet")
