"""The tab strip on the right: cautions, what may go in instead, light, law."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QTabWidget, QVBoxLayout, QWidget

from counter.window.side.cautions_pane import CautionsPane
from counter.window.side.instead_pane import InsteadPane
from counter.window.side.law_pane import LawPane
from counter.window.side.light_pane import LightPane

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.desk import Assessment, Case
    from counter.window.parts.theme import Theme

TABS = (
    ("Cautions", "What must not be sold, and why"),
    ("Instead", "What may go in instead, and why not the others"),
    ("Light", "Exposure in front of UV lamps; the colour of others"),
    ("Law", "Law and disposal where the shop is; broken lamps"),
)


class SideTabs(QFrame):
    """Four panes in one place; only the one in view is filled."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self.setProperty("panel", True)
        self.cautions, self.instead = CautionsPane(), InsteadPane()
        self.light, self.law = LightPane(theme), LawPane()
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        self.tabs.tabBar().setDrawBase(False)
        self.tabs.tabBar().setExpanding(False)
        self.tabs.tabBar().setUsesScrollButtons(False)
        self.tabs.tabBar().setElideMode(Qt.TextElideMode.ElideNone)
        self.tabs.setAccessibleName("Cautions, instead, light, law")
        panes: tuple[QWidget, ...] = (self.cautions, self.instead, self.light, self.law)
        for i, (pane, (name, tip)) in enumerate(zip(panes, TABS, strict=True)):
            self.tabs.addTab(pane, name)
            self.tabs.setTabToolTip(i, f"{tip} (Ctrl+{i + 1})")
        self.tabs.currentChanged.connect(self._fill)
        self._shown: tuple[Assessment, Case] | None = None
        box = QVBoxLayout(self)
        box.setContentsMargins(8, 2, 4, 8)
        box.addWidget(self.tabs)

    def build(self, catalogue: Catalogue) -> None:
        """Take what the panes show from the catalogue."""
        self.cautions.build(catalogue)
        self.light.build(catalogue)
        self.law.build(catalogue)

    def show_assessment(self, found: Assessment, case: Case) -> None:
        """Show an assessment in the tab in view; the others follow when they are opened."""
        self._shown = (found, case)
        offered = sum(one.verdict != "do not sell" for one in found.replacements)
        for at, words in ((0, _counted("Cautions", len(found.cautions))), (1, _counted("Instead", offered))):
            if self.tabs.tabText(at) != words:  # Qt lays the strip out anew even for the same words
                self.tabs.setTabText(at, words)
        self._fill()

    def show_nothing(self) -> None:
        """Take every answer away: none can be given."""
        self._shown = None
        for at in (0, 1):
            self.tabs.setTabText(at, TABS[at][0])
        self.cautions.show_cautions((), ())
        self.instead.show_replacements((), None)
        self.light.show_light(None)

    def _fill(self) -> None:
        if self._shown is None:
            return
        found, case = self._shown
        shown = self.tabs.currentWidget()
        if shown is self.cautions:
            self.cautions.show_cautions(found.cautions, found.asks)
        elif shown is self.instead:
            self.instead.show_replacements(found.replacements, found.lamp)
        elif shown is self.light:
            self.light.show_light(found.light)
        elif found.law is not None:
            self.law.show_law(found.law, case.broken)

    def set_wide(self, is_wide: bool) -> None:
        """Stand in a column of its own, with what may go in instead beside the cautions, or among other panes."""

    def open_first(self) -> None:
        """Bring the cautions to the front, and leave the keyboard where it is."""
        self.tabs.setCurrentIndex(0)

    def open(self, at: int) -> None:
        """Bring a tab to the front, by its place from 0, and the keyboard to it."""
        self.tabs.setCurrentIndex(at)
        self.tabs.tabBar().setFocus(Qt.FocusReason.ShortcutFocusReason)

    def set_theme(self, theme: Theme) -> None:
        """Repaint in another palette."""
        self.light.set_theme(theme)


def _counted(words: str, count: int) -> str:
    return f"{words} · {count}" if count else words
