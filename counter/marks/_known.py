"""What the catalogue knows, in the form reading needs; made once for a catalogue."""

from __future__ import annotations

import re
from functools import cached_property
from typing import TYPE_CHECKING

from counter.marks._lex import Cap
from counter.marks._sentences import TAKEN
from counter.marks._tables import tables
from counter.marks._variants import own_number

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.marks._answer import Meant
    from counter.marks._lex import Facts
    from counter.marks._resolve import Meaning

Named = tuple[Cap, str | None]


class Known:
    """Names of bases as codes print them, and lamp types by base."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue: Catalogue = catalogue
        self.bases = catalogue.base_by_name
        self.meant: dict[frozenset[tuple[str, object]], Meant] = {}
        self.meanings: dict[frozenset[tuple[str, object]], Meaning] = {}

    def lamps_named(self, facts: Facts) -> Sequence[Lamp]:
        """Return the lamp types of the watts or the number that facts state; all where they state neither."""
        if "ids" in facts or not facts.keys() & {"watts", "number"}:
            return self.catalogue.lamps
        stated = ("watts", facts["watts"]) if "watts" in facts else ("number", facts["number"])
        return self._lamps_of.get(stated, ())

    @cached_property
    def _lamps_of(self) -> dict[tuple[str, float], list[Lamp]]:
        found: dict[tuple[str, float], list[Lamp]] = {}
        for lamp in self.catalogue.lamps:
            full = (self.catalogue.lamp_by_id[one] for one in lamp.stands_in_for)
            of = {("watts", lamp.watts.value), *(("number", own_number(one)) for one in (lamp, *full))}
            for stated in of:
                found.setdefault(stated, []).append(lamp)
        return found

    def names_at(self, plain: str, at: int) -> Iterator[tuple[str, Named]]:
        """Yield the names that stand at a place, longest first."""
        for name in self._by_start.get(plain[at : at + 2], ()):
            if plain.startswith(name, at):
                yield name, self._names[name]

    @property
    def spellings(self) -> tuple[str, ...]:
        """All ways in which codes print the bases of the catalogue."""
        return tuple(self._names)

    def bases_by(self, what: str, text: str) -> tuple[Base, ...]:
        """Return bases by "designation", "family" or "stem"."""
        return self._groups.get((what, text), ())

    @cached_property
    def _groups(self) -> dict[tuple[str, str], tuple[Base, ...]]:
        groups: dict[tuple[str, str], tuple[Base, ...]] = {}
        for base in self.bases.values():
            for key in (("designation", base.designation), ("family", base.family), ("stem", stem_of(base))):
                groups[key] = (*groups.get(key, ()), base)
        return groups

    @cached_property
    def _names(self) -> dict[str, Named]:
        names: dict[str, Named] = {}
        for base in self.bases.values():
            for text in (base.family, base.designation):
                for spelling in _spellings(text):
                    names.setdefault(spelling, (_cap(base, text), None))
        for printed, row in tables()["aliases"].items():
            for spelling, (cap, _) in list(names.items()):
                if spelling.startswith(row["base"].upper()):
                    new = printed + spelling[len(row["base"]) :]
                    note = TAKEN.format(typed=f"{printed[:-1]}{printed[-1].lower()}", what=row["means"])
                    names.setdefault(new, (cap, note))
        return names

    @cached_property
    def _by_start(self) -> dict[str, list[str]]:
        starts: dict[str, list[str]] = {}
        for name in sorted(self._names, key=len, reverse=True):
            starts.setdefault(name[:2], []).append(name)
        return starts


def stem_of(base: Base) -> str:
    """Return the designation up to its number: G24 for G24q-3."""
    return re.sub(r"(?<=\d)[sdtqp]?(-.*)?$", "", base.designation)


def _cap(base: Base, text: str) -> Cap:
    key = text.partition("-")[2] or None
    pins = int(base.pins.value)
    return Cap(text, stem_of(base), pins, key)


def _spellings(text: str) -> set[str]:
    upper = text.upper()
    forms = {upper, upper.replace("-", "="), upper.replace("-", "")}
    return forms | {form.replace(".", ",") for form in forms}


_made: list[Known] = []


def known_for(catalogue: Catalogue) -> Known:
    """Return what is known of a catalogue; the last two catalogues are kept."""
    for made in _made:
        if made.catalogue is catalogue:
            return made
    _made.insert(0, Known(catalogue))
    del _made[2:]
    return _made[0]
