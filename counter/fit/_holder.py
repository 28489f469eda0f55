"""How a lamp's base and the holder's marking compare, by the grammar of IEC 60061-4."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING, Literal, NamedTuple

from counter.catalogue import Designation, parse_designation, parse_designations
from counter.language import tr

if TYPE_CHECKING:
    from counter.catalogue import Base, Catalogue

HolderSays = Literal[
    "unknown",  # nothing was said
    "unreadable",  # something was said that is no designation
    "family",  # the lamp may fit: the holder's text leaves out what would settle it
    "same",
    "pins",  # another number of contacts
    "modifier",  # X, Y, Z or U: a base keyed apart from its namesake
    "key",  # another key number
    "base",  # another base altogether
]


class Match(NamedTuple):
    """The outcome of the comparison; `holder` is the designation that came nearest."""

    says: HolderSays
    holder: Designation | None = None
    base: Base | None = None
    pins: int | None = None


def unknown_holder(catalogue: Catalogue, text: str | None) -> str:
    """Say that a holder's marking names no base of the catalogue, and which it may be; nothing where it does."""
    if not text or not text.strip():
        return ""
    named = parse_designations(text)
    parsed = [parse_designation(base.designation) for base in catalogue.bases]
    if any(one.text in catalogue.base_by_name or any(base and one.may_be(base) for base in parsed) for one in named):
        return ""
    if text.strip() in catalogue.base_by_name:  # of the shop's own, outside the grammar
        return ""
    by_capitals = {name.upper(): name for name in catalogue.base_by_name}
    near = get_close_matches(text.strip().upper()[:40], by_capitals, 3, 0.5)
    if not near:
        return tr("holder: “{text}” is no base known here; read the holder again").format(text=text.strip()[:40])
    bases = tr(" or ").join(by_capitals[name] for name in near)
    return tr("holder: “{text}” is no base known here; is it {bases}?").format(text=text.strip()[:40], bases=bases)


_NEAREST: tuple[HolderSays, ...] = ("same", "family", "key", "modifier", "pins", "base")


def compare(catalogue: Catalogue, base: Base, text: str | None) -> Match:
    """Compare a lamp's base with a holder's marking, which may name several bases or only a family."""
    if not text or not text.strip():
        return Match("unknown")
    holders = parse_designations(text)
    if not holders:
        return Match("unreadable")
    matches = [_compare_one(catalogue, base, holder) for holder in holders]
    nearest = min(matches, key=lambda match: _NEAREST.index(match.says))
    if nearest.says == "same" and not _is_one_holder(holders):
        return nearest._replace(says="family")  # two keys, or two counts of contacts: somebody is not sure
    return nearest


def bases_that_go_in(catalogue: Catalogue, text: str) -> frozenset[str]:
    """Return the bases that go into a holder by its mark, or may: those of its own name or family."""
    going = (one for one in catalogue.bases if compare(catalogue, one, text).says in ("same", "family"))
    return frozenset(base.designation for base in going)


def _is_one_holder(holders: tuple[Designation, ...]) -> bool:
    """Whether one holder can take all that it is marked with: made for both they share contacts and key."""
    return len({(one.groups, one.letter, one.size, one.contacts, one.key) for one in holders}) == 1


def _compare_one(catalogue: Catalogue, base: Base, holder: Designation) -> Match:
    known = catalogue.base_by_name.get(holder.text)
    if holder.text == base.designation:
        return Match("same", holder, base, int(base.pins.value))
    lamp = parse_designation(base.designation)
    if lamp is None:  # a base of the shop's own, outside the grammar: only the very same name is the same
        return Match("base", holder, known, holder.pins)
    # The number of 2G13-92 is a distance of the holder, no key of the lamp.
    if known is None and not lamp.key and holder._replace(key="") == lamp:
        return Match("same", holder, base, int(base.pins.value))
    if known is None and holder.may_be(lamp):
        return Match("family", holder, None, holder.pins)
    if base.designation == f"2{holder.text}" and base.mount == "two-ends":
        return Match("family", holder, base, pins_of(known, holder))  # U-bent lamps stand in pairs of plain holders
    # Without contact letter or like groups the marking is cut short, and says nothing of the pins.
    pins = pins_of(known, holder)
    if "two-ends" in (base.mount, known.mount if known else ""):
        return Match("base", holder, known, pins)
    return Match(_difference(lamp, holder, int(base.pins.value), pins), holder, known, pins)


def pins_of(known: Base | None, holder: Designation) -> int | None:
    """Return how many pins a holder takes; None where its marking does not say."""
    return int(known.pins.value) if known else holder.pins if holder.contacts or holder.groups else None


def _difference(lamp: Designation, holder: Designation, lamp_pins: int, holder_pins: int | None) -> HolderSays:
    if holder_pins is not None and lamp_pins != holder_pins and lamp.letter == holder.letter:
        return "pins"
    if (lamp.groups, lamp.letter, lamp.size) != (holder.groups, holder.letter, holder.size):
        return "base"
    if lamp.modifiers != holder.modifiers:
        return "modifier"
    return "key" if lamp.key != holder.key and lamp.contacts == holder.contacts else "base"
