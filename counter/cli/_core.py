"""What every command needs: the catalogue, the shop's makers' codes, a saved case, one assessment."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter.cli._input import STANDARD_INPUT, whole
from counter.cli._line import BadInput
from counter.files import reason
from counter.language import tr, trn

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.desk import Assessment, Case, SoldCodes
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
        raise BadInput(tr("the catalogue cannot be read: {why}").format(why=reason(problem))) from None
    except ValidationError as problem:
        count = problem.error_count()
        told = trn(
            "the catalogue has {count} problem; «counter check» lists it",
            "the catalogue has {count} problems; «counter check» lists them",
            count,
        )
        raise BadInput(told.format(count=count)) from None


def house_of(data: Path) -> tuple[HouseMaker, ...]:
    """Return the shop's own tables of makers' codes."""
    from counter.shop import load_house

    found = load_house(data)
    if found.problems:
        raise BadInput(found.problems[0])
    return found.codes.house


class Desk(NamedTuple):
    """All that a case is answered from."""

    catalogue: Catalogue
    house: tuple[HouseMaker, ...]
    sold: SoldCodes

    def assess(self, case: Case) -> Assessment:
        """Return the answer to a case."""
        from counter.desk import assess

        return assess(self.catalogue, case, self.house, self.sold)


def desk_of(data: Path) -> Desk:
    """Return the catalogue, the shop's makers' codes, and what codes were sold as here."""
    from counter.shop import load_sold

    return Desk(catalogue_of(data), house_of(data), load_sold(data))


def assessed(data: Path, **fields: Any) -> Assessment:
    """Return the answer to a case made of fields as typed."""
    from pydantic import ValidationError

    from counter.catalogue import findings_from, json_path
    from counter.desk import Case

    try:
        case = Case(**fields)
    except ValidationError as problem:
        first = findings_from(problem)[0]
        raise BadInput(f"{json_path(first.loc)}: {first.what}. {first.way_out}") from None
    return desk_of(data).assess(case)


def saved_case(path: Path, catalogue: Catalogue) -> Case:
    """Return the case in a file, or for - in all of standard input."""
    from counter.desk import CaseProblem, case_in, read_case

    try:
        if str(path) == STANDARD_INPUT:
            return case_in(whole(), tr("standard input"), catalogue)
        return read_case(path, catalogue)
    except CaseProblem as problem:
        raise BadInput(str(problem)) from None
