"""What every command needs: the catalogue, the shop's makers' codes, a saved case, one assessment."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.cli._input import STANDARD_INPUT, whole
from counter.cli._line import BadInput
from counter.files import reason

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.desk import Assessment, Case
    from counter.marks import HouseMaker


def catalogue_of(data: Path) -> Catalogue:
    """Return the catalogue with the shop's layer; what of the layer is unsound is left out."""
    from pydantic import ValidationError

    from counter.shop import StoreProblem, load_catalogue

    try:
        return load_catalogue(data).catalogue
    except StoreProblem as problem:
        raise BadInput(str(problem)) from None
    except OSError as problem:
        raise BadInput(f"the catalogue cannot be read: {reason(problem)}") from None
    except ValidationError as problem:
        raise BadInput(f"the catalogue has {problem.error_count()} problems; «counter check» lists them") from None


def house_of(data: Path) -> tuple[HouseMaker, ...]:
    """Return the shop's own tables of makers' codes."""
    from pydantic import ValidationError

    from counter.marks import HOUSE_FILE, load_house

    try:
        return load_house(data)
    except OSError as problem:
        raise BadInput(f"{HOUSE_FILE}: {reason(problem)}; mend it or take it away") from None
    except ValidationError as problem:
        first = problem.errors()[0]
        place = ".".join(map(str, first["loc"])) or "file"
        raise BadInput(f"{HOUSE_FILE}, {place}: {first['msg']}; mend it or take it away") from None
    except ValueError as problem:  # of the letters: it names its file
        raise BadInput(str(problem)) from None


def assessed(data: Path, **fields: Any) -> Assessment:
    """Return the answer to a case made of fields as typed."""
    from pydantic import ValidationError

    from counter.desk import Case, assess

    try:
        case = Case(**fields)
    except ValidationError as problem:
        first = problem.errors()[0]
        raise BadInput(f"{'.'.join(map(str, first['loc']))}: {first['msg']}") from None
    return assess(catalogue_of(data), case, house_of(data))


def saved_case(path: Path, catalogue: Catalogue) -> Case:
    """Return the case in a file, or for - in all of standard input."""
    from counter.desk import CaseProblem, case_in, read_case

    try:
        if str(path) == STANDARD_INPUT:
            return case_in(whole(), "standard input", catalogue)
        return read_case(path, catalogue)
    except CaseProblem as problem:
        raise BadInput(str(problem)) from None
