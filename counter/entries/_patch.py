"""What a shop added as a patch to the shipped files: a unified diff, as `git apply` and `patch -p1` read it.

Names of people stay in the shop: a value that was measured there goes along as common practice, with day and tool.
The format of the hunks is that of POSIX `diff -u`.
"""

from __future__ import annotations

import difflib
import json
import re
from typing import TYPE_CHECKING, Any, NamedTuple

from counter import paths
from counter.catalogue import check_text, empty_layer, lay_over, load_file, without_added, written
from counter.entries._faults import section_findings
from counter.entries._patch_law import disposal_with, law_with
from counter.entries._written import spans_in, with_replaced, written_as

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.entries._written import Loc, Span

KEYS = {"bases": "designation", "lamps": "id", "looks": "key"}
BY_HAND = re.compile(r"^[^:]*?, (\d{4}-\d{2}-\d{2}): ")  # who and when, as a confirmed value's note begins
FIRST = ("value", "shape", "at", "confidence", "source", "plus_minus")  # as our tables write one value
HEAD = 3  # lines of what is unchanged around a change


class File(NamedTuple):
    """A shipped table: its content, and where each value of it stands in the text."""

    data: dict[str, Any]
    spans: dict[Loc, Span]


class PatchProblem(ValueError):  # noqa: N818 - said to the user as it stands, never a fault of the program
    """What was added cannot be handed back; the words say what is wrong with it."""


def patch_of(layer: dict[str, Any]) -> str:
    """Return the patch that puts a layer into the shipped files, nothing where it adds nothing to them.

    Raises:
        PatchProblem: the files would not be sound with it.
    """
    changed = {
        "catalogue.json": _catalogue(layer),
        "cautions.json": _cautions(layer),
        "words.json": _words(layer),
        "law.json": law_with(_shipped_text("law.json"), layer),
        "disposal.json": disposal_with(_shipped_text("disposal.json"), layer),
    }
    return "".join(_diff(name, text) for name, text in changed.items())


def _diff(name: str, new: str) -> str:
    old = _shipped_text(name)
    if new == old:
        return ""
    if problems := check_text(new):
        first = problems[0]
        raise PatchProblem(f"{name}, {first.path}: {first.what}. {first.way_out}")
    path = f"resources/{name}"
    lines = difflib.unified_diff(
        old.splitlines(keepends=True), new.splitlines(keepends=True), f"a/{path}", f"b/{path}", n=HEAD
    )
    return f"diff --git a/{path} b/{path}\n" + "".join(lines)


def _shipped_text(name: str) -> str:
    return (paths.resources() / name).read_text(encoding="utf-8")


def _catalogue(layer: dict[str, Any]) -> str:
    text = _shipped_text("catalogue.json")
    shipped = load_file(paths.resources() / "catalogue.json")
    laid = lay_over(shipped, {**empty_layer(), **layer}).catalogue
    file = File(json.loads(text), spans_in(text, 3))
    pieces = [piece for section in KEYS for piece in _section(section, shipped, laid, file)]
    return with_replaced(text, pieces)


def _section(section: str, shipped: Catalogue, laid: Catalogue, file: File) -> Iterator[tuple[Span, str]]:
    """Yield the stretches of one list that change: entries with other fields, and new ones after the last."""
    key = KEYS[section]
    old = {getattr(one, key): (at, one) for at, one in enumerate(getattr(shipped, section))}
    new = []
    for one in getattr(laid, section):
        entry = _handed_back(without_added(written(one)))
        if getattr(one, key) not in old:
            new.append(written_as(_as_typed(entry, None), 2))
            continue
        at, before = old[getattr(one, key)]
        if before is not one and before != one:
            yield from _entry(file, (section, at), _as_typed(entry, file.data[section][at]))
    if new:
        end = file.spans[(section, len(old) - 1)][1]
        yield (end, end), "".join(f",\n  {text}" for text in new)


def _entry(file: File, loc: tuple[str, int], new: dict[str, Any]) -> Iterator[tuple[Span, str]]:
    old = file.data[loc[0]][loc[1]]
    if old.keys() != new.keys():
        yield file.spans[loc], written_as(new, 2)
        return
    for name, value in new.items():
        if value != old[name]:
            yield file.spans[(*loc, name)], written_as(value, 3, len(name) + 4)


def _as_typed(new: Any, old: Any) -> Any:
    """Return a value with its fields in the order of what is there, or of ours; whole numbers without a point."""
    if isinstance(new, list):
        rows = old if isinstance(old, list) and len(old) == len(new) else [None] * len(new)
        return [_as_typed(*pair) for pair in zip(new, rows, strict=True)]
    if isinstance(new, float) and new.is_integer():
        return int(new)
    if not isinstance(new, dict):
        return new
    there = old if isinstance(old, dict) else {}
    order = [*(name for name in (*there, *FIRST) if name in new), *new]
    return {name: _as_typed(new[name], there.get(name)) for name in dict.fromkeys(order)}


def _handed_back(value: Any) -> Any:
    """Return values that the shop measured as common practice: only its own layer can confirm."""
    if isinstance(value, list):
        return [_handed_back(one) for one in value]
    if not isinstance(value, dict):
        return value
    made = {name: _handed_back(one) for name, one in value.items()}
    if made.get("source") == "shop":
        made |= {"source": "practice", "confidence": "practice", "note": _note(made.get("note"))}
    return made


def _note(note: object) -> str:
    text = note if isinstance(note, str) else ""
    told = BY_HAND.sub(r"\1: ", text)
    return f"measured or seen in a shop{', ' if told else ''}{told}"


def _sound(layer: dict[str, Any], section: str) -> list[dict[str, Any]]:
    bad = {one.loc[1] for one in section_findings(section, layer)}
    return [entry for at, entry in enumerate(layer.get(section, [])) if at not in bad]


def _cautions(layer: dict[str, Any]) -> str:
    text = _shipped_text("cautions.json")
    table = json.loads(text)
    for entry in _sound(layer, "cautions"):
        if entry.get("language", "en") == "en":  # other languages lie in the translations
            row = table["rules"][entry["rule"]]
            row.update({part: entry[part] for part in ("says", "why", "do")})
    made = json.dumps(table, ensure_ascii=False, indent=1) + "\n"
    return made if table != json.loads(text) else text


def _words(layer: dict[str, Any]) -> str:
    text = _shipped_text("words.json")
    loc: Loc = ("topics", "harmless", "words", "en")
    known = json.loads(text)["topics"]["harmless"]["words"]["en"]
    new = [entry["word"] for entry in _sound(layer, "words") if entry["word"] not in known]
    if not new:
        return text
    spans = spans_in(text, len(loc) + 1)
    end = spans[(*loc, len(known) - 1)][1]
    return with_replaced(text, [((end, end), "".join(f", {json.dumps(one, ensure_ascii=False)}" for one in new))])
