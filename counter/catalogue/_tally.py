"""How many values stand on what: published, reproduced, practice, memory, or confirmed by the shop."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from counter.catalogue._models import Model, Sourced
from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from counter.catalogue._models import Base, Catalogue, Lamp

GROUPS = {
    "confirmed": marked("{count} seen in this shop"),
    "published": marked("{count} in the source"),
    "reproduced": marked("{count} in a copy"),
    "practice": marked("{count} common practice"),
    "memory": marked("{count} from memory"),
}
READ = ("confirmed", "published", "reproduced")
OF_BASE = ("pins", "starter")
OF_LAMP = (
    *("watts", "ballasts_from", "magnetic_if_listed", "stands_in_from", "purposes_from"),
    *("tube_mm", "length_mm", "length_also_mm", "arc_mm", "uva_w", "uvb_w"),
)
LABEL_FREE = frozenset({"germicidal", "blacklight"})  # uses for which no rule asks what the unit's label names
CURRENTS = ("mains.current_a", "hf.current_a")

Tally = dict[str, int]
RESTS_ON = marked(
    "A verdict rests on a value when some rule on fit, replacement, law or ultraviolet reads it in at least one "
    "case; how often a lamp is met is a judgement that no work could print, and is left out."
)


def sources_report(catalogue: Catalogue) -> dict[str, Any]:
    """Return the counts over all, and over what a verdict rests on (`RESTS_ON`), that also by base and lamp."""
    bases = {base.designation: _tally(_fields(base, OF_BASE)) for base in catalogue.bases}
    lamps = {lamp.id: _tally(_of_lamp(catalogue, lamp)) for lamp in catalogue.lamps}
    parts = (*bases.values(), *lamps.values())
    verdict = {group: sum(part[group] for part in parts) for group in GROUPS}
    every = _tally(_within((*catalogue.bases, *catalogue.lamps)))
    return {"all": every, "verdict": verdict, "bases": bases, "lamps": lamps}


def sources_text(report: Mapping[str, Any]) -> str:
    """Return the counts as lines, bases and lamps with the least that was read first."""
    lines = [_line(tr("all values"), report["all"]), _line(tr("a verdict rests on"), report["verdict"]), tr(RESTS_ON)]
    for title, rows in ((tr("Bases:"), report["bases"]), (tr("Lamp types:"), report["lamps"])):
        least_first = sorted(rows.items(), key=lambda row: (share_read(row[1]), row[0]))
        lines += ["", title, *(_line(name, tally) for name, tally in least_first)]
    return "\n".join(lines)


def share_read(tally: Mapping[str, int]) -> float:
    """Return which share was read in a work, or seen in the shop."""
    return sum(tally[group] for group in READ) / (sum(tally.values()) or 1)


def _line(name: str, tally: Tally) -> str:
    counts = ", ".join(tr(GROUPS[group]).format(count=count) for group, count in tally.items() if count)
    read = tr("{share} read").format(share=f"{share_read(tally):4.0%}")
    return f"{name:40} {read}: {counts}"


def _tally(values: Iterable[Sourced]) -> Tally:
    found = Counter(one.confidence.partition("-")[0] for one in values)
    return {group: found[group] for group in GROUPS}


def _within(values: Iterable[object]) -> Iterator[Sourced]:
    """Yield everything that carries a source, however deep."""
    for value in values:
        if isinstance(value, Sourced):
            yield value
        elif isinstance(value, Model):
            yield from _within(getattr(value, name) for name in type(value).model_fields)
        elif isinstance(value, tuple):
            yield from _within(value)


def _of_lamp(catalogue: Catalogue, lamp: Lamp) -> Iterator[Sourced]:
    """Yield the values of a lamp type that rules read; a test traces every rule and holds this list to it."""
    base = catalogue.base_of(lamp)
    yield from _fields(lamp, OF_LAMP)
    if lamp.arc_mm or lamp.length_mm:  # no exposure is computed without either
        yield from _fields(lamp, ("uvc_w",))
    if lamp.is_saver:
        yield from _fields(lamp, ("starts_above_c",))
    if lamp.is_saver or (base.mount == "two-ends" and base.pins.value > 1):  # of others the base says how they start
        yield from _fields(lamp, ("starts_from",))
    if base.supply == "ballast" and not (base.starter and base.starter.value == "internal"):
        yield from _fields(lamp, ("dims",))
    if len({other.watts.value for other in catalogue.lamps_of_family[base.family]}) > 1:
        yield from _fields(lamp, CURRENTS)  # compared with those of other watts
    if set(lamp.purposes) - LABEL_FREE:
        yield from lamp.codes  # the unit's own label must name it


def _fields(entry: Base | Lamp, paths: Iterable[str]) -> Iterator[Sourced]:
    for path in paths:
        value: Any = entry
        for step in path.split("."):
            value = getattr(value, step) if value is not None else None
        if value is not None:
            yield value
