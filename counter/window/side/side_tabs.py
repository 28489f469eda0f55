"""The tab strip on the right: cautions, what may go in instead, light, law."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QTabBar, QTabWidget, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.parts import early
from counter.window.parts.sizes import ems
from counter.window.parts.words import Words
from counter.window.shelf.shelf_pane import ShelfPane
from counter.window.side.cautions_pane import CautionsPane
from counter.window.side.instead_pane import InsteadPane
from counter.window.side.law_pane import LawPane
from counter.window.side.light_pane import LightPane

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QResizeEvent

    from counter.catalogue import Catalogue
    from counter.desk import Assessment, Case
    from counter.window.parts.theme import Theme

TABS = (
    (marked("Cautions"), marked("What must not be sold, and why")),
    (marked("Instead"), marked("What may go in instead, and why not the others")),
    (marked("Light"), marked("Exposure in front of UV lamps; the colour of others")),
    (marked("Law"), marked("Law and disposal where the shop is; broken lamps")),
    (marked("Shelf"), marked("What the stock list has for this case; search it")),
)
INSTEAD = 1
BESIDE_EMS = 90  # letters across from which two panes stand side by side
COUNTED, WIDEST_COUNT = ("Cautions", "Instead"), 88


class SteadyTabs(QTabBar):
    """Tabs as wide as with the longest count, so that none moves as counts come and go."""

    def __init__(self) -> None:
        super().__init__()
        self._sizes: dict[str, QSize] = {}

    def tabSizeHint(self, index: int) -> QSize:
        name = self.tabText(index).split(" · ")[0]
        if name not in self._sizes:
            self._sizes[name] = self._measured(index, name)
        return QSize(self._sizes[name])

    def _measured(self, index: int, name: str) -> QSize:
        size = super().tabSizeHint(index)
        if name in map(tr, COUNTED):
            widest = self.fontMetrics().horizontalAdvance(_counted(name, WIDEST_COUNT))
            size.setWidth(size.width() + widest - self.fontMetrics().horizontalAdvance(self.tabText(index)))
        return size

    def changeEvent(self, event: QEvent) -> None:
        self._sizes.clear()  # its letters, or its style
        super().changeEvent(event)


class SideTabs(QFrame):
    """Four panes in one place; only the one in view is filled."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.cautions, self.instead = CautionsPane(), InsteadPane()
        self.light, self.law, self.shelf = LightPane(theme), LawPane(), ShelfPane()
        self.tabs = QTabWidget()
        self.tabs.setTabBar(SteadyTabs())
        self.tabs.setDocumentMode(True)
        self.tabs.tabBar().setDrawBase(False)
        self.tabs.tabBar().setExpanding(False)
        self.tabs.tabBar().setUsesScrollButtons(False)
        self.tabs.tabBar().setElideMode(Qt.TextElideMode.ElideNone)
        self.tabs.setAccessibleName(tr("Cautions, instead, light, law, shelf"))
        self._panes: tuple[QWidget, ...] = (self.cautions, self.instead, self.light, self.law, self.shelf)
        for pane, (name, _) in zip(self._panes, TABS, strict=True):
            self.tabs.addTab(pane, tr(name))
        self._name_tabs()
        self.tabs.currentChanged.connect(self._fill)
        self._shown: tuple[Assessment, Case] | None = None
        self._beside = QFrame()
        self._beside_box = QVBoxLayout(self._beside)
        self._beside_box.setContentsMargins(8, 0, 0, 0)
        self._beside_title = Words(tr("Instead"), "title")
        self._beside_box.addWidget(self._beside_title)
        self._beside.hide()
        self.is_wide = False
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(8, 2, 4, 8)
        self._row.addWidget(self.tabs, 1)
        self._row.addWidget(self._beside, 1)

    def build(self, catalogue: Catalogue) -> None:
        """Take what the panes show from the catalogue."""
        self.cautions.build(catalogue)
        self.light.build(catalogue)
        self.law.build(catalogue)

    def show_assessment(self, found: Assessment, case: Case) -> None:
        """Show an assessment in the tab in view; the others follow when they are opened."""
        self._shown = (found, case)
        offered = sum(one.verdict != "do not sell" for one in found.replacements)
        self._count(self.cautions, _counted(tr("Cautions"), len(found.cautions)))
        self._count(self.instead, _counted(tr("Instead"), offered))
        self._beside_title.setText(_counted(tr("Instead"), offered))
        self._fill()

    def show_nothing(self) -> None:
        """Take every answer away: none can be given."""
        self._shown = None
        self._count(self.cautions, tr("Cautions"))
        self._count(self.instead, tr("Instead"))
        self.cautions.show_cautions((), ())
        self.instead.show_replacements((), None)
        self.light.show_light(None)

    def _count(self, pane: QWidget, words: str) -> None:
        at = self.tabs.indexOf(pane)
        if at >= 0 and self.tabs.tabText(at) != words:  # Qt lays the strip out anew even for the same words
            self.tabs.setTabText(at, words)

    def _fill(self) -> None:
        if self._shown is None:
            return
        found, case = self._shown
        shown = self.tabs.currentWidget()
        if self.is_wide:
            self._fill_instead(found, case)
        if shown is self.cautions:
            self.cautions.show_cautions(found.cautions, found.asks)
        elif shown is self.instead:
            self._fill_instead(found, case)
        elif shown is self.light:
            self.light.show_light(found.light)
        elif shown is self.law and found.law is not None:
            self.law.show_law(found.law, case.broken)

    def _fill_instead(self, found: Assessment, case: Case) -> None:
        is_known = case.fixture.holder is not None
        self.instead.show_replacements(found.replacements, found.lamp, is_holder_known=is_known)

    def open_instead(self) -> None:
        """Bring what may go in instead into sight."""
        if not self.is_wide:
            self.tabs.setCurrentWidget(self.instead)

    def set_wide(self, is_wide: bool) -> None:
        """Show what may go in instead beside the cautions, or as one of the tabs."""
        if is_wide == self.is_wide:
            return
        self.is_wide = is_wide
        if is_wide:
            self.tabs.removeTab(self.tabs.indexOf(self.instead))
            self._beside_box.addWidget(self.instead, 1)
            self.instead.show()  # a tab that is taken out stays hidden
        else:
            self.tabs.insertTab(self.tabs.indexOf(self.cautions) + 1, self.instead, tr(TABS[INSTEAD][0]))
        self._beside.setVisible(is_wide)
        self._name_tabs()
        self._fill()

    def take_in(self, pane: QWidget, name: str, *, is_first: bool = False) -> QWidget:
        """Let a pane that has no column of its own stand among the tabs; return the page that holds it."""
        page = QScrollArea(widgetResizable=True)
        page.setWidget(pane)
        pane.show()
        self.tabs.insertTab(0 if is_first else self.tabs.indexOf(self.cautions), page, name)
        self._let_scroll()
        return page

    def take_out(self, page: QWidget) -> None:
        """Let a page go whose pane has a column again."""
        self.tabs.removeTab(self.tabs.indexOf(page))
        page.deleteLater()
        self._let_scroll()

    def _let_scroll(self) -> None:
        """With more tabs than its own the strip may scroll."""
        self.tabs.tabBar().setUsesScrollButtons(self.tabs.count() > len(self._panes))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Stand the two below each other where the column is high rather than wide."""
        early.set_upright(self._row, event.size().width() < ems(self.font(), BESIDE_EMS))
        super().resizeEvent(event)

    def _name_tabs(self) -> None:
        for pane, (name, tip) in zip(self._panes, TABS, strict=True):
            at = self.tabs.indexOf(pane)
            if at >= 0:
                self.tabs.setTabToolTip(at, f"{tr(tip)} (Ctrl+{self._panes.index(pane) + 1})")
                if not self.tabs.tabText(at):
                    self.tabs.setTabText(at, tr(name))

    def shown(self) -> int:
        """Return the place of the tab in view, from 0."""
        now = self.tabs.currentWidget()
        return self._panes.index(now) if now in self._panes else 0

    def open_quietly(self, at: int = 0) -> None:
        """Bring a tab to the front, and leave the keyboard where it is; it may stand beside the tabs instead."""
        self.tabs.setCurrentIndex(max(self.tabs.indexOf(self._panes[at]), 0))

    def open(self, at: int) -> None:
        """Bring a tab to the front, by its place from 0, and the keyboard to it."""
        if self.is_wide and self._panes[at] is self.instead:
            self.instead.setFocus(Qt.FocusReason.ShortcutFocusReason)
            return
        self.tabs.setCurrentWidget(self._panes[at])
        self.tabs.tabBar().setFocus(Qt.FocusReason.ShortcutFocusReason)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.light.set_theme(theme)


def _counted(words: str, count: int) -> str:
    return f"{words} · {count}" if count else words
