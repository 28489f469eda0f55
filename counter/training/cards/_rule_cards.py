"""Cards on one rule of caution: a lamp and a fixture for which the core gives that very rule first.

The case is looked for in the catalogue, in an order that follows from the rule, so that it is the same in every run.
"""

from __future__ import annotations

import json
from functools import cache
from hashlib import sha256
from itertools import chain, zip_longest
from typing import TYPE_CHECKING

from counter import paths
from counter.catalogue import TRUST
from counter.training._models import Point
from counter.training.cards._facts import SURE
from counter.training.cards._sale_cards import caution_card, first_rule, verdict_card
from counter.training.cards._sale_cases import settings_of_lamp
from counter.training.cards._sale_extras import extras_of_lamp, led_settings

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from counter.catalogue import Lamp
    from counter.training._models import Card, CardKind
    from counter.training.cards._facts import Lore
    from counter.training.cards._sale_cases import Setting
    from counter.training.record._events import Answer

    Maker = Callable[[Lore, Point, Setting], Card | None]

KIND: CardKind = "caution"
AT_ONCE = 4  # cases judged in one step


@cache
def rules() -> tuple[str, ...]:
    """Return every rule of caution whose own words are sure enough to be asked."""
    registry = json.loads((paths.resources() / "cautions.json").read_text(encoding="utf-8"))["rules"]
    return tuple(rule for rule, words in registry.items() if TRUST[words["confidence"]] >= SURE)


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


def make_ahead(lore: Lore) -> Iterator[None]:
    """Judge the cases that rules are looked for in, a few at each step; LED types wait until they are asked for."""
    for lamp in lore.samples:
        for at, setting in enumerate(_of_lamp(lore, lamp)):
            _first(lore, setting)
            if at % AT_ONCE == 0:
                yield


def point_of_rule(lore: Lore, rule: str, near: str = "") -> Point | None:
    """Return the point of a rule, on the family `near` if it comes up there, else on the first one found; or None."""
    rule = without_figure(rule)
    if (rule, near) not in lore.on_rules:
        lore.on_rules[rule, near] = _point_of_rule(lore, rule, near) if rule in rules() else None
    return lore.on_rules[rule, near]


def _point_of_rule(lore: Lore, rule: str, near: str) -> Point | None:
    mixed = sorted(lore.samples, key=lambda lamp: sha256(f"{rule} {lamp.id}".encode()).digest())
    makers = (caution_card, verdict_card)
    card = next(_cards(lore, rule, _one_of_each_kind(lore.lamps_of.get(near, ())), makers), None)
    card = card or next(_cards(lore, rule, mixed, makers), None)
    return rule_point(card.family, rule) if card is not None else None


def _one_of_each_kind(lamps: Iterable[Lamp]) -> list[Lamp]:
    return list({lamp.kind: lamp for lamp in reversed(tuple(lamps))}.values())


def rule_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask for the caution, or for the verdict, in a case that the rule decides."""
    lamps = list(lore.lamps_of.get(point.family, ()))
    rng.shuffle(lamps)
    return next(_cards(lore, point.subject, lamps, rng.sample((caution_card, verdict_card), 2)), None)


def _cards(lore: Lore, rule: str, lamps: Sequence[Lamp], makers: Sequence[Maker]) -> Iterator[Card]:
    """Yield cards of the cases of some lamps, those first whose name shares a word with the rule's.

    Those likely come to it. LED types come next where the rule is about them, since they take the longest.
    """
    words = set(rule.split("-"))
    lamps = sorted(lamps, key=lambda lamp: not rule.startswith(lamp.kind.replace("-", "")))  # uva-…: UV-A lamps
    likely = [[one for one in _of_lamp(lore, lamp) if words & set(one.scenario.split("-"))] for lamp in lamps]
    others = [[one for one in _of_lamp(lore, lamp) if not words & set(one.scenario.split("-"))] for lamp in lamps]
    leds = (one for lamp in lamps for one in _leds_of(lore, lamp)) if "led" in words else iter(())
    for setting in chain(_by_turns(likely), leds, _by_turns(others)):
        if _first(lore, setting) == rule:
            family = lore.catalogue.base_of(lore.catalogue.lamp_by_id[setting.lamp]).family
            made = (maker(lore, rule_point(family, rule), setting) for maker in makers)
            yield from (card for card in made if card is not None)


def _by_turns(of_lamps: Iterable[Sequence[Setting]]) -> Iterator[Setting]:
    """Yield the first case of every lamp before the second one of any: lamps of one sort mostly answer alike."""
    yield from (one for row in zip_longest(*of_lamps) for one in row if one is not None)


def _of_lamp(lore: Lore, lamp: Lamp) -> list[Setting]:
    if lamp.id not in lore.met:
        lore.met[lamp.id] = [*settings_of_lamp(lore, lamp), *extras_of_lamp(lore, lamp)]
    return lore.met[lamp.id]


def _leds_of(lore: Lore, lamp: Lamp) -> Iterator[Setting]:
    key = f"{lamp.id} led"
    if key in lore.met:
        yield from lore.met[key]
        return
    found = []
    for setting in led_settings(lore, lamp):
        found.append(setting)
        yield setting
    lore.met[key] = found


def _first(lore: Lore, setting: Setting) -> str:
    """Return the rule that speaks first; every rule looks through the same cases."""
    if id(setting) not in lore.firsts:  # the case is kept with its answer, so that no other takes its id
        lore.firsts[id(setting)] = setting, without_figure(first_rule(lore, setting))
    return lore.firsts[id(setting)][1]


def without_figure(rule: str | None) -> str:
    """Return the rule that says the same with a figure: one of a lamp whose output is not known says it without."""
    return (rule or "").removesuffix("-no-figure")
