"""LED lamps in a fluorescent lamp's place, by type and by the fixture as it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.fit._facts import HIGH_FREQUENCY, Facts, Finding
from counter.fit._judge import in_words
from counter.fit._models import Replacement, strictest
from counter.fit._texts import led_caps, led_type, verdict_of
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Base


def led_types(known: Facts) -> tuple[Replacement, ...]:
    """Return the LED types met for the holder's base (the lamp's, where the holder is not known).

    Each is judged against the fixture as it is today. The lamp in hand may have been the wrong one, so the holder
    counts.
    """
    base = known.match.base or known.base
    if known.lamp.kind == "led":
        return ()
    names = next((cap.types for cap in led_caps() if base.family in cap.families), ())
    return tuple(_replacement(known, base, name) for name in names) or (_none_known(base),)


def _replacement(known: Facts, base: Base, name: str) -> Replacement:
    kind = led_type(name)
    values = {"base": base.designation}
    # What this place asks comes before what every such lamp asks: of equal weight it is the more telling.
    rules = (*_in_this_place(known, base, name), _rule(known, base, name, kind.on[known.fixture.ballast]))
    findings = [Finding(rule, values) for rule in rules]
    cautions = in_words(findings)
    return Replacement(
        title=f"{tr(kind.title)}, {base.designation}",
        led_type=name,
        verdict=strictest(map(verdict_of, findings)),
        reason=" ".join((cautions[0].says, cautions[0].why, tr("Needs {what}.").format(what=tr(kind.needs)))),
        cautions=cautions,
    )


def _rule(known: Facts, base: Base, name: str, rule: str) -> str:
    has_starter = base.starter is not None and base.starter.value == "internal"
    is_fault = has_starter and known.fixture.ballast in HIGH_FREQUENCY
    return "led-a-two-pin-electronic" if name == "A" and is_fault else rule


def _in_this_place(known: Facts, base: Base, name: str) -> Iterator[str]:
    fixture = known.fixture
    is_for_uv = known.use == "unknown" and known.lamp.is_ultraviolet
    is_fed_at_the_ends = name in ("B", "A+B") and base.mount == "two-ends"
    rules = {
        "led-no-uv": known.use not in ("lighting", "unknown") or is_for_uv,
        "led-enclosed": fixture.enclosed,
        "led-damp": fixture.damp,
        "led-dimmer": fixture.dimmer,
        "led-emergency": fixture.emergency,
        "led-shunted": fixture.shunted and is_fed_at_the_ends,
    }
    return (rule for rule, applies in rules.items() if applies)


def _none_known(base: Base) -> Replacement:
    said = in_words([Finding("no-led-known", {"base": base.designation})])
    title = tr("LED for {base}").format(base=base.designation)
    return Replacement(title=title, verdict="ask first", reason=said[0].says, cautions=said)
