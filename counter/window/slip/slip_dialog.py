"""Writes a slip: what was chosen, initials, a name if the customer likes, the paper; then print, PDF or only keep."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
)

from counter.language import marked, tr
from counter.window.parts.calm import CalmCombo
from counter.window.parts.form_rows import form_of
from counter.window.parts.sizes import be_large
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words
from counter.window.slip.paper import PAPERS, Printed, ShopHead, picture

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from counter.catalogue import Catalogue
    from counter.slip import Slip


class SlipDialog(QDialog):
    """Shows the slip as it will be on paper; emits how it is to leave: "print", "pdf" or "keep"."""

    wanted = Signal(str)
    edited = Signal()

    def __init__(
        self, slip: Slip, catalogue: Catalogue, shop: ShopHead, paper: str, initials: str, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Slip"))
        self.slip, self.catalogue, self.shop = slip, catalogue, shop
        self.number: int | None = None
        self.is_copy = False
        self.initials, self.customer, self.paper = QLineEdit(initials), QLineEdit(), CalmCombo()
        self.initials.setMaxLength(8)
        self.customer.setMaxLength(200)
        self.customer.setPlaceholderText(tr("may stay empty"))
        for key, kind in PAPERS.items():
            self.paper.addItem(tr(kind.name), key)
        self.paper.setCurrentIndex(max(self.paper.findData(paper), 0))
        self.preview, self.says = Words(), Words(wraps=True)
        self.buttons = {how: QPushButton(tr(words)) for how, words in WAYS}
        for how, button in self.buttons.items():
            button.setMinimumHeight(TARGET)
            button.clicked.connect(lambda _=False, way=how: self.wanted.emit(way))
        for field in (self.initials, self.customer):
            field.textChanged.connect(lambda _: self.repaint_slip())
        self.paper.currentIndexChanged.connect(lambda _: self.repaint_slip())
        self._lay_out()
        self.repaint_slip()

    def _lay_out(self) -> None:
        customer = ((tr("Customer"), self.customer),) if self.shop.asks_for_names else ()
        form = form_of((tr("Initials"), self.initials), *customer, (tr("Paper"), self.paper))
        scroll = QScrollArea()
        scroll.setWidget(self.preview)
        scroll.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        scroll.setAccessibleName(tr("Preview of the slip"))
        row = QHBoxLayout()
        for button in self.buttons.values():
            row.addWidget(button)
        box = QVBoxLayout(self)
        box.addLayout(form)
        box.addWidget(scroll, 1)
        box.addWidget(self.says)
        box.addLayout(row)
        be_large(self, 93, 51)
        self.buttons["print"].setDefault(True)

    def printed(self) -> Printed:
        """Return the slip with what was typed here."""
        slip = self.slip.model_copy(update={"initials": self.initials.text().strip()})
        return Printed(slip, self.number, self.shop, " ".join(self.customer.text().split()), self.is_copy)

    def repaint_slip(self) -> None:
        """Show the slip as it will be."""
        image = picture(self.printed(), self.catalogue, PAPERS[self.paper.currentData()])
        self.preview.setPixmap(QPixmap.fromImage(image))
        self.preview.adjustSize()

    def say(self, words: str) -> None:
        """Say what became of it."""
        self.says.setText(words)

    def set_kept(self) -> None:
        """The slip is in the log or waits to be: what is on it is fixed now, only paper can still be had."""
        self.initials.setEnabled(False)
        self.customer.setEnabled(False)

    def set_copy(self, customer: str) -> None:
        """The slip was written before: it is only printed once more, and says so."""
        self.is_copy = True
        self.customer.setText(customer)
        self.set_kept()
        self.buttons["keep"].hide()
        for how, words in (("print", tr("Print")), ("pdf", tr("PDF …"))):
            self.buttons[how].setText(words)
        self.repaint_slip()


WAYS = (
    ("print", marked("Print and keep")),
    ("pdf", marked("PDF and keep …")),
    ("keep", marked("Keep without printing")),
)
