"""Cards on one rule of caution: cases in which the counter gives that very rule first, asked about from all sides.

Where a rule comes up is looked for once, over all lamps and fixtures, and kept in resources/lessons.json
(`python -m tests.lessons` writes it): no lesson waits for a search, and that no case brings a rule about is known at
once. Each kept case is put to `assess` again before anything is asked of it; one that no longer comes to its rule is
passed over.
"""

from __future__ import annotations

import json
from functools import cache
from hashlib import sha256
from itertools import count, islice, takewhile
from typing import TYPE_CHECKING

from counter import paths
from counter.catalogue import TRUST
from counter.training._models import Point
from counter.training.cards._facts import SURE
from counter.training.cards._sale_cards import caution_card, do_card, first_rule, verdict_card, why_card
from counter.training.cards._sale_cases import settings_of_lamp
from counter.training.cards._sale_extras import extras_of_lamp, led_settings

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Iterable, Iterator

    from counter.catalogue import Lamp
    from counter.training._models import Card, CardKind
    from counter.training.cards._facts import Lore, Setting
    from counter.training.record._events import Answer

    Maker = Callable[[Lore, Point, Setting], Card | None]
    Place = tuple[str, str, int]  # lamp type, name of the scenario, and which of that name

KIND: CardKind = "caution"
MAKERS: tuple[Maker, ...] = (caution_card, verdict_card, why_card, do_card)
SEARCHED = 100  # cases put to `assess` for a rule of which no places are kept: a seventh of a second


@cache
def rules() -> tuple[str, ...]:
    """Return every rule of caution whose own words are sure enough to be asked."""
    registry = json.loads((paths.resources() / "cautions.json").read_text(encoding="utf-8"))["rules"]
    return tuple(rule for rule, words in registry.items() if TRUST[words["confidence"]] >= SURE)


@cache
def places() -> dict[str, tuple[Place, ...]]:
    """Return where each rule comes up; empty: no lamp and fixture of the shipped catalogue bring it about."""
    kept = json.loads((paths.resources() / "lessons.json").read_text(encoding="utf-8"))["rules"]
    return {rule: tuple((lamp, name, nth) for lamp, name, nth in found) for rule, found in kept.items()}


def rule_point(family: str, rule: str) -> Point:
    """Return the point of giving one caution, learned on the lamps of one family."""
    return Point(id=f"{KIND}/{family}/{rule}", kind=KIND, family=family, subject=rule, is_critical=True)


def taught(answers: Iterable[Answer], from_cases: Iterable[str]) -> Iterator[Point]:
    """Yield the cautions that somebody had in a lesson or a case: these come back like all else."""
    ids = dict.fromkeys([*(answer.point for answer in answers), *from_cases])
    for _, family, rule in (one.split("/") for one in ids if one.startswith(f"{KIND}/")):
        if rule in rules():
            yield rule_point(family, rule)


def rule_points(lore: Lore) -> Iterator[Point]:
    """Yield a point for each rule that some lamp and fixture bring about."""
    yield from (point for rule in rules() if (point := point_of_rule(lore, rule)) is not None)


def point_of_rule(lore: Lore, rule: str, near: str = "") -> Point | None:
    """Return the point of a rule, on the family `near` if it comes up there, else on another; or None."""
    card = next(cards_of_rule(lore, rule, near), None)
    return rule_point(card.family, card.point.rsplit("/", 1)[1]) if card is not None else None


def rule_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask from one side about a case of the point's family that the rule decides."""
    met = takewhile(lambda one: _family(lore, one) == point.family, _met(lore, point.subject, point.family))
    sides = [(maker, one) for one in met for maker in MAKERS]
    rng.shuffle(sides)
    made = (maker(lore, point, one) for maker, one in sides)
    return next((card for card in made if card is not None), None)


def cards_of_rule(lore: Lore, rule: str, near: str = "") -> Iterator[Card]:
    """Yield different cards on a rule, those of the family `near` first; each is made once, when it is asked for."""
    rule = without_figure(rule)
    if (rule, near) not in lore.lessons:
        lore.lessons[rule, near] = ([], _cards(lore, rule, near) if rule in rules() else iter(()))
    made, more = lore.lessons[rule, near]
    for at in count():
        if at == len(made):
            made.extend(islice(more, 1))
        if at == len(made):
            return
        yield made[at]


def _cards(lore: Lore, rule: str, near: str) -> Iterator[Card]:
    """Yield cards case after case, each first from another side, then from all the others."""
    met: list[Setting] = []
    seen: set[str] = set()
    for turn in range(len(MAKERS)):
        for at, setting in enumerate(met if turn else _met(lore, rule, near)):
            if not turn:
                met.append(setting)
            maker = MAKERS[(at + turn) % len(MAKERS)]
            card = maker(lore, rule_point(_family(lore, setting), rule), setting)
            if card is not None and card.id not in seen:
                seen.add(card.id)
                yield card


def _met(lore: Lore, rule: str, near: str) -> Iterator[Setting]:
    """Yield cases in which a rule speaks first, those of the family `near` first; the same in every run."""
    kept = places().get(rule)
    found = _search(lore, rule) if kept is None else _kept(lore, kept, near)
    yield from (setting for setting in found if without_figure(first_rule(lore, setting)) == rule)


def _kept(lore: Lore, kept: Iterable[Place], near: str) -> Iterator[Setting]:
    known = lore.catalogue.lamp_by_id
    there = [(known[lamp], name, nth) for lamp, name, nth in kept if lamp in known]
    for lamp, name, nth in sorted(there, key=lambda place: lore.catalogue.base_of(place[0]).family != near):
        yield from islice(of_lamp(lore, lamp, name), nth, nth + 1)


def _search(lore: Lore, rule: str) -> Iterator[Setting]:
    """Yield the cases likeliest to come to a rule: those whose name shares a word with it, no more than a few."""
    words = set(rule.split("-"))
    lamps = sorted((lamps[0] for lamps in lore.lamps_of.values()), key=lambda lamp: _mixed(f"{rule} {lamp.id}"))
    likely = (one for lamp in lamps for one in of_lamp(lore, lamp) if words & set(one.scenario.split("-")))
    yield from islice(likely, SEARCHED)


def of_lamp(lore: Lore, lamp: Lamp, name: str = "") -> Iterator[Setting]:
    """Yield every case of a lamp, or those of one name; LED types, which take the longest, only by their names."""
    if name.startswith("instead-"):
        found = led_settings(lore, lamp)
    else:
        found = (one for maker in (settings_of_lamp, extras_of_lamp) for one in maker(lore, lamp))
    yield from (one for one in found if name in ("", one.scenario))


def _family(lore: Lore, setting: Setting) -> str:
    return lore.catalogue.base_of(lore.catalogue.lamp_by_id[setting.lamp]).family


def _mixed(words: str) -> bytes:
    return sha256(words.encode()).digest()


def without_figure(rule: str | None) -> str:
    """Return the rule that says the same with a figure: one of a lamp whose output is not known says it without."""
    return (rule or "").removesuffix("-no-figure")
