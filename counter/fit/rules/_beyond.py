"""Rules on lamps made for other than light: refused for lighting by their kind alone, sold for their own use."""

from __future__ import annotations

import re
from functools import lru_cache
from math import floor
from typing import TYPE_CHECKING

from counter import words
from counter.fit._codes import names, tube_codes
from counter.fit._facts import (
    NOT_COMPUTED,
    NOT_REACHED,
    REACHED,
    Facts,
    Finding,
    is_listed,
    number,
    weakest,
)
from counter.fit.rules._use import EXPOSED_AT_M, about

if TYPE_CHECKING:
    from counter.catalogue import Confidence, Figure, Lamp
    from counter.words import Topic

OWN_USES = frozenset({"blacklight", "insect trap", "gel curing", "tanning", "medical"})
BLACK = frozenset({"blacklight", "insect trap", "gel curing"})


def ultraviolet(facts: Facts) -> Finding | None:
    """A UV-A or UV-B lamp: where it must not go, and whether its own unit asks for it."""
    lamp = facts.lamp
    if not lamp.is_ultraviolet or lamp.kind == "uv-c" or facts.use == "germicidal":
        return None
    prefix = "uvb" if lamp.band == "uv-b" else "uva"
    if facts.use == "unknown":
        return _finding(lamp, f"{prefix}-use-unknown")
    if facts.use == "lighting":
        return _finding(lamp, f"{prefix}-in-lighting")
    if not suits(lamp, facts.use) and not _is_named_alike(facts):
        return _finding(lamp, f"{prefix}-other-unit", unit=facts.use)
    if facts.use == "blacklight":
        return _finding(lamp, "uva-blacklight")
    is_sure = _is_named_by_code(facts) or (suits(lamp, facts.use) and is_named(facts))
    return _finding(lamp, f"{prefix}-own-unit" if is_sure else f"{prefix}-own-unit-unnamed", unit=facts.use)


def _is_named_alike(facts: Facts) -> bool:
    """Whether a unit for coated UV-A lamps names this one: the catalogue need not know all that it is for."""
    return facts.use in BLACK and bool(BLACK & set(facts.lamp.purposes)) and is_named(facts)


def suits(lamp: Lamp, use: str) -> bool:
    """Whether a lamp is made for a use; coated UV-A lamps for traps and curing do for blacklight too."""
    is_blacklight = use == "blacklight" and lamp.kind == "uv-a" and bool(BLACK & set(lamp.purposes))
    return use in lamp.purposes or is_blacklight


def ozone(facts: Facts) -> Finding | None:
    """A germicidal lamp whose glass lets 185 nm through."""
    if "ozone" not in facts.lamp.purposes or facts.use == "lighting":
        return None
    return Finding("uvc-ozone" if is_named(facts) and facts.use == "germicidal" else "uvc-ozone-unnamed")


def white_in_uv_unit(facts: Facts) -> Finding | None:
    """A lamp to see by gives none of what such a unit is for."""
    is_wrong = facts.use in OWN_USES and not facts.lamp.is_ultraviolet
    return Finding("white-in-blacklight", {"unit": facts.use}) if is_wrong else None


def is_named(facts: Facts) -> bool:
    """Whether the unit's own label names this lamp: its code, or its watts beside a word for its kind."""
    if not _plain(facts.fixture.label):
        return False
    if _is_named_by_code(facts):
        return True
    topic = _topic(facts.lamp)
    is_tanning = facts.lamp.kind == "uv-a" and "tanning" in facts.lamp.purposes
    said = words.speaks_of(("uv-b", topic) if is_tanning else topic, facts.fixture.label)
    return is_listed(facts.lamp, facts.fixture) and bool(said)


def _is_named_by_code(facts: Facts) -> bool:
    label, lamp = facts.fixture.label, facts.lamp
    if any(_plain(code.value) in _plain(label) for code in lamp.codes):
        return True
    named = (code.text for code in tube_codes(label) if names(code, lamp, facts.catalogue))
    return any(words.speaks_of(_topic(lamp), text) for text in named)


def _topic(lamp: Lamp) -> Topic:
    return "uv-c" if lamp.kind == "uv-c" else "uv-b" if lamp.band == "uv-b" else "uv-a"


def _plain(text: str) -> str:
    return re.sub(r"[^A-Z0-9]", "", text.upper())


def purposes(lamp: Lamp) -> str:
    """Say what a lamp for other than light is made for."""
    return " or ".join(lamp.purposes)


def _finding(lamp: Lamp, rule: str, unit: str = "") -> Finding:
    time, seconds, sure = _time(lamp)
    values = {"purpose": purposes(lamp), "distance": number(EXPOSED_AT_M), "unit": unit, "time": time}
    if seconds is None:
        return Finding(rule, values)
    return Finding(rule, values, floor(seconds), "s", sure)


def _time(lamp: Lamp) -> tuple[str, float | None, Confidence | None]:
    """Return in words and seconds how soon the daily limit is reached before the bare lamp, where that is known."""
    output, arc = lamp.uvb_w or lamp.uva_w, lamp.arc_mm or lamp.length_mm
    is_computed = output is not None and arc is not None and (lamp.band is None or lamp.uvb_w is not None)
    if not is_computed or output is None or arc is None:
        return NOT_COMPUTED, None, None
    seconds = time_to_limit_s(output.value, arc.value, typical_band(lamp))
    return _in_words(output, seconds), seconds, weakest((output.confidence, arc.confidence))


def _in_words(output: Figure, seconds: float) -> str:
    far, watts = number(EXPOSED_AT_M), number(output.value)
    if seconds > 24 * 3600:
        return NOT_REACHED.format(far=far, watts=watts)
    return REACHED.format(far=far, time=about(seconds), watts=watts)


@lru_cache(maxsize=64)
def time_to_limit_s(watts: float, arc_mm: float, band: str) -> float:
    """Return the time to the first daily limit at `EXPOSED_AT_M`, in seconds, before a lamp of a typical band."""
    from counter.light import band_exposure  # not needed before the first such lamp

    return band_exposure(band, watts, arc_mm, EXPOSED_AT_M).first_s


def typical_band(lamp: Lamp) -> str:
    """Return the band that lamps of its purpose usually give, by its key in resources/light.json."""
    is_tanning = "tanning" in lamp.purposes
    if lamp.band == "uv-b":
        return "uv-b-broad" if is_tanning else "uv-b-narrow"
    return "uv-a-tanning" if is_tanning else "uv-a"


RULES = (ultraviolet, ozone, white_in_uv_unit)
