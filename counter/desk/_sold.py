"""A code seen before: what it was sold as in this shop, and when that may lead.

A maker's code that a shop settled once is settled the same way again, most of the time. So its lamp leads, unless
the case as it stands leaves a doubt about ultraviolet, or a look that speaks against it: what was sold before never
closes a doubt. What it leads by is one factor on all other lamp types but the ultraviolet ones of its base, so that
the germicidal twin stays as likely against it as it was.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from counter import words
from counter.catalogue import Model
from counter.language import figure, tr, trn
from counter.thresholds import SOLD_AS_ANOTHER

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from counter.catalogue import Catalogue, Lamp
    from counter.identify import Candidate
    from counter.marks import MarkEvidence

WORN = "?*"  # signs for what nobody can read
LEAST, MOST = 4, 80  # letters and figures of what counts as a code


class SoldCode(NamedTuple):
    """A lamp type that a code was sold as here: how often, and the day (ISO 8601), slip and item of the last time."""

    lamp: str
    times: int
    day: str
    number: int
    item: str


SoldCodes: TypeAlias = "Mapping[str, tuple[SoldCode, ...]]"
NOTHING_SOLD: SoldCodes = MappingProxyType({})


class SoldBefore(Model):
    """What a pane says of a code seen before; `leads` where the lamp was put first for it."""

    lamp: str
    day: str
    number: int
    times: int
    item: str
    leads: bool
    says: str


def code_key(marks: str) -> str:
    """Return a code as codes are compared: letters and figures alone; "" for what is worn, or no code at all."""
    plain = words.fold(marks).plain.upper()
    key = "".join(filter(str.isalnum, plain))
    is_code = any(map(str.isdigit, key)) and any(map(str.isalpha, key))
    is_worn = any(sign in plain for sign in WORN)
    return key if LEAST <= len(key) <= MOST and is_code and not is_worn else ""


def sold_as(catalogue: Catalogue, said: MarkEvidence, sold: SoldCodes) -> tuple[SoldCode, ...]:
    """Return what a maker's own code was sold as here; a code of the standards says itself which lamp it is."""
    if not sold or not _is_own(said):
        return ()
    found = sold.get(code_key(said.text), ())
    return tuple(one for one in found if one.lamp in catalogue.lamp_by_id)


def _is_own(said: MarkEvidence) -> bool:
    if not said.readings:
        return True
    return said.readings[0].system == "house" or any(
        span.part in ("maker", "letters", "number") for span in said.readings[0].spans
    )


def may_lead(here: Iterable[SoldCode], by_looks: Iterable[Candidate]) -> bool:
    """Whether no look speaks against what the code was sold as."""
    lamps = {one.lamp for one in here}
    return not any(one.disagrees for one in by_looks if one.lamp in lamps)


def weighed_by_sold(catalogue: Catalogue, said: MarkEvidence, here: Iterable[SoldCode]) -> dict[str, float]:
    """Return how well each lamp type explains the marks, what the code was sold as before all others."""
    before = [catalogue.lamp_by_id[one.lamp] for one in here]
    bases = {lamp.base for lamp in before}
    of_marks = {lamp.id: said.likelihood.get(lamp.id, said.floor) for lamp in catalogue.lamps}
    kept = {lamp.id for lamp in before} | {
        lamp.id for lamp in catalogue.lamps if lamp.is_ultraviolet and lamp.base in bases
    }
    return {one: chance * (1.0 if one in kept else SOLD_AS_ANOTHER) for one, chance in of_marks.items()}


def sold_before(catalogue: Catalogue, here: Iterable[SoldCode], *, leads: bool) -> tuple[SoldBefore, ...]:
    """Say what a code was sold as."""
    return tuple(
        SoldBefore(**one._asdict(), leads=leads, says=_says(catalogue.lamp_by_id[one.lamp], one)) for one in here
    )


def _says(lamp: Lamp, one: SoldCode) -> str:
    name = f"{figure(lamp.watts.value)}\N{THIN SPACE}W {lamp.base}"
    said = tr("Sold here as {lamp} on {day}, slip {number}").format(lamp=name, day=one.day, number=one.number)
    item = f" ({one.item})" if one.item else ""
    often = trn(", {count} time", ", {count} times", one.times).format(count=one.times) if one.times > 1 else ""
    return f"{said}{item}{often}."
