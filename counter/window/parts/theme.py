"""Colours and type from one table of roles, light and dark."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtGui import QColor, QGuiApplication, QPalette

GRID = 8  # every gap and margin is a multiple of this, in logical pixels
TARGET = 36  # the smallest side of anything to press, in logical pixels


class Theme(NamedTuple):
    """One palette; the names say what a colour is for."""

    name: str
    desk: str
    paper: str
    field: str
    ink: str
    muted: str
    line: str
    accent: str
    accent_soft: str
    on_accent: str
    glass: str
    tint: str
    bar: str


LIGHT = Theme(
    name="light",
    desk="#EAE6DD",
    paper="#F8F5EE",
    field="#FFFDF8",
    ink="#262320",
    muted="#665F55",
    line="#CFC8BA",
    accent="#0B6B64",
    accent_soft="#D3E6E2",
    on_accent="#FFFFFF",
    glass="#FFFFFF",
    tint="#E9E3D6",
    bar="#8A8378",
)
DARK = Theme(
    name="dark",
    desk="#171513",
    paper="#211F1C",
    field="#191715",
    ink="#EFE9DE",
    muted="#ADA598",
    line="#433E37",
    accent="#57C7BC",
    accent_soft="#1E3F3B",
    on_accent="#10211F",
    glass="#3A3630",
    tint="#35312B",
    bar="#8E8678",
)
THEMES = {"light": LIGHT, "dark": DARK}

# The safety colours of ISO 3864 / ANSI Z535, ground and lettering; nothing else in the window may use them.
SIGNALS: dict[str, tuple[str, str]] = {
    "DANGER": ("#C8102E", "#FFFFFF"),
    "WARNING": ("#FF7900", "#000000"),
    "CAUTION": ("#F9E300", "#000000"),
    "NOTICE": ("#0051BA", "#FFFFFF"),
}


def system_theme() -> Theme:
    """Return the palette nearest to what the system shows."""
    window = QGuiApplication.palette().color(QPalette.ColorRole.Window)
    return DARK if window.lightness() < 128 else LIGHT


def palette(theme: Theme) -> QPalette:
    """Return the theme as a Qt palette, so that stock widgets follow it."""
    made = QPalette()
    roles = QPalette.ColorRole
    for role, colour in (
        (roles.Window, theme.desk),
        (roles.WindowText, theme.ink),
        (roles.Base, theme.field),
        (roles.AlternateBase, theme.paper),
        (roles.Text, theme.ink),
        (roles.Button, theme.paper),
        (roles.ButtonText, theme.ink),
        (roles.PlaceholderText, theme.muted),
        (roles.Highlight, theme.accent),
        (roles.HighlightedText, theme.on_accent),
        (roles.ToolTipBase, theme.field),
        (roles.ToolTipText, theme.ink),
        (roles.Mid, theme.line),
        (roles.Link, theme.accent),
    ):
        made.setColor(role, QColor(colour))
    made.setColor(QPalette.ColorGroup.Disabled, roles.ButtonText, QColor(theme.muted))
    made.setColor(QPalette.ColorGroup.Disabled, roles.Text, QColor(theme.muted))
    return made


def sheet(theme: Theme) -> str:
    """Return the style sheet: flat panels, thin lines, one accent where the hand has chosen."""
    return f"""
    QMainWindow, QDialog {{ background: {theme.desk}; }}
    QWidget {{ color: {theme.ink}; }}
    QFrame[panel="true"] {{ background: {theme.paper}; border: 1px solid {theme.line}; border-radius: 4px; }}
    QLabel {{ background: transparent; }}
    QLabel[role="title"] {{ font-weight: 600; }}
    QLabel[role="quiet"] {{ color: {theme.muted}; }}
    QLabel[role="look-next"] {{ color: {theme.accent}; font-weight: 600; }}
    QToolTip {{ background: {theme.field}; color: {theme.ink}; border: 1px solid {theme.line}; padding: 4px; }}
    QLineEdit, QPlainTextEdit {{
        background: {theme.field}; border: 1px solid {theme.line}; border-radius: 3px; padding: 4px 6px;
        selection-background-color: {theme.accent}; selection-color: {theme.on_accent}; }}
    QLineEdit:focus, QPlainTextEdit:focus {{
        border: 2px solid {theme.accent}; padding: 3px 5px; }}
    QLineEdit[bad="true"] {{ border: 2px solid {theme.ink}; }}
    QPushButton {{ background: {theme.paper}; border: 1px solid {theme.line}; border-radius: 3px;
        padding: 6px 12px; min-height: 22px; }}
    QPushButton:hover {{ border-color: {theme.accent}; }}
    QPushButton:focus {{ border: 2px solid {theme.accent}; padding: 5px 11px; }}
    QPushButton:checked {{ background: {theme.accent_soft}; border-color: {theme.accent}; }}
    QPushButton:disabled {{ color: {theme.muted}; }}
    QPushButton[flat="true"] {{ border: 1px solid transparent; background: transparent; padding: 2px 6px; }}
    QPushButton[flat="true"]:hover, QPushButton[flat="true"]:focus {{ border-color: {theme.accent}; }}
    QListView, QScrollArea, QScrollArea > QWidget > QWidget {{ background: {theme.paper}; border: 0; outline: 0; }}
    QSplitter::handle {{ background: {theme.desk}; }}
    QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
    QScrollBar::handle:vertical {{ background: {theme.line}; border-radius: 4px; min-height: 32px; margin: 1px; }}
    QScrollBar::add-line, QScrollBar::sub-line, QScrollBar::add-page, QScrollBar::sub-page {{
        background: none; border: 0; }}
    QMenu {{ background: {theme.field}; border: 1px solid {theme.line}; }}
    QMenu::item {{ padding: 6px 20px; }}
    QMenu::item:selected {{ background: {theme.accent_soft}; color: {theme.ink}; }}
    QComboBox QAbstractItemView {{ background: {theme.field}; border: 1px solid {theme.line};
        selection-background-color: {theme.accent_soft}; selection-color: {theme.ink}; }}
    QCheckBox {{ spacing: 6px; min-height: 24px; }}
    QLabel[role="verdict"] {{ font-weight: 700; border: 1px dashed {theme.ink}; border-radius: 2px; padding: 0 6px; }}
    QLabel[role="verdict"][firm="true"] {{ color: {theme.accent}; border: 1px solid {theme.accent}; }}
    QTabBar::tab {{ padding: 6px 10px; min-height: 22px; color: {theme.muted}; border: 0;
        border-bottom: 2px solid transparent; }}
    QTabBar::tab:selected {{ color: {theme.ink}; font-weight: 600; border-bottom: 2px solid {theme.accent}; }}
    QTabBar::tab:hover {{ color: {theme.ink}; }}
    QTabBar::tab:selected:focus {{ background: {theme.accent_soft}; }}
    QTabWidget::pane {{ border: 0; }}
    QTabWidget > QStackedWidget, QTabWidget > QStackedWidget > QWidget {{ background: {theme.paper}; }}
    """
