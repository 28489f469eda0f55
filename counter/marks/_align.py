"""Which typed character stands for which character of a code, by the cheapest way."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.marks._lex import STRETCH

if TYPE_CHECKING:
    from counter.marks._noise import Noise


class Alignment(NamedTuple):
    """For each character of the code the place of the typed one, or None where it was not typed.

    A character under a stretch has the place of the stretch. `added` are typed places that stand for nothing.
    """

    typed_at: tuple[int | None, ...]
    added: tuple[int, ...]


def align(code: str, query: str, noise: Noise) -> Alignment:
    """Align a folded code with a folded query."""
    costs = _costs(code, query, noise)
    typed_at: list[int | None] = [None] * len(code)
    added: list[int] = []
    row, place = len(code), len(query)
    while row or place:
        here = costs[row][place]
        if row and place and here == costs[row - 1][place - 1] + noise.taken(code[row - 1])[query[place - 1]]:
            row, place = row - 1, place - 1
            typed_at[row] = place
        elif row and here == costs[row - 1][place] + _lost(code[row - 1], query, place, noise):
            row -= 1
            typed_at[row] = place if query[place : place + 1] == STRETCH else None
        else:
            place -= 1
            if query[place] != STRETCH:
                added.append(place)
    return Alignment(tuple(typed_at), tuple(reversed(added)))


def _lost(character: str, query: str, place: int, noise: Noise) -> float:
    return noise.stretch_character if query[place : place + 1] == STRETCH else noise.lost(character)


def _costs(code: str, query: str, noise: Noise) -> list[list[float]]:
    row = [0.0]
    for typed in query:
        row.append(row[-1] + noise.added(typed))
    added = [noise.added(typed) for typed in query]
    costs = [row]
    for character in code:
        as_typed, not_typed = noise.steps(character, query)
        last = row[0] + not_typed[0]
        after = [last]
        for place, sign in enumerate(added):
            same, lost, last = row[place] + as_typed[place], row[place + 1] + not_typed[place + 1], last + sign
            last = same if same < last else last
            last = lost if lost < last else last
            after.append(last)
        costs.append(after)
        row = after
    return costs
