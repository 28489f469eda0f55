"""The weighted lattice: every way to cut a text into slots, letters of a maker's own, and numbers of its own.

A node is a place in the text, an edge a slot or an unknown run with its cost; the cheapest paths are found left to
right with the best few kept at each place (a beam). Costs are negative logarithms, as in the noise table.
"""

from __future__ import annotations

import re
from functools import cache
from math import inf
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.marks._colour import second_colour
from counter.marks._lex import STRETCH, UNREADABLE
from counter.marks._segments import merged, same, whole_at
from counter.marks._slots import Found, Slot
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.marks._house import HouseMaker
    from counter.marks._slots import Slots

_BEAM = 14
_SLACK, _MOST_SLACK = 7.5, 40.0  # above the least that any way can cost; dearer ones only where all are dear
_MOST = 60  # characters of a maker's code; what is longer is prose
_TOKEN = re.compile(r"[^\s,;]+")
_FIGURES = re.compile(r"\d+", re.ASCII)
_UNIT = re.compile(r"(?<=\d)W(?![A-Z])|(?<=\d\d\d)V(?:AC|OLTS?)?(?![A-Z])", re.ASCII)
_LEADS, _FOLLOWS = ("bare watts",), ("colour", "kelvin")  # figures that may stand without a sign between them
_WORN_LEADS, _WORN_FOLLOWS = (*_LEADS, "two figures", "colour"), (*_FOLLOWS, "bare pins")
_ONCE = ("watts", "number", "cct_k", "base", "pins", "kind", "tube_mm", "key")
_Facts = dict[str, Any]


class Edge(NamedTuple):
    """A step from one place to a later one. `what` is "slot", "maker", "uv", "number", "worn" or "gap"."""

    end: int
    cost: float
    what: str
    found: Found | None = None


class Path:
    """One way through the text, by its edges with where they begin; `clashes` are slots that state what others deny.

    `whats` and `kinds` are those of its edges and slots.
    """

    def __init__(self, cost: float, edges: tuple[tuple[int, Edge], ...], clashes: tuple[str, ...]) -> None:
        self.cost, self.edges, self.clashes = cost, edges, clashes
        self.whats = {edge.what for _, edge in edges}
        self.kinds = [edge.found.slot.kind for _, edge in edges if edge.found]
        self.is_taught = "taught" in self.kinds
        self.is_worn = any(edge.found and edge.found.wear for _, edge in edges)

    @property
    def is_standard(self) -> bool:
        """Whether nothing in it is a maker's or the shop's own, or cannot be read."""
        return not self.is_taught and not self.whats & {"maker", "uv", "number", "worn"}

    @property
    def is_code(self) -> bool:
        """Whether it has the build of a code: watts, and something else that codes print."""
        has_watts = "watts" in self.kinds or "bare watts" in self.kinds
        return "whole" in self.kinds or (has_watts and len(self.kinds) > 1)


class _State:
    """What a way has stated so far; ways that state the same share it and what follows from it."""

    __slots__ = ("after", "facts")

    def __init__(self, facts: _Facts) -> None:
        self.facts = facts
        self.after: dict[int, tuple[_State, bool]] = {}


class _Step(NamedTuple):
    cost: float
    state: _State
    before: _Step | None
    start: int
    edge: Edge | None
    clashes: tuple[str, ...]


def paths(
    plain: str,
    slots: Slots,
    house: Sequence[HouseMaker] = (),
    *,
    worn: bool = False,
    most: float = inf,
    wider: float = 0.0,
) -> list[Path]:
    """Return the cheapest ways through a folded text, cheapest first; none for a text too long to be a code.

    What is known to cost more than `most` is not followed; `wider` keeps ways that are dearer by so much.
    """
    if len(plain.strip()) > _MOST:
        return []
    search = _Search(_Lattice(plain, slots, house, worn))
    slack, wanted, found, limit = 0.0, _SLACK + wider, [], most - search.least
    while slack < min(wanted, limit) and wanted <= _MOST_SLACK:  # until no way is left out that is worth keeping
        slack = min(wanted, limit)
        found = search.run(slack)
        wanted = found[0].cost - search.least + search.window if found else 2 * slack
    return [_path(step) for step in found[:_BEAM]]


class _Search:
    """The beam over one lattice. Of ways that end at one place and state the same, the cheapest is kept.

    What an edge costs at the least, with the cheapest ways to it and on from it whatever they state, is known before
    any way is followed: of the edges only those are looked at that can be part of a way worth keeping.
    """

    def __init__(self, lattice: _Lattice) -> None:
        self.lattice = lattice
        self.states: dict[frozenset[tuple[str, object]], _State] = {}
        self.clash: float = tables()["noise"]["clash"]
        self.early_colour: float = lattice.costs["colour_before_watts"]
        self.window: float = lattice.costs["window"]
        self.edges = [tuple(lattice.edges(at)) for at in range(len(lattice.plain))]
        self.before, self.beyond = _bounds(self.edges)
        self.least = self.beyond[0]

    def run(self, slack: float) -> list[_Step]:
        """Return the steps that reach the end, cheapest first, none whose least cost is beyond the slack."""
        reached: list[dict[_State, _Step]] = [{} for _ in range(len(self.edges) + 1)]
        first = _State({})
        reached[0][first] = _Step(0.0, first, None, 0, None, ())
        for at, edges in enumerate(self.edges):
            steps = sorted(reached[at].values(), key=_cost)[:_BEAM]
            for edge in edges if steps else ():
                most = self.least + slack - edge.cost - self.beyond[edge.end]
                if self.before[at] > most:
                    continue
                kept = reached[edge.end]
                for step in steps:
                    if step.cost > most:
                        break
                    if self.lattice.may_follow(at, step.edge, edge):
                        self._keep(kept, step, at, edge)
        return sorted(reached[-1].values(), key=_cost)

    def _keep(self, kept: dict[_State, _Step], step: _Step, at: int, edge: Edge) -> None:
        cost, state, clashes = step.cost + edge.cost, step.state, step.clashes
        slot = edge.found.slot if edge.found else None
        if slot is not None and slot.facts:
            if slot.kind == "two figures" and not state.facts.keys() & {"watts", "number"}:
                cost += self.early_colour
            state, is_clash = self._after(state, slot)
            if is_clash:
                cost, clashes = cost + self.clash, (*clashes, slot.clean)
        best = kept.get(state)
        if best is None or cost < best.cost:
            kept[state] = _Step(cost, state, step, at, edge, clashes)

    def _after(self, state: _State, slot: Slot) -> tuple[_State, bool]:
        done = state.after.get(id(slot))
        if done is None:
            stated: _Facts = dict(slot.facts)
            facts = merged(state.facts, stated)
            key = frozenset(facts.items())
            done = self.states.setdefault(key, _State(facts)), _clash(state.facts, stated)
            state.after[id(slot)] = done
        return done


def _bounds(edges: Sequence[Sequence[Edge]]) -> tuple[list[float], list[float]]:
    """Return what the cheapest way to each place costs, and the cheapest on from it to the end."""
    before, beyond = [inf] * (len(edges) + 1), [inf] * (len(edges) + 1)
    before[0] = beyond[-1] = 0.0
    for at, there in enumerate(edges):
        for edge in there:
            before[edge.end] = min(before[edge.end], before[at] + edge.cost)
    for at in range(len(edges) - 1, -1, -1):
        beyond[at] = min((edge.cost + beyond[edge.end] for edge in edges[at]), default=inf)
    return before, beyond


def _cost(step: _Step) -> float:
    return step.cost


def _clash(facts: _Facts, stated: _Facts) -> bool:
    if any(key in facts and key in stated and not same(key, facts[key], stated[key]) for key in _ONCE):
        return True
    watts = facts.get("watts", facts.get("number"))
    more = stated.get("watts", stated.get("number"))
    if watts is not None and more is not None and watts != more:
        return True
    shapes, also = facts.get("shapes"), stated.get("shapes")
    return bool(shapes and also and not set(shapes) & set(also) and not set(facts.get("older", ())) & set(also))


def _path(step: _Step) -> Path:
    edges: list[tuple[int, Edge]] = []
    last = step
    while last.before is not None and last.edge is not None:
        edges.append((last.start, last.edge))
        last = last.before
    return Path(step.cost, tuple(reversed(edges)), step.clashes)


@cache
def _screws() -> re.Pattern[str]:
    return re.compile(rf"(?<![A-Z0-9])(?:{'|'.join(tables()['slots']['screws'])})(?![A-Z0-9?])", re.ASCII)


class _Lattice:
    """The edges of one text."""

    def __init__(self, plain: str, slots: Slots, house: Sequence[HouseMaker], worn: bool) -> None:
        self.plain, self.slots, self.house, self.worn = plain, slots, house, worn
        self.costs: dict[str, float] = tables()["slots"]["costs"]
        self.words = [False] * len(plain)  # whether a word too long for letters of a code stands there
        self.mixed = [False] * len(plain)  # whether letters and figures, or a sign, stand in the same word
        self.lettered = [False] * len(plain)
        for match in _TOKEN.finditer(plain):
            has_letter, has_sign = any(map(str.isalpha, match[0])), "/" in match[0][1:-1]
            is_mixed = has_letter and (has_sign or any(map(str.isdigit, match[0])))
            self.mixed[match.start() : match.end()] = [is_mixed] * len(match[0])
            self.lettered[match.start() : match.end()] = [has_letter] * len(match[0])
            is_word = match[0].isalpha() and len(match[0]) > tables()["slots"]["longest_letters"]
            self.words[match.start() : match.end()] = [is_word] * len(match[0])
        self.found: list[list[Edge]] = []
        for at in range(len(plain)):
            self.found.append(list(self._slots_at(at)))
        self.whole_only = {at for match in _screws().finditer(plain) for at in range(*match.span())}

    def _slots_at(self, at: int) -> Iterator[Edge]:
        found = list(self.slots.at(self.plain, at))
        if self.worn:
            found += self.slots.worn_at(self.plain, at)
        yield from self._whole_codes(at)
        for one in found:
            cost = self._touching(one.slot, at, at + one.length)
            if cost is not None:
                yield Edge(at + one.length, one.slot.cost + one.wear + cost, "slot", one)

    def _whole_codes(self, at: int) -> Iterator[Edge]:
        """Yield codes of the standard systems and of the shop's tables that stand at the begin of a word."""
        if not self.plain[at].isalpha() or (at and self.plain[at - 1].isalnum()):
            return
        for parsed in whole_at(self.plain, at, self.slots.known, self.house):
            parts = tuple(part._replace(start=part.start - at, end=part.end - at) for part in parsed.parts)
            slot = Slot(
                "whole", parts, parsed.facts, 0.0, parsed.canonical, 99.0, parsed.notes, parsed.system, parsed.grammar
            )
            yield Edge(parsed.end, 0.0, "slot", Found(slot, parsed.end - at, 0.0, self.plain[at : parsed.end]))

    def edges(self, at: int) -> Iterator[Edge]:
        """Yield all steps from a place; a screw base is one word, no E of something else before a number."""
        sign = self.plain[at]
        if at in self.whole_only:
            yield from (edge for edge in self.found[at] if edge.found and edge.found.slot.kind == "screw")
            return
        yield from self.found[at]
        if self.worn and sign in self.slots.like_signs and self.plain[at - 1 : at + 2].isalnum() and at:
            yield Edge(at + 1, self.slots.like_signs[sign], "gap")
        if sign in (UNREADABLE, STRETCH):
            yield Edge(at + 1, self.slots.smudge, "worn")
        if sign.isdigit() and sign.isascii():
            yield from self._number(at)
        elif sign.isalpha():
            yield from self._letters(at)
        elif sign not in (UNREADABLE, STRETCH):
            yield Edge(at + 1, 0.0, "gap")

    def may_follow(self, at: int, before: Edge | None, edge: Edge) -> bool:
        """Whether a step may follow another: figures that touch do so by their kind."""
        if before is None or "gap" in (before.what, edge.what):
            return True
        if not (self.plain[at - 1].isdigit() and self.plain[at].isdigit()):
            return True
        return edge.found is not None and edge.found.slot.kind in _WORN_FOLLOWS

    def _letters(self, at: int) -> Iterator[Edge]:
        """Yield unknown letters up to where the letters end, or a slot begins that may touch them."""
        before = self.plain[at - 1] if at else " "
        if before.isalpha() and not self._ends_slot(at) and not (self.worn and before in self.slots.like_signs):
            return
        end = self._run_end(at)
        for to in range(at + 1, end + 1):
            if to == end or any(edge.found and edge.found.slot.inside < 50 for edge in self.found[to]):
                yield from self._unknown(at, to)

    def _unknown(self, at: int, to: int) -> Iterator[Edge]:
        cost, text = self._cost_of_letters(at, to), self.plain[at:to]
        uv = self.slots.uv_letters(text)
        if uv is not None:
            yield Edge(to, cost, "uv", uv)
            cost += self.costs["not_uv_letters"]
        yield Edge(to, cost, "maker")

    def _ends_slot(self, at: int) -> bool:
        return any(edge.end == at for start in range(max(0, at - 12), at) for edge in self.found[start])

    def _run_end(self, at: int) -> int:
        end = at
        while end < len(self.plain) and (self.plain[end].isalpha() or self.plain[end] == UNREADABLE):
            end += 1
        while self.plain[end - 1] == UNREADABLE:
            end -= 1
        return end

    def _cost_of_letters(self, at: int, to: int) -> float:
        costs, count = self.costs, to - at
        if count > tables()["slots"]["longest_letters"]:
            return costs["word_alone"] + costs["letter_alone"] * count
        if _UNIT.match(self.plain, at):  # no letter of a maker's own
            return costs["sign_of_watts"]
        if self.mixed[at]:
            return costs["letters"] + costs["letter"] * count
        return costs["letters_alone"] + costs["letter_alone"] * count

    def _number(self, at: int) -> Iterator[Edge]:
        before = self.plain[at - 1] if at else " "
        if before.isdigit() and not (self.worn and before in self.slots.like_signs):
            return
        match = _FIGURES.match(self.plain, at)
        assert match is not None
        yield Edge(match.end(), self.costs["other_number"] + len(match[0]) * 0.8, "number")

    def _touching(self, slot: Slot, start: int, end: int) -> float | None:
        """Return what it costs that a slot stands where it does; None where it cannot."""
        plain = self.plain
        left = plain[start - 1] if start else " "
        right = plain[end] if end < len(plain) else " "
        first, last = plain[start], plain[end - 1]
        cost = 0.0
        for mine, other, is_left in ((first, left, True), (last, right, False)):
            if self.worn and other in self.slots.like_signs:
                continue  # it may be a sign that looks like a figure or a letter now
            if mine.isdigit() and other.isdigit():
                worn, clean = (_WORN_FOLLOWS, _FOLLOWS) if is_left else (_WORN_LEADS, _LEADS)
                if slot.kind not in (worn if self.worn else clean):
                    return None
                cost += self.costs["split"]
            elif mine.isalpha() and other.isalpha():
                if slot.inside > 50 or self.words[start]:
                    return None  # a whole word is not cut
                cost += slot.inside
            elif other.isalpha() and slot.kind in ("bare pins", "key", "uv number", "list number"):
                return None
        return self._by_kind(slot, start, end, left, right, cost)

    def _follows_watts(self, at: int) -> bool:
        """Whether a number stands where the older lists' do, and no other colour behind it: 36W/33."""
        return self.plain.endswith("W/", 0, at) and not second_colour(self.plain, at)

    def _base_ends(self, at: int) -> bool:
        slots = (edge.found.slot for edges in self.found for edge in edges if edge.end == at and edge.found)
        return any(slot.kind == "base" for slot in slots)

    def _by_kind(self, slot: Slot, start: int, end: int, left: str, right: str, cost: float) -> float | None:
        if slot.kind == "head":
            follows = self.plain[end : end + 2].lstrip(" -/")
            return cost if follows and (follows[0].isalnum() or follows[0] in "?*") else None
        if slot.kind == "two figures":
            if right.isalpha():
                return None
            return cost + (
                self.costs["colour_of_letters"] - self.costs["colour_two_figures"] if left.isalpha() else 0.0
            )
        if slot.kind in ("list number", "two figures") and self._follows_watts(start) != (slot.kind == "list number"):
            return None
        if slot.kind == "bare watts" and right == "T" and not left.isalpha():
            cost += self.costs["touching_tube"]  # 32T8: sooner a tube's code that lost its letter
        if slot.kind == "bare watts" and not self.lettered[start]:
            return cost + self.costs["bare_number"] - self.costs["bare_watts"]
        if slot.kind == "screw" and right.isalnum():
            return None
        if slot.kind in ("bare pins", "key") and left in "-=" and self._base_ends(start - 1):
            return None  # the key of a base that the catalogue does not hold
        if slot.kind == "older" and len(slot.clean) == 1 and left != "/":
            return None
        return cost
