"""About: version, catalogue, data folder, and the licences of all that is shipped with the program."""

from __future__ import annotations

import sys
from importlib import metadata
from typing import TYPE_CHECKING

from counter import __version__
from counter.language import marked, tr
from counter.window.dialogs.sheet import Sheet

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from counter.catalogue import Catalogue

OURS = marked("MIT: the text is in packaging/LICENSE.")
# What the program is installed with; the licence is read from what is installed, where that says it.
SHIPPED = (
    ("PySide6-Essentials", marked("LGPL-3.0-only or GPL: Qt for Python and Qt itself")),
    ("shiboken6", marked("LGPL-3.0-only or GPL")),
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
    sheet = Sheet(tr("About the lamp counter"), parent)
    sheet.say(tr("Lamp counter {version}").format(version=__version__), "title")
    sheet.say(
        tr(
            "Which base, which lamp, and may it be sold: an assistant for the counter. It advises; it "
            "decides nothing."
        )
    )
    sheet.say(
        tr("Catalogue {version}: {bases} bases, {lamps} lamp types, {sources} sources.").format(
            version=catalogue.version,
            bases=len(catalogue.bases),
            lamps=len(catalogue.lamps),
            sources=len(catalogue.sources),
        )
    )
    sheet.say(tr("All that you make lies in {data}").format(data=data))
    sheet.say(tr("Licences"), "title")
    sheet.say(tr("This program: {licence}").format(licence=tr(OURS)))
    for name, version, licence in licences():
        sheet.say(f"{name} {version}: {tr(licence)}")
    sheet.say(f"Python {sys.version.split()[0]}: PSF-2.0")
    sheet.finish()
    return sheet
