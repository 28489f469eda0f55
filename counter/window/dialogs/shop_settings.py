"""What the shop set for all its tills: its name and address on slips, and customers' names; kept in the store."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QCheckBox, QLineEdit, QPushButton, QVBoxLayout, QWidget

from counter import shop
from counter.language import tr, trn
from counter.window.parts.calm import CalmSpin
from counter.window.parts.form_rows import form_of
from counter.window.parts.theme import TARGET
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from counter.window.shelf.shop_desk import ShopDesk

NAME_MOST, ADDRESS_MOST = 80, 160
LONGEST_DAYS = 36_500


class ShopSettings(QWidget):
    """Every change goes to the store beside the window; what became of it is said below."""

    def __init__(self, desk: ShopDesk) -> None:
        super().__init__()
        self.desk = desk
        now = desk.settings
        self.name = _line(str(now["shop_name"]), NAME_MOST, tr("Shop's name on slips"))
        self.address = _line(str(now["shop_address"]), ADDRESS_MOST, tr("Address on slips"))
        self.asked = QCheckBox(tr("Slips ask for the &customer's name"))
        self.asked.setChecked(bool(now["names_asked"]))
        self.days = CalmSpin()
        self.days.setRange(0, LONGEST_DAYS)
        self.days.setValue(int(now["names_kept_days"]))
        self.days.setSpecialValueText(tr("until somebody forgets them"))
        self.days.setSuffix(tr(" days"))
        self.days.setAccessibleName(tr("How long customers' names are kept"))
        self.purge = QPushButton(tr("&Forget older names now"))
        self.purge.setMinimumHeight(TARGET)
        self.purge.setAutoDefault(False)
        self.says = Words("", "quiet", wraps=True)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self.form = form_of(
            (tr("Shop's &name"), self.name), (tr("&Address"), self.address), (tr("Names are &kept"), self.days)
        )
        self.form.addRow("", self.asked)
        self.form.addRow("", self.purge)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.addWidget(Words(tr("For all tills of the shop"), "title"))
        box.addLayout(self.form)
        box.addWidget(self.says)

    def _connect(self) -> None:
        self.name.editingFinished.connect(lambda: self._put("shop_name", " ".join(self.name.text().split())))
        self.address.editingFinished.connect(lambda: self._put("shop_address", " ".join(self.address.text().split())))
        self.asked.toggled.connect(lambda on: self._put("names_asked", on))
        self.days.editingFinished.connect(lambda: self._put("names_kept_days", self.days.value()))
        self.purge.clicked.connect(self._forget)

    def _put(self, key: str, value: Any) -> None:
        if value == self.desk.settings[key]:
            return
        self.says.setText(tr("asking the store …"))
        done = lambda _: self.says.setText(tr("Kept for all tills."))  # noqa: E731
        self.desk.put_setting(key, value, done, self._fail, self)

    def _forget(self) -> None:
        """Forget now what would be forgotten tomorrow morning."""
        data, days = self.desk.data, self.days.value()
        if days == 0:
            self.says.setText(tr("Names are kept until somebody forgets them; set a number of days first."))
            return
        self._put("names_kept_days", days)
        job = lambda: shop.forget_old_names(shop.open_store(data), self.desk.today())  # noqa: E731
        self.desk.worker.ask(job, self._forgotten, self._fail, owner=self)

    def _forgotten(self, count: int) -> None:
        self.says.setText(
            trn("{count} name was forgotten.", "{count} names were forgotten.", count).format(count=count)
        )

    def _fail(self, problem: Exception) -> None:
        self.says.setText(tr("Not kept: {problem}").format(problem=problem))


def _line(text: str, most: int, name: str) -> QLineEdit:
    field = QLineEdit(text)
    field.setMaxLength(most)
    field.setAccessibleName(name)
    return field
