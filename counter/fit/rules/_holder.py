"""Rules on the holder and the room for the lamp: does it go in, and is it meant to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.fit._facts import SHAPED_FOR_TWO_ENDS, Facts, Finding, number

if TYPE_CHECKING:
    from counter.catalogue import Figure
    from counter.fit._holder import Match

LENGTH_SPREAD_MM = 8.0  # the catalogue's lengths are typical ones; they are good to about this
TWO_END_SLACK_MM = 20.0  # a tube shorter than the room by more than this reaches one holder only
TUBE_SPREAD_MM = 1.0


def _names(facts: Facts) -> dict[str, str]:
    match: Match = facts.match
    return {
        "base": facts.base.designation,
        "holder": match.holder.text if match.holder else facts.fixture.holder or "",
        "pins": number(facts.base.pins.value),
        "holder_pins": number(match.pins) if match.pins else "another number of",
    }


def pins(facts: Facts) -> Finding | None:
    """Two pins bring their own starter, four do not: one can never stand in for the other."""
    if facts.match.says != "pins":
        return None
    lamp_pins, holder_pins = facts.base.pins.value, facts.match.pins
    rule = {(2, 4): "pins-two-in-four", (4, 2): "pins-four-in-two"}.get((int(lamp_pins), holder_pins or 0))
    return Finding(rule or "pins-differ", _names(facts), lamp_pins, "pins", facts.base.pins.confidence)


def keyed_apart(facts: Facts) -> Finding | None:
    """X, Y, Z and U say that a base is not, or not fully, interchangeable with its namesake."""
    return Finding("keyed-apart", _names(facts)) if facts.match.says == "modifier" else None


def key(facts: Facts) -> Finding | None:
    """The number after the hyphen is a key, and keys stand for current classes."""
    return Finding("key-differs", _names(facts)) if facts.match.says == "key" else None


def other_base(facts: Facts) -> Finding | None:
    """Another base altogether."""
    return Finding("base-differs", _names(facts)) if facts.match.says == "base" else None


def mains_holder(facts: Facts) -> Finding | None:
    """A lamp that needs a ballast, and a holder that has the mains on its contacts."""
    base = facts.match.base
    is_meant = base is not None and base.supply == "mains" and facts.discharge
    return Finding("mains-holder", _names(facts)) if is_meant else None


def _spread(length: Figure) -> float:
    return length.plus_minus if length.plus_minus is not None else LENGTH_SPREAD_MM


def _length(range_mm: tuple[float, float]) -> str:
    return number(range_mm[0]) if range_mm[0] == range_mm[1] else f"{number(range_mm[0])} to {number(range_mm[1])}"


def _has_two_ends(facts: Facts) -> bool:
    return facts.lamp.shape in SHAPED_FOR_TWO_ENDS and facts.base.mount == "two-ends"


def too_long(facts: Facts) -> Finding | None:
    """The lamp against the room for its length."""
    length, room, range_mm = facts.lamp.length_mm, facts.fixture.space_mm, facts.lamp.lengths_mm
    if length is None or room is None or range_mm is None:
        return None
    if range_mm[1] - room + _spread(length) <= 0:
        return None
    values = {"length": _length(range_mm), "room": number(room), "spread": number(_spread(length))}
    is_sure = range_mm[0] - room > _spread(length)
    return Finding("too-long" if is_sure else "length-close", values, length.value, "mm", length.confidence)


def too_short(facts: Facts) -> Finding | None:
    """A tube with two ends must reach both holders."""
    length, room, range_mm = facts.lamp.length_mm, facts.fixture.space_mm, facts.lamp.lengths_mm
    if length is None or room is None or range_mm is None or not _has_two_ends(facts):
        return None
    if room - range_mm[1] <= TWO_END_SLACK_MM + _spread(length):
        return None
    values = {"length": _length(range_mm), "room": number(room)}
    return Finding("too-short", values, length.value, "mm", length.confidence)


def too_thick(facts: Facts) -> Finding | None:
    """The tube against the room for its diameter, clips and reflector included."""
    tube, room = facts.lamp.tube_mm, facts.fixture.tube_room_mm
    if tube is None or room is None or tube.value - (tube.plus_minus or TUBE_SPREAD_MM) <= room:
        return None
    values = {"tube": number(tube.value), "room": number(room)}
    return Finding("too-thick", values, tube.value, "mm", tube.confidence)


RULES = (pins, keyed_apart, key, other_base, mains_holder, too_long, too_short, too_thick)
