"""Looks measured in millimetres: the density of a reading on each lamp type."""

from __future__ import annotations

from bisect import bisect
from dataclasses import dataclass
from functools import cached_property
from math import erf, exp, hypot, pi, sqrt
from operator import mul
from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import TRUST
from counter.identify._entropy import entropy
from counter.identify._heard import Heard
from counter.language import figure, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base, Catalogue, Figure, Lamp, Look

AGREES_WITHIN = 2.5  # standard deviations
FAR = 6.0  # deviations beyond which a normal tail (1e-9) is not worth its error function
REMEMBERED = 64  # readings
WIDER = 3.0  # how much wider a value that is a little off spreads its readings; set by judgement
CELLS = 128  # cells of the predictive: on the shipped catalogue the gain lies within 4 % of that over a fine grid
_Z = (-1.5, -0.75, 0.0, 0.75, 1.5)  # where the cells are cut around each catalogue value, in deviations


class Size(NamedTuple):
    """A catalogue value as readings of it fall: mean and standard deviation in mm, and the trust in the value.

    Where two markets have two lengths, `also` is the mean of the other; either is met as often.
    """

    mean: float
    sd: float
    trust: float
    also: float | None = None

    @property
    def means(self) -> tuple[float, ...]:
        """The mean, or both."""
        return (self.mean,) if self.also is None else (self.mean, self.also)

    def density(self, x: float, wider: float = 1.0) -> float:
        """Return the density of a reading, the deviation taken `wider`."""
        return sum(normal(x, mean, wider * self.sd) for mean in self.means) / len(self.means)


@dataclass(frozen=True)
class SizeTable:
    """One measured look at all lamp types; lamp types of one size share a row.

    A reading is a gross error (`slip`: even over low to high), or normal around the catalogue value. A value
    that is wrong (chance 1 - trust) is as often a little off, normal with three times the deviation, as nowhere
    near. Nowhere near and absent are the same: the reading falls as on the average lamp that has a value, which
    neither favours nor punishes a lamp whose size nobody wrote down.
    """

    look: Look
    values: tuple[str, ...]  # none: every answer is a number
    rows: tuple[Size | None, ...]
    row_of: tuple[int, ...]  # by lamp, in catalogue order

    @cached_property
    def shares(self) -> tuple[float, ...]:
        """By row, its share of the lamps that have a size; 0 for the row without."""
        counts = [0 if size is None else self.row_of.count(row) for row, size in enumerate(self.rows)]
        total = sum(counts) or 1
        return tuple(count / total for count in counts)

    @property
    def low(self) -> float:
        """Smallest reading in mm that is not absurd."""
        return self.look.low if self.look.low is not None else 0.0

    @property
    def high(self) -> float:
        """Largest reading in mm that is not absurd."""
        return self.look.high if self.look.high is not None else max(self.low, 1.0) * 1000

    def hear(self, answer: str | float) -> Heard:
        """Return what a reading in mm says of every lamp; the gross-error floor reaches everywhere.

        A reading agrees within 2.5 deviations of the catalogue value; without a value it does neither. The last
        readings are remembered: while one case grows, its earlier answers are heard again and again.
        """
        x = float(answer)
        if x not in self._heard:
            if len(self._heard) >= REMEMBERED:
                self._heard.clear()
            self._heard[x] = self._hear(x)
        return self._heard[x]

    @cached_property
    def _heard(self) -> dict[float, Heard]:
        return {}

    def _hear(self, x: float) -> Heard:
        peaks = [0.0 if size is None else size.density(x) for size in self.rows]
        wides = [0.0 if size is None else size.density(x, WIDER) for size in self.rows]
        chances = self._mix(peaks, wides, 1 / (self.high - self.low))
        near = [None if size is None else _is_near(x, size) for size in self.rows]
        return Heard([chances[row] for row in self.row_of], [near[row] for row in self.row_of])

    def _mix(self, peaks: Sequence[float], wides: Sequence[float], even: float) -> list[float]:
        right = 1 - self.look.slip
        floor = self.look.slip * even
        broad = sum(map(mul, peaks, self.shares), 0.0)
        return [
            floor + right * (trust * peak + off * wide + nowhere * broad)
            for trust, off, nowhere, peak, wide in zip(*self._parts, peaks, wides, strict=True)
        ]

    @cached_property
    def _parts(self) -> tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]:
        """By row: the chance that the value is right, a little off, nowhere near."""
        trusts = tuple(0.0 if size is None else size.trust for size in self.rows)
        offs = tuple(0.0 if size is None else (1 - size.trust) / 2 for size in self.rows)
        return trusts, offs, tuple(1 - trust - off for trust, off in zip(trusts, offs, strict=True))

    def name(self, row: int) -> str | None:
        """Name the size of a row."""
        size = self.rows[row]
        if size is None:
            return None
        means = tr(" or ").join(map(figure, size.means))
        return f"{means} mm"

    @cached_property
    def edges(self) -> tuple[float, ...]:
        """Where a reading is cut into cells, in mm: about as many lamps' worth of readings in each."""
        cuts = sorted(
            mean + z * size.sd
            for row in self.row_of
            if (size := self.rows[row]) is not None
            for mean in size.means
            for z in _Z
        )
        return tuple(sorted({cuts[len(cuts) * at // CELLS] for at in range(1, CELLS)})) if cuts else ()

    @cached_property
    def cells(self) -> tuple[tuple[float, ...], ...]:
        """By row: the chance that a reading falls into each cell."""
        none = [0.0] * (len(self.edges) + 1)
        peaks = [none if size is None else self._masses(size, 1.0) for size in self.rows]
        wides = [none if size is None else self._masses(size, WIDER) for size in self.rows]
        evens = _steps([min(1.0, max(0.0, (edge - self.low) / (self.high - self.low))) for edge in self.edges])
        columns = map(self._mix, zip(*peaks, strict=True), zip(*wides, strict=True), evens)
        return tuple(zip(*columns, strict=True))

    def _masses(self, size: Size, wider: float) -> list[float]:
        each = [self._masses_of(mean, size.sd * wider) for mean in size.means]
        return each[0] if len(each) == 1 else [sum(pair) / len(each) for pair in zip(*each, strict=True)]

    def _masses_of(self, mean: float, sd: float) -> list[float]:
        edges = self.edges
        first, last = bisect(edges, mean - FAR * sd), bisect(edges, mean + FAR * sd)
        scale = 1 / (sd * sqrt(2))
        near = [0.5 + 0.5 * erf((edge - mean) * scale) for edge in edges[first:last]]
        return _steps([0.0] * first + near + [1.0] * (len(edges) - last))

    @cached_property
    def bits(self) -> tuple[float, ...]:
        """Entropy of the cell by row, in bits."""
        return tuple(entropy(row) for row in self.cells)


def _is_near(x: float, size: Size) -> bool:
    return any(abs(x - mean) <= AGREES_WITHIN * size.sd for mean in size.means)


def normal(x: float, mean: float, sd: float) -> float:
    """Return the density of the normal distribution."""
    z = (x - mean) / sd
    return exp(-z * z / 2) / (sd * sqrt(2 * pi))


def _steps(below: list[float]) -> list[float]:
    """Turn the chances below each edge into the chances between them, both open ends included."""
    return [upper - lower for lower, upper in zip([0.0, *below], [*below, 1.0], strict=True)]


def size_table(catalogue: Catalogue, look: Look) -> SizeTable:
    """Return the table of one measured look."""
    rows: dict[Size | None, int] = {}
    row_of = tuple(
        rows.setdefault(
            _size(look, _figure(look.key, catalogue.base_of(lamp), lamp), _also(look.key, lamp)), len(rows)
        )
        for lamp in catalogue.lamps
    )
    return SizeTable(look, (), tuple(rows), row_of)


def _figure(key: str, base: Base, lamp: Lamp) -> Figure | None:
    if key == "pin_spacing_mm":
        return base.pin_spacing_mm
    return {"tube_mm": lamp.tube_mm, "length_mm": lamp.length_mm}.get(key)


def _also(key: str, lamp: Lamp) -> Figure | None:
    return lamp.length_also_mm if key == "length_mm" else None


def _size(look: Look, figure: Figure | None, also: Figure | None) -> Size | None:
    if figure is None:
        return None
    spread = figure.plus_minus if figure.plus_minus is not None else look.default_sd or 0.0
    sd = hypot(look.tool_sd or 0.0, spread)
    return Size(figure.value, sd, TRUST[figure.confidence], also.value if also is not None else None)
