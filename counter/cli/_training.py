"""Training cards made from the catalogue."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.cli._core import catalogue_of, house_of
from counter.cli._line import DONE, NOTHING, Answer, BadInput
from counter.language import tr

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from counter.cli._line import Commands
    from counter.training import Card

MOST_CARDS = 10_000  # dealing that many takes minutes; there are not many more that differ


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    cards = commands.add("cards", _cards, tr("training cards made from the catalogue"))
    cards.add_argument("--seed", metavar="N", type=int, default=0, help=tr("the same seed deals the same cards"))
    many = tr("how many, at most {most}").format(most=MOST_CARDS)
    cards.add_argument("--count", metavar="K", type=int, default=10, help=many)


def _cards(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import training

    if chosen.count < 1:
        raise BadInput(tr("--count: {count} is too few; ask for 1 card or more").format(count=chosen.count))
    if chosen.count > MOST_CARDS:
        told = tr("--count: {count} is too many; at most {most} are dealt at once")
        raise BadInput(told.format(count=chosen.count, most=MOST_CARDS))
    training.know_makers(house_of(data))
    found = training.draw_cards(catalogue_of(data), chosen.seed, chosen.count)
    return Answer(training.cards_report(found), "\n\n".join(map(_card_text, found)), DONE if found else NOTHING)


def _card_text(card: Card) -> str:
    choices = [
        f"  {number} {'*' if card.worth[number - 1] >= 1 else ' '} {text}"
        for number, text in enumerate(card.choices, 1)
    ]
    return "\n".join([card.said, *choices, f"  {card.why}"])
