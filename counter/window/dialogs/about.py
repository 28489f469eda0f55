"""About: version, catalogue, data folder, and the licences of all that is shipped with the program."""

from __future__ import annotations

import sys
from importlib import metadata
from typing import TYPE_CHECKING

from counter import __version__
from counter.window.dialogs.sheet import Sheet

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from counter.catalogue import Catalogue

OURS = "MIT: the text is in packaging/LICENSE."
# What the program is installed with; the licence is read from what is installed, where that says it.
SHIPPED = (
    ("PySide6-Essentials", "LGPL-3.0-only or GPL: Qt for Python and Qt itself"),
    ("shiboken6", "LGPL-3.0-only or GPL"),
    ("pydantic", "MIT"),
    ("pydantic-core", "MIT"),
    ("platformdirs", "MIT"),
    ("python-stdnum", "LGPL-2.1-or-later"),
    ("fsrs", "MIT"),
)


def licences() -> tuple[tuple[str, str, str], ...]:
    """Return name, version and licence of every library that is there."""
    found = []
    for name, licence in SHIPPED:
        try:
            found.append((name, metadata.version(name), licence))
        except metadata.PackageNotFoundError:
            continue
    return tuple(found)


def about(parent: QWidget, catalogue: Catalogue, data: Path) -> Sheet:
    """Show what this program is, and of what it is made."""
    sheet = Sheet("About the lamp counter", parent)
    sheet.say(f"Lamp counter {__version__}", "title")
    sheet.say(
        "Which base, which lamp, and may it be sold: an assistant for the counter. It advises; it decides nothing."
    )
    sheet.say(
        f"Catalogue {catalogue.version}: {len(catalogue.bases)} bases, {len(catalogue.lamps)} lamp types, "
        f"{len(catalogue.sources)} sources."
    )
    sheet.say(f"All that you make lies in {data}")
    sheet.say("Licences", "title")
    sheet.say(f"This program: {OURS}")
    for name, version, licence in licences():
        sheet.say(f"{name} {version}: {licence}")
    sheet.say(f"Python {sys.version.split()[0]}: PSF-2.0")
    sheet.finish()
    return sheet
