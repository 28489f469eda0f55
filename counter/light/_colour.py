"""A colour in full: from its name to temperature, rendering, chromaticity and swatch."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from counter.light._chromaticity import chromaticity
from counter.light._mired import mired
from counter.light._names import Name, read_name
from counter.light._swatch import swatch
from counter.light._tables import StandardColour, tables, weakest

_LOCUS = StandardColour("", 0, 0.0, 0.0, "CIE-224", "memory-high")


@dataclass(frozen=True, slots=True)
class Colour:
    """A white: nominal colour temperature, what its name says of Ra, CIE 1931 (x, y), and "#rrggbb".

    `standard` names the IEC 60081 colour that (x, y) comes from, with that colour's own temperature; None
    says that (x, y) follows from the temperature alone. `confidence` is that of the weakest part.
    """

    name: str
    cct_k: int
    cct_range_k: tuple[int, int]
    cri_min: int | None
    cri_max: int | None
    mired: float
    x: float
    y: float
    srgb: str
    standard: str | None
    standard_cct_k: int | None
    sources: tuple[str, ...]
    confidence: str


def colour_of(text: str | float) -> Colour:
    """Return the colour that a code, letters, a standard colour's name or a number of kelvins stands for.

    A lamp's code or letters of one of the six IEC 60081 temperatures get that standard colour's
    chromaticity, whatever their Ra; bare kelvins may be any light, and get the rule of `chromaticity`.

    Raises:
        ValueError: the text is not known or out of range; the message gives the way out.
    """
    return _colour_of(text if isinstance(text, str) else f"{text:.12g}")


@lru_cache(maxsize=256)
def _colour_of(text: str) -> Colour:
    name = read_name(text)
    standard = _standard_of(name)
    x, y = (standard.x, standard.y) if standard else chromaticity(name.cct_k)
    light = standard or _LOCUS
    low, high = name.cri_range or (None, None)
    return Colour(
        name.text,
        name.cct_k,
        name.cct_range_k,
        low,
        high,
        mired(name.cct_k),
        x,
        y,
        swatch(x, y),
        standard.name if standard else None,
        standard.cct_k if standard else None,
        tuple(dict.fromkeys(source for source in (name.source, light.source) if source)),
        weakest(name.confidence, light.confidence),
    )


def _standard_of(name: Name) -> StandardColour | None:
    if name.kind == "kelvin":
        return None
    return next((row for row in tables().standard if row.name == f"F{name.cct_k}"), None)
