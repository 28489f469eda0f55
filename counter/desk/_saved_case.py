"""A case kept in a file: read, and held against the catalogue before anybody answers from it.

May import counter.catalogue, counter.desk, counter.fit and counter.identify.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from pydantic import ValidationError

from counter.catalogue import findings_from, json_path, shown
from counter.desk._case import Case, CaseProblem
from counter.files import read_bytes, reason
from counter.fit import places
from counter.identify import LookProblem, parse_look
from counter.language import tr

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue

MOST_PLACES = 5
LARGEST_CASE = 1_000_000  # bytes; a full case has two thousand


def read_case(path: Path, catalogue: Catalogue) -> Case:
    """Return the case in a file.

    Raises:
        CaseProblem: it cannot be read, is no case, or speaks of a look or lamp that the catalogue does not have.
    """
    try:
        raw = read_bytes(path, LARGEST_CASE)
    except OSError as problem:
        raise CaseProblem(f"{shown(path)}: {reason(problem)}") from None
    try:
        return case_in(raw.decode("utf-8-sig"), path.name, catalogue)
    except UnicodeDecodeError as problem:
        line = raw.count(b"\n", 0, problem.start) + 1
        told = tr("{file}, line {line}: not UTF-8 text; no saved case of ours is that")
        raise CaseProblem(told.format(file=path.name, line=line)) from None


def case_in(text: str, name: str, catalogue: Catalogue) -> Case:
    """Return the case in a text; `name` says in problems where the text came from.

    Raises:
        CaseProblem: as in `read_case`.
    """
    try:
        case = Case.model_validate(json.loads(text))
    except json.JSONDecodeError as problem:
        told = tr("{file} is not a saved case: not JSON at line {line}, column {column}")
        raise CaseProblem(told.format(file=name, line=problem.lineno, column=problem.colno)) from None
    except ValidationError as problem:
        told = tr("{file} is not a saved case: {problem}")
        raise CaseProblem(told.format(file=name, problem=_places(problem))) from None
    except (ValueError, RecursionError):  # a number of thousands of digits; brackets without end
        told = tr("{file} is not a saved case: its JSON is deeper or longer than any case")
        raise CaseProblem(told.format(file=name)) from None
    _hold_against(catalogue, case, name)
    return case


def _places(problem: ValidationError) -> str:
    whole = tr("file")
    found = findings_from(problem)[:MOST_PLACES]
    return "; ".join(f"{json_path(one.loc) or whole}: {one.what}"[:200] for one in found)


def _hold_against(catalogue: Catalogue, case: Case, name: str) -> None:
    for key, answer in case.looks.items():
        try:
            parse_look(catalogue, key, answer)
        except LookProblem as problem:
            raise CaseProblem(f"{name}: {problem}") from None
    if case.place is not None and case.place not in {place.id for place in places(catalogue)}:
        known = ", ".join(place.id for place in places(catalogue))
        told = tr("{file}: place: “{place}” is not known; use one of {known}")
        raise CaseProblem(told.format(file=name, place=case.place[:40], known=known))
    for field in ("chosen", "shown", "beside"):
        lamp = getattr(case, field)
        if lamp is not None and lamp not in catalogue.lamp_by_id:
            told = tr("{file}: {field}: the catalogue has no lamp “{lamp}”; leave it out or mend it")
            raise CaseProblem(told.format(file=name, field=field, lamp=lamp[:40]))
