"""Cards on left and right: where the notch is once the key edge is up again.

They ask of the drawing, and say so: which key number has which notch is not confirmed for most bases, so no card
here asks for the number.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, get_args

from counter.catalogue import notch_look
from counter.desk import Case
from counter.language import marked, tr
from counter.training._models import Draw, Point
from counter.training._settings import words
from counter.training.cards._build import Asked, Choice, build

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from counter.catalogue import Base
    from counter.desk import Assessment
    from counter.training._models import Card
    from counter.training.cards._facts import Lore

SIDES = ("small-left", "small-centre", "small-right")
Turn = Literal[0, 90, 180, 270]
_TURNS: tuple[Turn, ...] = get_args(Turn)
_EDGES = (
    marked("top"),
    marked("left"),
    marked("bottom"),
    marked("right"),
)  # where the key edge points after 0, 1, 2, 3 quarter turns anticlockwise


def notch_points(lore: Lore) -> Iterator[Point]:
    """Yield one point for each family that is drawn with a notch on a side."""
    families = {base.family for base in lore.catalogue.bases if side_of(base) in SIDES[::2]}
    for family in lore.lamps_of:
        if family in families:
            yield Point(id=f"notch-side/{family}", kind="notch-side", family=family)


def side_of(base: Base) -> str | None:
    """Return the look of the key as drawn, or None where it is not known."""
    return notch_look(base.face.notches.at) if base.face.notches is not None else None


def notch_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask for the side of the notch on a base drawn turned."""
    bases = [base for base in lore.catalogue.bases if base.family == point.family and side_of(base) in SIDES]
    if not bases:
        return None
    base, turn = rng.choice(bases), rng.choice(_TURNS)
    side, said = side_of(base), words()
    case = Case(looks={"pins": f"{base.pins.value:g}", "notch": side or ""})
    if not is_on(lore.assessed(case), base.designation):
        return None
    asked = Asked(
        kind="notch-side",
        axis="notch",
        question={"base": point.family, "turned": turn_words(turn)},
        why={"hold": base.holds, "side": said[side or ""]},
        shown=_shown(base, turn),
        draw=Draw(base=base.designation, turned_deg=turn),
        case=case,
    )
    choices = [Choice(one, said[one], float(one == side)) for one in SIDES]
    return build(point, asked, choices, keeps_order=True)


def is_on(found: Assessment, base: str) -> bool:
    """Whether the counter takes what is seen of the notch for that base."""
    return any("notch" in one.agrees for one in found.candidates if one.base == base)


def turn_words(turn: Turn) -> str:
    """Say how far a drawing is turned."""
    return {
        0: tr("not turned"),
        90: tr("turned a quarter to the left"),
        180: tr("turned upside down"),
        270: tr("turned a quarter to the right"),
    }[turn]


def _shown(base: Base, turn: Turn) -> str:
    words = tr("Drawn: the key edge is at the {edge}, its notch {place}.")
    return words.format(edge=tr(_EDGES[turn // 90]), place=_place(base, turn))


def _place(base: Base, turn: Turn) -> str:
    """Say where along the key edge the notch is drawn, in the frame of the page."""
    if side_of(base) == "small-centre":
        return tr("at the middle of it")
    # The left end of a key edge that is up points left; each quarter turn anticlockwise moves it one step on.
    start = 1 if side_of(base) == "small-left" else 3
    return tr("nearer the {edge}").format(edge=tr(_EDGES[(start + turn // 90) % 4]))
