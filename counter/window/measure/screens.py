"""How many pixels of a screen a millimetre takes: as the hand found it with a bank card, remembered by screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.language import tr

if TYPE_CHECKING:
    from PySide6.QtCore import QSettings
    from PySide6.QtGui import QScreen

MM_PER_INCH = 25.4
GROUP = "true-size"
LEAST, MOST = 1.5, 40.0  # device pixels a millimetre: an old wall display, and a telephone's glass
LIES = 0.08  # a screen whose own word is off by more is said to be wrong about itself


def name_of(screen: QScreen) -> str:
    """Return what tells this screen from others: who made it, its number and how many pixels it has."""
    size, ratio = screen.size(), screen.devicePixelRatio()
    pixels = f"{round(size.width() * ratio)}x{round(size.height() * ratio)}"
    parts = (screen.manufacturer(), screen.model(), screen.serialNumber(), screen.name(), pixels)
    return "".join(char if char.isalnum() else "-" for char in " ".join(part for part in parts if part))


def own_word(screen: QScreen) -> float:
    """Return device pixels a millimetre as the screen itself tells; a first guess only."""
    return float(screen.physicalDotsPerInch() * screen.devicePixelRatio() / MM_PER_INCH)


def kept(settings: QSettings, screen: QScreen) -> float | None:
    """Return device pixels a millimetre as they were found on this screen, or None: not calibrated."""
    try:
        value = float(str(settings.value(f"{GROUP}/{name_of(screen)}", "")))
    except ValueError:
        return None
    return value if LEAST <= value <= MOST else None


def keep(settings: QSettings, screen: QScreen, device_px_per_mm: float) -> None:
    """Remember what was found; device pixels, so that another scale factor changes nothing."""
    settings.setValue(f"{GROUP}/{name_of(screen)}", f"{device_px_per_mm:.5f}")


def logical(device_px_per_mm: float, screen: QScreen) -> float:
    """Return the painter's own pixels a millimetre."""
    return device_px_per_mm / screen.devicePixelRatio()


def said_of(settings: QSettings, screen: QScreen) -> str:
    """Say how far the size on this screen can be trusted."""
    found, told = kept(settings, screen), own_word(screen)
    if found is None:
        return tr("Not calibrated: sizes on this screen are a guess. Calibrate it with a bank card.")
    if not LEAST <= told <= MOST or abs(told / found - 1) > LIES:
        return tr(
            "Calibrated by the card. The screen says of itself {share:.0%} of its true size; that is not used."
        ).format(share=told / found)
    return tr("Calibrated with a card.")
