"""Cards on a drawing: name this base, and which of two look-alikes it is.

Only what the catalogue is sure of decides: a lamp is drawn only where sure facts tell it from every family that is
offered, with the printed watts said beside it where the drawing alone cannot. What is said is the card's case, and
the family that `assess` then puts first is the answer.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

from counter.desk import Case
from counter.language import tr
from counter.training._models import Draw, Point
from counter.training.cards._build import Asked, Choice, build
from counter.training.cards._facts import PRINT

if TYPE_CHECKING:
    import random
    from collections.abc import Iterable, Iterator, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.desk import Assessment
    from counter.training._models import Card
    from counter.training.cards._facts import Fact, Lore

LOOK_ALIKES = 2  # pairs asked of each family
WRONG_NAMES = 3


def name_points(lore: Lore) -> Iterator[Point]:
    """Yield one point for each family that sure facts tell from all others."""
    for family, lamps in lore.lamps_of.items():
        if any(_is_unmistakable(lore, lamp) for lamp in lamps):
            yield Point(id=f"name-base/{family}", kind="name-base", family=family)


def _is_unmistakable(lore: Lore, lamp: Lamp) -> bool:
    family = lore.catalogue.base_of(lamp).family
    return all(lore.is_told_from(lamp, other) for other in lore.lamps_of if other != family)


def name_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask for the name of a drawn base among the families that look most like it."""
    rivals = [other for other in lore.lamps_of if other != point.family]
    lamps = [lamp for lamp in lore.lamps_of.get(point.family, ()) if _is_unmistakable(lore, lamp)]
    found = _recognised(lore, lamps, rivals, rng)
    if found is None:
        return None
    lamp, told = found
    others = lore.alike(point.family)[: WRONG_NAMES + 2]
    wrong = sorted(rng.sample(others, min(WRONG_NAMES, len(others))))
    asked = Asked(
        kind="name-base",
        axis="family",
        question={},
        why={"tell": lore.catalogue.base_of(lamp).tells},
        shown=shown(told),
        draw=_draw(lamp, rng),
        case=told_case(told),
    )
    return build(point, asked, [Choice(point.family, point.family, 1.0), *(Choice(one, one) for one in wrong)])


def pair_points(lore: Lore) -> Iterator[Point]:
    """Yield for each family the look-alikes that it is most easily taken for."""
    for family in lore.lamps_of:
        told = (other for other in lore.alike(family) if next(_pair_lamps(lore, family, other), None))
        for other in islice(told, LOOK_ALIKES):
            yield pair_point(family, other)


def pair_point(family: str, other: str) -> Point:
    """Return the point of telling a drawn family from another; any two families can be asked."""
    return Point(id=f"which-of-two/{family}/{other}", kind="which-of-two", family=family, subject=other)


def _pair_lamps(lore: Lore, family: str, other: str) -> Iterator[Lamp]:
    """Yield the lamps of a family that sure facts tell from another family."""
    if other in lore.lamps_of:
        yield from (lamp for lamp in lore.lamps_of.get(family, ()) if lore.is_told_from(lamp, other))


def pair_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask which of two families is drawn."""
    found = _recognised(lore, _pair_lamps(lore, point.family, point.subject), [point.subject], rng)
    if found is None:
        return None
    lamp, told = found
    rival = lore.lamps_of[point.subject][0]
    one, other = sorted((point.family, point.subject))
    ours, theirs = _contrast(lore, lamp, rival), _contrast(lore, rival, lamp)
    asked = Asked(
        kind="which-of-two",
        axis="family",
        question={"one": one, "other": other},
        why={
            "tell": lore.catalogue.base_of(lamp).tells,
            "difference": tr("Here: {ours}; on {other}: {theirs}.").format(
                ours=ours, other=point.subject, theirs=theirs
            ),
        },
        shown=shown(told),
        draw=_draw(lamp, rng),
        case=told_case(told),
    )
    return build(point, asked, [Choice(one, one, one == point.family), Choice(other, other, other == point.family)])


def _contrast(lore: Lore, lamp: Lamp, other: Lamp) -> str:
    """Say what the drawing alone tells, or the print where it tells nothing."""
    facts = list(lore.differences(lamp, other, leave_out=PRINT)) or lore.differences(lamp, other)
    return ", ".join(fact.words for fact in facts)


def shown(told: Sequence[Fact]) -> str:
    """Say what the drawing shows, and the print where it is told."""
    return tr("Drawn: {facts}.").format(facts="; ".join(fact.words for fact in told))


def told_case(told: Sequence[Fact]) -> Case:
    """Return what is told as looks; of a size the middle of what the catalogue allows."""
    return Case(looks={fact.look: (fact.low + fact.high) / 2 if fact.high else fact.value for fact in told})


def _recognised(
    lore: Lore, lamps: Iterable[Lamp], others: list[str], rng: random.Random
) -> tuple[Lamp, list[Fact]] | None:
    """Return one of some lamps, with facts by which the counter puts its family first.

    The print is told only where it takes it to tell the lamp from `others`, or for the counter to find it.
    """
    mixed = list(lamps)
    rng.shuffle(mixed)
    for lamp in mixed:
        facts = list(lore.facts(lamp).values())
        drawn = [fact for fact in facts if fact.look != PRINT]
        needs_print = not all(lore.is_told_from(lamp, other, leave_out=PRINT) for other in others)
        for told in (facts,) if needs_print else (drawn, facts):
            if family_first(lore.catalogue, lore.assessed(told_case(told))) == lore.catalogue.base_of(lamp).family:
                return lamp, told
    return None


def family_first(catalogue: Catalogue, found: Assessment) -> str | None:
    """Return the base family that the counter puts first."""
    return catalogue.base_of(catalogue.lamp_by_id[found.nearest]).family if found.nearest else None


def _draw(lamp: Lamp, rng: random.Random) -> Draw:
    return Draw(base=lamp.base, lamp=lamp.id, turned_deg=rng.choice((0, 90, 180, 270)))
