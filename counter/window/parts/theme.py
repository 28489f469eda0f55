"""Colours from one table of roles: light, dark, and both again with high contrast."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtGui import QColor, QGuiApplication, QPalette

TARGET = 36  # the smallest side of anything a clerk presses, in logical pixels
SMALL_TARGET = 24  # the smallest side of anything to press at all: WCAG 2.2, 2.5.8


class Theme(NamedTuple):
    """One palette; the names say what a colour is for."""

    name: str
    desk: str
    paper: str
    field: str
    ink: str
    muted: str
    line: str  # around panels: it parts, and says nothing
    edge: str  # around what can be pressed or typed into: WCAG 2.2, 1.4.11 asks for 3 : 1
    accent: str
    accent_soft: str
    on_accent: str
    glass: str  # white glass: a solid body
    on_glass: str  # lines on it
    dark_glass: str  # the blue-black filter glass of UV-A lamps
    on_dark_glass: str
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
    edge="#857D70",
    accent="#0B6B64",
    accent_soft="#D3E6E2",
    on_accent="#FFFFFF",
    glass="#DAD5C9",
    on_glass="#262320",
    dark_glass="#2E2A57",
    on_dark_glass="#B9B4E0",
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
    edge="#81796D",
    accent="#57C7BC",
    accent_soft="#1E3F3B",
    on_accent="#10211F",
    glass="#CFC8BA",
    on_glass="#211F1C",
    dark_glass="#3C3775",
    on_dark_glass="#C9C5EC",
    tint="#35312B",
    bar="#8E8678",
)
# Nothing quiet: every line and letter in full ink, for whoever asks their system for it.
LIGHT_HIGH = LIGHT._replace(
    name="light, high contrast",
    desk="#FFFFFF",
    paper="#FFFFFF",
    field="#FFFFFF",
    ink="#000000",
    muted="#1C1A18",
    line="#000000",
    edge="#000000",
    accent="#00423D",
    accent_soft="#C4E4DF",
)
DARK_HIGH = DARK._replace(
    name="dark, high contrast",
    desk="#000000",
    paper="#000000",
    field="#000000",
    ink="#FFFFFF",
    muted="#E6E2DA",
    line="#FFFFFF",
    edge="#FFFFFF",
    accent="#7FE9DD",
    accent_soft="#0F4A44",
)
THEMES = {"light": LIGHT, "dark": DARK}
HIGH = {"light": LIGHT_HIGH, "dark": DARK_HIGH}

# The safety colours of ISO 3864 / ANSI Z535, ground and lettering; nothing else in the window may use them.
SIGNALS: dict[str, tuple[str, str]] = {
    "DANGER": ("#C8102E", "#FFFFFF"),
    "WARNING": ("#FF7900", "#000000"),
    "CAUTION": ("#F9E300", "#000000"),
    "NOTICE": ("#0051BA", "#FFFFFF"),
}


def kept_theme(choice: str, seen: str) -> Theme:
    """Return the palette of a choice without asking the system, as it was when it was last asked.

    Asking names enumerations that the first paint need not wait for; whoever wakes the window asks.
    """
    if choice in THEMES and not seen.startswith(choice):
        return THEMES[choice]
    known = (*THEMES.values(), *HIGH.values())
    return next((theme for theme in known if theme.name == seen), LIGHT)


def theme_of(choice: str) -> Theme:
    """Return the palette of a choice: light, dark, or anything else for what the system shows."""
    name = choice if choice in THEMES else _system_name()
    return HIGH[name] if _wants_contrast() else THEMES[name]


def _system_name() -> str:
    scheme = QGuiApplication.styleHints().colorScheme().name
    if scheme == "Unknown":  # a system that does not say: its palette does, as far as anybody changed it
        window = QGuiApplication.palette().color(QPalette.ColorRole.Window)
        return "dark" if window.lightness() < 128 else "light"
    return scheme.lower()


def _wants_contrast() -> bool:
    hints = QGuiApplication.styleHints()  # held by a name: what it lends goes with it
    accessibility = hints.accessibility()
    return accessibility.contrastPreference().name == "HighContrast"


def palette(theme: Theme) -> QPalette:
    """Return the theme as a Qt palette, which every stock widget and the style follow."""
    made = QPalette()
    roles = QPalette.ColorRole
    for role, colour in (
        (roles.Window, theme.desk),
        (roles.WindowText, theme.ink),
        (roles.Base, theme.field),
        (roles.AlternateBase, theme.paper),
        (roles.Text, theme.ink),
        (roles.Button, theme.field),
        (roles.ButtonText, theme.ink),
        (roles.PlaceholderText, theme.muted),
        (roles.Highlight, theme.accent),
        (roles.HighlightedText, theme.on_accent),
        (roles.ToolTipBase, theme.field),
        (roles.ToolTipText, theme.ink),
        (roles.Mid, theme.line),
        (roles.Dark, theme.edge),
        (roles.Midlight, theme.accent_soft),
        (roles.Link, theme.accent),
    ):
        made.setColor(role, QColor(colour))
    for role in (roles.ButtonText, roles.Text, roles.WindowText):
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(theme.muted))
    return made
