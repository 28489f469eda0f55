"""The search among many codes, against the plain definition of its cost."""

from __future__ import annotations

from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from counter.marks._index import CodeIndex
from counter.marks._lex import STRETCH
from counter.marks._noise import Noise, align

NOISE = Noise()
MOST = 11.97  # no sum of the table's costs, which have one decimal: rounding then decides nothing
CODES = st.lists(st.text("AB8/-1I", min_size=1, max_size=6), min_size=1, max_size=12, unique=True)
QUERIES = st.text("AB8/-1I?*", min_size=1, max_size=6)


@cache
def cost(code: str, query: str) -> float:
    """Return the least cost, as it is defined: character by character over all ways."""
    if not code and not query:
        return 0.0
    ways = []
    if code:
        lost = NOISE.stretch_character if query[:1] == STRETCH else NOISE.lost(code[0])
        ways.append(lost + cost(code[1:], query))
    if query:
        ways.append(NOISE.added(query[0]) + cost(code, query[1:]))
    if code and query:
        ways.append(NOISE.taken(code[0])[query[0]] + cost(code[1:], query[1:]))
    return min(ways)


@given(CODES, QUERIES)
@settings(max_examples=150, deadline=None)
def test_finds_exactly_the_cheapest(codes, query):
    found = CodeIndex(codes).search(query, limit=len(codes), max_cost=MOST, window=100)
    true = {code: cost(code, query) for code in codes}
    expected = sorted(round(value, 6) for value in true.values() if value <= MOST)
    assert [round(hit.cost, 6) for hit in found.hits] == expected
    assert all(abs(true[hit.code] - hit.cost) < 1e-6 for hit in found.hits)
    assert found.is_complete


@given(CODES, QUERIES)
@settings(max_examples=100, deadline=None)
def test_limit_and_window_keep_the_best(codes, query):
    true = sorted(cost(code, query) for code in codes)
    hits = CodeIndex(codes).search(query, limit=2, max_cost=30, window=2.97).hits
    kept = [value for value in true if value <= min(30, true[0] + 2.97)][:2]
    assert [round(hit.cost, 6) for hit in hits] == [round(value, 6) for value in kept]


@given(st.text("AB8/-1I", max_size=6), QUERIES)
@settings(max_examples=100, deadline=None)
def test_alignment_is_in_order_and_within_the_query(code, query):
    found = align(code, query, NOISE)
    places = [place for place in found.typed_at if place is not None]
    assert places == sorted(places)
    assert all(0 <= place < len(query) for place in (*places, *found.added))


def test_spelling_is_given_back():
    hits = CodeIndex(["Lmp-26/840", "LMP-18/840"]).search("lmp 2?/840").hits
    assert [hit.code for hit in hits] == ["Lmp-26/840"]


def test_search_stops_where_too_little_is_readable():
    codes = [f"{number:05d}" for number in range(20_000)]
    found = CodeIndex(codes).search("?????", max_cost=30, most_nodes=500)
    assert not found.is_complete


def test_empty():
    assert CodeIndex([]).search("A").hits == ()
    assert len(CodeIndex(["A", "a", "B"])) == 2
