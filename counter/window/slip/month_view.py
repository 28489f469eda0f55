"""A month as bars: what sells, what is asked for and missing, what comes back, and which mix-up caused it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QPainter, QPalette

from counter.language import tr, trn
from counter.window.parts.picture import Picture
from counter.window.slip.happened import REASONS

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtGui import QPaintEvent

    from counter.shop import Month

MOST_BARS = 6
LABEL_SHARE = 0.45


class Section(NamedTuple):
    """One group of bars."""

    title: str
    rows: tuple[tuple[str, int], ...]


def sections_of(month: Month, name: Callable[[str], str]) -> tuple[Section, ...]:
    """Return the groups that hold anything; `name` says how a lamp type is called at the counter."""
    mixed = tuple((f"{name(sold)} → {name(right)}", count) for sold, right, count in month.mix_ups)
    made = (
        Section(
            trn("{count} slip; what sells", "{count} slips; what sells", month.slips).format(count=month.slips),
            tuple((name(one), count) for one, count in month.sold),
        ),
        Section(tr("Asked for and missing"), tuple((name(one), count) for one, count in month.missing)),
        Section(tr("Came back"), tuple((tr(REASONS.get(one, one)), count) for one, count in month.came_back)),
        Section(tr("Mixed up: what was sold, and what it should have been"), mixed),
    )
    return tuple(Section(one.title, one.rows[:MOST_BARS]) for one in made if one.rows)


class MonthView(Picture):
    """Paints the bars of one month; the words of them all are its accessible description."""

    def __init__(self) -> None:
        super().__init__()
        self.sections: tuple[Section, ...] = ()
        self.setMinimumHeight(360)
        self.setAccessibleName(tr("The month in bars"))

    def show_month(self, month: Month, name: Callable[[str], str]) -> None:
        """Show a month."""
        self.sections = sections_of(month, name)
        said = (f"{one.title}: " + ", ".join(f"{name} {count}" for name, count in one.rows) for one in self.sections)
        self.setAccessibleDescription(". ".join(said))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        line, top = self.fontMetrics().height() + 4, 0
        for section in self.sections:
            top = self._paint_section(painter, section, top, line) + line // 2
        painter.end()

    def _paint_section(self, painter: QPainter, section: Section, top: int, line: int) -> int:
        bold = QFont(self.font())
        bold.setBold(True)
        painter.setFont(bold)
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        painter.drawText(QRect(0, top, self.width(), line), Qt.AlignmentFlag.AlignVCenter, section.title)
        painter.setFont(self.font())
        most = max(count for _, count in section.rows)
        label = int(self.width() * LABEL_SHARE)
        for name, count in section.rows:
            top += line
            shown = self.fontMetrics().elidedText(name, Qt.TextElideMode.ElideRight, label - 8)
            painter.drawText(QRect(0, top, label, line), Qt.AlignmentFlag.AlignVCenter, shown)
            width = int((self.width() - label - 60) * count / most)
            painter.fillRect(QRect(label, top + 3, width, line - 6), self.palette().mid())
            painter.drawText(QRect(label + width + 6, top, 54, line), Qt.AlignmentFlag.AlignVCenter, str(count))
        return top + line
