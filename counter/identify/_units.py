"""A bare number for a size: taken in the unit the person works in, unless only the other one makes a lamp of it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Literal

from counter.catalogue import Model
from counter.identify._parse import CANNOT_TELL, LookProblem, parse_look
from counter.identify._tables import tables_of
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue

Units = Literal["mm", "in"]
_BARE = re.compile(r"\s*[0-9]{1,6}(?:[.,][0-9]{1,4})?\s*")


class Typed(Model):
    """A size as it was typed, and the unit that a bare number meant then."""

    text: str
    units: Units = "mm"


class UnitDoubt(Model):
    """A bare number that makes no lamp in its unit, and one in the other: to be asked, not guessed."""

    look: str
    text: str

    @property
    def question(self) -> str:
        """As a person would ask: "96 mm or 96 in?"."""
        return tr("{text}\N{THIN SPACE}mm or {text}\N{THIN SPACE}in?").format(text=self.text)


def size_of(
    catalogue: Catalogue, looks: Mapping[str, str | float], key: str, typed: Typed
) -> str | float | UnitDoubt:
    """Return what was typed as an answer to a measured look, or the doubt that it leaves.

    Raises:
        LookProblem: it is no size, or an absurd one in both units.
    """
    text = typed.text.strip()
    if _BARE.fullmatch(text) is None:
        return parse_look(catalogue, key, text)
    other: Units = "in" if typed.units == "mm" else "mm"
    here, there = (_taken(catalogue, key, text, units) for units in (typed.units, other))
    if here is None and there is None:
        return parse_look(catalogue, key, f"{text} {typed.units}")  # which says why it cannot be taken
    if here is None:
        return UnitDoubt(look=key, text=text)
    is_other = there is not None and _makes_a_lamp(catalogue, looks, key, there)
    return UnitDoubt(look=key, text=text) if is_other and not _makes_a_lamp(catalogue, looks, key, here) else here


def with_unit(text: str, units: Units) -> str:
    """Return a size with its unit said, where it was a bare number."""
    return f"{text.strip()} {units}" if _BARE.fullmatch(text) else text


def _taken(catalogue: Catalogue, key: str, text: str, units: Units) -> float | None:
    try:
        return float(parse_look(catalogue, key, f"{text} {units}"))
    except LookProblem:
        return None


def _makes_a_lamp(catalogue: Catalogue, looks: Mapping[str, str | float], key: str, mm: float) -> bool:
    """Whether some lamp type has about that size, and speaks against none of the other looks."""
    tables = tables_of(catalogue)
    heard = [
        tables[other].hear(answer).speaks
        for other, answer in looks.items()
        if other != key and answer != CANNOT_TELL and other in tables
    ]
    size = tables[key].hear(mm).speaks
    return any(says is True and all(one[at] is not False for one in heard) for at, says in enumerate(size))
