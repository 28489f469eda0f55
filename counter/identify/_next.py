"""The next look worth taking: most expected bits about the lamp type for each second of effort."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.identify._entropy import NEGLIGIBLE, gain
from counter.identify._models import NextLook
from counter.identify._tables import tables_of
from counter.language import tr
from counter.thresholds import LEADING

if TYPE_CHECKING:
    from collections.abc import Container, Mapping, Sequence

    from counter.catalogue import Catalogue, Look
    from counter.identify._models import Candidate
    from counter.identify._sizes import SizeTable
    from counter.identify._words import WordTable

WORTH_NAMING = 0.1  # chance that the second of two names must have before both are named
MOSTLY = 2 / 3  # and what both must have together: of seven wattages no two are worth naming


def next_looks(
    catalogue: Catalogue,
    looks: Mapping[str, str | float],
    candidates: Sequence[Candidate],
    told: Container[str] = (),
) -> tuple[NextLook, ...]:
    """Return the looks not answered yet, best first; "cannot-tell" is an answer.

    `bits` is the mutual information of lamp type and answer under the candidates' probabilities; of a measured
    look it is taken over cells, which understates it a little. A look that guards against a kind of lamp goes before
    all others while such lamps are in the running and anything is known; one made moot by the answers given, or
    told by something else than a look (`told`), comes last.
    """
    chances = {candidate.lamp: candidate.probability for candidate in candidates}
    live = [
        (at, chance) for at, lamp in enumerate(catalogue.lamps) if (chance := chances.get(lamp.id, 0.0)) > NEGLIGIBLE
    ]
    left = [table for key, table in tables_of(catalogue).items() if key not in looks]
    is_narrowed = catalogue.is_narrowed(chances)
    turns = [_turn(table.look, looks, candidates, is_narrowed) for table in left]
    found = [
        (-1 if turn == 0 and table.look.key in told else turn, _next(table, live))
        for turn, table in zip(turns, left, strict=True)
    ]
    return tuple(
        look for _, look in sorted(found, key=lambda one: (one[0], one[1].bits / one[1].seconds), reverse=True)
    )


def _turn(look: Look, looks: Mapping[str, str | float], candidates: Sequence[Candidate], is_narrowed: bool) -> int:
    """Return 1 for a look to take before all others, -1 for one after all others, 0 for the rest."""
    if any(looks.get(key) in answers for key, answers in look.moot.items()):
        return -1
    if look.guards is None or not is_narrowed:
        return 0  # with nothing known a guard would stand before every look
    feared = sum(one.probability for one in candidates if one.kind == look.guards)
    return 1 if feared >= LEADING else 0


def _next(table: WordTable | SizeTable, live: Sequence[tuple[int, float]]) -> NextLook:
    """Weigh one look; `live` are the places in the catalogue of the lamp types that it can be, with their chances."""
    by_row: dict[int, float] = {}
    for at, chance in live:
        row = table.row_of[at]
        by_row[row] = by_row.get(row, 0.0) + chance
    look = table.look
    bits = gain(by_row, table.cells, table.bits)
    return NextLook(look=look.key, bits=bits, seconds=look.seconds, why=_why(table, by_row))


def _why(table: WordTable | SizeTable, by_row: Mapping[int, float]) -> str:
    """Return the look's own reason and, if two answers are likely, which two it would split."""
    chances: dict[str, float] = {}
    for row, weight in by_row.items():
        if weight > WORTH_NAMING / 10 and (name := table.name(row)) is not None:
            chances[name] = chances.get(name, 0.0) + weight
    first = sorted(chances, key=chances.__getitem__, reverse=True)[:2]
    if len(first) < 2 or chances[first[1]] < WORTH_NAMING or sum(map(chances.__getitem__, first)) < MOSTLY:
        return tr(table.look.why)
    told = tr("{why} Here it tells {one} from {other}.")
    return told.format(why=tr(table.look.why), one=first[0], other=first[1])
