"""Cases as they stand when a slip is written: looked at, measured, labelled, and asked about to the end."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, Any

from counter.desk import Case, assess
from tests.desk.test_desk_doubts import CODES, answers, random_case
from tests.fit.ordinary_labels import LABELS as ROWS

if TYPE_CHECKING:
    from counter.catalogue import Catalogue

WORDS = ("Made in Norland", "lot 4711", "property of the hall", "zorbik", "do not tumble", "kv 12/b")
MOST_ANSWERS = 6
LABELS = [row[2] for row in ROWS]


def rich_case(catalogue: Catalogue, seed: int) -> Case:
    """Return one of endless cases, the same for the same seed."""
    rng = random.Random(seed)
    case = random_case(catalogue, seed)
    lamps = [one.id for one in catalogue.lamps]
    sizes = {look.key: round(rng.uniform(look.low or 5, look.high or 500), 1) for look in _measured(catalogue)}
    measured = {key: value for key, value in sizes.items() if rng.random() < 0.5}
    typed = {key: {"text": f"{value:g}", "units": "mm"} for key, value in measured.items()}
    label = rng.choice([*LABELS, "; ".join(rng.sample(LABELS, 3))])
    fixture = case.fixture.model_copy(update={"label": label, "lamp_count": rng.choice([None, 1, 2, 4])})
    changed: dict[str, Any] = {
        "looks": case.looks | measured,
        "typed": typed,
        "marks": " ".join(rng.sample([*CODES, *WORDS], rng.randint(0, 4))),
        "fixture": fixture,
        "shown": rng.choice([None, rng.choice(lamps)]),
        "beside": rng.choice([None, rng.choice(lamps)]),
        "explained": tuple(rng.sample(WORDS, rng.randint(0, 4))),
        "on": "2026-11-25",
    }
    return _asked_to_the_end(catalogue, Case.model_validate(case.model_dump() | _plain(changed)), rng)


def _measured(catalogue: Catalogue) -> list[Any]:
    return [look for look in catalogue.looks if look.is_measured]


def _plain(changed: dict[str, Any]) -> dict[str, Any]:
    return changed | {"fixture": changed["fixture"].model_dump()}


def _asked_to_the_end(catalogue: Catalogue, case: Case, rng: random.Random) -> Case:
    for _ in range(rng.randint(0, MOST_ANSWERS)):
        doubts = assess(catalogue, case).doubts
        if not doubts:
            break
        case = rng.choice(list(answers(catalogue, case, rng.choice(doubts))) or [case])
    return case
