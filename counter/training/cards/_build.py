"""From a maker's findings to a card: a stable id, an order of choices, no question with two answers."""

from __future__ import annotations

import hashlib
import random
from typing import TYPE_CHECKING, NamedTuple

from counter.language import tr
from counter.training._models import Card
from counter.training._settings import settings

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.desk import Case
    from counter.training._models import Aspect, Axis, CardKind, Draw, Point


class Choice(NamedTuple):
    """One answer offered: its canonical value, what it reads, and how good it is (1 is right)."""

    value: str
    text: str
    worth: float = 0.0


class Asked(NamedTuple):
    """What a card asks, without its answers."""

    kind: CardKind
    axis: Axis
    question: dict[str, str]  # for the template of the kind, or of the aspect
    why: dict[str, str]
    case: Case
    shown: str = ""
    draw: Draw | None = None
    code: str | None = None
    part: str | None = None
    instead: str | None = None
    aspect: Aspect = "says"


def build(point: Point, asked: Asked, choices: Sequence[Choice], *, keeps_order: bool = False) -> Card | None:
    """Return the card, or None when there are too few choices or two of them read alike.

    Choices stand in an order that follows from the card itself, so that one id is one card, whatever the seed;
    `keeps_order` leaves those alone whose order means something, such as left, middle, right.
    """
    if len(choices) < 2 or len({choice.text for choice in choices}) < len(choices):
        return None
    texts = settings().aspects[asked.aspect] if asked.aspect != "says" else settings().kinds[asked.kind]
    question = tr(texts.question).format_map(asked.question)
    digest = _digest(question, asked, choices)
    shown = list(choices)
    if not keeps_order:
        shown.sort(key=lambda choice: choice.text)
        random.Random(digest).shuffle(shown)
    worth = tuple(choice.worth for choice in shown)
    return Card(
        id=f"{point.id}#{digest}",
        point=point.id,
        kind=asked.kind,
        family=point.family,
        axis=asked.axis,
        question=question,
        shown=asked.shown,
        choices=tuple(choice.text for choice in shown),
        values=tuple(choice.value for choice in shown),
        worth=worth,
        answer=worth.index(max(worth)),
        why=" ".join(tr(texts.why).format_map(asked.why).split()),
        draw=asked.draw,
        code=asked.code,
        part=asked.part,
        case=asked.case,
        instead=asked.instead,
        aspect=asked.aspect,
        is_critical=point.is_critical,
    )


def _digest(question: str, asked: Asked, choices: Sequence[Choice]) -> str:
    draw = asked.draw.model_dump_json() if asked.draw else ""
    parts = [asked.kind, question, asked.shown, draw, *sorted(choice.text for choice in choices)]
    return hashlib.sha256("\0".join(parts).encode()).hexdigest()[:12]
