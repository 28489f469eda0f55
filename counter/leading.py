"""What leads among the candidates, and the words at a glance: headline, subline, advice.

May import counter.catalogue and counter.identify; counter.desk is its only reader.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue, Kind, Lamp
    from counter.identify import Candidate, NextLook
    from counter.marks import Reading

SETTLED_AT = 0.95  # below this the clerk has not seen enough for a sale, whatever the fixture says
SELDOM = 1 / 3  # how a seldom met base counts when one is to be named first; its probability stays as it is
MOSTLY = 0.55  # of its family: from here the base itself can be named
SUSPECT = "may be germicidal UV-C"
NOTHING = "Nothing looked at yet"
UNREADABLE = "These marks say nothing known: look at the lamp"
KIND_WORDS = {"uv-c": "UV-C germicidal", "uv-a": "blacklight", "led": "LED"}


class Leading(NamedTuple):
    """The best candidate of the likeliest family and kind, with the shares of its base and of its family."""

    candidate: Candidate
    base_share: float
    family: str
    family_share: float

    @property
    def is_one_base(self) -> bool:
        """Whether one base holds most of the family's share, so that it can be named."""
        return self.base_share >= MOSTLY * self.family_share

    @property
    def name(self) -> str:
        """The base, or the family while its number is open: GX24q."""
        return self.candidate.base if self.is_one_base else self.family

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
    families: dict[tuple[str, Kind], float] = {}
    bases: dict[tuple[str, Kind], float] = {}
    counted = [one for one in candidates if not read or one.lamp in read]
    for one in counted:
        family = catalogue.base_by_name[one.base].family
        families[family, one.kind] = families.get((family, one.kind), 0.0) + one.probability
        bases[one.base, one.kind] = bases.get((one.base, one.kind), 0.0) + one.probability
    name, kind = max(families, key=lambda one: families[one] * _weight(catalogue, one[0]))
    inside = [key for key in bases if key[1] == kind and catalogue.base_by_name[key[0]].family == name]
    base = max(inside, key=bases.__getitem__)
    best = next(one for one in counted if (one.base, one.kind) == base)
    return Leading(best, bases[base], name, families[name, kind])


def _weight(catalogue: Catalogue, family: str) -> float:
    members = (base for base in catalogue.bases if base.family == family)
    return SELDOM if any(base.seldom is not None and base.seldom.value == "yes" for base in members) else 1.0


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
    return lead.name if lead.is_sure else f"{lead.name}?"


def subline(lamp: Lamp | None, lead: Leading | None, settled: bool, cct_k: int | None, marks: str) -> str:
    """Return the watts and colour of the lamp named, or what is still open."""
    if lamp is not None:
        watts = f"{lamp.watts.value:g}\N{THIN SPACE}W"
        words = f"{watts} {KIND_WORDS.get(lamp.kind, '')}".strip()
        words += f" · {cct_k}\N{THIN SPACE}K" if cct_k is not None else ""
        return words if settled else f"{words}, likely"
    if lead is None:
        return UNREADABLE if marks.strip() else NOTHING
    kind = KIND_WORDS.get(lead.candidate.kind, "")
    if kind:
        return f"{kind}, watts not read"
    return "not sure yet: look again" if lead.is_one_base else "its number is not known yet"


def advice(catalogue: Catalogue, nexts: Sequence[NextLook], settled: bool, is_asked: bool, disputed: str = "") -> str:
    """Return the one thing to do next; `disputed` is the look that the marks contradict."""
    if disputed:
        return f"{catalogue.look_by_key[disputed].label}: look again, the marks say otherwise."
    if settled or not nexts:
        return "Enough is known of the lamp. Ask about the fixture." if is_asked else "Nothing more to ask."
    return f"{catalogue.look_by_key[nexts[0].look].label}: {nexts[0].why}"
