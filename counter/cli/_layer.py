"""What a shop added to the catalogue: listed, given to another shop, taken from one, handed back as a patch."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counter.cli._line import DONE, NOTHING, Answer, BadInput
from counter.files import reason, write_atomic
from counter.language import tr

if TYPE_CHECKING:
    import argparse

    from counter.cli._line import Commands
    from counter.shop import Meeting


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    group = commands.group("layer", tr("what this shop added to the catalogue"), "list | export | merge | patch")
    group.add("list", _list, tr("everything that was added, with who and when"))
    export = group.add("export", _export, tr("write it as a file that another shop takes in"))
    export.add_argument("out", metavar="OUT.json", type=Path)
    merge = group.add("merge", _merge, tr("take in what another shop exported; conflicts are shown"))
    merge.add_argument("file", metavar="FILE.json", type=Path)
    merge.add_argument(
        "--keep", choices=("later", "ours", "theirs"), default="later", help=tr("whose counts in a conflict")
    )
    merge.add_argument("--show", action="store_true", help=tr("only show what would come, and take nothing in"))
    patch = group.add("patch", _patch, tr("write it as a patch to the shipped files, as git apply reads it"))
    patch.add_argument("out", metavar="OUT.patch", type=Path)


def _list(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shop

    rows = shop.own_rows(shop.open_store(data)) if shop.has_store(data) else []
    found = [
        {"section": row.section, "about": list(row.key[1:]), "entry": row.body, "at": row.at, "withdrawn": row.gone}
        for row in rows
    ]
    lines = [
        "  ".join(filter(None, (" ".join(row.key), _by(row.body), tr("withdrawn") if row.gone else "")))
        for row in rows
    ]
    return Answer({"entries": found}, "\n".join(lines) or tr("nothing was added"), DONE if rows else NOTHING)


def _by(entry: dict[str, Any]) -> str:
    """Return who said it, when, how and how much repeated readings spread, as far as an entry says."""
    said = entry.get("added") or entry
    spread = entry.get("plus_minus")
    parts = (said.get("who"), said.get("on"), entry.get("how"), f"± {spread:g}" if spread is not None else "")
    return ", ".join(str(part) for part in parts if part)


def _export(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shop

    layer = _said(lambda: shop.shared_layer(data))
    text = json.dumps(layer, ensure_ascii=False, indent=1) + "\n"
    _write(chosen.out, text)
    count = sum(len(rows) for rows in layer.values() if isinstance(rows, list))
    return Answer({"file": str(chosen.out), "entries": count}, tr("Written: {file}").format(file=chosen.out), DONE)


def _merge(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import catalogue, shop

    theirs = catalogue.read_layer(chosen.file)
    if not isinstance(theirs, dict):
        raise BadInput(f"{chosen.file}: {theirs.what}. {theirs.way_out}")
    met = _said(lambda: shop.meet(data, theirs))
    ours = [one for one in met.meetings if chosen.keep == "ours" or (chosen.keep == "later" and one.later_is_ours)]
    if not chosen.show:
        _said(lambda: shop.take_in(data, theirs, [one.key for one in ours]))
    found = {
        "new": len(met.new),
        "known": met.known,
        "conflicts": [_conflict(one, "ours" if one in ours else "theirs") for one in met.meetings],
        "taken_in": not chosen.show,
    }
    return Answer(found, "\n".join(_lines(found)), DONE if met.new else NOTHING)


def _conflict(one: Meeting, counts: str) -> dict[str, Any]:
    return {"about": list(one.key), "ours": one.ours, "theirs": one.theirs, "counts": counts}


def _lines(found: dict[str, Any]) -> list[str]:
    counts = {"new": found["new"], "known": found["known"], "conflicts": len(found["conflicts"])}
    lines = [tr("{new} new, {known} known already, {conflicts} in conflict").format(**counts)]
    for one in found["conflicts"]:
        counting = tr("ours") if one["counts"] == "ours" else tr("theirs")
        lines.append(tr("{about}: {side} counts").format(about=" ".join(one["about"]), side=counting))
        sides = ((tr("ours"), one["ours"]), (tr("theirs"), one["theirs"]))
        lines += [f"    {side}: {_value(entry)}  {_by(entry)}".rstrip() for side, entry in sides]
    return lines if found["taken_in"] else [*lines, tr("Nothing was taken in.")]


def _value(entry: dict[str, Any]) -> str:
    if "value" in entry and "part" in entry:
        return json.dumps(entry["value"], ensure_ascii=False)
    rest = {name: value for name, value in entry.items() if name != "added"}
    return json.dumps(rest, ensure_ascii=False)


def _patch(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import entries, shop

    layer = _said(lambda: shop.shared_layer(data)) if shop.has_store(data) else {}
    try:
        text = entries.patch_of(layer)
    except entries.PatchProblem as problem:
        raise BadInput(str(problem)) from None
    if not text:
        return Answer({"file": None, "lines": 0}, tr("Nothing that was added changes the shipped files."), NOTHING)
    _write(chosen.out, text)
    return Answer(
        {"file": str(chosen.out), "lines": text.count("\n")}, tr("Written: {file}").format(file=chosen.out), DONE
    )


def _said(ask: Any) -> Any:
    from counter import shop

    try:
        return ask()
    except shop.StoreProblem as problem:
        raise BadInput(str(problem)) from None


def _write(out: Path, text: str) -> None:
    try:
        write_atomic(out, text.encode())
    except OSError as problem:
        words = tr("{file}: {reason}; name a file in a folder that can be written")
        raise BadInput(words.format(file=out, reason=reason(problem))) from None
