"""Cards on a drawing: name this base, and which of two look-alikes it is.

Only what the catalogue is sure of decides: a lamp is drawn only where sure facts tell it from every family that is
offered, with the printed watts said beside it where the drawing alone cannot.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

from counter.training._models import Draw, Point
from counter.training.cards._build import Asked, Choice, build
from counter.training.cards._facts import PRINT

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from counter.catalogue import Lamp
    from counter.training._models import Card
    from counter.training.cards._facts import Lore

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
    lamps = [lamp for lamp in lore.lamps_of.get(point.family, ()) if _is_unmistakable(lore, lamp)]
    if not lamps:
        return None
    lamp = rng.choice(lamps)
    others = lore.alike(point.family)[: WRONG_NAMES + 2]
    wrong = sorted(rng.sample(others, min(WRONG_NAMES, len(others))))
    asked = Asked(
        kind="name-base",
        axis="family",
        question={},
        why={"tell": lore.catalogue.base_of(lamp).tell},
        shown=shown(lore, lamp, others=[other for other in lore.lamps_of if other != point.family]),
        draw=_draw(lamp, rng),
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
    lamps = list(_pair_lamps(lore, point.family, point.subject))
    if not lamps:
        return None
    lamp = rng.choice(lamps)
    rival = lore.lamps_of[point.subject][0]
    one, other = sorted((point.family, point.subject))
    ours, theirs = _contrast(lore, lamp, rival), _contrast(lore, rival, lamp)
    asked = Asked(
        kind="which-of-two",
        axis="family",
        question={"one": one, "other": other},
        why={
            "tell": lore.catalogue.base_of(lamp).tell,
            "difference": f"Here: {ours}; on {point.subject}: {theirs}.",
        },
        shown=shown(lore, lamp, others=[point.subject]),
        draw=_draw(lamp, rng),
    )
    return build(point, asked, [Choice(one, one, one == point.family), Choice(other, other, other == point.family)])


def _contrast(lore: Lore, lamp: Lamp, other: Lamp) -> str:
    """Say what the drawing alone tells, or the print where it tells nothing."""
    facts = list(lore.differences(lamp, other, leave_out=PRINT)) or lore.differences(lamp, other)
    return ", ".join(fact.words for fact in facts)


def shown(lore: Lore, lamp: Lamp, others: list[str]) -> str:
    """Say what the drawing shows; the print is quoted only where it takes it to tell the lamp from `others`."""
    needs_print = not all(lore.is_told_from(lamp, other, leave_out=PRINT) for other in others)
    facts = [fact for fact in lore.facts(lamp).values() if needs_print or fact.look != PRINT]
    return f"Drawn: {'; '.join(fact.words for fact in facts)}."


def _draw(lamp: Lamp, rng: random.Random) -> Draw:
    return Draw(base=lamp.base, lamp=lamp.id, turned_deg=rng.choice((0, 90, 180, 270)))
