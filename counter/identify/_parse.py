"""From what is typed to an answer of a look: words by value or label, sizes in any usual unit."""

from __future__ import annotations

import math
import re
import unicodedata
from typing import TYPE_CHECKING

from counter.identify._truth import word_values
from counter.language import decimals, figure, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue, Look

CANNOT_TELL = "cannot-tell"
MM_PER_INCH = 25.4  # exact since 1959
MM_PER_FOOT = 304.8
_UNITS = {
    "": 1.0,
    "mm": 1.0,
    "millimetre": 1.0,
    "millimeter": 1.0,
    "cm": 10.0,
    "centimetre": 10.0,
    "centimeter": 10.0,
    "m": 1000.0,
    "metre": 1000.0,
    "meter": 1000.0,
    '"': MM_PER_INCH,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inche": MM_PER_INCH,  # inches, its s taken off
    "'": MM_PER_FOOT,
    "ft": MM_PER_FOOT,
    "foot": MM_PER_FOOT,
    "feet": MM_PER_FOOT,
}
_QUOTES = str.maketrans({"″": '"', "”": '"', "“": '"', "„": '"', "′": "'", "’": "'", "‘": "'", "´": "'", "`": "'"})
_DASHES = str.maketrans(dict.fromkeys("‐‑‒–—−", "-"))
_PART = re.compile(
    r"""\s*(?:(?P<whole>[0-9]{1,9}(?:[.,][0-9]{0,9})?|[.,][0-9]{1,9})(?![0-9/]))?
        (?:\s*-?\s*(?P<over>[0-9]{1,4})\s*/\s*(?P<under>[0-9]{1,4}))?
        \s*(?P<unit>["']|[a-z]*)\.?\s*""",
    re.VERBOSE,
)
_SHOWN = 24  # characters of what was typed that a message repeats


class LookProblem(ValueError):  # noqa: N818 - a problem for the clerk, not an error of the program
    """An answer that cannot be taken: the message says what, where and the way out."""


def parse_look(catalogue: Catalogue, key: str, text: str | float) -> str | float:
    """Return the answer that a text or number gives to a look: one of its values, millimetres, or "cannot-tell".

    Raises:
        LookProblem: no such look, no such answer, or a size that is none or is absurd.
    """
    look = catalogue.look_by_key.get(key)
    if look is None:
        keys = ", ".join(look.key for look in catalogue.looks)
        raise LookProblem(tr("there is no look {look}; looks are {known}").format(look=_short(key), known=keys))
    if isinstance(text, str) and text.strip().casefold() in {"?", CANNOT_TELL, "cannot tell", "can't tell"}:
        return CANNOT_TELL
    if look.is_measured:
        return _size(look, text)
    return _word(catalogue, look, text if isinstance(text, str) else f"{text:g}")


def _short(text: str) -> str:
    """Quote what was typed in one short line."""
    line = " ".join("".join(char if char.isprintable() else " " for char in text[: 4 * _SHOWN]).split())
    return f'"{line}"' if len(line) <= _SHOWN and len(text) <= 4 * _SHOWN else f'"{line[:_SHOWN]}…"'


def _word(catalogue: Catalogue, look: Look, text: str) -> str:
    values = word_values(catalogue, look)
    if text in values:
        return text
    plain = _plain(text.replace(",", ".") if look.key == "watts" else text)
    found = dict(_names(catalogue, look, values)).get(plain) if plain else None
    if found is not None:
        return found
    if look.key == "watts":
        raise LookProblem(_no_watts(text, values))
    told = tr("{look}: {text} is no answer; use {known} or {unsure}")
    known = {"known": ", ".join(values), "unsure": CANNOT_TELL}
    raise LookProblem(told.format(look=look.key, text=_short(text), **known))


def _plain(text: str) -> str:
    """Fold case, and let spaces, commas, dashes and underscores be the same; a minus in front is no dash."""
    if text.strip().translate(_DASHES).startswith("-"):
        return ""
    return " ".join(re.findall(r"\w+(?:\.\w+)?", text[:200].casefold().replace("_", " ")))


def _names(catalogue: Catalogue, look: Look, values: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Yield every name of every answer; of equal names the last one counts, so values come last."""
    if look.key == "legs":
        legs = {lamp.shape: str(lamp.legs) for lamp in catalogue.lamps if lamp.shape and lamp.legs is not None}
        yield from ((_plain(shape), count) for shape, count in legs.items() if count in values)
        yield from ((_plain(shape), value) for shape, value in catalogue.legs_by_shape.items() if value in values)
    yield from ((_plain(value.label), value.value) for value in look.values)
    for value in values:
        yield _plain(value), value
        if look.key == "watts":
            yield from ((_plain(value + unit), value) for unit in ("w", " w", " watt", " watts", ".0"))


def _no_watts(text: str, values: tuple[str, ...]) -> str:
    """Say which watts lie next to a number that no lamp has."""
    number = re.fullmatch(r"([0-9]{1,6}(?:[.,][0-9]{1,6})?)\s*w?", text.strip().casefold())
    if number is None:
        told = tr("watts: {text} is not a number of watts; give one such as 26, or {unsure}")
        return told.format(text=_short(text), unsure=CANNOT_TELL)
    asked = float(number[1].replace(",", "."))
    near = sorted(sorted(values, key=lambda value: abs(float(value) - asked))[:3], key=float)
    told = tr("watts: no lamp here has {text}; nearest are {near}, or {unsure}")
    return told.format(text=_short(text), near=", ".join(map(decimals, near)), unsure=CANNOT_TELL)


def _size(look: Look, text: str | float) -> float:
    """Return millimetres within the look's range."""
    mm = _millimetres(look, text) if isinstance(text, str) else float(text)
    low, high = look.low or 0.0, look.high if look.high is not None else math.inf
    if math.isnan(mm) or not low <= mm <= high:
        shown = _short(text if isinstance(text, str) else figure(text))
        told = tr("{look}: {text}, read as {mm} mm, is outside {low} to {high} mm; measure again or {unsure}")
        if shown == f'"{figure(mm)}"':
            told = tr("{look}: {text} is outside {low} to {high} mm; measure again or {unsure}")
        sizes = {"mm": figure(mm), "low": figure(low), "high": figure(high)}
        raise LookProblem(told.format(look=look.key, text=shown, unsure=CANNOT_TELL, **sizes))
    return mm


def _millimetres(look: Look, text: str) -> float:
    """Add up the parts of a size, such as feet and inches.

    Raises:
        LookProblem: the text is not a size.
    """
    plain = _ascii(text)
    if plain.startswith("-"):
        told = tr("{look}: {text} is below zero; sizes have no sign")
        raise LookProblem(told.format(look=look.key, text=_short(text)))
    total, at, units = 0.0, 0, list[float]()
    while at < len(plain):
        part = _PART.match(plain, at)
        if part is None or part.end() == at or not (part["whole"] or part["over"]):
            raise _no_size(look, text)
        number, unit = _number(look, text, part), _unit(look, text, part)
        total, at = total + number * unit, part.end()
        units.append(unit)
    if not units or (len(units) > 1 and units != [MM_PER_FOOT, MM_PER_INCH]):
        raise _no_size(look, text)
    return total


def _ascii(text: str) -> str:
    """Fold case, quotes, dashes and wide digits; write ⅞ as 7/8 with a space before it, so that 5⅞ is not 57/8."""
    if len(text) > 200:  # no size is that long; the normal forms of a long paste are slow
        return "?"
    apart = "".join(f" {char}" if "<fraction>" in unicodedata.decomposition(char) else char for char in text)
    plain = unicodedata.normalize("NFKC", apart.translate(_QUOTES)).replace("\N{FRACTION SLASH}", "/")
    return plain.translate(_QUOTES).translate(_DASHES).replace("''", '"').casefold().strip()


def _number(look: Look, text: str, part: re.Match[str]) -> float:
    number = float((part["whole"] or "0").replace(",", "."))
    if part["over"] is None:
        return number
    if int(part["under"]) == 0:
        told = tr("{look}: {text} divides by zero; write it as 5 7/8 in")
        raise LookProblem(told.format(look=look.key, text=_short(text)))
    return number + int(part["over"]) / int(part["under"])


def _unit(look: Look, text: str, part: re.Match[str]) -> float:
    unit = _UNITS.get(part["unit"], _UNITS.get(part["unit"].removesuffix("s")))
    if unit is None:
        raise _no_size(look, text)
    if part["over"] is not None and part["unit"] == "":
        return MM_PER_INCH  # nobody writes a fraction of a millimetre
    return unit


def _no_size(look: Look, text: str) -> LookProblem:
    told = tr('{look}: {text} is not a size; write it as 149.5, 14.9 cm or 5 7/8"')
    return LookProblem(told.format(look=look.key, text=_short(text)))
