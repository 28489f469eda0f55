"""One look at the store: what others changed since, and what of this machine waited."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.shop._journal import flush, waiting
from counter.shop._stock import StockList, current_list
from counter.shop._store import open_store

if TYPE_CHECKING:
    from pathlib import Path

AREAS = ("confirmed", "stock", "slips", "settings", "letters")


class Look(NamedTuple):
    """How often each area was changed, the present stock list, and how many entries still wait."""

    revisions: dict[str, int]
    stock: StockList | None
    waiting: int


def look(data: Path) -> Look:
    """Put in what waits and return how the store stands.

    Raises:
        StoreProblem: it cannot be used.
    """
    store = open_store(data)
    flush(store)
    with store.reading() as connection:
        revisions = {area: store.revision(connection, area) for area in AREAS}
    return Look(revisions, current_list(store), waiting(data))
