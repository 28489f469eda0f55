"""What a shop's entries must keep beside the rules for all: nothing it adds takes a doubt about ultraviolet away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue._models import Base, Lamp
from counter.catalogue._problems import Finding, shown
from counter.catalogue._rules_base import base_rules
from counter.catalogue._rules_lamp import lamp_rules
from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue._models import Catalogue
    from counter.catalogue._parts import Parts
    from counter.catalogue._problems import Loc

# What a base or lamp type is: with another of these it is another thing, to be added as such.
SAME = {
    "base": ("designation", "family", "supply", "mount"),
    "lamp": ("id", "base", "kind", "band", "shape", "legs"),
}
COUNTED = {"base": "pins", "lamp": "watts"}
ANOTHER = {  # what is wrong, and the ways out where a word and where a count was changed
    "base": (
        marked("with other {field} it is another base"),
        marked("Leave it, or add another base."),
        marked("Add it as another base."),
    ),
    "lamp": (
        marked("with other {field} it is another lamp type"),
        marked("Leave it, or add another lamp type."),
        marked("Add it as another lamp type."),
    ),
}


def hides_ultraviolet(lamp: Lamp, below: Catalogue) -> Iterator[tuple[str, str]]:
    """Yield what is wrong and the way out where a lamp that gives no ultraviolet is said to have clear glass.

    Clear glass is what tells a germicidal lamp on the same base; taken for a lamp for light it would tell nothing.
    """
    if lamp.is_ultraviolet or lamp.glass is None or lamp.glass.value != "clear":
        return
    base = below.base_by_name.get(lamp.base)
    family = below.lamps_of_family[base.family] if base is not None else ()
    if any(one.kind == "uv-c" for one in family):
        what = tr("clear glass is how a germicidal lamp on {base} is known").format(base=shown(lamp.base))
        yield what, tr("Write white, or leave the glass out: then it stays open.")


def stays_the_same(old: Base | Lamp, new: Base | Lamp, loc: Loc) -> Iterator[Finding]:
    """Yield what makes another thing of a shipped entry, or less of a danger than it was shipped as."""
    kind = "base" if isinstance(old, Base) else "lamp"
    another, leave, add = (tr(text) for text in ANOTHER[kind])
    for name in SAME[kind]:
        if getattr(old, name) != getattr(new, name):
            yield Finding((*loc, name), another.format(field=name), leave)
    count = COUNTED[kind]
    if getattr(old, count).value != getattr(new, count).value:
        yield Finding((*loc, count, "value"), another.format(field=count), add)
    if isinstance(old, Lamp) and isinstance(new, Lamp):
        yield from _as_dangerous(old, new, loc)


def _as_dangerous(old: Lamp, new: Lamp, loc: Loc) -> Iterator[Finding]:
    if not set(old.purposes) <= set(new.purposes):
        yield Finding(
            (*loc, "purposes"), tr("a purpose that it is shipped with is gone"), tr("Add to them, take none away.")
        )
    for name in ("uvc_w", "uva_w", "uvb_w"):
        before, after = getattr(old, name), getattr(new, name)
        if before is not None and (after is None or after.value < before.value):
            yield Finding(
                (*loc, name), tr("less ultraviolet than it is shipped with"), tr("Confirm it as measured instead.")
            )


def newly_broken(old: Base | Lamp, new: Base | Lamp, parts: Parts) -> list[Finding]:
    """Return what is wrong with an entry that was not before, its places counted from the entry."""
    if isinstance(new, Base) and isinstance(old, Base):
        before, after = base_rules(old, (), parts), base_rules(new, (), parts)
    elif isinstance(new, Lamp) and isinstance(old, Lamp):
        before, after = lamp_rules(old, (), parts), lamp_rules(new, (), parts)
    else:
        return []
    known = set(before)
    return [finding for finding in after if finding not in known]


def keep_doubt(top: Catalogue, below: Catalogue) -> None:
    """Let germicidal lamps be as large a share of their base as shipped, however many lamps a shop adds to it.

    The lamps for light on that base share the chance that they have as shipped; without that thirty lamp types of a
    shop's own would press the doubt about the glass under what is asked about.
    """
    less = {base: _harmless(below, base) / _harmless(top, base) for base in _grown(top, below)}
    if not less:
        return
    weights = dict(top.prevalence)
    for lamp in top.lamps:
        if lamp.kind != "uv-c":
            weights[lamp.id] *= min(less.get(lamp.base, 1.0), 1.0)
    total = sum(weights.values())
    top.__dict__["prevalence"] = {name: weight / total for name, weight in weights.items()}


def _grown(top: Catalogue, below: Catalogue) -> set[str]:
    shipped = below.lamps_on
    grown = {base for base, lamps in top.lamps_on.items() if len(lamps) > len(shipped.get(base, ()))}
    return {base for base in grown if any(lamp.kind == "uv-c" for lamp in shipped.get(base, ()))}


def _harmless(catalogue: Catalogue, base: str) -> float:
    """Return how the lamps of a base that give no UV-C weigh together, by how often a counter meets them."""
    return sum(lamp.weight_met for lamp in catalogue.lamps_on[base] if lamp.kind != "uv-c")
