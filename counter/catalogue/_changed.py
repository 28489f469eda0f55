"""Fields of shipped entries that a shop wrote anew, put over what is shipped."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.catalogue._models import Base, Lamp
from counter.catalogue._own import merge_patched
from counter.catalogue._problems import Finding, shown
from counter.catalogue._rules_shop import hides_ultraviolet, newly_broken, stays_the_same
from counter.catalogue._validate import findings_of
from counter.language import marked, tr

if TYPE_CHECKING:
    from counter.catalogue._models import Catalogue
    from counter.catalogue._own import Changed
    from counter.catalogue._parts import Parts
    from counter.catalogue._problems import Loc


def written(entry: Base | Lamp) -> dict[str, Any]:
    """Return an entry as its file would hold it: what says nothing is left out."""
    found: dict[str, Any] = entry.model_dump(mode="json", exclude_unset=True, exclude_none=True)
    return found


NOT_SHIPPED = {"base": marked("no base {name} is shipped"), "lamp": marked("no lamp type {name} is shipped")}


def changed_entries(
    changed: Changed, entries: dict[str, Any], parts: Parts, below: Catalogue, loc: Loc
) -> list[Finding]:
    """Put a change into its entry, unless that breaks a rule; return why not."""
    shipped = (below.base_by_name if changed.kind == "base" else below.lamp_by_id).get(changed.of)
    if shipped is None:
        return [
            Finding(
                (*loc, "of"),
                tr(NOT_SHIPPED[changed.kind]).format(name=shown(changed.of)),
                tr("Add it as the shop's own."),
            )
        ]
    here = (*loc, "to")
    model = Base if changed.kind == "base" else Lamp
    data = merge_patched(written(shipped), changed.to)
    found = findings_of(model, data)
    if not found:
        entry = model.model_validate(data, strict=False)
        found = [*stays_the_same(shipped, entry, ()), *newly_broken(shipped, entry, parts)]
        if isinstance(entry, Lamp):
            found += [Finding(("glass", "value"), *said) for said in hides_ultraviolet(entry, below)]
        if not found:
            entries[changed.of] = entry
    return [finding._replace(loc=(*here, *finding.loc)) for finding in found]
