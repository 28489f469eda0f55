"""Check a file of one of our formats and list everything that is wrong with it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from counter import paths
from counter.catalogue._document import Document, parse, read
from counter.catalogue._load import load_file
from counter.catalogue._models import Catalogue
from counter.catalogue._parts import shipped_parts
from counter.catalogue._problems import Finding, Problem, problems_from, shown
from counter.catalogue._rules import findings_in
from counter.catalogue._shop import FORMAT as SHOP
from counter.catalogue._shop import lay_over
from counter.catalogue._tables import TABLES, findings_in_table
from counter.catalogue._validate import findings_of
from counter.language import tr

if TYPE_CHECKING:
    from pathlib import Path

Checker = Callable[[dict[str, Any]], Iterable[Finding]]
CATALOGUE = "lamp-counter/catalogue"
NO_OTHERS: Mapping[str, Checker] = MappingProxyType({})


def check_file(path: Path, others: Mapping[str, Checker] = NO_OTHERS, assumed: str = "") -> tuple[Problem, ...]:
    """Return every problem of a file, none when it is sound. Never raises for what is in the file.

    `others` maps further formats (`lamp-counter/marks`) to the function that knows their rules: it takes
    the file's JSON object and yields findings. Whoever calls knows which parts of the program there are.
    `assumed` is the format of a file that does not say one and need not.
    """
    return tuple(one.in_file(path.name) for one in _problems(read(path), others, assumed))


def check_text(text: str, others: Mapping[str, Checker] = NO_OTHERS) -> tuple[Problem, ...]:
    """Return every problem of a file's text, as `check_file` does of a file."""
    return _problems(parse(text), others, "")


def _problems(document: Document | Problem, others: Mapping[str, Checker], assumed: str) -> tuple[Problem, ...]:
    if isinstance(document, Problem):
        return (document,)
    tables = {f"lamp-counter/{name}": _table for name in TABLES}
    checkers = {CATALOGUE: _catalogue, SHOP: _shop, **tables, **others}
    name = document.data.get("format", assumed or None)
    checker = checkers.get(name) if isinstance(name, str) else None
    found = checker(document.data) if checker else [_unknown(name, checkers)]
    return problems_from([*document.findings, *found], document.data, document.text)


def check_shipped() -> tuple[Problem, ...]:
    """Return every problem of the shipped catalogue and the other shipped tables, each named by its file."""
    folder = paths.resources()
    found = list(check_file(folder / "catalogue.json"))
    for name in TABLES:
        found += check_file(folder / f"{name}.json")
    return tuple(found)


def _table(data: dict[str, Any]) -> list[Finding]:
    shipped = json.loads((paths.resources() / "catalogue.json").read_bytes())
    return findings_in_table(data, frozenset(source["key"] for source in shipped["sources"]))


def _catalogue(data: dict[str, Any]) -> list[Finding]:
    findings = findings_of(Catalogue, data)
    return [*findings, *findings_in(shipped_parts(data, findings))]


def _shop(data: dict[str, Any]) -> Iterable[Finding]:
    return lay_over(load_file(paths.resources() / "catalogue.json"), data).findings


def _unknown(name: object, checkers: Mapping[str, Checker]) -> Finding:
    what = (
        tr("the file does not say which format it has")
        if name is None
        else tr("the format {name} is not known").format(name=shown(name))
    )
    return Finding(("format",), what, tr("Write one of {words}.").format(words=", ".join(sorted(checkers))))
