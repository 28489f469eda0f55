"""From a case at the counter into training: which points it was about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk import assess
from counter.training.cards import _rule_cards, _sale_cards
from counter.training.cards._facts import lore
from counter.training.cards._points import points
from counter.training.record._events import FromCase
from counter.training.record._record import write_record

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.desk import Case
    from counter.training._models import CardKind

ALWAYS: tuple[CardKind, ...] = ("name-base", "which-of-two", "uv-or-light")


def points_of_case(catalogue: Catalogue, case: Case) -> tuple[str, ...]:
    """Return the ids of the points that a case teaches: its base, and the scenario of its first caution.

    Nothing that could lead back to the customer is in them. No lamp told, no points.
    """
    assessment = assess(catalogue, case)
    if assessment.lamp is None:
        return ()
    family = catalogue.base_of(catalogue.lamp_by_id[assessment.lamp]).family
    found = [point.id for point in points(catalogue, ALWAYS) if point.family == family]
    if assessment.cautions:
        rule, known = assessment.cautions[0].rule, lore(catalogue)
        scenario = _sale_cards.scenario_of(known, family, rule)
        caution = _rule_cards.point_of_rule(known, rule, family) if scenario is None else None
        found += [f"sale/{family}/{scenario}"] if scenario is not None else []
        found += [caution.id] if caution is not None else []
    return tuple(found)


def add_case(data: Path, trainee: str, catalogue: Catalogue, case: Case, now: datetime) -> tuple[str, ...]:
    """Put what a case teaches among what a trainee learns, ahead of other new points, and return the points' ids.

    Raises:
        UnknownTraineeError: there is no such record.
        OSError: the record cannot be written.
    """
    found = points_of_case(catalogue, case)
    if found:
        write_record(data, trainee, FromCase(at=now, points=found))
    return found
