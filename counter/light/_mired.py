"""How far apart two whites look: reciprocal colour temperature, and what goes with a room."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import marked
from counter.light._bounds import within
from counter.light._names import KELVIN_RANGE, read_name
from counter.light._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterable


class Match(NamedTuple):
    """How one lamp's white goes with a room's."""

    code: str
    cct_k: int
    difference_mired: float
    word: str


def mired(cct_k: float) -> float:
    """Return the reciprocal colour temperature, 10⁶ / T.

    Equal steps in it are about equally perceptible (IES definition).

    Raises:
        ValueError: the temperature is outside 1667 to 25 000 K.
    """
    way_out = marked("White lamps lie between 2200 and 8000 K.")
    return 1e6 / within(marked("The colour temperature"), cct_k, *KELVIN_RANGE, "K", way_out)


def mired_difference(a_k: float, b_k: float) -> float:
    """Return how many mired lie between two colour temperatures; never negative.

    Raises:
        ValueError: as `mired`.
    """
    return abs(mired(a_k) - mired(b_k))


def match_word(difference_mired: float) -> str:
    """Return "same", "just noticeable", "different" or "clearly different".

    The thresholds (5.5, 11 and 35 mired) and the reason for each stand in resources/light.json.

    Raises:
        ValueError: the difference is no number or not finite.
    """
    way_out = marked("Take it from two colour temperatures.")
    size = within(marked("The difference"), abs(difference_mired), 0, 1000, "mired", way_out)
    words = tables().match_words
    return next(row.word for row in words if row.below_mired is None or size < row.below_mired)


def matching(codes: Iterable[str], room_k: float) -> tuple[Match, ...]:
    """Return how each colour goes with a room of `room_k` kelvins, nearest first, ties in the order given.

    Raises:
        ValueError: a code is not known, or a temperature is out of range.
    """
    found = []
    for code in codes:
        cct_k = read_name(code).cct_k
        difference = mired_difference(cct_k, room_k)
        found.append(Match(code, cct_k, difference, match_word(difference)))
    return tuple(sorted(found, key=lambda match: match.difference_mired))
