"""Lamp types that share a code but for a suffix: savers, instant start, ozone, sun lamps."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from counter.catalogue import Lamp
    from counter.marks._known import Known
    from counter.marks._lex import Facts


def is_by_inches(lamp: Lamp) -> bool:
    """Whether a straight lamp's code prints inches, not watts."""
    return lamp.inches is not None and lamp.shape == "linear"


def own_number(lamp: Lamp) -> float:
    """Return the number that the code of a tube prints."""
    return lamp.inches if lamp.inches is not None and is_by_inches(lamp) else lamp.watts.value


def numbers(lamp: Lamp, known: Known, facts: Facts) -> Iterator[float]:
    """Yield the numbers that a tube's code may print: a saver's, once it is told for one, are those it stands for."""
    yield own_number(lamp)
    if facts.get("saving") or "watts" in facts:
        yield from (own_number(known.catalogue.lamp_by_id[one]) for one in lamp.stands_in_for)


def kind_agrees(lamp: Lamp, facts: Facts) -> bool:
    """Whether a code's kind suits a lamp. Tanning tubes print a plain F and their inches."""
    kind = facts.get("kind")
    if "band" in facts or lamp.band is not None:
        return facts.get("band") == lamp.band or (kind is None and "band" not in facts)
    is_tanning = "tanning" in lamp.purposes and is_by_inches(lamp)
    return kind in (None, lamp.kind) or (kind == "fluorescent" and is_tanning and "number" in facts)


def told_apart(lamps: tuple[Lamp, ...], known: Known, facts: Facts) -> tuple[Lamp, ...]:
    """Return the lamps that the code's suffixes mean; without a suffix the plain ones, where there are any.

    Shorthand (no number of a tube's code) leaves all in the running: 25 W on a T8 may be two lamps.
    """
    is_instant = facts.get("start") == "instant"
    if is_instant or facts.keys() & {"number", "watts"}:
        lamps = _preferred(lamps, lambda one: known.bases[one.base].joins_pins(one) == is_instant)
    if facts.get("saving"):
        lamps = _preferred(lamps, lambda one: one.is_saver)
    elif "number" in facts and "watts" not in facts:
        lamps = _preferred(lamps, lambda one: not one.is_saver)
    if facts.get("kind") == "fluorescent":
        lamps = _preferred(lamps, lambda one: one.kind == "fluorescent")
    ozone = facts.get("ozone")
    return lamps if ozone is None else _preferred(lamps, lambda one: ("ozone" in one.purposes) == ozone)


def _preferred(lamps: tuple[Lamp, ...], suits: Callable[[Lamp], bool]) -> tuple[Lamp, ...]:
    return tuple(one for one in lamps if suits(one)) or lamps
