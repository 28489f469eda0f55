"""How hard a ballast drives a lamp that its label does not name, from the catalogue's currents."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.fit._facts import HIGH_FREQUENCY, weakest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Circuit, Confidence, Figure, Lamp
    from counter.fit._facts import Facts

TOLERANCE = 0.15  # more than this over or under the lamp's own current, or its watts, is a different lamp
_HAIR = 1e-9
SAME_LENGTH = 0.1


class Drive(NamedTuple):
    """One listed wattage against the lamp: current and watts as ratios of ballast to lamp.

    `current` is None where the catalogue lacks a current for either lamp on the same kind of supply.
    """

    listed_w: float
    watts: float
    current: float | None = None
    design_a: float | None = None
    lamp_a: float | None = None
    frequency: str = ""
    confidence: Confidence | None = None

    @property
    def worst(self) -> float:
        """The larger of the two distances from 1."""
        return max(abs(self.watts - 1), abs((self.current or 1) - 1))

    @property
    def is_off(self) -> bool:
        """Whether current or watts are off by more than the tolerance."""
        return self.worst > TOLERANCE + _HAIR

    @property
    def is_current_off(self) -> bool:
        """Whether the current alone is off by more than the tolerance."""
        return self.current is not None and abs(self.current - 1) > TOLERANCE + _HAIR


def nearest_drive(facts: Facts) -> Drive | None:
    """Return the listed wattage that comes nearest to the lamp's own, or None when the label lists nothing."""
    drives = [drive for watts in facts.fixture.ballast_watts if watts > 0 for drive in _drives(facts, watts)]
    return min(drives, key=lambda drive: drive.worst, default=None)


def _drives(facts: Facts, watts: float) -> list[Drive]:
    plain = Drive(watts, watts / facts.lamp.watts.value)
    return [drive for lamp in _made_for(facts, watts) for drive in _against(facts, lamp, plain)] or [plain]


def _made_for(facts: Facts, watts: float) -> list[Lamp]:
    """Return the lamps of these watts on the holder's base, or else on others of its family."""
    holder = facts.match.base or facts.base  # the ballast was made for the lamps of the fixture's own holder
    alike = [
        lamp
        for lamp in facts.catalogue.lamps_of_family[holder.family]
        if abs(lamp.watts.value - watts) < 0.05 and _as_long(lamp, facts.lamp)
    ]
    return [lamp for lamp in alike if lamp.base == holder.designation] or alike


def _as_long(one: Lamp, other: Lamp) -> bool:
    # The same watts on the same base can be two lamps: 110 W R17d is a long high-output or a short very-high-output.
    if one.watts.value != other.watts.value or one.length_mm is None or other.length_mm is None:
        return True
    return abs(one.length_mm.value - other.length_mm.value) <= SAME_LENGTH * other.length_mm.value


def _against(facts: Facts, made_for: Lamp, plain: Drive) -> Iterator[Drive]:
    for frequency in ("hf", "mains"):
        design, own = _current(made_for, frequency), _current(facts.lamp, frequency)
        if not design or not own or (frequency == "hf" and facts.fixture.ballast == "magnetic"):
            continue
        yield plain._replace(
            current=design.value / own.value,
            design_a=design.value,
            lamp_a=own.value,
            frequency="high frequency" if frequency == "hf" else "mains frequency",
            confidence=weakest((design.confidence, own.confidence)),
        )
        # Mains currents stand in where no high-frequency ones are known: the classes lie apart alike. A ballast of
        # unknown kind is given both, and the milder counts.
        if facts.fixture.ballast in HIGH_FREQUENCY:
            return


def _current(lamp: Lamp, frequency: str) -> Figure | None:
    circuit: Circuit | None = lamp.hf if frequency == "hf" else lamp.mains
    return circuit.current_a if circuit else None
