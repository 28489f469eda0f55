"""The cases that cards on selling ask about: one lamp, one fixture and what it is for, each with a name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk import Case
from counter.fit import Fixture, Use
from counter.training.cards._facts import Setting
from counter.training.cards._look_cards import true_answer

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Base, Lamp
    from counter.fit import Ballast
    from counter.training.cards._facts import Lore

_USE_OF: dict[str, Use] = {"fluorescent": "lighting", "uv-c": "germicidal", "uv-a": "blacklight", "other": "medical"}


def use_of(lamp: Lamp) -> Use:
    """Return what a lamp type is for, as a customer would say."""
    return "tanning" if lamp.purposes == ("tanning",) else _USE_OF.get(lamp.kind, "unknown")


def settings_of_family(lore: Lore, family: str) -> tuple[Setting, ...]:
    """Return the cases asked about a family, in catalogue order, remembered: every card comes back to them."""
    if family not in lore.settings:
        lamps = lore.lamps_of.get(family, ())
        lore.settings[family] = tuple(setting for lamp in lamps for setting in settings_of_lamp(lore, lamp))
    return lore.settings[family]


def settings_of_lamp(lore: Lore, lamp: Lamp) -> Iterator[Setting]:
    base, right = lore.catalogue.base_of(lamp), use_of(lamp)
    fitting, looks = fitting_for(lore, lamp), looks_of(lore, lamp)

    def told(scenario: str, fixture: Fixture, use: Use) -> Setting:
        return Setting(scenario, lamp.id, Case(looks=looks, chosen=lamp.id, fixture=fixture, use=use))

    yield told("right", fitting, right)
    yield told("unknown-ballast", Fixture(holder=base.designation), right)
    for other in _other_bases(lore, base):
        yield told("other-base", fitting.model_copy(update={"holder": other}), right)
    if lamp.kind == "uv-c":
        yield told("for-lighting", fitting, "lighting")
        yield told("use-unknown", fitting, "unknown")
    for scenario, change in _wrong_supplies(lore, lamp, base):
        yield told(scenario, fitting.model_copy(update=change), right)


def fitting_for(lore: Lore, lamp: Lamp) -> Fixture:
    """Return a fixture that the lamp belongs into."""
    base = lore.catalogue.base_of(lamp)
    watts = () if base.supply == "mains" else (lamp.watts.value,)
    return Fixture(holder=base.designation, ballast=_right_ballast(lamp, base), ballast_watts=watts)


def looks_of(lore: Lore, lamp: Lamp) -> dict[str, str | float]:
    """Return the looks that the words of a case give away."""
    keys = ("legs", "watts", "glass") if lamp.glass else ("legs", "watts")
    return {key: true_answer(lore, lamp, key) for key in keys}


def _right_ballast(lamp: Lamp, base: Base) -> Ballast:
    if base.supply == "mains":
        return "none"
    return "electronic" if lamp.ballasts[0] == "electronic" else "magnetic"


def _other_bases(lore: Lore, base: Base) -> Iterator[str]:
    """Yield holders that the lamp does not belong into: its own family's other keys, and the closest look-alike's."""
    yield from (other.designation for other in lore.catalogue.bases if other.family == base.family and other != base)
    closest = lore.alike(base.family)[:2]
    yield from (other.designation for other in lore.catalogue.bases if other.family in closest)


def _wrong_supplies(lore: Lore, lamp: Lamp, base: Base) -> Iterator[tuple[str, dict[str, object]]]:
    """Yield what may feed the holder wrongly."""
    if base.supply == "mains":
        yield "on-ballast", {"ballast": "magnetic"}
        return
    watts = {other.watts.value for other in lore.lamps_of[base.family]} - {lamp.watts.value}
    for one in sorted(watts):
        yield "other-watts", {"ballast_watts": (one,)}
    for ballast in ("magnetic", "electronic"):
        if ballast not in lamp.ballasts:
            yield "other-ballast", {"ballast": ballast}
    yield "led-driver", {"ballast": "led-driver", "ballast_watts": ()}
    yield "bypassed", {"ballast": "bypassed", "ballast_watts": ()}
