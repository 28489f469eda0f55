"""Cards on looking: where to look next, and whether a lamp is germicidal. Both are what `assess` answers.

Where to look next asserts nothing of a lamp: it asks for the look that the counter itself would ask for.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter.desk import Case
from counter.language import tr
from counter.training._models import Point
from counter.training._settings import settings, words
from counter.training.cards._build import Asked, Choice, build
from counter.training.cards._case_words import seen_words

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.desk import Assessment
    from counter.identify import NextLook
    from counter.training._models import Card
    from counter.training.cards._facts import Lore

KNOWN_FIRST = ("legs", "pins", "arrangement", "glass", "block")  # what a glance gives
OFFERED = 5
UV_CHOICES = ("uv-c", "lighting", "unknown")
SURE_KIND = 0.9  # share of probability from which a kind counts as told
DECIDES = re.compile(r"Here it decides between (.+) and (.+)\.")  # as counter.identify ends a reason
OPEN_KIND = 0.75  # below it nothing is told; between the two no card is made


def look_points(lore: Lore) -> Iterator[Point]:
    """Yield one point a family."""
    for family in lore.lamps_of:
        yield Point(id=f"next-look/{family}", kind="next-look", family=family)


def look_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask for the next look after a few true answers about a lamp of the family."""
    lamps = lore.lamps_of.get(point.family, ())
    if not lamps:
        return None
    lamp = rng.choice(lamps)
    keys = sorted(rng.sample(KNOWN_FIRST, rng.choice((1, 2, 2, 3))), key=KNOWN_FIRST.index)
    case = Case(looks={key: true_answer(lore, lamp, key) for key in keys})
    found = lore.assessed(case)
    if not asks_for_one(lore.catalogue, found):
        return None
    worth = worths_of(lore.catalogue, found.next)
    offered = _offered(found.next)
    if len(offered) < 2 or min(worth[one.look] for one in offered) >= settings().half_share:
        return None
    asked = Asked(
        kind="next-look",
        axis="look",
        question={"seen": seen_words(lore.catalogue, case.looks)},
        why=_why(lore.catalogue, offered),
        case=case,
    )
    labels = (tr(lore.catalogue.look_by_key[one.look].label) for one in offered)
    return build(
        point,
        asked,
        [Choice(one.look, label, worth[one.look]) for one, label in zip(offered, labels, strict=True)],
    )


def asks_for_one(catalogue: Catalogue, found: Assessment) -> bool:
    """Whether the question beside the stamp, if it is about a look, is about the look that is marked as the next."""
    about = found.asks[0].about if found.asks else ""
    return bool(found.next) and (about not in catalogue.look_by_key or about == found.next[0].look)


def _offered(looks: Sequence[NextLook]) -> tuple[NextLook, ...]:
    """Return the look that the counter asks for and others spread down to the last one in its order."""
    if len(looks) <= OFFERED:
        return tuple(looks)
    steps = (len(looks) - 1) / (OFFERED - 1)
    return tuple(looks[round(step * steps)] for step in range(OFFERED))


def _rate(look: NextLook) -> float:
    return look.bits / look.seconds


def worths_of(catalogue: Catalogue, looks: Sequence[NextLook]) -> dict[str, float]:
    """Return what each look is worth, by its key: its bits per second against the first, 1 from the full share on.

    No look is worth more than one that the counter puts before it; beside a guarding look that stands first nothing
    is worth anything.
    """
    first = looks[0]
    worth, most = {first.look: 1.0}, 1.0
    guards = catalogue.look_by_key[first.look].guards is not None
    for one in looks[1:]:
        share = 0.0 if guards or _rate(first) <= 0 else _rate(one) / _rate(first)
        most = min(most, 1.0 if share >= settings().full_share else round(share, 4))
        worth[one.look] = most
    return worth


def _why(catalogue: Catalogue, offered: Sequence[NextLook]) -> dict[str, str]:
    first = offered[0]
    look = catalogue.look_by_key
    others = (f"{tr(look[one.look].label)}: {_left(one)}, {one.seconds:g}\N{NO-BREAK SPACE}s" for one in offered[1:])
    guard = words()["why guard"] if look[first.look].guards is not None else ""
    return {
        "look": tr(look[first.look].label),
        "why": f"{_spoken(catalogue, first)} {guard}",
        "left": _left(first),
        "seconds": f"{first.seconds:g}",
        "others": ", ".join(others),
    }


def _spoken(catalogue: Catalogue, look: NextLook) -> str:
    """Return why a look is worth it in the language now spoken; what it decides between are names of bases."""
    why = catalogue.look_by_key[look.look].why
    found = DECIDES.fullmatch(look.why.removeprefix(why).strip())
    if found is None:
        return tr(look.why)
    words = tr("{why} Here it tells {one} from {other}.")
    return words.format(why=tr(why), one=found[1], other=found[2])


def _left(look: NextLook) -> str:
    """Return the share of lamps that a look leaves on average: each bit of information halves them."""
    return f"{2**-look.bits:.0%}".replace("%", "\N{THIN SPACE}%")


def true_answer(lore: Lore, lamp: Lamp, key: str) -> str:
    """Return the answer that a look at the lamp most likely gets; the first in the look's order among equals."""
    chances = lore.chances[key][lamp.id]
    return max(chances, key=chances.__getitem__)


def uv_points(lore: Lore) -> Iterator[Point]:
    """Yield one critical point for each family that has germicidal lamps beside others."""
    for family, lamps in lore.lamps_of.items():
        if {"uv-c", "fluorescent"} <= {lamp.kind for lamp in lamps}:
            yield Point(id=f"uv-or-light/{family}", kind="uv-or-light", family=family, is_critical=True)


def uv_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask whether a lamp is germicidal from a few looks, with or without the telling one."""
    lamps = [lamp for lamp in lore.lamps_of.get(point.family, ()) if lamp.kind != "uv-a" and lamp.glass]
    if not lamps:
        return None
    lamp = rng.choice(lamps)
    keys = ["legs", "pins", "watts", *rng.choice([["glass"], ["glass"], ["glass", "block"], [], ["block"]])]
    case = Case(looks={key: true_answer(lore, lamp, key) for key in keys})
    told = told_kind(lore.assessed(case))
    if told is None or not is_safe(case, told):
        return None
    said = words()
    asked = Asked(
        kind="uv-or-light",
        axis="kind",
        question={"seen": seen_words(lore.catalogue, case.looks)},
        why={"why": said[f"why {told}"]},
        case=case,
    )
    choices = [Choice(one, said[f"choice {one}"], float(one == told)) for one in UV_CHOICES]
    return build(point, asked, choices, keeps_order=True)


def is_safe(case: Case, told: str) -> bool:
    """Whether an answer teaches nothing risky: only the glass settles a doubt, and clear glass never for lighting."""
    glass = case.looks.get("glass")
    return told == {"white": "lighting", "clear": "uv-c"}.get(str(glass), "unknown")


def told_kind(assessment: Assessment) -> str | None:
    """Return uv-c, lighting or unknown, or None where the model is neither sure nor open."""
    germicidal = sum(one.probability for one in assessment.candidates if one.kind == "uv-c")
    lighting = sum(one.probability for one in assessment.candidates if one.kind in {"fluorescent", "led"})
    if germicidal >= SURE_KIND:
        return "uv-c"
    if lighting >= SURE_KIND:
        return "lighting"
    return "unknown" if max(germicidal, lighting) < OPEN_KIND else None
