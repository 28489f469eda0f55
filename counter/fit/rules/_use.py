"""Rules on what the light is for, and on the place it hangs in."""

from __future__ import annotations

from functools import lru_cache
from math import floor, log10
from typing import TYPE_CHECKING, cast

from counter.fit._facts import ABOUT, TOO_NEAR, Facts, Finding, number, weakest

if TYPE_CHECKING:
    from counter.catalogue import Confidence, Lamp

EXPOSED_AT_M = 2.0  # from a ceiling fixture to the eyes of somebody standing below; a round figure of ours


def uvc(facts: Facts) -> Finding | None:
    """A germicidal lamp: where it must not go, and what to say where it may."""
    if facts.lamp.kind != "uv-c":
        return None
    rules = {"germicidal": "uvc-germicidal", "unknown": "uvc-use-unknown", "lighting": "uvc-in-lighting"}
    if facts.use in rules:
        return exposing(facts.lamp, rules[facts.use])
    found = exposing(facts.lamp, "uvc-other-unit")
    return found._replace(values={**found.values, "unit": facts.use})


def exposing(lamp: Lamp, rule: str) -> Finding:
    """Return a finding on a germicidal lamp, with the time to the daily limit where its length is known."""
    arc = lamp.arc_mm or lamp.length_mm
    if arc is None or arc.value < 1:
        return Finding(f"{rule}-no-figure")
    most_w, confidence = most_uvc(lamp)
    return _timed(rule, most_w, arc.value, weakest((confidence, arc.confidence)))


def most_uvc(lamp: Lamp) -> tuple[float, Confidence]:
    """Return the most at 254 nm, W, that a germicidal lamp may well give, and how sure that is.

    The share of its watts that a work names, or the lamp's own output where that is more: a time until harm is
    never computed from what small lamps are thought to give.
    """
    from counter.light import germicidal_share  # not needed before the first germicidal lamp

    share, watts, own = germicidal_share(), lamp.watts, lamp.uvc_w
    most_w = share.of_watts * watts.value
    if own is not None and own.value > most_w:
        return own.value, own.confidence
    return most_w, weakest((cast("Confidence", share.confidence), watts.confidence))


@lru_cache(maxsize=256)
def _timed(rule: str, uvc_watts: float, arc_mm: float, confidence: Confidence) -> Finding:
    seconds, is_valid = time_to_limit_s(uvc_watts, arc_mm)
    values = {
        "time": about(seconds),
        "distance": number(EXPOSED_AT_M),
        "uvc_w": number(uvc_watts),
        "validity": "" if is_valid else TOO_NEAR,
    }
    return Finding(rule, values, floor(seconds), "s", confidence)


@lru_cache(maxsize=256)
def time_to_limit_s(uvc_watts: float, arc_mm: float) -> tuple[float, bool]:
    """Return the time to the daily limit at `EXPOSED_AT_M`, in seconds, and whether the formula holds there.

    Where no arc length is known the lamp's length stands in, a little longer; at this distance that is under 5 %.
    """
    from counter.light import exposure  # not needed before the first germicidal lamp

    found = exposure(uvc_watts, arc_mm, EXPOSED_AT_M)
    return found.time_to_limit_s, found.valid


def about(seconds: float) -> str:
    """Write a time no more exactly than an output from memory allows, never longer than computed: "about 16 min"."""
    for unit, length in (("h", 3600), ("min", 60)):
        if seconds >= 1.5 * length:
            return ABOUT.format(time=f"{_shortened(seconds / length):g} {unit}")
    return ABOUT.format(time=f"{_shortened(seconds):g} s")


def _shortened(value: float) -> float:
    """Cut a positive number to two figures: a time until harm is not rounded up."""
    step = 10.0 ** (floor(log10(value)) - 1)
    return round(floor(value / step) * step, 6)


def lighting_for_germs(facts: Facts) -> Finding | None:
    """A lighting or blacklight lamp disinfects nothing."""
    is_wrong = facts.use == "germicidal" and facts.lamp.kind != "uv-c"
    return Finding("no-disinfection") if is_wrong else None


def colour(facts: Facts) -> Finding | None:
    """Two whites in one room, as a difference in mired."""
    room, own = facts.fixture.room_k, facts.cct_k
    if room is None or facts.lamp.is_ultraviolet:
        return None
    if own is None:
        return Finding("colour-unread", {"room": number(room)}, room, "K")
    from counter.light import match_word, mired_difference  # not needed before the first room with a colour

    try:
        apart = mired_difference(own, room)
    except ValueError:  # a colour no white lamp has: nothing to compare with
        return Finding("colour-unread", {"room": number(room)}, room, "K")
    word = match_word(apart)
    if word == "same":
        return None
    values = {"room": number(room), "own": number(own), "mired": f"{apart:.0f}", "word": word}
    rule = "colour-close" if word == "just noticeable" else "colour-differs"
    return Finding(rule, values, round(apart, 1), "mired")


def enclosed(facts: Facts) -> Finding | None:
    """Heat that cannot get away."""
    return Finding("enclosed") if facts.fixture.enclosed else None


def damp(facts: Facts) -> Finding | None:
    """Water and lamp contacts."""
    return Finding("damp") if facts.fixture.damp else None


def cold(facts: Facts) -> Finding | None:
    """Mercury vapour needs warmth."""
    return Finding("cold") if facts.fixture.cold and facts.lamp.kind != "led" else None


def base_up(facts: Facts) -> Finding | None:
    """Where the base hangs up, the warm end is where the mercury sits."""
    is_one_ended = facts.base.mount != "two-ends"
    return Finding("base-up") if facts.fixture.base_up and is_one_ended and facts.lamp.kind != "led" else None


RULES = (uvc, lighting_for_germs, colour, enclosed, damp, cold, base_up)
