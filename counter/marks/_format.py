"""Write the code of a lamp type in each system: the way back from reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks._house import house_code, shipped_house
from counter.marks._known import known_for
from counter.marks._lex import fold
from counter.marks._tables import tables
from counter.marks._variants import is_by_inches, own_number

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.marks._house import HouseChoice, HouseFacts, HouseMaker

_TUBE_MM = {15.9: 16, 25.4: 26, 28.6: 29, 38.1: 38}  # what codes in millimetres print for the inch sizes


def format_code(catalogue: Catalogue, lamp_id: str, system: str, colour: str | None = None) -> str | None:
    """Write a lamp type's code; None where the system has no form for it.

    `system` is one of the contract's systems or "lbs"; "partial" is trade shorthand. `colour` is three digits or
    the older letters, as in 840 or CW; germicidal and blacklight lamps have none.

    Raises:
        KeyError: no such lamp type, or no such system.
    """
    lamp = catalogue.lamp_by_id[lamp_id]
    base = catalogue.base_by_name[lamp.base]
    colour = colour if lamp.kind == "fluorescent" else None
    if system == "ansi-linear" and lamp.is_saver:
        return _saver(lamp, catalogue.lamp_by_id[lamp.stands_in_for[0]], colour)
    return _WRITERS[system](lamp, base, colour)


def format_house(catalogue: Catalogue, lamp_id: str, maker: HouseMaker, colour: str | None = None) -> str | None:
    """Write a lamp type's code by a maker's table; None where the table has none that reads back as this lamp."""
    lamp = catalogue.lamp_by_id[lamp_id]
    code = _house_text(lamp, catalogue.base_by_name[lamp.base], maker, colour)
    known = known_for(catalogue)
    return code if code and house_code(fold(code), 0, known, maker) else None


def _number(value: float) -> str:
    return f"{value:g}"


def _nema(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    head = generic_letters(lamp.shape, lamp.kind) if lamp.shape and lamp.kind == "fluorescent" else None
    if head is None:
        return None
    head = f"{head}{_number(lamp.watts.value)}W"
    keyed = f"{head}/{base.designation}"
    is_printed = any(word.value == keyed for word in lamp.codes)  # a few codes do print the key
    return _joined("/", keyed if is_printed else f"{head}/{base.family}", colour)


def generic_letters(shape: str, kind: str) -> str | None:
    """Return the letters written for a shape: CFQ for quad."""
    table = {"fluorescent": "write", "uv-c": "write_uvc"}.get(kind)
    found: str | None = tables()["nema"][table].get(shape) if table else None
    return found


def _joined(sign: str, head: str | None, *rest: str | None) -> str | None:
    return sign.join((head, *(part for part in rest if part))) if head else None


def _germicidal(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    if lamp.kind != "uv-c" or lamp.shape is None:
        return None
    watts = _number(lamp.watts.value)
    if lamp.shape == "linear":
        eighths = _eighths(lamp)
        suffix = "VH" if "ozone" in lamp.purposes else "L" if is_by_inches(lamp) else ""
        return f"G{_number(own_number(lamp))}T{eighths}{suffix}" if eighths else None
    head = generic_letters(lamp.shape, lamp.kind)
    return f"{head}{watts}W/{base.family}" if head else None


def _eighths(lamp: Lamp) -> str | None:
    tube = lamp.tube_mm.value if lamp.tube_mm else None
    return next((eighths for eighths, mm in tables()["linear"]["eighths_mm"].items() if mm == tube), None)


def _linear(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    eighths = _eighths(lamp)
    if lamp.kind == "uv-c" or eighths is None or lamp.shape not in ("linear", "u-bent", "circular"):
        return None
    if lamp.shape == "circular":
        return _circular(lamp, eighths, colour)
    letters = "FB" if lamp.shape == "u-bent" else "FS" if lamp.band else "F"
    head = f"{letters}{_number(own_number(lamp))}T{eighths}"
    suffixes = (_leg_spacing(lamp), lamp.output.upper(), _is_instant(lamp, base))
    return _joined("/", head, *suffixes, colour, _uva_tail(lamp))


def _saver(lamp: Lamp, full: Lamp, colour: str | None) -> str | None:
    """Write a saver as its box does: the code of the lamp it stands in for, and its own watts behind."""
    eighths = _eighths(full)
    if eighths is None or lamp.shape not in ("linear", "u-bent"):
        return None
    head = f"{'FB' if lamp.shape == 'u-bent' else 'F'}{_number(own_number(full))}T{eighths}"
    return _joined("/", head, _leg_spacing(lamp), lamp.output.upper(), colour, f"{_number(lamp.watts.value)}W")


def _leg_spacing(lamp: Lamp) -> str | None:
    return "6" if lamp.shape == "u-bent" else None


def _is_instant(lamp: Lamp, base: Base) -> str | None:
    return "IS" if base.joins_pins(lamp) else None


def _uva_tail(lamp: Lamp) -> str | None:
    if lamp.kind != "uv-a":
        return None
    return f"{_number(lamp.watts.value)}W" if "tanning" in lamp.purposes else "BL"


def _circular(lamp: Lamp, eighths: str, colour: str | None) -> str | None:
    if lamp.inches is None:
        return None
    of_size = [row for row in tables()["linear"]["circular_watts"] if row["number"] == lamp.inches]
    rows = [row for row in of_size if str(row["eighths"]) == eighths]
    output = next((row["output"] for row in rows if row["watts"] == lamp.watts.value), "")
    return _joined("/", f"FC{_number(lamp.inches)}T{eighths}", output.upper(), colour)


def _ilcos(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    if lamp.kind != "fluorescent" or base.supply == "mains" or _is_instant(lamp, base):
        return None
    code = next((word.value for word in lamp.codes if _is_ilcos(word.value)), None) or _ilcos_made(lamp, base)
    if code is None or not (shade := _ilcos_colour(colour)):
        return code
    form, watts, rest = code.split("-", 2)
    return f"{form}-{watts}{shade}-{rest}"


def _is_ilcos(code: str) -> bool:
    form = code.partition("-")[0]
    return any(row["letters"] == form for row in tables()["ilcos"]["forms"])


def _ilcos_made(lamp: Lamp, base: Base) -> str | None:
    table = tables()["ilcos"]["write"]
    if lamp.shape not in table:
        return None
    electronic = lamp.ballasts == ("electronic",)
    form = table[lamp.shape] + ("H" if electronic else "")
    starter = base.starter.value if base.starter else None
    start = "L/P" if electronic else {"internal": "I", "external": "E"}.get(starter or "")
    cap = lamp.base.replace("-", "=")
    return _joined("-", form, _number(lamp.watts.value), start, cap, _ilcos_size(lamp))


def _ilcos_size(lamp: Lamp) -> str | None:
    if lamp.shape not in ("linear", "circular") or lamp.tube_mm is None or lamp.length_mm is None:
        return None
    tube = lamp.tube_mm.value
    return f"{_TUBE_MM.get(tube, round(tube))}/{round(lamp.length_mm.value)}"


def _ilcos_colour(colour: str | None) -> str:
    if colour is None or not colour.isdigit() or len(colour) != 3:
        return ""
    cri = tables()["colour"]["cri_digits"].get(colour[0], {}).get("cri_min")
    name = next((name for name, least in tables()["ilcos"]["cri_classes"].items() if least == cri), None)
    return f"/{colour[1:]}/{name}" if name else ""


def _lbs(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    if lamp.kind != "fluorescent" or _is_instant(lamp, base):
        return None
    tube = lamp.tube_mm.value if lamp.tube_mm else None
    for row in tables()["lbs"]["rows"]:
        stated = row.get("pins", base.pins.value), row.get("tube_mm", tube)
        if lamp.shape in row["shapes"] and stated == (base.pins.value, tube):
            watts = _joined("/", f"{_number(lamp.watts.value)}W", colour)
            return f"{row['letters']} {watts} {lamp.base}"
    return None


def _shorthand(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    kind = {"uv-c": "UV-C", "uv-a": "blacklight"}.get(lamp.kind)
    shape = lamp.shape if lamp.shape and lamp.shape != "linear" else None
    tube = _eighths(lamp) if base.mount == "two-ends" else None
    output = lamp.output.upper() if lamp.inches and lamp.shape == "linear" else None
    length = f'{_number(lamp.inches)}"' if lamp.inches and base.mount == "two-ends" else None
    shade = f"/{colour}" if colour and len(colour) == 1 else colour  # W alone would be watts
    words = (lamp.base, shape, tube and f"T{tube}", length, output, shade, kind, _is_instant(lamp, base))
    return _joined(" ", f"{_number(lamp.watts.value)}W", *words)


def _house_text(lamp: Lamp, base: Base, maker: HouseMaker, colour: str | None) -> str | None:
    text = ""
    for part in maker.parts:
        piece = _house_choice(lamp, base, part.choices) if part.choices else part.text
        if part.number:
            piece = _number(lamp.watts.value if part.number == "watts" else base.pins.value)
        if part.colour:
            piece = colour
        if piece is None and not part.optional:
            return None
        text += f"{part.before}{piece}" if piece is not None else ""
    return text or None


def _house_choice(lamp: Lamp, base: Base, choices: Mapping[str, HouseChoice]) -> str | None:
    return next((text for text, choice in choices.items() if _suits(choice.facts, lamp, base)), None)


def _suits(facts: HouseFacts, lamp: Lamp, base: Base) -> bool:
    """Whether nothing that a choice states contradicts a lamp type; a kind that is not stated is lighting."""
    return (
        lamp.kind == (facts.kind or "fluorescent")
        and (facts.shapes is None or lamp.shape in facts.shapes)
        and facts.base in (None, lamp.base, base.family)
        and facts.watts in (None, lamp.watts.value)
        and facts.pins in (None, base.pins.value)
    )


def _house(lamp: Lamp, base: Base, colour: str | None) -> str | None:
    return _house_text(lamp, base, shipped_house()[0], colour)


_WRITERS: dict[str, Callable[[Lamp, Base, str | None], str | None]] = {
    "nema": _nema,
    "ilcos": _ilcos,
    "ansi-linear": _linear,
    "ansi-germicidal": _germicidal,
    "lbs": _lbs,
    "partial": _shorthand,
    "base": lambda lamp, base, colour: lamp.base,
    "colour": lambda lamp, base, colour: colour,
    "house": _house,
    "barcode": lambda lamp, base, colour: None,
}
