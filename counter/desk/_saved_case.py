"""A case kept in a file: read, and held against the catalogue before anybody answers from it.

May import counter.catalogue, counter.desk, counter.fit and counter.identify.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from pydantic import ValidationError

from counter.desk._case import Case, CaseProblem
from counter.fit import places
from counter.identify import LookProblem, parse_look

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue

MOST_PLACES = 5


def read_case(path: Path, catalogue: Catalogue) -> Case:
    """Return the case in a file.

    Raises:
        CaseProblem: it cannot be read, is no case, or speaks of a look or lamp that the catalogue does not have.
    """
    try:
        case = Case.model_validate_json(path.read_bytes())
    except OSError as problem:
        raise CaseProblem(f"{path}: {problem.strerror or problem}") from None
    except ValidationError as problem:
        raise CaseProblem(f"{path.name} is not a saved case: {_places(problem)}") from None
    _hold_against(catalogue, case, path.name)
    return case


def _places(problem: ValidationError) -> str:
    found = problem.errors()[:MOST_PLACES]
    return "; ".join(f"{'.'.join(map(str, one['loc'])) or 'file'}: {one['msg']}"[:200] for one in found)


def _hold_against(catalogue: Catalogue, case: Case, name: str) -> None:
    for key, answer in case.looks.items():
        try:
            parse_look(catalogue, key, answer)
        except LookProblem as problem:
            raise CaseProblem(f"{name}: {problem}") from None
    if case.place is not None and case.place not in {place.id for place in places()}:
        known = ", ".join(place.id for place in places())
        raise CaseProblem(f"{name}: place: “{case.place[:40]}” is not known; use one of {known}")
    for field in ("chosen", "shown", "beside"):
        lamp = getattr(case, field)
        if lamp is not None and lamp not in catalogue.lamp_by_id:
            raise CaseProblem(f"{name}: {field}: the catalogue has no lamp “{lamp[:40]}”; leave it out or mend it")
