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
# The values that a verdict rests on; the others are drawn, told or help to know the lamp.
OF_BASE = ("pins", "starter")
OF_LAMP = (
    *("watts", "ballasts_from", "magnetic_if_listed", "starts_from", "starts_above_c", "dims", "stands_in_from"),
    *("tube_mm", "length_mm", "length_also_mm", "uvc_w", "uva_w", "uvb_w", "arc_mm", "purposes_from"),
    *("mains.current_a", "hf.current_a"),
)

Tally = dict[str, int]


def sources_report(catalogue: Catalogue) -> dict[str, Any]:
    """Return the counts over all, over what a verdict rests on, and by base and lamp."""
    return {
        "all": _tally(_within((*catalogue.bases, *catalogue.lamps))),
        "verdict": _tally(_of_verdicts(catalogue)),
        "bases": {base.designation: _tally(_within((base,))) for base in catalogue.bases},
        "lamps": {lamp.id: _tally(_within((lamp,))) for lamp in catalogue.lamps},
    }


def sources_text(report: Mapping[str, Any]) -> str:
    """Return the counts as lines, bases and lamps with the least that was read first."""
    lines = [_line(tr("all values"), report["all"]), _line(tr("a verdict rests on"), report["verdict"])]
    for what, heading in (("bases", tr("Bases:")), ("lamps", tr("Lamp types:"))):
        rows = sorted(report[what].items(), key=lambda row: (share_read(row[1]), row[0]))
        lines += ["", heading, *(_line(name, tally) for name, tally in rows)]
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


def _of_verdicts(catalogue: Catalogue) -> Iterator[Sourced]:
    for base in catalogue.bases:
        yield from _fields(base, OF_BASE)
    for lamp in catalogue.lamps:
        yield from _fields(lamp, OF_LAMP)


def _fields(entry: Base | Lamp, paths: Iterable[str]) -> Iterator[Sourced]:
    for path in paths:
        value: Any = entry
        for step in path.split("."):
            value = getattr(value, step) if value is not None else None
        if value is not None:
            yield value
