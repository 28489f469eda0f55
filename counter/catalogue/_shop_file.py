"""shop.json: read it, and add a confirmation to it without losing what is there."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from counter import paths
from counter.catalogue._document import Document, read
from counter.catalogue._load import SHOP_FILE, Loaded, load_file
from counter.catalogue._problems import Finding, Problem, problems_from, shown
from counter.catalogue._shop import FORMAT, VERSION, confirmations, lay_over
from counter.files import copy_aside, is_there, migrated, write_atomic

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date
    from pathlib import Path

    from pydantic import JsonValue

    from counter.catalogue._models import Catalogue
    from counter.catalogue._shop import Confirmed
    from counter.files import Migration

MIGRATIONS: Mapping[int, Migration] = {}  # version n: what turns it into n + 1


class ConfirmError(Exception):
    """A value cannot be confirmed; `problem` says what, where and the way out."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(f"{problem.what}. {problem.way_out}")
        self.problem = problem


def over(shipped: Catalogue, path: Path) -> Loaded:
    """Lay a shop file over the shipped catalogue; whatever is wrong with the file is named and left out."""
    document = read(path)
    if isinstance(document, Problem):
        return Loaded(shipped, (document.in_file(path.name),))
    data = migrated(document.data, MIGRATIONS, VERSION)
    fault = _foreign(data)
    if fault is not None:
        return Loaded(shipped, _placed([fault], document, data, path))
    laid = lay_over(shipped, data)
    return Loaded(laid.catalogue, _placed([*document.findings, *laid.findings], document, data, path))


def _placed(findings: list[Finding], document: Document, data: Any, path: Path) -> tuple[Problem, ...]:
    return tuple(one.in_file(path.name) for one in problems_from(findings, data, document.text))


def confirm(
    data: Path,
    *,
    kind: str,
    of: str,
    part: str,
    value: JsonValue,
    who: str,
    on: date,
    how: str,
    plus_minus: float | None = None,
) -> Path | None:
    """Write a value that the shop measured or saw into its layer; the value counts from the next `load`.

    `kind` is "base" or "lamp", `of` its designation or id, `part` the path of the value's fields. Returns
    where an unreadable shop file was copied to before it was replaced, None where there was none.

    Raises:
        ConfirmError: no such value, a value that breaks a rule, or a file that must not be written over.
        OSError: the file could not be written; the old one is untouched.
    """
    path = data / SHOP_FILE
    content, is_unreadable = _content(path)
    entry = {"kind": kind, "of": of, "part": part, "value": value, "who": who, "on": on.isoformat(), "how": how}
    if plus_minus is not None:
        entry["plus_minus"] = plus_minus
    content["confirmed"].append(entry)
    _refuse_bad(content)
    text = json.dumps(content, indent=1, ensure_ascii=False, allow_nan=False)
    aside = copy_aside(path) if is_unreadable else None
    write_atomic(path, (text + "\n").encode())
    return aside


def confirmed_before(data: Path, *, kind: str, of: str, part: str) -> tuple[Confirmed, ...]:
    """Return what the shop confirmed for one value, the latest last.

    Raises:
        ConfirmError: the file is a newer program's.
    """
    return confirmations(_content(data / SHOP_FILE)[0], kind, of, part)


def withdraw(data: Path, *, kind: str, of: str, part: str) -> int:
    """Take every confirmation of one value out of the shop's layer and return how many there were.

    Raises:
        ConfirmError: the shop file cannot be read.
        OSError: the file could not be written; the old one is untouched.
    """
    content, is_unreadable = _content(data / SHOP_FILE)
    if is_unreadable:
        raise ConfirmError(Problem("", f"{SHOP_FILE} cannot be read", "Check it and mend it first."))
    before = content["confirmed"]
    content["confirmed"] = [entry for entry in before if not _confirms(entry, (kind, of, part))]
    count = len(before) - len(content["confirmed"])
    if count:
        write_atomic(data / SHOP_FILE, (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode())
    return count


def _content(path: Path) -> tuple[dict[str, Any], bool]:
    """Return what the file holds, entries with faults too, and whether it cannot be read at all."""
    fresh: dict[str, Any] = {"format": FORMAT, "version": VERSION, "confirmed": []}
    if not is_there(path):
        return fresh, False
    document = read(path)
    if isinstance(document, Problem):
        return fresh, True
    content = migrated(document.data, MIGRATIONS, VERSION)
    fault = _foreign(content)
    if fault is not None and fault.loc == ("version",):
        raise ConfirmError(*problems_from([fault], content))
    content.setdefault("confirmed", [])
    is_ours = fault is None and isinstance(content["confirmed"], list)
    return (content, False) if is_ours else (fresh, True)


def _foreign(data: dict[str, Any]) -> Finding | None:
    """Return why a file is not one that this program may read as a shop's layer."""
    if data.get("format") != FORMAT:
        return Finding(("format",), f"{shown(data.get('format'))} is not {FORMAT}", "Name the shop's own file.")
    version = data.get("version")
    if type(version) is int and version > VERSION:
        return Finding(("version",), f"version {version} is newer than this program", "Use a newer program.")
    return None


def _refuse_bad(content: dict[str, Any]) -> None:
    place = ("confirmed", len(content["confirmed"]) - 1)
    laid = lay_over(load_file(paths.resources() / "catalogue.json"), content)
    found = [finding for finding in laid.findings if finding.loc[:2] == place]
    if found:
        raise ConfirmError(problems_from(found, content)[0])


def _confirms(entry: object, key: tuple[str, str, str]) -> bool:
    return isinstance(entry, dict) and (entry.get("kind"), entry.get("of"), entry.get("part")) == key
