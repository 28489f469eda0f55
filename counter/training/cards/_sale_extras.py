"""What else a lamp and a fixture can meet: the place, the dimmer, the label, the room's colour, the law, LED types.

These cases are for cards on one rule of caution. Each is a name and a change to a fixture that the lamp belongs
into; which rule it comes to is for the core to say.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, get_args

from counter.catalogue import parse_designation
from counter.desk import CANNOT_TELL, Case
from counter.fit import Use, law, places
from counter.light import colour_of
from counter.marks import format_code
from counter.training._settings import settings
from counter.training.cards._code_cards import COLOURS, SYSTEMS
from counter.training.cards._facts import Setting
from counter.training.cards._look_cards import true_answer
from counter.training.cards._sale_cases import fitting_for, looks_of, use_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.fit import Fixture
    from counter.training.cards._facts import Lore

    Change = tuple[str, dict[str, Any]]

THINNER_MM, NEAR_K = 5.0, 100
MADE_FOR = 2  # lamps that the ballast is made for, where their number is asked about
LED_PLACES = ("enclosed", "damp", "dimmer", "emergency", "shunted")
LATE = date(2100, 1, 1)  # by then every end of sale in the table has come


def extras_of_lamp(lore: Lore, lamp: Lamp) -> Iterator[Setting]:
    """Yield the further cases of a lamp, but for LED types."""
    right = _right(lore, lamp)

    def changed(**change: Any) -> Case:
        return right.model_copy(update=change)

    fitting = right.fixture
    for name, change in (*_places(lamp), *_supplies(lore, lamp, fitting), *_labels(lore, lamp, fitting)):
        yield Setting(name, lamp.id, changed(fixture=fitting.model_copy(update=change)))
    for other in get_args(Use):
        yield Setting(f"use-{other}", lamp.id, changed(use=other))
    for marks, room_k in _colours(lore, lamp):
        yield Setting("colour", lamp.id, changed(marks=marks, fixture=fitting.model_copy(update={"room_k": room_k})))
    yield Setting("broken", lamp.id, changed(broken=True))
    yield Setting("marks-uv", lamp.id, changed(marks=settings().words["uv-c"]))
    for name, words in settings().marks.items():
        codes = (code for system in SYSTEMS if (code := format_code(lore.catalogue, lamp.id, system)))
        yield Setting(name, lamp.id, changed(marks=f"{next(codes, '')} {words}".strip()))
    yield Setting("look-uvc", lamp.id, changed(looks={**right.looks, "glass": CANNOT_TELL}))
    seen: dict[str, str | float] = {key: true_answer(lore, lamp, key) for key in ("legs", "pins")}
    yield Setting("look-uvc", lamp.id, Case(looks=seen))
    yield Setting("look-uvc", lamp.id, Case(looks={**seen, "glass": "clear"}))
    for place, day in _ended(lore.catalogue, lamp):
        yield Setting("law", lamp.id, changed(place=place, on=day))


def led_settings(lore: Lore, lamp: Lamp) -> Iterator[Setting]:
    """Yield the LED types offered in a lamp's place, on every kind of ballast and in every place."""
    right = _right(lore, lamp)
    changes: list[dict[str, Any]] = [{"ballast": ballast} for ballast in ("magnetic", "electronic")]
    changes += [{"ballast": ballast, "ballast_watts": ()} for ballast in ("led-driver", "bypassed", "unknown")]
    changes += [{"ballast": "unknown", "ballast_watts": (), field: True} for field in LED_PLACES]
    cases = [right.model_copy(update={"fixture": right.fixture.model_copy(update=change)}) for change in changes]
    for case in (*cases, right.model_copy(update={"use": "germicidal"})):
        for one in lore.assessed(case).replacements:
            if one.led_type is not None:
                yield Setting(f"instead-{one.led_type}", lamp.id, case, one.led_type)


def _right(lore: Lore, lamp: Lamp) -> Case:
    use = use_of(lamp)
    return Case(looks=looks_of(lore, lamp), chosen=lamp.id, fixture=fitting_for(lore, lamp), use=use)


def _places(lamp: Lamp) -> Iterator[Change]:
    for field in ("enclosed", "damp", "cold", "base_up", "emergency", "dimmer", "shunted"):
        yield field.replace("_", "-"), {field: True}
    if lamp.tube_mm is not None:
        yield "thick", {"tube_room_mm": lamp.tube_mm.value - THINNER_MM}


def _supplies(lore: Lore, lamp: Lamp, fitting: Fixture) -> Iterator[Change]:
    for lamps in (MADE_FOR - 1, MADE_FOR, MADE_FOR + 1):
        yield "lamps", {"ballast_counts": (MADE_FOR,), "lamp_count": lamps}
    if len(lamp.ballasts) > 1:
        yield "dimmer-shunted-electronic", {"ballast": "electronic", "dimmer": True}
        yield "dimmer-shunted-electronic", {"ballast": "electronic", "shunted": True}
    own = lore.catalogue.base_of(lamp)
    for base in lore.catalogue.bases:
        if base.supply == "mains":
            yield "mains-holder", {"holder": base.designation}
        elif base.pins.value != own.pins.value and _is_namesake(base, own):
            yield "pins", {"holder": base.designation}
    if not fitting.ballast_watts:
        yield "mains-lamp-rewired", {"ballast": "bypassed"}
        return
    watts = sorted({other.watts.value for other in lore.catalogue.lamps} - {lamp.watts.value})
    for one in sorted(watts, key=lambda other: abs(other - lamp.watts.value))[:2]:
        yield "listed-close", {"ballast_watts": (one,)}


def _is_namesake(one: Base, other: Base) -> bool:
    """Whether two designations say the same but for the pins, or but for the size."""
    ours, theirs = parse_designation(one.designation), parse_designation(other.designation)
    return ours is not None and theirs is not None and ours.letter == theirs.letter and one.mount == other.mount


def _labels(lore: Lore, lamp: Lamp, fitting: Fixture) -> Iterator[Change]:
    """Yield labels that contradict what was entered, or name another base, or shut the lamp out."""
    other = "electronic" if fitting.ballast == "magnetic" else "magnetic"
    base = lore.catalogue.base_of(lamp)
    yield "label-contradicts", {"label": f"{other} ballast {lamp.watts.value:g} W"}
    for one in lore.catalogue.bases:
        if one.family in lore.alike(base.family)[:3]:
            yield "labelled-base-pins", {"label": f"{lamp.watts.value:g} W {one.designation}"}
    yield "label-restricts", {"label": f"not for {lamp.watts.value:g} W lamps"}
    for name, words in settings().labels.items():
        yield name, {"label": words}


def _colours(lore: Lore, lamp: Lamp) -> Iterator[tuple[str, int]]:
    """Yield a code, or none, and the colour of the other lamps in the room, in kelvins."""
    kelvins = [kelvin for code in COLOURS if (kelvin := colour_of(code).cct_k) is not None]
    yield "", kelvins[0]
    for colour, kelvin in zip(COLOURS[:2], kelvins, strict=False):
        codes = (code for system in SYSTEMS if (code := format_code(lore.catalogue, lamp.id, system, colour)))
        if (code := next(codes, None)) is not None:
            yield code, kelvin + NEAR_K
            yield code, kelvins[-1]


def _ended(catalogue: Catalogue, lamp: Lamp) -> Iterator[tuple[str, date]]:
    for place in places(catalogue):
        for note in law(catalogue, place.id, LATE, lamp):
            if note.ends is not None and note.place == place.id:
                yield place.id, note.ends + timedelta(days=1)
