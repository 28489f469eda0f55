"""The shop's layer as one object: read from a file that an older program left, laid over, judged before it is kept.

Where a layer is kept is not known here: whoever loads the catalogue hands it in.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter import paths
from counter.catalogue._document import Document, read
from counter.catalogue._load import Loaded, load_file
from counter.catalogue._problems import Finding, Problem, problems_from, shown
from counter.catalogue._shop import FORMAT, VERSION, lay_over
from counter.files import migrated
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from counter.catalogue._models import Catalogue
    from counter.files import Migration

MIGRATIONS: Mapping[int, Migration] = {}  # version n: what turns it into n + 1


class ConfirmError(Exception):
    """A value cannot be confirmed; `problem` says what, where and the way out."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(f"{problem.what}. {problem.way_out}")
        self.problem = problem


def empty_layer() -> dict[str, Any]:
    """Return a layer that says nothing yet."""
    return {"format": FORMAT, "version": VERSION, "confirmed": []}


def read_layer(path: Path) -> dict[str, Any] | Problem:
    """Return the layer in a file, entries with faults too; or what keeps the file from being read."""
    document = read(path)
    if isinstance(document, Problem):
        return document.in_file(path.name)
    layer = migrated(document.data, MIGRATIONS, VERSION)
    fault = _foreign(layer)
    return _placed([fault], document, layer, path)[0] if fault is not None else layer


def _placed(findings: list[Finding], document: Document, data: Any, path: Path) -> tuple[Problem, ...]:
    return tuple(one.in_file(path.name) for one in problems_from(findings, data, document.text))


def over(shipped: Catalogue, layer: dict[str, Any]) -> Loaded:
    """Lay a shop's layer over the shipped catalogue; whatever is wrong with it is named and left out."""
    laid = lay_over(shipped, layer)
    return Loaded(laid.catalogue, problems_from(laid.findings, layer))


def refuse_bad(layer: dict[str, Any]) -> None:
    """Judge the last confirmation of a layer.

    Raises:
        ConfirmError: no such value, or a value that breaks a rule.
    """
    place = ("confirmed", len(layer["confirmed"]) - 1)
    laid = lay_over(load_file(paths.resources() / "catalogue.json"), layer)
    found = [finding for finding in laid.findings if finding.loc[:2] == place]
    if found:
        raise ConfirmError(problems_from(found, layer)[0])


def _foreign(data: dict[str, Any]) -> Finding | None:
    """Return why a file is not one that this program may read as a shop's layer."""
    if data.get("format") != FORMAT:
        return Finding(
            ("format",),
            tr("{found} is not {format}").format(found=shown(data.get("format")), format=FORMAT),
            tr("Name the shop's own file."),
        )
    version = data.get("version")
    if type(version) is int and version > VERSION:
        return Finding(
            ("version",),
            tr("version {version} is newer than this program").format(version=version),
            tr("Use a newer program."),
        )
    if not isinstance(data.get("confirmed", []), list):
        return Finding(("confirmed",), tr("confirmed is no list"), tr("Write [ ] around its entries."))
    return None
