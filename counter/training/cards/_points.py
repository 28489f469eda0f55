"""Every point worth knowing, and cards made for one as they are asked for."""

from __future__ import annotations

import random
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING, NamedTuple, get_args

from counter.desk import Case
from counter.training._models import CardKind, Point
from counter.training.cards import (
    _code_cards,
    _look_cards,
    _maker_cards,
    _notch_cards,
    _outline_cards,
    _rule_cards,
    _sale_cards,
)
from counter.training.cards._facts import lore, make_room

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from counter.catalogue import Catalogue
    from counter.training._models import Card
    from counter.training.cards._facts import Lore

VARIANTS = 10_000  # of one point, of which a seed draws some
IDLE_ROUNDS = 5  # without a new card before a kind counts as used up
TRIES = 8  # dresses tried for a point before it is passed over: not every lamp or case makes a proved card


class _Maker(NamedTuple):
    points: Callable[[Lore], Iterator[Point]]
    card: Callable[[Lore, Point, random.Random], Card | None]


_MAKERS: dict[CardKind, _Maker] = {
    "name-base": _Maker(_outline_cards.name_points, _outline_cards.name_card),
    "which-of-two": _Maker(_outline_cards.pair_points, _outline_cards.pair_card),
    "notch-side": _Maker(_notch_cards.notch_points, _notch_cards.notch_card),
    "read-code": _Maker(partial(_code_cards.code_points, kind="read-code"), _code_cards.read_card),
    "worn-code": _Maker(partial(_code_cards.code_points, kind="worn-code"), _code_cards.worn_card),
    "makers-code": _Maker(_maker_cards.maker_points, _maker_cards.maker_card),
    "next-look": _Maker(_look_cards.look_points, _look_cards.look_card),
    "uv-or-light": _Maker(_look_cards.uv_points, _look_cards.uv_card),
    "sale": _Maker(_sale_cards.sale_points, _sale_cards.sale_card),
    "caution": _Maker(_rule_cards.rule_points, _rule_cards.rule_card),
}
# Cautions one by one are for lessons, and for whoever had one: the cases of selling have the common ones already.
_IN_ROUNDS = tuple(kind for kind in _MAKERS if kind != "caution")


def points(catalogue: Catalogue, kinds: Iterable[CardKind] = ()) -> Iterator[Point]:
    """Yield every point of some kinds, or of all that rounds begin with, without making cards."""
    wanted, known = set(kinds) or set(_IN_ROUNDS), lore(catalogue)
    for kind, maker in _MAKERS.items():
        if kind in wanted:
            if kind not in known.points:
                known.points[kind] = tuple(maker.points(known))
            yield from known.points[kind]


def make_ahead(catalogue: Catalogue) -> Iterator[None]:
    """Work out what the first cards need, a small part at each step; what is left out is made when asked for."""
    for kind in _IN_ROUNDS:
        tuple(points(catalogue, [kind]))
        yield
    for case in (Case(looks={"legs": "2"}), Case(marks="W")):  # tables for what the catalogue is sure of
        lore(catalogue).assured(case)
        yield


def dress(catalogue: Catalogue, point: Point, variant: int = 0) -> Card | None:
    """Return a card of a point; each variant may put it in other clothes, and is the same in every run.

    None when this variant has no card that the catalogue is sure of.
    """
    known, key = lore(catalogue), (point.id, variant)
    if key not in known.dressed:
        make_room(known.dressed)
        known.dressed[key] = _MAKERS[point.kind].card(known, point, random.Random(f"{point.id}#{variant}"))
    return known.dressed[key]


def card_of(catalogue: Catalogue, point: Point, variant: int = 0, avoid: Iterable[str] = ()) -> Card | None:
    """Return a card of a point, from `variant` on, that is none of those to avoid if there is another.

    If there is not, it is the one that stands first among them: `avoid` is oldest first.
    """
    shunned = list(avoid)
    spare: dict[str, Card] = {}
    for step in range(TRIES):
        card = dress(catalogue, point, variant + step)
        if card is not None and card.id not in shunned:
            return card
        if card is not None:
            spare[card.id] = card
    return min(spare.values(), key=lambda card: shunned.index(card.id), default=None)


def card_stream(catalogue: Catalogue, seed: int, kinds: Iterable[CardKind] = ()) -> Iterator[Card]:
    """Yield different cards until the catalogue has no more, kinds by turns, each made only when asked for."""
    rng = random.Random(f"cards {seed}")
    order = [kind for kind in _MAKERS if kind in (set(kinds) or set(_IN_ROUNDS))]
    rng.shuffle(order)
    seen: set[str] = set()
    hands = {kind: _hand(catalogue, kind, random.Random(f"{seed} {kind}"), seen) for kind in order}
    while hands:
        for kind in tuple(hands):
            card = next(hands[kind], None)
            if card is None:
                del hands[kind]
            else:
                yield card


def _hand(catalogue: Catalogue, kind: CardKind, rng: random.Random, seen: set[str]) -> Iterator[Card]:
    """Yield cards of one kind until several rounds of its points bring nothing new."""
    all_points = list(points(catalogue, [kind]))
    idle = 0
    while idle < IDLE_ROUNDS:
        idle += 1
        rng.shuffle(all_points)
        for point in all_points:
            card = card_of(catalogue, point, rng.randrange(VARIANTS))
            if card is not None and not seen & (names := {card.id, f"{card.said} {card.choices}"}):
                seen |= names  # the same question may come up at two families
                idle = 0
                yield card


def draw_cards(catalogue: Catalogue, seed: int, count: int, kinds: Iterable[CardKind] = ()) -> tuple[Card, ...]:
    """Return `count` different cards, the same for the same seed and catalogue; fewer when there are no more."""
    return tuple(islice(card_stream(catalogue, seed, kinds), count))


def cards_about(catalogue: Catalogue, about: str, count: int = 10, seed: int = 0, near: str = "") -> tuple[Card, ...]:
    """Return cards about a base, a base family or a rule of caution: "teach me this". None known, no cards.

    A rule is asked about on the lamps of the family `near` first, where it comes up there.
    """
    base = catalogue.base_by_name.get(about)
    family = base.family if base is not None else about
    if family in lore(catalogue).lamps_of:
        return tuple(islice(_cards_of_family(catalogue, family, seed), count))
    return tuple(islice(_rule_cards.cards_of_rule(lore(catalogue), about, near), count))


def _cards_of_family(catalogue: Catalogue, family: str, seed: int) -> Iterator[Card]:
    seen: set[str] = set()
    for variant in range(seed * 1000, seed * 1000 + TRIES):
        # Kind by kind: the first card must not wait for the points of all others.
        for point in (point for kind in _IN_ROUNDS for point in points(catalogue, [kind])):
            card = dress(catalogue, point, variant) if point.family == family else None
            if card is not None and card.id not in seen:
                seen.add(card.id)
                yield card


def cards_report(found: Iterable[Card]) -> dict[str, object]:
    """Return what `counter cards --json` prints: the drawing in words, answers by index, the best one right."""
    return {
        "cards": [
            {
                "kind": card.kind,
                "question": card.said,
                "choices": list(card.choices),
                "answer": card.answer,
                "why": card.why,
                "id": card.id,
                "family": card.family,
                "critical": card.is_critical,
                "worth": list(card.worth),
                "draw": card.draw.model_dump() if card.draw else None,
                "case": card.case.model_dump(mode="json"),
                "instead": card.instead,
                "aspect": card.aspect,
            }
            for card in found
        ]
    }


KINDS: tuple[CardKind, ...] = get_args(CardKind)
