"""Search for a worn code among many: a trie over the sorted codes, opened only where a query goes."""

from __future__ import annotations

import heapq
from bisect import bisect_left
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._lex import STRETCH, fold
from counter.marks._noise import Noise, Steps

if TYPE_CHECKING:
    from collections.abc import Iterable

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


class _Node:
    """All codes between two places of the sorted list, which share `depth` characters."""

    __slots__ = ("depth", "high", "kids", "low")

    def __init__(self, low: int, high: int, depth: int) -> None:
        self.low, self.high, self.depth = low, high, depth
        self.kids: list[tuple[str, _Node]] | None = None


class _Trie:
    """A trie over sorted codes, opened on demand."""

    def __init__(self, codes: Iterable[str]) -> None:
        self.codes = sorted(codes)
        self.alphabet = frozenset("".join(self.codes))
        self.root = _Node(0, len(self.codes), 0)

    def kids(self, node: _Node) -> list[tuple[str, _Node]]:
        """Return the nodes one character further."""
        if node.kids is None:
            node.kids = self._open(node)
        return node.kids

    def ends_at(self, node: _Node) -> str | None:
        """Return the code that ends at a node."""
        if node.low < node.high and len(self.codes[node.low]) == node.depth:
            return self.codes[node.low]
        return None

    def _open(self, node: _Node) -> list[tuple[str, _Node]]:
        codes, depth = self.codes, node.depth
        kids: list[tuple[str, _Node]] = []
        low = node.low + (self.ends_at(node) is not None)
        while low < node.high:
            first = codes[low]
            high = bisect_left(codes, first[:depth] + chr(ord(first[depth]) + 1), low, node.high)
            kids.append((first[depth], _Node(low, high, depth + 1)))
            low = high
        return kids


class CodeIndex:
    """Codes to search in: the catalogue's own, a maker's, a stock list's.

    Making it costs one look at each code; the tries are sorted on the first query and grow with the queries.
    """

    def __init__(self, codes: Iterable[str], noise: Noise | None = None) -> None:
        self._spelled: dict[str, str] = {}
        for code in codes:
            self._spelled.setdefault(fold(code), code)
        self._noise = noise or Noise()

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
        if query.startswith(STRETCH):  # begin at the end that can be read
            found = _Search(self._backward, query[::-1], self._noise).run(limit, max_cost, window, most_nodes)
            return self._spelled_out(found, -1)
        return self._spelled_out(
            _Search(self._forward, query, self._noise).run(limit, max_cost, window, most_nodes), 1
        )

    def _spelled_out(self, found: Hits, direction: int) -> Hits:
        return Hits(
            tuple(Hit(self._spelled[code[::direction]], cost) for code, cost in found.hits), found.is_complete
        )


class _Search:
    """One query: best-first over the trie, by the least cost that a code with this prefix can still have.

    What each typed character costs at the least, whatever the code, is paid for at the start (the heuristic of an
    A* search, written as reduced costs): an unreadable sign near the end then widens nothing near the beginning.
    """

    def __init__(self, trie: _Trie, query: str, noise: Noise) -> None:
        self.trie, self.query, self.noise = trie, query, noise
        self.least = [noise.unavoidable(typed, trie.alphabet) for typed in query]
        self.added = [noise.added(typed) - least for typed, least in zip(query, self.least, strict=True)]
        self.steps: dict[str, Steps] = {}
        self.best: list[tuple[float, str]] = []  # a heap of the worst kept, costs negated
        self.bound = 0.0

    def run(self, limit: int, max_cost: float, window: float, most_nodes: int) -> Hits:
        self.bound = max_cost + 1e-9  # a cost of just the most still counts, whatever order it was added up in
        heap: list[tuple[float, int, _Node, _Row]] = [(sum(self.least), 0, self.trie.root, self._first_row())]
        opened, order = 0, 0
        while heap and heap[0][0] <= self.bound and opened < most_nodes:
            _, _, node, row = heapq.heappop(heap)
            opened += 1
            self._finish(node, row, limit, window)
            for character, kid in self.trie.kids(node):
                if kid.high - kid.low == 1:
                    opened += 1
                    self._tail(kid.low, node.depth, row, limit, window)
                    continue
                after = self._step(row, character)
                if after:
                    order += 1
                    heapq.heappush(heap, (after[2], order, kid, after))
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
        tail = self._beyond(place, last, diagonal)
        if tail:
            first = place if first < 0 else first
            after += tail
            end, least = place + len(tail), min(least, *tail)
        if first < 0:
            return None
        del after[end - first :]
        return first, after, least

    def _steps(self, character: str) -> Steps:
        steps = self.noise.steps(character, self.query)
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

    def _finish(self, node: _Node, row: _Row, limit: int, window: float) -> None:
        code = self.trie.ends_at(node)
        if code is not None:
            self._keep(code, row, limit, window)

    def _tail(self, at: int, depth: int, row: _Row | None, limit: int, window: float) -> None:
        """Follow the only code left to its end, without nodes."""
        code = self.trie.codes[at]
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
