"""How hard a ballast drives a lamp that its label does not name, from the catalogue's currents."""

from __future__ import annotations

from math import log
from typing import TYPE_CHECKING, NamedTuple

from counter.fit._facts import HIGH_FREQUENCY, OWN_AT, weakest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Circuit, Confidence, Figure, Lamp
    from counter.fit._facts import Facts

TOLERANCE = 0.15  # more than this over or under the lamp's own current, or its watts, is a different lamp
_HAIR = 1e-9
FREQUENCY_MOVES = 0.4  # a lamp takes up to a third more at mains frequency than at high frequency; with a margin
FREQUENCIES = {"hf": "high frequency", "mains": "mains frequency"}
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
    on_it = [lamp for lamp in alike if lamp.base == holder.designation] or alike
    return [lamp for lamp in on_it if not lamp.is_saver] or on_it  # a label that means a saver names its full lamp


def _as_long(one: Lamp, other: Lamp) -> bool:
    # The same watts on the same base can be two lamps: 110 W R17d is a long high-output or a short very-high-output.
    if one.watts.value != other.watts.value or one.length_mm is None or other.length_mm is None:
        return True
    return abs(one.length_mm.value - other.length_mm.value) <= SAME_LENGTH * other.length_mm.value


def _against(facts: Facts, made_for: Lamp, plain: Drive) -> Iterator[Drive]:
    found = [one for frequency in FREQUENCIES for one in _at(facts, made_for, plain, frequency)]
    yield from found or _across(facts, made_for, plain)


def _at(facts: Facts, made_for: Lamp, plain: Drive, frequency: str) -> Iterator[Drive]:
    """Yield the drive at one frequency. Where no current at high frequency is known that of the mains stands in: the
    classes lie apart alike. A ballast of unknown kind is given both, and the milder counts.
    """
    fixture = facts.fixture.ballast
    if frequency == "hf" and fixture == "magnetic":
        return
    design, own = _current(facts, made_for, frequency), _current(facts, facts.lamp, frequency)
    is_told = frequency == "mains" and fixture in HIGH_FREQUENCY and all(_pair(facts, made_for, "hf"))
    if design and own and not is_told:
        yield _drive(plain, design, own, FREQUENCIES[frequency])


def _across(facts: Facts, made_for: Lamp, plain: Drive) -> Iterator[Drive]:
    """Yield the drive by currents of two frequencies, where they lie further apart than frequency alone moves one."""
    for there, here in (("hf", "mains"), ("mains", "hf")):
        design, own = _current(facts, made_for, there), _current(facts, facts.lamp, here)
        if design and own and abs(log(design.value / own.value)) > log(1 + FREQUENCY_MOVES):
            apart = OWN_AT.format(frequency=FREQUENCIES[there], own=FREQUENCIES[here])
            yield _drive(plain, design, own, apart)


def _drive(plain: Drive, design: Figure, own: Figure, frequency: str) -> Drive:
    return plain._replace(
        current=design.value / own.value,
        design_a=design.value,
        lamp_a=own.value,
        frequency=frequency,
        confidence=weakest((design.confidence, own.confidence)),
    )


def _pair(facts: Facts, made_for: Lamp, frequency: str) -> tuple[Figure | None, Figure | None]:
    return _current(facts, made_for, frequency), _current(facts, facts.lamp, frequency)


def _current(facts: Facts, lamp: Lamp, frequency: str) -> Figure | None:
    """Return a lamp's current; a saver of which none is known runs at that of the lamp whose place it takes."""
    circuit: Circuit | None = lamp.hf if frequency == "hf" else lamp.mains
    if circuit and circuit.current_a:
        return circuit.current_a
    kind = "electronic" if frequency == "hf" else "magnetic"
    if not lamp.is_saver or kind not in lamp.ballasts:
        return None
    full = facts.catalogue.lamp_by_id[lamp.stands_in_for[0]]
    found = _current(facts, full, frequency)
    sure = lamp.stands_in_from.confidence if lamp.stands_in_from else "memory-low"
    return found and found.model_copy(update={"confidence": weakest((found.confidence, sure))})
