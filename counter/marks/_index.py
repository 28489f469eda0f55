"""Search for a worn code among many: a trie over the sorted codes, opened only where a query goes."""

from __future__ import annotations

import heapq
from bisect import bisect_left
from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.marks._lex import STRETCH, fold
from counter.marks._noise import Steps, noise

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

_INFINITE = float("inf")


class Hit(NamedTuple):
    """A code that can be meant, and the cost of its having been typed as the query."""

    code: str
    cost: float


class Hits(NamedTuple):
    """The cheapest codes, cheapest first; not complete where too little was readable to search everything."""

    hits: tuple[Hit, ...]
    is_complete: bool


# Costs of the places of the query that a prefix can have reached: the first place, the costs from there on, and
# the least of them. A bare tuple: hundreds of thousands are made for one query.
_Row = tuple[int, list[float], float]


class _Trie:
    """A trie over sorted codes, opened on demand. A node is the places of its first and last code, and its depth.

    What follows a node is kept as one flat tuple: many small objects would keep the collector busy.
    """

    def __init__(self, codes: Iterable[str]) -> None:
        self.codes = sorted(codes)
        self.alphabet = frozenset("".join(self.codes))
        self._kids: dict[tuple[int, int], tuple[Any, ...]] = {}
        self._unavoidable: dict[str, float] = {}

    def kids(self, low: int, high: int, depth: int) -> tuple[Any, ...]:
        """Return the character, first and last place of each node one character further, one after the other."""
        kids = self._kids.get((low, depth))
        if kids is None:
            kids = self._kids[low, depth] = tuple(self._open(low, high, depth))
        return kids

    def _open(self, low: int, high: int, depth: int) -> Iterator[Any]:
        codes = self.codes
        low += len(codes[low]) == depth
        while low < high:
            first = codes[low]
            last = bisect_left(codes, first[:depth] + chr(ord(first[depth]) + 1), low, high)
            yield from (first[depth], low, last)
            low = last

    def unavoidable(self, typed: str) -> float:
        """Return the least that one or two typed characters cost, whatever code is meant."""
        least = self._unavoidable.get(typed)
        if least is None:
            find = self._alone if len(typed) == 1 else self._side_by_side
            least = self._unavoidable[typed] = find(*typed)
        return least

    def _alone(self, typed: str) -> float:
        if typed in self.alphabet:
            return 0.0
        return min((noise().added(typed), *(noise().taken(sign)[typed] for sign in self.alphabet)))

    def _side_by_side(self, first: str, second: str) -> float:
        """Return what two cost together beyond what each does: nothing where a code has them side by side."""
        if first + second in self._pairs or not {first, second} <= self.alphabet:
            return 0.0
        table = noise()
        between = (table.lost(sign) for sign in self.alphabet if {first + sign, sign + second} <= self._pairs)
        costs = [table.added(first), table.added(second), *between, 2 * table.lost(" ")]
        costs += (table.taken(sign)[first] for sign in self.alphabet if sign != first)
        costs += (table.taken(sign)[second] for sign in self.alphabet if sign != second)
        return min(costs)

    @cached_property
    def _pairs(self) -> frozenset[str]:
        return frozenset(code[at : at + 2] for code in self.codes for at in range(len(code) - 1))


class CodeIndex:
    """Codes to search in: the catalogue's own, a maker's, a stock list's.

    Making it costs one look at each code; the tries are sorted on the first query and grow with the queries.
    """

    def __init__(self, codes: Iterable[str]) -> None:
        self._spelled: dict[str, str] = {}
        for code in codes:
            self._spelled.setdefault(fold(code), code)

    def __len__(self) -> int:
        return len(self._spelled)

    @cached_property
    def _forward(self) -> _Trie:
        return _Trie(self._spelled)

    @cached_property
    def _backward(self) -> _Trie:
        return _Trie(code[::-1] for code in self._spelled)

    def search(
        self, text: str, limit: int = 8, max_cost: float = 19.0, window: float = 4.3, most_nodes: int = 40_000
    ) -> Hits:
        """Return the cheapest codes for a typed text, at most `limit`.

        None costs more than `max_cost`, nor more than `window` above the best. At most `most_nodes` nodes are
        opened; where that does not suffice, the hits are not complete.
        """
        query = fold(text.strip())
        is_back = query.startswith(STRETCH)  # begin at the end that can be read
        search = _Search(self._backward, query[::-1]) if is_back else _Search(self._forward, query)
        return self._spelled_out(search.run(limit, max_cost, window, most_nodes), -1 if is_back else 1)

    def _spelled_out(self, found: Hits, direction: int) -> Hits:
        return Hits(
            tuple(Hit(self._spelled[code[::direction]], cost) for code, cost in found.hits), found.is_complete
        )


class _Search:
    """One query: best-first over the trie, by the least cost that a code with this prefix can still have.

    What the rest of the query costs at the least, whatever the code, is paid for at the start (the heuristic of an
    A* search, written as reduced costs): an unreadable sign, or two that never stand side by side, near the end then
    widen nothing near the beginning.
    """

    def __init__(self, trie: _Trie, query: str) -> None:
        self.trie, self.query = trie, query
        self.least = self._least()
        self.added = [noise().added(typed) - least for typed, least in zip(query, self.least, strict=True)]
        self.steps: dict[str, Steps] = {}
        self.best: list[tuple[float, str]] = []  # a heap of the worst kept, costs negated
        self.bound = 0.0

    def _least(self) -> list[float]:
        """Return what each typed character costs at the least, alone or with the one behind it."""
        query, unavoidable = self.query, self.trie.unavoidable
        rest = [0.0, 0.0]  # what pairs cost from each place on, the last place first; no character counts in two
        for at in range(len(query) - 2, -1, -1):
            rest.append(max(rest[-1], unavoidable(query[at : at + 2]) + rest[-2]))
        rest = [*rest[::-1][: len(query)], 0.0]
        return [unavoidable(typed) + rest[at] - rest[at + 1] for at, typed in enumerate(query)]

    def run(self, limit: int, max_cost: float, window: float, most_nodes: int) -> Hits:
        self.bound = max_cost + 1e-9  # a cost of just the most still counts, whatever order it was added up in
        codes = self.trie.codes
        heap: list[Any] = [(sum(self.least), 0, 0, len(codes), 0, self._first_row())] if codes else []
        opened, order = 0, 0
        while heap and heap[0][0] <= self.bound and opened < most_nodes:
            _, _, low, high, depth, row = heapq.heappop(heap)
            opened += 1
            if len(codes[low]) == depth:
                self._keep(codes[low], row, limit, window)
            kids = self.trie.kids(low, high, depth)
            for at in range(0, len(kids), 3):
                character, first, last = kids[at : at + 3]
                if last - first == 1:
                    opened += 1
                    self._tail(codes[first], depth, row, limit, window)
                elif after := self._step(row, character):
                    order += 1
                    heapq.heappush(heap, (after[2], order, first, last, depth + 1, after))
        is_complete = not heap or heap[0][0] > self.bound
        found = sorted((-cost, code) for cost, code in self.best)
        return Hits(tuple(Hit(code, cost) for cost, code in found if cost <= self.bound), is_complete)

    def _first_row(self) -> _Row:
        costs = [sum(self.least)]
        for cost in self.added:
            if costs[-1] + cost > self.bound:
                break
            costs.append(costs[-1] + cost)
        return 0, costs, costs[0]

    def _step(self, row: _Row, character: str) -> _Row | None:
        """Return the row one character of the code further; None where every place costs too much."""
        steps = self.steps.get(character)
        if steps is None:
            steps = self.steps[character] = self._steps(character)
        as_typed, not_typed = steps
        added, bound, most = self.added, self.bound, len(self.added)
        start, costs, _ = row
        place, first, end = start, -1, start
        diagonal = last = least = _INFINITE
        after: list[float] = []
        for cost in costs:
            here = cost + not_typed[place]
            if diagonal < here:
                here = diagonal
            if last < bound and last + added[place - 1] < here:
                here = last + added[place - 1]
            if here <= bound:
                if first < 0:
                    first = place
                end = place + 1
                if here < least:
                    least = here
            if first >= 0:
                after.append(here)
            last = here
            diagonal = cost + as_typed[place] if place < most else _INFINITE
            place += 1
        if place <= most and (diagonal <= bound or last + added[place - 1] <= bound):
            tail = self._beyond(place, last, diagonal)
            first = place if first < 0 else first
            after += tail
            end, least = place + len(tail), min(least, *tail)
        if first < 0:
            return None
        del after[end - first :]
        return first, after, least

    def _steps(self, character: str) -> Steps:
        steps = noise().steps(character, self.query)
        as_typed = [cost - least for cost, least in zip(steps.as_typed, self.least, strict=True)]
        return Steps(as_typed, steps.not_typed)

    def _beyond(self, place: int, last: float, diagonal: float) -> list[float]:
        """Return the costs of the places behind the row before, as far as they are within bounds."""
        after: list[float] = []
        while place <= len(self.added):
            last = min(diagonal, last + self.added[place - 1])
            if last > self.bound:
                break
            after.append(last)
            diagonal, place = _INFINITE, place + 1
        return after

    def _tail(self, code: str, depth: int, row: _Row | None, limit: int, window: float) -> None:
        """Follow the only code left to its end, without nodes."""
        for character in code[depth:]:
            row = self._step(row, character) if row else None
            if row is None:
                return
        if row:
            self._keep(code, row, limit, window)

    def _keep(self, code: str, row: _Row, limit: int, window: float) -> None:
        place = len(self.query) - row[0]
        cost = row[1][place] if place < len(row[1]) else _INFINITE
        if cost > self.bound:
            return
        heapq.heappush(self.best, (-cost, code))
        if len(self.best) > limit:
            heapq.heappop(self.best)
        if len(self.best) == limit:
            self.bound = min(self.bound, -self.best[0][0])
        self.bound = min(self.bound, cost + window)
