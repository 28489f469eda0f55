"""How a code wears: what it costs that signs were taken for others, lost or added, and which stands for which.

Costs are negative natural logarithms up to a constant, from resources/marks.json.
"""

from __future__ import annotations

from functools import cache, cached_property
from typing import Any, NamedTuple

from counter.marks._lex import STRETCH, UNREADABLE
from counter.marks._tables import tables


class Steps(NamedTuple):
    """For one character of a code: what it costs against each place of the query."""

    as_typed: list[float]  # the code's character stands at this place of the query
    not_typed: list[float]  # it is missing before this place


class _Taken(dict[str, float]):
    """What it costs that one character of a code was typed as another, by the typed one; filled as it is asked."""

    def __init__(self, character: str, table: dict[str, Any], pairs: dict[str, float]) -> None:
        super().__init__(pairs)
        self.update({character: 0.0, UNREADABLE: table["smudge"]})
        self.sort, self.table = _sort(character), table

    def __missing__(self, typed: str) -> float:
        is_other = self.sort != _sort(typed)  # a letter is seldom typed for a figure it does not look like
        self[typed] = cost = float(self.table["substitute_other" if is_other else "substitute"])
        return cost


def _sort(character: str) -> tuple[bool, bool]:
    """Tell letters, figures and the signs between them apart."""
    return character.isalpha(), character.isdigit()


class Noise:
    """The cost table."""

    def __init__(self) -> None:
        table = tables()["noise"]
        self.substitute: float = table["substitute"]
        self.smudge: float = table["smudge"]
        self.stretch: float = table["stretch"]
        self.stretch_character: float = table["stretch_character"]
        self._lost: float = table["lost"]
        self._added: float = table["added"]
        self._separators = frozenset(table["separators"])
        self._table = table
        self._taken: dict[str, _Taken] = {}
        self._steps: dict[str, Steps] = {}
        self._steps_for = ""

    @cached_property
    def pairs(self) -> dict[str, dict[str, float]]:
        """Cost by the code's character, then by the typed one; both ways alike."""
        pairs: dict[str, dict[str, float]] = {}
        for (first, second), cost in tables()["lookalikes"]["pairs"].items():
            pairs.setdefault(first, {})[second] = cost
            pairs.setdefault(second, {})[first] = cost
        return pairs

    def taken(self, character: str) -> dict[str, float]:
        """Return what it costs that a code's character was typed as another, by the typed one."""
        row = self._taken.get(character)
        if row is None:
            row = self._taken[character] = _Taken(character, self._table, self.pairs.get(character, {}))
        return row

    def lost(self, character: str) -> float:
        """Return the cost of a code's character not having been typed."""
        return float(self._table["lost_separator"]) if character in self._separators else self._lost

    def added(self, typed: str) -> float:
        """Return the cost of a typed character that stands in no code; a stretch may stand for nothing."""
        if typed == STRETCH:
            return self.stretch
        return float(self._table["added_separator"]) if typed in self._separators else self._added

    def steps(self, character: str, query: str) -> Steps:
        """Return what one character of a code costs along a query; kept until the next query."""
        if query != self._steps_for:
            self._steps, self._steps_for = {}, query
        made = self._steps.get(character)
        if made is None:
            made = self._steps[character] = self._made(character, query)
        return made

    def _made(self, character: str, query: str) -> Steps:
        lost, row = self.lost(character), self.taken(character)
        not_typed = [self.stretch_character if typed == STRETCH else lost for typed in query]
        return Steps([row[typed] for typed in query], [*not_typed, lost])


@cache
def noise() -> Noise:
    """Return the shipped cost table."""
    return Noise()


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
