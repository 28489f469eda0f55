"""What leads among the candidates, and the words at a glance: headline, subline, advice.

May import counter.catalogue and counter.identify; counter.desk and counter.desk._evidence are its readers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import figure, marked, tr
from counter.thresholds import MOST_TIED, SETTLED_AT, TIED_AT

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from counter.catalogue import Base, Catalogue, Kind, Lamp
    from counter.identify import Candidate
    from counter.marks import Reading

Key = tuple[str, "Kind"]  # a base, or a family, and a kind of lamp

SELDOM = 1 / 3  # how a seldom met base counts when one is to be named first; its probability stays as it is
MOSTLY = 0.55  # of its family: from here the base itself can be named
SUSPECT = marked("may be germicidal UV-C")
NOTHING = marked("Nothing looked at yet")
FOREIGN_BASE = marked("base not in the catalogue")
NOT_LISTED = marked("lamp not in the catalogue")
LED_LAMP = marked("LED lamp")
LED_REPLACEMENT = marked("LED replacement lamp: its type decides")
LED_BASE_OPEN = marked("its base is not read: look at it")
WATTS_NOT_SEEN = marked("watts not known yet")
UNREADABLE = marked("Nothing known in these marks: look at the lamp")
KIND_WORDS = {"uv-c": marked("UV-C germicidal"), "uv-a": marked("blacklight"), "led": "LED", "other": "UV-B"}


class Leading(NamedTuple):
    """The best candidate of the likeliest family and kind, with the shares of its base and of its family.

    `order` holds the best lamp type of every base and kind, family by family, as they are to be shown; `tied` the
    names that lead beside it, since the first of equals is not the answer.
    """

    candidate: Candidate
    base_share: float
    family: str
    family_share: float
    order: tuple[str, ...]
    tied: tuple[str, ...] = ()

    @property
    def is_one_base(self) -> bool:
        """Whether one base holds most of the family's share, so that it can be named."""
        return self.base_share >= MOSTLY * self.family_share

    @property
    def name(self) -> str:
        """The base, or the family while its number is open: GX24q; with those that tie with it."""
        own = self.candidate.base if self.is_one_base else self.family
        names = tuple(dict.fromkeys((own, *self.tied)))
        if len(names) <= MOST_TIED:
            return tr(" or ").join(names)
        return tr("{name} or {count} others").format(name=own, count=len(names) - 1)

    @property
    def is_sure(self) -> bool:
        """Whether the name holds."""
        return (self.base_share if self.is_one_base else self.family_share) >= SETTLED_AT


def leading(catalogue: Catalogue, candidates: Sequence[Candidate], read: frozenset[str]) -> Leading:
    """Return the best candidate of the likeliest family and kind.

    Bases of one family differ by a number that most looks do not show; counted one by one, a base that stands alone
    would lead before a family that is likelier. A base that is seldom met must be thrice as likely to be named first.
    Where the marks name lamps (`read`), only such lead: a base with many lamp types, each unlikely, must not stand
    above what can be read.
    """
    bases = _shares(candidates)
    told = _shares([one for one in candidates if one.lamp in read]) if read else bases
    families = _by_family(catalogue, bases)
    told_families = _by_family(catalogue, told) if read else families

    def place(key: Key) -> tuple[float, ...]:
        base = catalogue.base_by_name[key[0]]
        family = (base.family, key[1])
        weight = SELDOM if base.is_seldom else 1.0
        return -told_families.get(family, 0.0) * weight, -families[family] * weight, -told.get(key, 0.0), -bases[key]

    order = sorted(bases, key=place)
    best: dict[Key, Candidate] = {}
    named, others = (
        [one for one in candidates if one.lamp in read],
        [one for one in candidates if one.lamp not in read],
    )
    for one in (*named, *others):
        best.setdefault((one.base, one.kind), one)
    first = best[order[0]]
    family = catalogue.base_by_name[first.base].family
    shares = told[order[0]], told_families[family, first.kind]
    firsts = _firsts(catalogue, bases)
    weighed = {one: share * (SELDOM if firsts[one].is_seldom else 1.0) for one, share in told_families.items()}
    tied = [one for one, weight in weighed.items() if weight >= TIED_AT * weighed[family, first.kind]]
    tied.sort(key=lambda one: -weighed[one])
    told_firsts = _firsts(catalogue, told)
    names = tuple(
        _name(told_firsts[one].designation, one, told, told_families) for one in tied if one != (family, first.kind)
    )
    return Leading(first, shares[0], family, shares[1], tuple(best[key].lamp for key in order), names)


def _name(base: str, family: Key, told: Mapping[Key, float], families: Mapping[Key, float]) -> str:
    """Return the base that holds most of a family's share, else the family."""
    return base if told.get((base, family[1]), 0.0) >= MOSTLY * families[family] else family[0]


def _firsts(catalogue: Catalogue, bases: Mapping[Key, float]) -> dict[Key, Base]:
    """Return the likeliest base of every family and kind."""
    shares: dict[Key, float] = {}
    found: dict[Key, Base] = {}
    for (name, kind), share in bases.items():
        base = catalogue.base_by_name[name]
        family = (base.family, kind)
        if share > shares.get(family, -1.0):
            shares[family], found[family] = share, base
    return found


def _shares(candidates: Sequence[Candidate]) -> dict[Key, float]:
    found: dict[Key, float] = {}
    for one in candidates:
        found[one.base, one.kind] = found.get((one.base, one.kind), 0.0) + one.probability
    return found


def _by_family(catalogue: Catalogue, bases: Mapping[Key, float]) -> dict[Key, float]:
    found: dict[Key, float] = {}
    for (base, kind), share in bases.items():
        family = catalogue.base_by_name[base].family
        found[family, kind] = found.get((family, kind), 0.0) + share
    return found


def read_lamps(catalogue: Catalogue, candidates: Sequence[Candidate], readings: Sequence[Reading]) -> frozenset[str]:
    """Return the lamp types that the marks name, or where their watts exist nowhere, those on the base they name.

    Empty where the looks speak for another lamp: then the marks do not decide what leads.
    """
    named = {lamp for reading in readings for lamp in reading.lamps}
    first = readings[0] if readings else None
    if first is not None and first.lamp.base and not first.lamps:
        named = {one.id for one in catalogue.lamps if first.lamp.base in (one.base, catalogue.base_of(one).family)}
    best = max((one.probability for one in candidates if one.lamp in named), default=0.0)
    return frozenset(named) if best >= candidates[0].probability / 2 else frozenset()


def headline(lamp: Lamp | None, lead: Leading | None) -> str:
    """Return the base, or the family while its number is open; with "?" while it is not sure."""
    if lamp is not None:
        return lamp.base
    if lead is None:
        return ""
    return lead.name if lead.is_sure and not lead.tied else f"{lead.name}?"


def subline(lamp: Lamp | None, lead: Leading | None, settled: bool, cct_k: int | None) -> str:
    """Return the watts and colour of the lamp named, or what is still open; "" where nothing is known."""
    if lamp is not None:
        watts = f"{figure(lamp.watts.value)}\N{THIN SPACE}W"
        words = f"{watts} {tr(KIND_WORDS.get(lamp.kind, ''))}".strip()
        words += f" · {cct_k}\N{THIN SPACE}K" if cct_k is not None else ""
        return words if settled else tr("{lamp}, likely").format(lamp=words)
    if lead is None:
        return ""
    kind = tr(KIND_WORDS.get(lead.candidate.kind, ""))
    if kind:
        return tr("{kind}, watts not known yet").format(kind=kind)
    return tr("not sure yet: look again") if lead.is_one_base else tr("key number not known yet")


def nothing_known(catalogue: Catalogue, marks: str, asked_for: Sequence[str]) -> str:
    """Return the words while nothing is known of a lamp; `asked_for` are the lamp types that the fixture asks for."""
    if marks.strip():
        return tr(UNREADABLE)
    lamps = [catalogue.lamp_by_id[one] for one in asked_for]
    if not lamps:
        return tr(NOTHING)
    watts = tr(" or ").join(dict.fromkeys(figure(one.watts.value) for one in lamps))
    bases = tr(" or ").join(dict.fromkeys(one.base for one in lamps))
    told = tr("No lamp yet. The fixture takes {watts}\N{THIN SPACE}W, {bases}")
    return told.format(watts=watts, bases=bases)
