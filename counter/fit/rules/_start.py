"""Rules on how a lamp is started, and on savers: lamps of fewer watts that need more care."""

from __future__ import annotations

from counter import words
from counter.fit._codes import names, tube_codes
from counter.fit._facts import Facts, Finding, number
from counter.fit._label_rows import starts


def starts_said(label: str) -> frozenset[str]:
    """Return the ways of starting that a ballast's label names."""
    found = set()
    left = words.fold(label).plain
    for name, pattern in starts():  # "programmed rapid start" is programmed start, which is looked for first
        left, count = pattern.subn(" ", left)
        if count:
            found.add(name)
    return frozenset(found)


def instant_only(facts: Facts) -> Finding | None:
    """Joined pins put the heating windings of a rapid start or preheat ballast into a short circuit."""
    if not facts.catalogue.base_of(facts.lamp).joins_pins(facts.lamp):
        return None
    if any(code.is_instant and names(code, facts.lamp, facts.catalogue) for code in tube_codes(facts.fixture.label)):
        return None
    said = starts_said(facts.fixture.label)
    if "instant" in said and not said - {"instant"}:
        return None
    is_wrong = bool(said) or facts.fixture.ballast == "magnetic"
    return Finding("instant-only" if is_wrong else "instant-only-unsaid")


def saver_start(facts: Facts) -> Finding | None:
    """A saver starts by the ways it is made for alone; the plain lamp is more patient."""
    lamp, said = facts.lamp, starts_said(facts.fixture.label)
    if not lamp.is_saver or not said or not lamp.starts or said & set(lamp.starts):
        return None
    values = {
        "watts": number(lamp.watts.value),
        "starts": " or ".join(lamp.starts),
        "said": " or ".join(sorted(said)),
    }
    return Finding("saver-start", values, confidence=lamp.starts_from.confidence if lamp.starts_from else None)


def saver_cold(facts: Facts) -> Finding | None:
    """A saver's gas starts badly in the cold."""
    lamp, least = facts.lamp, facts.lamp.starts_above_c
    if not lamp.is_saver or not facts.fixture.cold or least is None:
        return None
    values = {"watts": number(lamp.watts.value), "least": number(least.value)}
    return Finding("saver-cold", values, least.value, "degrees Celsius", least.confidence)


def not_dimmed(facts: Facts) -> Finding | None:
    """Lamps that are not to be dimmed, on a dimmer or on a dimming ballast."""
    lamp, fixture = facts.lamp, facts.fixture
    is_dimming = fixture.ballast == "dimming"
    if (
        not (fixture.dimmer or is_dimming)
        or facts.has_starter
        or facts.on_mains
        or lamp.dims is None
        or lamp.dims.value != "no"
    ):
        return None
    if is_dimming and facts.listed:  # then its label may know better
        is_named = any(names(code, lamp, facts.catalogue) for code in tube_codes(fixture.label))
        values = {"watts": number(lamp.watts.value)}
        return None if is_named else Finding("not-dimmed-listed", values, confidence=lamp.dims.confidence)
    return Finding("not-dimmed", {"watts": number(lamp.watts.value)}, confidence=lamp.dims.confidence)


RULES = (instant_only, saver_start, saver_cold, not_dimmed)
