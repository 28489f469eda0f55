"""The figures of resources/light.json as frozen rows; the file is read once, on first use.

Named tuples, not dataclasses: ten of those cost 15 ms more of every start.
"""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from counter import paths
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterable

Row = TypeVar("Row")


_WEAKEST_LAST = ("published", "reproduced", "memory-high", "practice", "memory-medium", "memory-low")


def weakest(*confidences: str) -> str:
    """Return the least sure of some confidences."""
    return max(confidences, key=_WEAKEST_LAST.index)


class WeightingRow(NamedTuple):
    """One row of the ICNIRP table: the limit (J/m², unweighted) and the weight S at one wavelength."""

    nm: float
    limit_j_m2: float
    s: float
    source: str
    confidence: str


class Limit(NamedTuple):
    """A daily limit of radiant exposure, J/m², for 8 h within 24 h."""

    j_m2: float
    source: str
    confidence: str


class Place(NamedTuple):
    """A distance that a clerk can picture, in metres from the middle of the lamp."""

    name: str
    distance_m: float
    source: str
    confidence: str


class Band(NamedTuple):
    """The wavelengths, nm, that lamps for UV-A or UV-B usually give; what one lamp gives is not known."""

    key: str
    of: str
    nm: tuple[float, float]
    source: str
    confidence: str


class GermicidalShare(NamedTuple):
    """How much of its watts a low-pressure mercury lamp gives at 254 nm, at the most that a work names."""

    of_watts: float
    source: str
    confidence: str


class StandardColour(NamedTuple):
    """A standard colour of IEC 60081: its own colour temperature and CIE 1931 chromaticity."""

    name: str
    cct_k: int
    x: float
    y: float
    source: str
    confidence: str


class Letters(NamedTuple):
    """An older colour name; `cct_k` is the colour temperature of today's codes within its range."""

    letters: str
    name: str
    cct_k: int
    cct_range_k: tuple[int, int]
    cri_range: tuple[int, int]
    source: str
    confidence: str


class CriClass(NamedTuple):
    """What the first digit of a three-digit code says of colour rendering."""

    digit: int
    cri_range: tuple[int, int]
    source: str
    confidence: str


class MatchWord(NamedTuple):
    """A word for a difference in mired below a threshold; None stands for no upper end."""

    word: str
    below_mired: float | None
    because: str
    source: str
    confidence: str


class Tables(NamedTuple):
    """All figures of this folder."""

    sources: dict[str, str]
    effective_limit: Limit
    uva_eye_limit: Limit
    bands: tuple[Band, ...]
    weighting: tuple[WeightingRow, ...]
    places: tuple[Place, ...]
    germicidal_share: GermicidalShare
    standard: tuple[StandardColour, ...]
    letters: tuple[Letters, ...]
    cri_classes: tuple[CriClass, ...]
    match_words: tuple[MatchWord, ...]


def _rows(kind: type[Row], rows: list[dict[str, Any]]) -> tuple[Row, ...]:
    frozen = ({k: tuple(v) if isinstance(v, list) else v for k, v in row.items()} for row in rows)
    return tuple(kind(**row) for row in frozen)


def titles(keys: Iterable[str]) -> tuple[str, ...]:
    """Return the works that figures are from, each once, in the language now spoken."""
    return tuple(tr(tables().sources[key]) for key in dict.fromkeys(keys))


@cache
def tables() -> Tables:
    """Return the shipped figures."""
    data = json.loads((paths.resources() / "light.json").read_text(encoding="utf-8"))
    uv, colour = data["uv"], data["colour"]
    return Tables(
        sources=data["sources"],
        effective_limit=Limit(**uv["effective_limit"]),
        uva_eye_limit=Limit(**uv["uva_eye_limit"]),
        bands=_rows(Band, uv["bands"]),
        weighting=_rows(WeightingRow, uv["weighting"]),
        places=_rows(Place, uv["places"]),
        germicidal_share=GermicidalShare(**uv["germicidal_share"]),
        standard=_rows(StandardColour, colour["standard"]),
        letters=_rows(Letters, colour["letters"]),
        cri_classes=_rows(CriClass, colour["cri_classes"]),
        match_words=_rows(MatchWord, colour["match_words"]),
    )
