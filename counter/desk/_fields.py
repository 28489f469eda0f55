"""What is typed into fields, taken as values: the fixture's, and those that a shop confirms."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from pydantic import ValidationError

from counter import identify, light
from counter.desk._case import CaseProblem
from counter.fit import Fixture
from counter.identify import UnitDoubt, with_unit
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue
    from counter.identify import Typed, Units


def sized(
    catalogue: Catalogue, looks: Mapping[str, str | float], typed: Mapping[str, Typed]
) -> tuple[dict[str, str | float], tuple[UnitDoubt, ...]]:
    """Return the looks with every typed size taken anew, and the bare numbers whose unit must be asked for.

    What else is seen of the lamp says whether 96 can be millimetres: so this is done again at every look.

    Raises:
        LookProblem: a text is no size; the message says why.
    """
    taken = {key: answer for key, answer in looks.items() if key not in typed}
    doubts = []
    for key, text in typed.items():
        found = identify.size_of(catalogue, taken, key, text)
        if isinstance(found, UnitDoubt):
            doubts.append(found)
        else:
            taken[key] = found
    return taken, tuple(doubts)


def changed_fixture(
    catalogue: Catalogue, fixture: Fixture, fields: Mapping[str, Any], units: Units = "mm"
) -> Fixture:
    """Return the fixture with fields as typed or chosen: "18, 26" watts, lengths in mm or inches, "840" for a room.

    `units` is what a bare length is in.

    Raises:
        CaseProblem: a field cannot be read; the fixture stays as it was.
    """
    read = {key: _field(catalogue, key, value, units) for key, value in fields.items()}
    try:
        return Fixture.model_validate({**fixture.model_dump(), **read})
    except ValidationError as problem:
        first = problem.errors()[0]
        raise CaseProblem(f"{first['loc'][0]}: {first['msg']}") from None


def _field(catalogue: Catalogue, key: str, value: Any, units: Units) -> Any:
    if not isinstance(value, str) or key in ("holder", "ballast", "label"):
        return value
    text = value.strip()
    if key == "ballast_watts":
        return _watts(text)
    if not text:
        return None
    if key == "room_k":
        return light.colour_of(text).cct_k
    look = {"space_mm": "length_mm", "tube_room_mm": "tube_mm"}.get(key)
    return identify.parse_look(catalogue, look, with_unit(text, units)) if look is not None else value


def _watts(text: str) -> tuple[float, ...]:
    words = text.lower().replace("w", " ").replace(",", " ").replace("/", " ").replace("or", " ").split()
    try:
        watts = tuple(float(word) for word in words)
    except ValueError:
        told = tr("Watts: “{text}” is not a list of watts. Type them as 18, 26.")
        raise CaseProblem(told.format(text=text[:20])) from None
    if not all(0 < one <= 400 for one in watts):
        told = tr("Watts: “{text}” is out of range. Lamps here take 1 to 400\N{THIN SPACE}W.")
        raise CaseProblem(told.format(text=text[:20]))
    return watts


class Confirmable(NamedTuple):
    """A value to confirm: what was found, and how far repeated readings spread, in its unit; None of one reading."""

    value: float | str
    plus_minus: float | None = None


def readings(catalogue: Catalogue, part: str, text: str, units: Units = "mm") -> Confirmable:
    """Return what somebody found in one reading or in several, parted by semicolons.

    Of several the mean is taken, and half of what lies between the least and the most as their spread: a range of a
    few readings says as much of them as a standard deviation does, and can be checked by eye.

    Raises:
        ValueError: one cannot be read; says what, where and the way out.
    """
    found = [confirmable(catalogue, part, one.strip(), units) for one in text.split(";") if one.strip()]
    numbers = [one for one in found if isinstance(one, float)]
    if len(numbers) < 2 or len(numbers) < len(found):
        return Confirmable(confirmable(catalogue, part, text.strip().rstrip(";"), units))
    return Confirmable(round(sum(numbers) / len(numbers), 3), round((max(numbers) - min(numbers)) / 2, 3))


def confirmable(catalogue: Catalogue, part: str, text: str, units: Units = "mm") -> float | str:
    """Return what somebody found at a lamp as a value to confirm: millimetres, amperes, or a notch look.

    Raises:
        ValueError: it cannot be read; says what, where and the way out.
    """
    if part == "face.notches":
        return text
    if part.endswith("_mm"):
        return float(identify.parse_look(catalogue, part, with_unit(text, units)))
    try:
        return float(text.lower().replace(",", ".").removesuffix("a"))
    except ValueError:
        told = tr("Current: “{text}” is not a number of amperes. Type it as 0.32.")
        raise CaseProblem(told.format(text=text[:20])) from None
