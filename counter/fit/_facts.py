"""What the rules look at, and what a rule answers with."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import UNSURE
from counter.fit._holder import Match, compare
from counter.language import marked

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from counter.catalogue import Base, Catalogue, Confidence, Lamp
    from counter.fit._models import Fixture, Use, Verdict

RUNS_LAMPS = frozenset({"magnetic", "electronic", "dimming"})  # ballasts that set a discharge lamp's current
HIGH_FREQUENCY = frozenset({"electronic", "dimming"})
SHAPED_FOR_TWO_ENDS = frozenset({"linear", "u-bent"})

# Times until harm, as findings hold them: in English, since the key of an answer is made of them.
NOT_REACHED = marked("At {far} m one lamp alone does not reach the daily limit; computed from {watts} W of UV")
REACHED = marked("At {far} m the daily limit is reached in {time}; computed from {watts} W of UV")
NOT_COMPUTED = marked("How soon the daily limit is reached is not known: its output is not in the catalogue")
OWN_AT = marked("{frequency}; the lamp's own at {own}")
ABOUT = marked("about {time}")
TOO_NEAR = marked(" (a rough figure: so long a lamp is too near at that distance)")

_SUREST_FIRST: tuple[Confidence, ...] = (
    "confirmed",
    "published",
    "reproduced",
    "memory-high",
    "practice",
    "memory-medium",
    "memory-low",
)


class Facts(NamedTuple):
    """Everything that a rule may look at."""

    catalogue: Catalogue
    lamp: Lamp
    base: Base
    fixture: Fixture
    use: Use
    cct_k: int | None
    match: Match
    on_mains: bool  # the lamp carries its own ballast and is made for the mains
    discharge: bool  # it needs something outside it that holds its current down
    has_starter: bool  # the starter sits in its own base

    @property
    def listed(self) -> bool:
        """Whether the ballast label names the lamp's watts."""
        return is_listed(self.lamp, self.fixture)


class Finding(NamedTuple):
    """A rule that applies: what it computed, for the text, and what it found in the catalogue on the way."""

    rule: str
    values: Mapping[str, str] = {}
    figure: float | None = None
    unit: str | None = None
    confidence: Confidence | None = None
    verdict: Verdict | None = None
    words: tuple[str, ...] = ()  # of label or holder, that can be pressed as saying nothing


def facts(
    catalogue: Catalogue, lamp: Lamp, fixture: Fixture, use: Use = "unknown", cct_k: int | None = None
) -> Facts:
    """Gather the facts of one question."""
    base = catalogue.base_of(lamp)
    match, on_mains = compare(catalogue, base, fixture.holder), base.supply == "mains"
    has_starter = base.starter is not None and base.starter.value == "internal"
    is_discharge = lamp.kind != "led" and not on_mains
    return Facts(catalogue, lamp, base, fixture, use, cct_k, match, on_mains, is_discharge, has_starter)


def is_listed(lamp: Lamp, fixture: Fixture) -> bool:
    """Whether the ballast label names the lamp's watts."""
    return any(abs(watts - lamp.watts.value) < 0.05 for watts in fixture.ballast_watts)


def weakest(confidences: Iterable[Confidence | None]) -> Confidence:
    """Return the least sure of some confidences; with none at all, the least there is."""
    known = [one for one in confidences if one]
    return max(known, key=_SUREST_FIRST.index) if known else "memory-low"


def is_unsure(confidence: Confidence) -> bool:
    """Whether a value of this confidence must be named as unconfirmed."""
    return confidence in UNSURE


def number(value: float) -> str:
    """Write a number as people do: no trailing zeros, at most three figures after the point."""
    return f"{round(value, 3):g}"
