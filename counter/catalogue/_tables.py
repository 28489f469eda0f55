"""What any table of ours must keep, whatever it is about: each value says where it comes from and how sure it is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, get_args

from counter.catalogue._models import Confidence
from counter.catalogue._problems import Finding, shown
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue._problems import Loc

TABLES = ("cautions", "disposal", "label", "law", "light", "marks", "replacements", "training", "words")
UNREAD = frozenset({"memory", "practice", "own", "inferred"})  # keys of no work that anybody could have read
SURE = frozenset({"published", "reproduced"})


def findings_in_table(data: dict[str, Any], sources: frozenset[str]) -> list[Finding]:
    """Return what is wrong with the provenance in a table; `sources` are the keys of the catalogue's sources.

    A table may add sources of its own under `sources`, as a list of objects with `key` or as an object.
    """
    own = data.get("sources") or []
    keys = {one.get("key") for one in own if isinstance(one, dict)} if isinstance(own, list) else set(own)
    known = sources | {key for key in keys if isinstance(key, str)}
    found = [] if data.get("version") == 1 else [Finding(("version",), tr("the version is not 1"), tr("Write 1."))]
    for loc, row in _rows(data, (), {}):
        found += _provenance(loc, row, known)
    return found


def _rows(value: Any, loc: Loc, above: dict[str, str]) -> Iterator[tuple[Loc, dict[str, str]]]:
    """Yield what each row says of its provenance; what it leaves out it has from the table it stands in."""
    if isinstance(value, dict):
        own = {key: value[key] for key in ("source", "confidence") if isinstance(value.get(key), str)}
        if own:
            above = {**above, **own}
            if len(above) > 1 or not any(isinstance(inner, (dict, list)) for inner in value.values()):
                yield loc, above
        for key, inner in value.items():
            yield from _rows(inner, (*loc, key), above)
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from _rows(inner, (*loc, at), above)


def _provenance(loc: Loc, row: dict[str, str], known: frozenset[str]) -> Iterator[Finding]:
    source, confidence = row.get("source"), row.get("confidence")
    if confidence is not None and confidence not in get_args(Confidence):
        yield Finding(
            (*loc, "confidence"),
            tr("{confidence} is no confidence").format(confidence=shown(confidence)),
            tr("Use one of the seven words."),
        )
    if source is not None and source not in known:
        yield Finding(
            (*loc, "source"),
            tr("the source {source} is not listed").format(source=shown(source)),
            tr("Add it under sources."),
        )
    if source is None or confidence is None:
        missing = "source" if source is None else "confidence"
        yield Finding(
            (*loc, missing),
            tr("a value without {missing}").format(missing=missing),
            tr("Say where it is from and how sure it is."),
        )
    elif confidence in SURE and source in UNREAD:
        yield Finding(
            (*loc, "confidence"),
            tr("{confidence} does not go with the source {source}").format(
                confidence=shown(confidence), source=shown(source)
            ),
            tr("Published and reproduced need a work that was read."),
        )
