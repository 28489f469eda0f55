"""How a code wears: the cost of taking one typed character for another, lost or added ones, and stretches.

Costs are negative natural logarithms up to a constant, from resources/marks.json.
"""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from counter.marks._lex import STRETCH, UNREADABLE
from counter.marks._tables import tables


class Steps(NamedTuple):
    """For one character of a code: what it costs against each place of the query."""

    as_typed: list[float]  # the code's character stands at this place of the query
    not_typed: list[float]  # it is missing before this place


class Noise:
    """The cost table."""

    def __init__(self) -> None:
        table = tables()["noise"]
        self.substitute: float = table["substitute"]
        self._other: float = table["substitute_other"]
        self.smudge: float = table["smudge"]
        self.stretch: float = table["stretch"]
        self.stretch_character: float = table["stretch_character"]
        self._lost: float = table["lost"]
        self._added: float = table["added"]
        self._separators = frozenset(table["separators"])
        self._table = table
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

    def taken(self, character: str, typed: str) -> float:
        """Return the cost of a code's character having been typed as another."""
        if character == typed:
            return 0.0
        if typed == UNREADABLE:
            return self.smudge
        cost = self.pairs.get(character, {}).get(typed)
        if cost is not None:
            return cost
        is_other = (
            character.isdigit() != typed.isdigit()
        )  # a letter is seldom typed for a figure it does not look like
        return self._other if is_other else self.substitute

    def lost(self, character: str) -> float:
        """Return the cost of a code's character not having been typed."""
        return float(self._table["lost_separator"]) if character in self._separators else self._lost

    def added(self, typed: str) -> float:
        """Return the cost of a typed character that stands in no code; a stretch may stand for nothing."""
        if typed == STRETCH:
            return self.stretch
        return float(self._table["added_separator"]) if typed in self._separators else self._added

    def unavoidable(self, typed: str, alphabet: frozenset[str]) -> float:
        """Return the least cost of a typed character, whatever code of this alphabet is meant."""
        if typed in alphabet:
            return 0.0
        return min((self.added(typed), *(self.taken(character, typed) for character in alphabet)))

    def steps(self, character: str, query: str) -> Steps:
        """Return what one character of a code costs along a query; kept until the next query."""
        if query != self._steps_for:
            self._steps, self._steps_for = {}, query
        made = self._steps.get(character)
        if made is None:
            made = self._steps[character] = self._made(character, query)
        return made

    def _made(self, character: str, query: str) -> Steps:
        lost = self.lost(character)
        not_typed = [self.stretch_character if typed == STRETCH else lost for typed in query]
        return Steps([self.taken(character, typed) for typed in query], [*not_typed, lost])
